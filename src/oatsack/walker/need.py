"""What a walk uses: each stretch's energy, added up by day, with its parts and its range.

Walking comes from the shelf of walking-cost models, the other hours from multiples of rest, a few
labelled terms lie over both, and the heat of digesting is added once. Nothing here knows of food;
the mass on the back is an argument. Read on in `spread.py` for the range, `hours.py` for the clock.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.flags import Flag
from oatsack.values.model import Model
from oatsack.values.plan import DayNeed
from oatsack.walker.doubts import flags_of
from oatsack.walker.energy import DEFAULT, MODELS
from oatsack.walker.joules import MINUTES_PER_DAY, kcal
from oatsack.walker.person import CONDITION_KCAL_DAY, Body, norm_kcal_day, resting_w
from oatsack.walker.spread import SPREAD, Band, Spread, band
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, Stretches
from oatsack.walker.terms import Terms, cold_share, heat_share, height_share

if TYPE_CHECKING:
    from oatsack.walker.stretches import Column, Mask, Whole


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Parts:
    """Energy of each stretch [kcal]: the plain sum, the terms laid over it, digesting."""

    plain_kcal: Column
    terms_kcal: Column
    thermic_kcal: Column

    @property
    def total_kcal(self) -> Column:
        """Everything together."""
        return self.plain_kcal + self.terms_kcal + self.thermic_kcal


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Need:
    """The need of one walker: per stretch, and per day with its range."""

    stretches: Stretches
    parts: Parts
    days: Mapping[int, DayNeed]
    bands: Mapping[int, Band]
    shelf_kcal: Mapping[str, Mapping[int, float]]
    """Walking by every model and day [kcal], the chosen model first."""
    resting_kcal_day: float
    scope: str = ""
    """The address that its flags are about, as ``need/anna``."""
    flags: tuple[Flag, ...] = ()

    @property
    def likely_kcal(self) -> Column:
        """Energy of each stretch."""
        return self.parts.total_kcal

    @property
    def low_kcal(self) -> Column:
        """Low end of each stretch, its day's share of the likely."""
        return self.likely_kcal * self._ratio("low")

    @property
    def high_kcal(self) -> Column:
        """High end of each stretch, its day's share of the likely."""
        return self.likely_kcal * self._ratio("high")

    def _ratio(self, side: str) -> Column:
        numbers, place = np.unique(self.stretches.day, return_inverse=True)
        ratios = [getattr(self.bands[int(number)], side) for number in numbers]
        return np.asarray(ratios, dtype=np.float64)[place]


def walking_w(body: Body, stretches: Stretches, model: Model = DEFAULT) -> Column:
    """Gross power of walking each stretch by one model [W], as if all were walked."""
    power = model.function(
        mass_kg=body.mass_kg,
        load_kg=stretches.load_kg,
        speed_ms=stretches.speed_ms,
        grade_pct=stretches.grade_pct,
        terrain=stretches.terrain,
        resting_w=resting_w(body),
    )
    return np.asarray(power, dtype=np.float64)


def parts(
    body: Body, stretches: Stretches, *, model: Model = DEFAULT, terms: Terms | None = None
) -> Parts:
    """Energy of each stretch [kcal]."""
    terms = terms or Terms()
    rest = resting_w(body)
    mets = np.array([0.0, terms.rest_met, terms.camp_met, terms.sleep_met])
    walks = stretches.kind == WALK
    power = np.where(walks, walking_w(body, stretches, model), rest * mets[stretches.kind])
    plain = np.asarray(kcal(power, stretches.minutes))
    over = plain * _share(stretches, terms)
    steady = np.full(len(stretches), CONDITION_KCAL_DAY[body.condition] / MINUTES_PER_DAY)
    if terms.height:
        steady = steady + kcal(rest, 1.0) * height_share(stretches.height_m)
    laid = over + steady * stretches.minutes
    digesting = (plain + laid) * terms.thermic_share / (1.0 - terms.thermic_share)
    return Parts(plain_kcal=plain, terms_kcal=laid, thermic_kcal=digesting)


def _share(stretches: Stretches, terms: Terms) -> Column:
    """What air and field add to each stretch, as a share of its plain energy."""
    share = np.where(stretches.kind == WALK, terms.field_factor - 1.0, 0.0)
    outdoors = (stretches.kind == WALK) | (stretches.kind == CAMP)
    if terms.cold:
        share = share + np.where(outdoors, cold_share(stretches.air_c), 0.0)
    if terms.heat:
        share = share + np.where(outdoors, heat_share(stretches.air_c), 0.0)
    return share


def _full_fed(body: Body, stretches: Stretches, found: Parts) -> Parts:
    """For a youth, what a day lacks of the public norm is spread over its hours (C11).

    A part of a day is held to its part of the norm.
    """
    if not body.youth or len(stretches) == 0:
        return found
    _, place = np.unique(stretches.day, return_inverse=True)
    minutes = np.bincount(place, stretches.minutes)
    floor = norm_kcal_day(body) * minutes / MINUTES_PER_DAY
    lacking = np.maximum(0.0, floor - np.bincount(place, found.total_kcal))
    lift = lacking[place] * stretches.minutes / minutes[place]
    return replace(found, terms_kcal=found.terms_kcal + lift)


