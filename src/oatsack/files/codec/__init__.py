"""Frozen dataclasses <-> plain JSON values, driven by their type hints. Knows nothing of plans.

Equal values give equal JSON: sets and mappings are sorted, a whole number in a float field is
written as a float, nought has no sign. Reading is strict: true is no number, a text is no number, a
key that the type lacks is a fault; a key that is left out takes the type's default. All faults are
collected, each with its path (``trip.walkers[0].mass_kg``).

Kinds of hints: float, int, str, bool, None, date, datetime, Literal, unions of these, dataclasses,
``tuple[X, ...]``, ``tuple[A, B]``, ``frozenset[X]`` and ``Mapping[K, V]`` with text, whole-number
or tuple keys (a tuple's parts are joined by a slash). `described` gives the JSON Schema of a type.
"""

from __future__ import annotations

from typing import Any

from oatsack.files.codec.hints import Hint, Json
from oatsack.files.codec.reading import Misfit, Misfits, decoder

__all__ = ["Misfit", "Misfits", "decode", "described", "encode"]


def described(cls: type, title: str) -> dict[str, Any]:
    """The JSON Schema of a dataclass and of all that it holds."""
    from oatsack.files.codec.describing import described as schema  # who only reads needs none

    return schema(cls, title)


def encode(value: object, hint: Hint) -> Json:
    """The JSON value of a typed value. Raises ValueError for one that JSON cannot hold."""
    from oatsack.files.codec.writing import encoder

    return encoder(hint)(value)


def decode(data: Json, hint: Hint) -> Any:
    """The typed value of a JSON value. Raises Misfits with every fault."""
    try:
        return decoder(hint)(data)
    except Misfit as misfit:
        raise Misfits([misfit]) from None
