"""The range of a walk's need by drawing it many times: the long way round to `spread.py`.

A draw is one possible truth: a model of the shelf with its own error, a walker who is thriftier or
dearer than the formula, a route a little longer or steeper, evenings spent otherwise. What stays
the same over a walk is drawn once for all its days. Fixed seed, no clock: equal inputs, equal
outputs (C14).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from oatsack.walker.spread import COVERS, DEVIATIONS, SPREAD, Band, Spread

if TYPE_CHECKING:
    from oatsack.walker.need import Need
    from oatsack.walker.stretches import Column

DRAWS = 10_000
CHOSEN_WEIGHT = 0.5
"""How often a draw believes the chosen model; the others share the rest (ours)."""
OVER_THE_WALK = 0.7
"""Part of the variance of route and hours that is the same on all days (ours)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Range:
    """Quantiles of the need [kcal]: low, middle, high by day and over the walk."""

    days: Mapping[int, tuple[float, float, float]]
    walk: tuple[float, float, float]
    drawn_kcal: Column
    """Draws by days."""


def draw(need: Need, *, seed: int, draws: int = DRAWS, spread: Spread = SPREAD) -> Range:
    """The need drawn so many times. Low and high enclose four draws in five."""
    rng = np.random.default_rng(seed)
    numbers = sorted(need.days)
    likely = np.array([need.days[n].energy_kcal for n in numbers])
    share = np.array([need.bands[n].share for n in numbers])
    route = np.array([_over(need.bands[n].route, need.bands[n].share) for n in numbers])
    picked = _picked(rng, need, numbers, draws)
    error = rng.normal(1.0, spread.model / DEVIATIONS, (draws, 1))
    walking = picked * error * _daily(rng, route / DEVIATIONS, draws)
    others = _daily(rng, np.full(len(numbers), spread.hours / DEVIATIONS), draws)
    least = max((_walker_half(need.bands[n]) for n in numbers), default=0.0)
    walker = rng.normal(1.0, least / DEVIATIONS, (draws, 1))
    drawn = np.maximum(likely * walker * (share * walking + (1.0 - share) * others), 0.0)
    edges = [(1.0 - COVERS) / 2.0, 0.5, (1.0 + COVERS) / 2.0]
    by_day = np.quantile(drawn, edges, axis=0)
    walk = np.quantile(drawn.sum(axis=1), edges)
    return Range(
        days={n: _three(by_day[:, i]) for i, n in enumerate(numbers)},
        walk=_three(walk),
        drawn_kcal=drawn,
    )


def _three(values: Column) -> tuple[float, float, float]:
    low, middle, high = (float(v) for v in values)
    return low, middle, high


def _over(part: float, share: float) -> float:
    """A half-width of the whole day as one of its walking."""
    return part / share if share > 0 else 0.0


def _walker_half(band: Band) -> float:
    """The walker's half-width, widened until the day is as uncertain as `spread.py` says."""
    model = max(band.model_low, band.model_high)
    rest = model**2 + band.route**2 + band.hours**2
    return math.sqrt(max(band.walker**2, (band.high - 1.0) ** 2 - rest))


def _daily(rng: np.random.Generator, deviation: Column, draws: int) -> Column:
    """Factors around 1 by draw and day, part of them the same over the walk."""
    steady = rng.standard_normal((draws, 1)) * math.sqrt(OVER_THE_WALK)
    daily = rng.standard_normal((draws, deviation.size)) * math.sqrt(1.0 - OVER_THE_WALK)
    return 1.0 + deviation * (steady + daily)


def _picked(rng: np.random.Generator, need: Need, numbers: list[int], draws: int) -> Column:
    """Each draw's model as factors on walking by day; the first of the shelf is the chosen one."""
    shelf = np.array([[by_day[n] for n in numbers] for by_day in need.shelf_kcal.values()])
    factor = shelf / np.where(shelf[0] > 0, shelf[0], 1.0)
    factor = np.where(shelf[0] > 0, factor, 1.0)
    others = (1.0 - CHOSEN_WEIGHT) / max(1, len(shelf) - 1)
    weights = [CHOSEN_WEIGHT] + [others] * (len(shelf) - 1)
    return np.asarray(
        factor[rng.choice(len(shelf), size=draws, p=np.divide(weights, sum(weights)))]
    )
