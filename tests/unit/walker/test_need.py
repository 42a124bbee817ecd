"""The need of a walk: sums by day, parts, flags, and what changes it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from oatsack.walker.energy import model
from oatsack.walker.hours import hourly
from oatsack.walker.need import Need, by_model, need, parts
from oatsack.walker.person import Body, norm_kcal_day
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, Stretches, columns
from support.each import each
from support.people import CHILD, MAN, UNKNOWN, WOMAN

DAYS = 3


def walk(**changes: Any) -> Stretches:
    """Three equal days: five hours up a gentle slope, a rest, camp, an evening, a night."""
    given: dict[str, Any] = {
        "minutes": np.tile([300.0, 60.0, 180.0, 420.0, 480.0], DAYS),
        "kind": np.tile([WALK, REST, CAMP, REST, SLEEP], DAYS),
        "speed_ms": np.tile([1.1, 0.0, 0.0, 0.0, 0.0], DAYS),
        "grade_pct": np.tile([3.0, 0.0, 0.0, 0.0, 0.0], DAYS),
        "load_kg": np.repeat([14.0, 13.0, 12.0], 5),
        "day": np.repeat([1, 2, 3], 5),
        "start_min": np.tile([480.0, 780.0, 840.0, 1020.0, 1440.0], DAYS),
    }
    return columns(**{**given, **changes})


@pytest.fixture(name="found", scope="module")
def _found() -> Need:
    return need(MAN, walk())


def test_every_day_has_its_row(found: Need) -> None:
    assert sorted(found.days) == [1, 2, 3]
    assert all(day.walking_h == pytest.approx(5.0) for day in found.days.values())


def test_the_stretches_add_up_to_the_days(found: Need) -> None:
    by_day = np.bincount(found.stretches.day, found.likely_kcal)[1:]
    assert list(by_day) == pytest.approx([found.days[n].energy_kcal for n in (1, 2, 3)])
    low = np.bincount(found.stretches.day, found.low_kcal)[1:]
    assert list(low) == pytest.approx([found.days[n].low_kcal for n in (1, 2, 3)])
    high = np.bincount(found.stretches.day, found.high_kcal)[1:]
    assert list(high) == pytest.approx([found.days[n].high_kcal for n in (1, 2, 3)])


def test_the_parts_add_up_to_the_day(found: Need) -> None:
    for day in found.days.values():
        total = (
            day.walking_kcal + day.camp_kcal + day.rest_kcal + day.sleep_kcal
            + day.thermic_kcal + day.terms_kcal
        )  # fmt: skip
        assert total == pytest.approx(day.energy_kcal)


def test_a_lighter_pack_makes_a_cheaper_day(found: Need) -> None:
    days = [found.days[n].energy_kcal for n in (1, 2, 3)]
    assert days[0] > days[1] > days[2]
    assert (found.days[1].pack_start_kg, found.days[3].pack_end_kg) == (14.0, 12.0)


def test_a_kilogram_of_pack_is_worth_ten_to_forty_kcal_a_day(found: Need) -> None:
    """The size of the load feedback, so that it can be said."""
    step = found.days[1].energy_kcal - found.days[2].energy_kcal
    assert 10.0 < step < 40.0


def test_resting_use_is_reported(found: Need) -> None:
    assert found.resting_kcal_day == pytest.approx(1692.5)


def test_the_shelf_is_summed_by_day_with_the_chosen_model_first(found: Need) -> None:
    assert next(iter(found.shelf_kcal)) == "lcda-backpacking-2022"
    assert len(found.shelf_kcal) == 6
    for n, day in found.days.items():
        assert found.shelf_kcal["lcda-backpacking-2022"][n] == pytest.approx(day.walking_kcal)


def test_the_band_knows_which_part_of_the_day_is_walking(found: Need) -> None:
    for n, day in found.days.items():
        plain = day.walking_kcal + day.camp_kcal + day.rest_kcal + day.sleep_kcal
        assert found.bands[n].share == pytest.approx(day.walking_kcal / plain)


def test_the_band_leans_where_the_shelf_leans(found: Need) -> None:
    told = [by_day[1] for by_day in found.shelf_kcal.values()]
    above, below = max(told) / told[0] - 1.0, 1.0 - min(told) / told[0]
    share = found.bands[1].share
    assert found.bands[1].model_high == pytest.approx(share * max(above, 0.14))
    assert found.bands[1].model_low == pytest.approx(share * max(below, 0.14))


def test_another_model_can_be_chosen() -> None:
    classic = need(MAN, walk(), model=model("pandolf-1977"))
    assert next(iter(classic.shelf_kcal)) == "pandolf-1977"
    assert classic.days[1].walking_kcal != need(MAN, walk()).days[1].walking_kcal


def test_beyond_its_range_a_model_is_not_heard() -> None:
    """On a 40 % climb Ludlow and Weyand have no opinion: the chosen model stands in (C7)."""
    s = columns(minutes=np.array([60.0]), speed_ms=0.6, grade_pct=40.0, load_kg=12.0)
    told = by_model(MAN, s)
    assert told["ludlow-weyand-2017"][0] == told["lcda-backpacking-2022"][0]
    assert told["lcda-graded-2019"][0] != told["lcda-backpacking-2022"][0]


def test_only_hours_inside_the_walk_count() -> None:
    """C4: half a day has no night."""
    s = columns(minutes=np.array([120.0]), speed_ms=1.1, load_kg=10.0)
    assert need(MAN, s).days[1].sleep_kcal == 0.0


def test_no_stretches_are_no_days() -> None:
    assert need(MAN, columns(minutes=np.zeros(0))).days == {}


def test_a_day_without_walking_has_a_range_too() -> None:
    s = columns(minutes=np.array([600.0, 480.0]), kind=np.array([REST, SLEEP]))
    day = need(MAN, s).days[1]
    assert day.low_kcal < day.energy_kcal < day.high_kcal
    assert (day.pack_start_kg, day.pack_end_kg) == (0.0, 0.0)


def test_what_is_not_stated_is_flagged_and_widens_the_range() -> None:
    wide, narrow = need(UNKNOWN, walk()), need(MAN, walk())
    assert [flag.key for flag in wide.flags] == ["need.guessed"]
    assert wide.flags[0].values["missing"] == "age_years, height_cm, sex"
    assert narrow.flags == ()
    half = wide.days[1].high_kcal / wide.days[1].energy_kcal - 1.0
    assert half == pytest.approx(0.25)
    assert wide.days[1].low_kcal / wide.days[1].energy_kcal == pytest.approx(0.75)


@each(
    ("changes", "key", "minutes"),
    [({"speed_ms": 2.3}, "need.outside-speed", 900.0),
     ({"grade_pct": -43.0}, "need.outside-slope", 900.0),
     ({"load_kg": 60.0}, "need.outside-load", 900.0),
     ({"terrain": 4.0}, "need.outside-terrain", 900.0)],
)  # fmt: skip
def test_stepping_outside_the_measured_range_is_flagged_with_its_minutes(
    changes: dict[str, float], key: str, minutes: float
) -> None:
    found = need(MAN, walk(**changes), scope="need/anna")
    assert [flag.key for flag in found.flags if "outside" in flag.key] == [key]
    flag = next(flag for flag in found.flags if flag.key == key)
    assert flag.values == {"model": "lcda-backpacking-2022", "out_min": minutes}
    assert flag.scope == "need/anna"
    assert flag.source.startswith("Looney2022")


def test_resting_on_a_steep_place_is_not_flagged() -> None:
    s = walk(grade_pct=np.tile([3.0, 60.0, 0.0, 0.0, 0.0], DAYS))
    assert need(MAN, s).flags == ()


def test_a_bodys_mass_outside_a_model_is_flagged() -> None:
    light = Body(mass_kg=38.0, height_cm=150.0, age_years=30.0, sex="female")
    found = need(light, walk(), model=model("pandolf-1977"))
    assert "need.outside-mass" in [flag.key for flag in found.flags]


def test_a_childs_day_is_never_below_the_norm() -> None:
    """C11: full food for whoever is under 18."""
    lazy = columns(minutes=np.array([960.0, 480.0]), kind=np.array([REST, SLEEP]))
    day = need(CHILD, lazy).days[1]
    assert day.energy_kcal == pytest.approx(norm_kcal_day(CHILD))
    assert day.low_kcal == pytest.approx(0.75 * day.energy_kcal)
    parts_ = day.walking_kcal + day.camp_kcal + day.rest_kcal + day.sleep_kcal
    assert parts_ + day.thermic_kcal + day.terms_kcal == pytest.approx(day.energy_kcal)


def test_a_childs_hours_add_up_to_its_day() -> None:
    found = need(CHILD, walk(speed_ms=0.3, grade_pct=0.0, load_kg=2.0))
    by_day = np.bincount(found.stretches.day, found.likely_kcal)[1:]
    assert list(by_day) == pytest.approx([found.days[n].energy_kcal for n in (1, 2, 3)])
    assert sum(row.need_kcal for row in hourly(found)) == pytest.approx(float(by_day.sum()))


def test_a_childs_hard_day_is_above_the_norm() -> None:
    hard = need(CHILD, walk(grade_pct=12.0, load_kg=6.0)).days[1]
    assert hard.energy_kcal > norm_kcal_day(CHILD) * 1.1


def test_half_a_childs_day_has_half_the_norm() -> None:
    half = columns(minutes=np.array([720.0]), kind=np.array([REST]))
    assert need(CHILD, half).days[1].energy_kcal == pytest.approx(norm_kcal_day(CHILD) / 2)


@each(("condition", "kcal"), [("pregnant", 340.0), ("nursing", 400.0)])
def test_a_condition_adds_its_kcal_by_the_hour(condition: str, kcal: float) -> None:
    """IOM2005, from memory; digesting comes on top."""
    plain = Body(mass_kg=62.0, height_cm=165.0, age_years=30.0, sex="female")
    bearing = Body(
        mass_kg=62.0, height_cm=165.0, age_years=30.0, sex="female", condition=condition
    )
    more = need(bearing, walk()).days[1].energy_kcal - need(plain, walk()).days[1].energy_kcal
    assert more == pytest.approx(kcal / 0.9)


def test_a_typed_day_is_less_sure_than_a_track() -> None:
    typed, tracked = (need(WOMAN, walk(by_hand=x)).days[1] for x in (True, False))
    assert typed.energy_kcal == tracked.energy_kcal
    assert typed.high_kcal > tracked.high_kcal


def test_parts_are_given_per_stretch() -> None:
    found = parts(MAN, walk())
    assert found.plain_kcal.shape == found.thermic_kcal.shape == (15,)
    assert np.all(found.total_kcal > 0.0)


def test_a_hundred_thousand_stretches_take_one_call_each_model() -> None:
    """Vectorised: the same numbers as one by one."""
    rng = np.random.default_rng(7)
    s = columns(
        minutes=rng.uniform(0.1, 2.0, 2000), speed_ms=rng.uniform(0.5, 1.6, 2000),
        grade_pct=rng.uniform(-20, 20, 2000), load_kg=rng.uniform(5, 20, 2000),
    )  # fmt: skip
    whole = need(MAN, s).likely_kcal
    for i in (0, 17, 1999):
        one = columns(
            minutes=s.minutes[i : i + 1], speed_ms=s.speed_ms[i], grade_pct=s.grade_pct[i],
            load_kg=s.load_kg[i],
        )  # fmt: skip
        assert need(MAN, one).likely_kcal[0] == pytest.approx(whole[i])
