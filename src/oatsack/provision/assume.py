"""Which assumptions move the answer most: each is turned, and the need is counted again.

Only what the walker did not state is an assumption. The effect is half of what lies between its
two likely values, per person-day.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from oatsack.provision.loads import Backs
from oatsack.values.plan import Assumption
from oatsack.values.route import Day
from oatsack.values.trip import NeedSpec, Trip
from oatsack.values.walker import OwnPace, Walker
from oatsack.walker.asked import need_of
from oatsack.walker.person import body_of, resting_kcal_day
from oatsack.walker.target import SHORT_WALK_DAYS, SHORT_WALK_SHARE
from oatsack.walker.terms import Terms

SHOWN = 5
BASE_WEIGHT_KG = 3.0
TERRAIN = (1.0, 1.25)
SPEED = (0.85, 1.15)
AGE_YEARS = (25.0, 55.0)
HEIGHT_CM = 10.0
SHARE = 0.15
CHORES_MIN = 60.0
FIELD = 0.10
"""How far each assumption may well be off; ours."""


@dataclass(frozen=True, slots=True)
class _Doubt:
    """An assumption with its two other readings, as changes of walker or days."""

    key: str
    path: str
    value: float | str
    turn: Callable[[float], tuple[Walker, Sequence[Day], float]]
    readings: tuple[float, float]


def assumptions(trip: Trip, days: Sequence[Day], backs: Backs) -> tuple[Assumption, ...]:
    """The assumptions in the order of their effect, the first `SHOWN` of them."""
    found = [
        Assumption(key=d.key, path=d.path, value=d.value, effect_kcal=_effect(d, backs, trip.need))
        for d in (*_merged(trip, days), *_own_paces(trip, days))
    ]
    found += _targets(trip, days, backs)
    if not found:  # all was stated: what remains is what nobody can state
        found = [_chores(trip), _field(trip, days, backs)]
    return _first(found)


def _first(found: Sequence[Assumption]) -> tuple[Assumption, ...]:
    """The most telling in order; what a recording told is always among them."""
    ranked = sorted(found, key=lambda a: (a.key != "own-pace", -a.effect_kcal, a.key))
    return tuple(sorted(ranked[:SHOWN], key=lambda a: (-a.effect_kcal, a.key)))


def _merged(trip: Trip, days: Sequence[Day]) -> list[_Doubt]:
    """One doubt per kind: the first walker it concerns stands for the others."""
    kinds: dict[str, _Doubt] = {}
    for number, walker in enumerate(trip.walkers):
        for doubt in _doubts(trip, days, walker, f"walkers[{number}]"):
            if doubt.path in trip.defaults:
                kinds.setdefault(doubt.key, doubt)
    return list(kinds.values())


def _own_paces(trip: Trip, days: Sequence[Day]) -> Iterator[_Doubt]:
    """The pace that a recorded track tells, where it sets the party's: as even as it was."""
    paced = [w.pace_ms for w in trip.walkers if w.pace_ms is not None]
    slowest = min([*paced, trip.route.flat_speed_ms or math.inf], default=math.inf)
    for number, walker in enumerate(trip.walkers):
        if walker.own_pace is not None and walker.own_pace.flat_ms <= slowest:
            yield _own_pace(walker, walker.own_pace, days, f"walkers[{number}].pace_track")
            return


def _own_pace(walker: Walker, own: OwnPace, days: Sequence[Day], path: str) -> _Doubt:
    half = own.spread / 2.0
    return _Doubt(
        "own-pace", path, own.flat_ms, lambda factor: (walker, _paced(days, factor), 0.0),
        (1.0 - half, 1.0 + half),
    )  # fmt: skip


