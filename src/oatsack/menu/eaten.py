"""A column through which food is eaten, as the aims read it: what, by whom, when, how much."""

from __future__ import annotations

from dataclasses import dataclass

from oatsack.menu.facts import Facts
from oatsack.values.food import Food


@dataclass(frozen=True, slots=True, kw_only=True)
class Eaten:
    """A column through which food is eaten: doses per unit of it, and days carried per dose."""

    column: int
    walker: str
    food: Food
    facts: Facts
    doses: float
    carry_days: float
    day: int
