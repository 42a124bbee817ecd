"""What to say of a need: asked beyond what was measured, not stated, or hard to believe (C7).

Only flags, quiet ones but for deep snow: none of it makes a plan wrong.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.flags import Flag
from oatsack.values.model import Model
from oatsack.values.plan import DayNeed
from oatsack.walker.energy import DEFAULT
from oatsack.walker.person import Body, resting_kcal_day
from oatsack.walker.stretches import SLEEP, WALK, Stretches
from oatsack.walker.terms import COLD_C, HEIGHT_M
from oatsack.walker.terrain import DEEPEST_SINK_CM, HELD_FACTOR

if TYPE_CHECKING:
    from oatsack.walker.stretches import Mask

Values = Mapping[str, float | int | str]

OUTSIDE_KEYS: Mapping[str, str] = MappingProxyType({
    "mass_kg": "need.outside-mass",
    "load_kg": "need.outside-load",
    "load_share": "need.outside-load",
    "speed_ms": "need.outside-speed",
    "grade_pct": "need.outside-slope",
    "terrain": "need.outside-terrain",
})  # fmt: skip
LOUD_TERRAIN = 3.0
"""Beyond this factor, in deep snow, the need is no number to pack by: a caution says so (ours)."""
HARD_TIMES_REST = 3.5
"""More than this, day after day, has hardly been measured (ours, after the field studies)."""
HARD_DAYS = 2
WHOLE_DAY_SHARE = 0.95
"""A day counts as whole from this share of its hours inside the walk."""


def flags_of(
    body: Body,
    stretches: Stretches,
    days: Mapping[int, DayNeed],
    *,
    model: Model = DEFAULT,
    scope: str = "",
) -> tuple[Flag, ...]:
    """Everything to say of one walker's need; `scope` is the address it is about."""
    return (
        *_outside(body, stretches, model, scope),
        *_weather(stretches, scope),
        *_snow(stretches, scope),
        *_hard(body, stretches, days, scope),
        *_guessed(body, scope),
    )


def _outside(body: Body, stretches: Stretches, model: Model, scope: str) -> Iterator[Flag]:
    """Where the model is asked beyond its range, with the minutes."""
    walks = stretches.kind == WALK
    minutes = stretches.minutes[walks]
    missed = model.outside(
        mass_kg=np.full(minutes.size, body.mass_kg),
        load_kg=stretches.load_kg[walks],
        speed_ms=stretches.speed_ms[walks],
        grade_pct=stretches.grade_pct[walks],
        terrain=stretches.terrain[walks],
    )
    for what, where in missed.items():
        if np.any(where):
            told: Values = {"model": model.name, "out_min": float(minutes[where].sum())}
            found = _quiet(OUTSIDE_KEYS[what], scope, told, model.sources[0])
            deep = what == "terrain" and bool(np.any(stretches.terrain[walks] > LOUD_TERRAIN))
            yield replace(found, level="caution") if deep else found


def _weather(stretches: Stretches, scope: str) -> Iterator[Flag]:
    """Frost and great height, where measured walks used more than any model here says."""
    awake = stretches.kind != SLEEP
    frost = awake & (stretches.air_c < COLD_C[0])
    if np.any(frost):
        told: Values = {"out_min": float(stretches.minutes[frost].sum()), "air_c": COLD_C[0]}
        yield _quiet("need.frost", scope, told, "Castellani2006")
    high = awake & (stretches.height_m > HEIGHT_M[1])
    if np.any(high):
        told = {"out_min": float(stretches.minutes[high].sum()), "height_m": HEIGHT_M[1]}
        yield _quiet("need.height", scope, told, "Butterfield1992")


def _snow(stretches: Stretches, scope: str) -> Iterator[Flag]:
    """Snow so deep and soft that its factor is held where the formula would run away."""
    deep = (stretches.kind == WALK) & (stretches.terrain >= HELD_FACTOR - 1e-9)
    if np.any(deep):
        told: Values = {"out_min": float(stretches.minutes[deep].sum()), "sink_cm": DEEPEST_SINK_CM}
        yield _quiet("need.snowshoes", scope, told, "Richmond2019")


def _hard(
    body: Body, stretches: Stretches, days: Mapping[int, DayNeed], scope: str
) -> Iterator[Flag]:
    """Several whole days of more than 3.5 times resting use."""
    resting = resting_kcal_day(body)
    hard = [
        number
        for number, day in days.items()
        if day.energy_kcal > HARD_TIMES_REST * resting and _whole(stretches, number)
    ]
    if len(hard) > HARD_DAYS:
        told: Values = {"n_days": len(hard), "first": min(hard), "times": HARD_TIMES_REST}
        yield _quiet("need.very-hard", scope, told, "Castellani2006")


def _whole(stretches: Stretches, number: int) -> bool:
    here: Mask = stretches.day == number
    return float(stretches.minutes[here].sum()) >= WHOLE_DAY_SHARE * 1440.0


def _guessed(body: Body, scope: str) -> Iterator[Flag]:
    if body.guessed:
        yield _quiet("need.guessed", scope, {"missing": ", ".join(body.guessed)}, "")


def _quiet(key: str, scope: str, values: Values, source: str) -> Flag:
    return Flag(key=key, level="quiet", scope=scope, values=values, source=source)
