"""Finds the explainer of a number and asks it."""

from __future__ import annotations

from collections.abc import Sequence

from oatsack.errors import UnknownAddress
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.why.explainers import explainers_of
from oatsack.why.explainers.base import Asked
from oatsack.why.explanation import Explanation
from oatsack.why.tree import number


def matches(pattern: Sequence[str], words: Sequence[str]) -> bool:
    """Whether an address follows a pattern: ``*`` is one word, ``**`` at the end any number."""
    if pattern and pattern[-1] == "**":
        return len(words) >= len(pattern) - 1 and matches(
            pattern[:-1], words[: len(pattern) - 1]
        )
    return len(pattern) == len(words) and all(
        p in ("*", w) for p, w in zip(pattern, words, strict=True)
    )


def why(plan: Plan, address: str, *, larder: Sequence[Food] = ()) -> Explanation:
    """How the number at an address came about. Raises UnknownAddress.

    `larder` holds foods, besides the plan's own, that might stand in a choice's place.
    """
    value = number(plan, address)
    words = tuple(word for word in address.strip("/").split("/") if word)
    asked = Asked(plan=plan, address="/".join(words), words=words, value=value,
                  larder=tuple(larder))  # fmt: skip
    for explainer in explainers_of(words[0]):
        if matches(explainer.pattern.split("/"), words):
            return explainer.explain(asked)
    raise UnknownAddress(f"nobody explains {address}")
