"""Energy in the three coins of the literature: watts, kilocalories, and oxygen drawn in."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

JOULES_PER_KCAL = 4184.0
JOULES_PER_ML_OXYGEN = 20.9
"""Heat set free per millilitre of oxygen used, about 5.0 kcal per litre."""
OXYGEN_W = JOULES_PER_ML_OXYGEN / 60.0
"""Watts of one millilitre of oxygen per minute."""
KCAL_PER_W_MIN = 60.0 / JOULES_PER_KCAL
"""Kilocalories of one watt kept up for a minute."""
MINUTES_PER_DAY = 1440.0


def kcal(power_w: Numbers, minutes: Numbers) -> Numbers:
    """Energy of a power kept up for so long [kcal]."""
    return power_w * minutes * KCAL_PER_W_MIN


def watts(kcal_per_day: Numbers) -> Numbers:
    """The steady power that uses so much in a day [W]."""
    return kcal_per_day / (KCAL_PER_W_MIN * MINUTES_PER_DAY)
