"""A dog that comes along: what it weighs, what it eats, and who carries that."""

from __future__ import annotations

from oatsack.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Dog:
    """One dog with food of its own, which stands outside all sums of the walkers' food."""

    id: str
    name: str
    mass_kg: float
    food_g_day: float | None = None
    """What it eats on a full day of walking [g]; None: worked out from its mass."""
    carrier: str = ""
    """The walker, by id, who carries its food; empty: the dog itself."""
