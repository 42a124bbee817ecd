"""What is said of a need that is hard to believe, and that every flag has its sentence."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np

from oatsack.reports.words import PLAIN
from oatsack.values.flags import Flag
from oatsack.walker import body, doubts, target
from oatsack.walker.doubts import OUTSIDE_KEYS
from oatsack.walker.energy import MODELS
from oatsack.walker.need import need
from oatsack.walker.person import Body
from oatsack.walker.stretches import CAMP, SLEEP, WALK, Stretches, columns
from support.each import each
from support.people import CHILD, MAN


def marches(days: int, hours: float, **changes: float) -> Stretches:
    """Whole days of steep walking, the rest of each asleep."""
    walked = hours * 60.0
    return columns(
        minutes=np.tile([walked, 1440.0 - walked], days), kind=np.tile([WALK, SLEEP], days),
        speed_ms=np.tile([1.3, 0.0], days), grade_pct=np.tile([8.0, 0.0], days), load_kg=20.0,
        day=np.repeat(np.arange(1, days + 1), 2), **changes,
    )  # fmt: skip


def keys(stretches: Stretches, who: Body = MAN) -> list[str]:
    return [flag.key for flag in need(who, stretches).flags]


def test_three_days_beyond_three_and_a_half_times_rest_are_hard_to_believe() -> None:
    assert "need.very-hard" in keys(marches(3, 10.0))
    assert "need.very-hard" not in keys(marches(2, 10.0))
    assert "need.very-hard" not in keys(marches(3, 3.0))


def test_part_days_are_not_judged_by_their_hardness() -> None:
    s = columns(
        minutes=np.full(4, 300.0), speed_ms=1.4, grade_pct=10.0, load_kg=20.0,
        day=np.arange(1, 5),
    )  # fmt: skip
    assert "need.very-hard" not in keys(s)


def test_frost_is_told_with_its_waking_minutes() -> None:
    flags = need(MAN, marches(1, 5.0, air_c=-15.0)).flags
    frost = next(flag for flag in flags if flag.key == "need.frost")
    assert frost.values["out_min"] == 300.0
    assert "need.frost" not in keys(marches(1, 5.0, air_c=-8.0))


def test_great_height_is_told() -> None:
    assert "need.height" in keys(marches(1, 5.0, height_m=3400.0))
    assert "need.height" not in keys(marches(1, 5.0, height_m=2900.0))


def test_a_childs_mass_is_outside_the_default_model() -> None:
    assert "need.outside-mass" in keys(marches(1, 2.0), CHILD)


def test_camping_in_frost_without_walking_is_told_too() -> None:
    s = columns(minutes=np.array([180.0]), kind=np.array([CAMP]), air_c=-20.0)
    assert keys(s) == ["need.frost"]


@each("one", MODELS, ids=lambda m: m.name)
def test_every_bounded_quantity_of_every_model_has_a_flag(one: object) -> None:
    assert set(one.validity) <= set(OUTSIDE_KEYS)  # type: ignore[attr-defined]


WRITTEN = sorted({
    key
    for module in (body, doubts, target)
    for key in re.findall(r'"((?:need|body)\.[a-z-]+)"', Path(module.__file__).read_text("utf-8"))
})  # fmt: skip
VALUES = {
    "model": "lcda-backpacking-2022", "out_min": 95.0, "air_c": -10.0, "height_m": 3000.0,
    "n_days": 3, "first": 1, "times": 3.5, "missing": "sex", "share": 0.6, "resting_kcal": 1600.0,
    "deficit_kcal": 7000.0, "low_kg": 0.8, "high_kg": 2.4, "water_low_kg": 0.5,
    "water_high_kg": 1.0, "tissue_kg": 1.6,
}  # fmt: skip


def test_the_walker_shelf_writes_at_least_a_dozen_flags() -> None:
    assert len(WRITTEN) >= 12


@each("key", WRITTEN)
def test_every_flag_is_said_in_a_whole_sentence(key: str) -> None:
    said = PLAIN.flag(Flag(key=key, level="quiet", values=VALUES))
    assert said.endswith(".")
    assert "{" not in said
    assert "_" not in said