def _doubts(trip: Trip, days: Sequence[Day], walker: Walker, at: str) -> Iterator[_Doubt]:
    body = body_of(walker)
    yield _Doubt(
        "base-weight", f"{at}.base_weight", walker.base_weight_kg,
        lambda kg: (walker, days, kg), (-BASE_WEIGHT_KG, BASE_WEIGHT_KG),
    )  # fmt: skip
    yield _Doubt(
        "age", f"{at}.age", body.age_years,
        lambda years: (replace(walker, age_years=years), days, 0.0), AGE_YEARS,
    )  # fmt: skip
    yield _Doubt(
        "height", f"{at}.height", body.height_cm,
        lambda cm: (replace(walker, height_cm=body.height_cm + cm), days, 0.0),
        (-HEIGHT_CM, HEIGHT_CM),
    )  # fmt: skip
    yield _Doubt(
        "sex", f"{at}.sex", "unknown", lambda which: (
            replace(walker, sex="female" if which < 0 else "male"), days, 0.0), (-1.0, 1.0),
    )  # fmt: skip
    yield _Doubt(
        "terrain", "route.terrain", trip.route.terrain,
        lambda factor: (walker, _ground(days, factor), 0.0), TERRAIN,
    )  # fmt: skip
    if all(one.pace_ms is None for one in trip.walkers):
        yield _Doubt(
            "pace", "route.speed", "", lambda factor: (walker, _paced(days, factor), 0.0), SPEED
        )


def _ground(days: Sequence[Day], factor: float) -> tuple[Day, ...]:
    return tuple(
        replace(d, stretches=tuple(replace(s, terrain=factor) for s in d.stretches)) for d in days
    )


def _paced(days: Sequence[Day], factor: float) -> tuple[Day, ...]:
    """The same way walked faster or slower; the time saved or lost is rest in camp."""
    out = []
    for day in days:
        pieces, gained = [], 0.0
        for s in day.stretches:
            minutes = s.minutes / factor if s.kind == "walk" else s.minutes
            gained += s.minutes - minutes
            pieces.append(replace(s, end_min=s.start_min + minutes))
        rest = max((i for i, s in enumerate(pieces) if s.kind in ("rest", "camp")),
                   key=lambda i: pieces[i].minutes, default=None)  # fmt: skip
        if rest is not None:
            last = pieces[rest]
            pieces[rest] = replace(last, end_min=max(last.start_min, last.end_min + gained))
        out.append(replace(day, stretches=tuple(pieces)))
    return tuple(out)


def _effect(doubt: _Doubt, backs: Backs, spec: NeedSpec) -> float:
    """Half of the span of the need between the two readings, per day [kcal]."""
    low, high = (
        _per_day(*doubt.turn(reading), backs=backs, spec=spec) for reading in doubt.readings
    )
    return abs(high - low) / 2.0


def _per_day(walker: Walker, days: Sequence[Day], more_kg: float, *, backs: Backs,
             spec: NeedSpec) -> float:  # fmt: skip
    load = {n: kg + more_kg for n, kg in backs.load_kg[walker.id].items()}
    found = need_of(walker, spec, days=days, load_kg=load)
    return sum(row.energy_kcal for row in found.days.values()) / max(1, len(found.days))


def _targets(trip: Trip, days: Sequence[Day], backs: Backs) -> Iterator[Assumption]:
    """Nobody said how much to eat: the usual share stands (C15)."""
    for number, walker in enumerate(trip.walkers):
        if f"walkers[{number}].target" in trip.defaults:
            share = SHORT_WALK_SHARE if len(days) <= SHORT_WALK_DAYS else 1.0
            effect = SHARE * _per_day(walker, days, 0.0, backs=backs, spec=trip.need)
            yield Assumption(
                key="target", path=f"walkers[{number}].target", value=share, effect_kcal=effect
            )
            return


def _chores(trip: Trip) -> Assumption:
    """How long one is busy in camp: an hour more of chores instead of sitting, or less."""
    terms = Terms()
    more = (terms.camp_met - terms.rest_met) * CHORES_MIN / 1440.0 / (1.0 - terms.thermic_share)
    resting = max(resting_kcal_day(body_of(w)) for w in trip.walkers)
    return Assumption(
        key="chores", path="route.days", value=CHORES_MIN / 60.0, effect_kcal=more * resting
    )


def _field(trip: Trip, days: Sequence[Day], backs: Backs) -> Assumption:
    """How true the laboratory's cost of walking is in the field, until a record of one's own."""
    walker = max(trip.walkers, key=lambda w: w.mass_kg)
    found = need_of(walker, trip.need, days=days, load_kg=backs.load_kg[walker.id])
    walking = sum(row.walking_kcal for row in found.days.values()) / max(1, len(found.days))
    effect = FIELD * walking / (1.0 - Terms().thermic_share)
    return Assumption(key="field", path="need", value=FIELD, effect_kcal=effect)
