"""Finds the explainer of a number and asks it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from oatsack.errors import UnknownAddress
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.why.explainers import explainers_of
from oatsack.why.explainers.base import Asked
from oatsack.why.explanation import Explanation
from oatsack.why.tree import find, number


def matches(pattern: Sequence[str], words: Sequence[str]) -> bool:
    """Whether an address follows a pattern: ``*`` is one word, ``**`` at the end any number."""
    if pattern and pattern[-1] == "**":
        return len(words) >= len(pattern) - 1 and matches(
            pattern[:-1], words[: len(pattern) - 1]
        )
    return len(pattern) == len(words) and all(
        p in ("*", w) for p, w in zip(pattern, words, strict=True)
    )


LEFT_OUT: Mapping[str, str] = MappingProxyType({
    "availability": "is worked out for healthy adults and walks of up to seven days only",
})  # fmt: skip
"""Parts that a plan may lack on purpose, and why."""


def _left_out(plan: Plan, words: tuple[str, ...]) -> None:
    """Raises UnknownAddress with the reason where a part is lacking on purpose."""
    for count, word in enumerate(words, start=1):
        part = "/".join(words[:count])
        if word in LEFT_OUT and find(plan, part) is None:
            raise UnknownAddress(f"{part} {LEFT_OUT[word]}")


def why(plan: Plan, address: str, *, larder: Sequence[Food] = ()) -> Explanation:
    """How the number at an address came about. Raises UnknownAddress.

    `larder` holds foods, besides the plan's own, that might stand in a choice's place.
    """
    words = tuple(word for word in address.strip("/").split("/") if word)
    _left_out(plan, words)
    value = number(plan, address)
    asked = Asked(plan=plan, address="/".join(words), words=words, value=value,
                  larder=tuple(larder))  # fmt: skip
    for explainer in explainers_of(words[0]):
        if matches(explainer.pattern.split("/"), words):
            return explainer.explain(asked)
    raise UnknownAddress(f"nobody explains {address}")
