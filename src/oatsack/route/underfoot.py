"""What rough ground does to the pace: a share of the speed that a walking-time rule gives on paths.

Two published figures, and our reading of which surfaces they are for, told by the terrain factor
that the walking-cost models use. It knows no slopes; a speed that the walker stated, or that a
recorded track tells, holds the ground already and is left as it is.
"""

from __future__ import annotations

from oatsack.route.pace.naismith import AITKEN_KMH, SPEED_KMH
from oatsack.route.pace.tobler import OFF_PATH

ROUGH_FROM = 1.3
"""Terrain factor from which a surface is no good one: packed snow, ploughed ground (ours)."""
PATHLESS_FROM = 1.5
"""And from which there is no path to speak of: thick brush, bog, sand, soft snow (ours)."""


def share_of_speed(terrain: float) -> float:
    """Share of the speed on a path at this terrain factor [-].

    Off good surfaces 4 km/h instead of 5, without a path 0.6 of it. Source: Langmuir1984 (Aitken),
    Tobler1993.
    """
    if terrain >= PATHLESS_FROM:
        return OFF_PATH
    return AITKEN_KMH / SPEED_KMH if terrain >= ROUGH_FROM else 1.0
