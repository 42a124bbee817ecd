"""What the hours off the move cost, as multiples of rest, from the Compendium of activities.

A multiple is taken of the walker's own resting power, not of the conventional 3.5 ml/kg/min. The
compendium's rows for backpacking are kept as a comparison only: used for every walking hour they
overstate a day on rolling trail by more than half.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """One row: its code, and the multiples of the 2011 and 2024 lists, None where absent."""

    code: str
    met_2011: float | None
    met_2024: float | None


def _rows(*rows: tuple[str, str, float | None, float | None]) -> Mapping[str, Activity]:
    return MappingProxyType(
        {name: Activity(code=code, met_2011=a, met_2024=b) for name, code, a, b in rows}
    )


ACTIVITIES = _rows(
    ("sleeping", "07030", 0.95, 1.0),
    ("lying awake", "07011", 1.3, 1.0),
    ("sitting quietly", "07021", 1.3, 1.0),
    ("sitting, fidgeting", "07022", 1.5, 1.5),
    ("standing quietly", "07040", 1.3, 1.3),
    ("sitting, talking", "09055", 1.5, 1.3),
    ("sitting, eating together", "09100", 1.8, 1.5),
    ("camping", "09110", 2.5, 2.5),
    ("standing, odd jobs", "09071", 2.5, 2.5),
    ("carrying wood", "08009", 3.3, None),
    ("chopping wood", "08019", 4.5, None),
    ("building a fire", "05149", 2.5, None),
    ("backpacking", "17010", 7.0, 7.0),
    ("hiking with a day pack", "17012", 7.8, 7.8),
    ("hiking cross country", "17080", 6.0, 6.0),
    ("hiking, normal pace", "17082", 5.3, 5.3),
    ("walking 2.5 mph", "17170", 3.0, 3.0),
    ("walking 2.5 mph downhill", "17180", 3.3, 3.3),
    ("walking 3 mph", "17190", 3.5, 3.8),
    ("snowshoeing, moderate", "19190", 5.3, None),
)
"""Source: Ainsworth2011 and Herrmann2024 (one decimal, so that sleep reads 1.0); 0.95 for sleep
from memory."""

CAMP_MET = 2.5
REST_MET = 1.3
SLEEP_MET = 0.95