def need(
    body: Body,
    stretches: Stretches,
    *,
    model: Model = DEFAULT,
    terms: Terms | None = None,
    spread: Spread = SPREAD,
    scope: str = "",
) -> Need:
    """The need of one walker over a walk, with the range of each day and what to say of it.

    `scope` is the address that flags are about, as ``need/anna``.
    """
    found = _full_fed(body, stretches, parts(body, stretches, model=model, terms=terms))
    shelf = by_model(body, stretches, model)
    days, bands = {}, {}
    for number in (int(n) for n in np.unique(stretches.day)):
        here = np.flatnonzero(stretches.day == number)
        bands[number] = _band(body, found, stretches, here, shelf, spread)
        days[number] = _day(found, stretches, here, bands[number])
    return Need(
        stretches=stretches,
        parts=found,
        days=days,
        bands=bands,
        shelf_kcal=_by_day(shelf, stretches),
        resting_kcal_day=float(kcal(resting_w(body), MINUTES_PER_DAY)),
        scope=scope,
        flags=flags_of(body, stretches, days, model=model, scope=scope),
    )


def by_model(body: Body, stretches: Stretches, model: Model = DEFAULT) -> Mapping[str, Column]:
    """Walking energy of each stretch by every model of the shelf [kcal], 0 where nobody walks.

    Where a model is asked beyond its range the chosen one stands in, so that sums can be compared;
    the models' own opinion out there is worth nothing (C7).
    """
    walks = stretches.kind == WALK
    minutes = np.where(walks, stretches.minutes, 0.0)
    chosen = np.asarray(kcal(walking_w(body, stretches, model), minutes))
    found = {model.name: chosen}
    for other in MODELS:
        if other.name != model.name:
            told = np.asarray(kcal(walking_w(body, stretches, other), minutes))
            found[other.name] = np.where(_outside(body, stretches, other), chosen, told)
    return found


def _outside(body: Body, stretches: Stretches, model: Model) -> Mask:
    """Rows where a model is asked about slope, speed or mass beyond its range.

    Load and terrain are left out: some models know neither, and then our own factors stand in.
    """
    missed = model.outside(
        mass_kg=body.mass_kg, load_kg=stretches.load_kg, speed_ms=stretches.speed_ms,
        grade_pct=stretches.grade_pct,
    )  # fmt: skip
    wide = [np.asarray(m) for name, m in missed.items() if name != "load_share"]
    return np.asarray(np.logical_or.reduce(np.broadcast_arrays(*wide, stretches.kind != WALK)))


def _band(
    body: Body, found: Parts, stretches: Stretches, here: Whole, shelf: Mapping[str, Column],
    spread: Spread,
) -> Band:  # fmt: skip
    """The range of one day, with what the shelf's models say of its walking."""
    told = [float(column[here].sum()) for column in shelf.values()]
    chosen, plain = told[0], float(found.plain_kcal[here].sum())
    lean = [one / chosen - 1.0 for one in told] if chosen > 0 else [0.0]
    return band(
        body,
        share=chosen / plain if plain > 0 else 0.0,
        by_hand=bool(stretches.by_hand[here].any()),
        shelf=(-min(lean), max(lean)),
        spread=spread,
    )


def _by_day(shelf: Mapping[str, Column], stretches: Stretches) -> dict[str, dict[int, float]]:
    """Sums by model and day."""
    numbers, place = np.unique(stretches.day, return_inverse=True)
    sums = {name: np.bincount(place, column, numbers.size) for name, column in shelf.items()}
    return {
        name: {int(n): float(v) for n, v in zip(numbers, values, strict=True)}
        for name, values in sums.items()
    }


def _sums(found: Parts, stretches: Stretches, here: Whole) -> dict[str, float]:
    """Plain energy of one day by kind [kcal]."""
    kinds, plain = stretches.kind[here], found.plain_kcal[here]
    named = {"walk": WALK, "rest": REST, "camp": CAMP, "sleep": SLEEP}
    return {name: float(plain[kinds == kind].sum()) for name, kind in named.items()}


def _day(found: Parts, stretches: Stretches, here: Whole, range_: Band) -> DayNeed:
    """One day's row."""
    kind = _sums(found, stretches, here)
    minutes = stretches.minutes[here]
    likely = float(found.total_kcal[here].sum())
    loads = stretches.load_kg[here][stretches.kind[here] == WALK]
    return DayNeed(
        energy_kcal=likely,
        low_kcal=likely * range_.low,
        high_kcal=likely * range_.high,
        walking_kcal=kind["walk"],
        camp_kcal=kind["camp"],
        rest_kcal=kind["rest"],
        sleep_kcal=kind["sleep"],
        thermic_kcal=float(found.thermic_kcal[here].sum()),
        terms_kcal=float(found.terms_kcal[here].sum()),
        walking_h=float(minutes[stretches.kind[here] == WALK].sum()) / 60.0,
        pack_start_kg=float(loads[0]) if loads.size else 0.0,
        pack_end_kg=float(loads[-1]) if loads.size else 0.0,
    )
