"""How sure a day's need is: the model, the walker, the route, put together.

The half-widths are ours (C7) and read as "four days in five". What stands behind them: the graded
model's published standard error of 0.42 W per kg, about 11 % of a day's walking; the disagreement
of the shelf's own models on this very walk; people of one mass, age and sex, who differ by about a
tenth; slopes that a typed day has to guess; evenings that nobody keeps a log of.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from oatsack.walker.person import Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Half-widths, as shares of what they concern."""

    model: float = 0.14
    """Of walking: 1.28 standard errors of the model. Source: Looney2019b, abstract."""
    track: float = 0.06
    """Of walking, by a recorded track: climb and speed. Ours."""
    hand: float = 0.12
    """Of walking, on a typed day whose slopes are guessed. Ours."""
    hours: float = 0.15
    """Of camp, rest and sleep: how they are really spent. Ours."""
    walker: float = 0.12
    """Of the whole day: people of one mass, age, height and sex. Ours."""
    unknown: float = 0.25
    """Least half-width of the whole day where age, height or sex is not stated. Ours."""


SPREAD = Spread()
COVERS = 0.80
"""How often the need should lie inside; half-widths are 1.28 standard deviations."""
DEVIATIONS = 1.2816


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Low and high as multiples of the likely need, and the half-widths behind them.

    `model_low` and `model_high` differ where the shelf's models lean to one side. All are shares
    of the whole day but `share`, the part of the day's energy that is walking.
    """

    low: float
    high: float
    share: float
    model_low: float
    model_high: float
    route: float
    hours: float
    walker: float


def band(
    body: Body,
    *,
    share: float,
    by_hand: bool,
    shelf: tuple[float, float] = (0.0, 0.0),
    spread: Spread = SPREAD,
) -> Band:
    """The range of one day.

    `share` is the part of the day's energy that is walking; `shelf` says how far the other models
    lie below and above the chosen one, as shares of walking. Independent sources add as squares.
    """
    below, above = (share * max(spread.model, side) for side in shelf)
    route = share * (spread.hand if by_hand else spread.track)
    hours = (1.0 - share) * spread.hours
    least = spread.unknown if body.guessed or body.youth else 0.0
    others = math.hypot(route, hours, spread.walker)
    return Band(
        low=1.0 - max(least, math.hypot(below, others)),
        high=1.0 + max(least, math.hypot(above, others)),
        share=share,
        model_low=below,
        model_high=above,
        route=route,
        hours=hours,
        walker=spread.walker,
    )
