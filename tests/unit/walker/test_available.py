"""Energy availability: for adults and a week at most, with its range, and by hand the same."""

from __future__ import annotations

import dataclasses

import pytest

from oatsack.values.plan import DayNeed
from oatsack.walker.available import MOST_DAYS, availability, full_days
from oatsack.walker.body import consequence
from oatsack.walker.person import Body, resting_kcal_day
from oatsack.walker.tissue import fat_kg
from support.people import CHILD, MAN, WOMAN


def day(body: Body, walking_kcal: float = 1800.0, walking_h: float = 6.0) -> DayNeed:
    """A whole day: six hours on foot, three of camp, seven of rest, eight of sleep."""
    rest = resting_kcal_day(body) / 24.0
    camp, sitting, sleep = 3 * 2.5 * rest, (13 - walking_h) * 1.3 * rest, 8 * 0.95 * rest
    whole = (walking_kcal + camp + sitting + sleep) / 0.9
    return DayNeed(
        energy_kcal=whole, low_kcal=0.85 * whole, high_kcal=1.15 * whole,
        walking_kcal=walking_kcal, camp_kcal=camp, rest_kcal=sitting, sleep_kcal=sleep,
        thermic_kcal=0.1 * whole, walking_h=walking_h,
    )  # fmt: skip


def days(body: Body, count: int) -> dict[int, DayNeed]:
    return {n: day(body) for n in range(1, count + 1)}


@pytest.mark.parametrize("body", [MAN, WOMAN])
def test_it_is_food_less_walking_beyond_rest_over_fat_free_mass(body: Body) -> None:
    found = availability(body, days(body, 3), dict.fromkeys((1, 2, 3), 2500.0))
    assert found is not None
    lean = body.mass_kg - fat_kg(body)
    by_hand = (2500.0 - (1800.0 - 6 / 24 * resting_kcal_day(body))) / lean
    assert found.likely_kcal_kg == pytest.approx(by_hand)
    assert found.low_kcal_kg < found.likely_kcal_kg < found.high_kcal_kg


def test_whole_days_count_as_one_and_half_a_day_as_half() -> None:
    assert full_days(MAN, days(MAN, 4)) == pytest.approx(4.0)
    half = dataclasses.replace(day(MAN, 900.0, 3.0), camp_kcal=0.0, rest_kcal=0.0,
                               sleep_kcal=9 * 0.95 * resting_kcal_day(MAN) / 24)  # fmt: skip
    assert full_days(MAN, {1: half}) == pytest.approx(0.5)


def test_a_part_of_a_day_is_no_hungry_day() -> None:
    """Half of a day's hours with half of its food and walking leaves what the whole day does."""
    whole = availability(MAN, {1: day(MAN)}, {1: 2600.0})
    row = day(MAN)
    half = DayNeed(**{f.name: getattr(row, f.name) / 2 for f in dataclasses.fields(DayNeed)})
    part = availability(MAN, {1: half}, {1: 1300.0})
    assert whole is not None
    assert part is not None
    assert part.likely_kcal_kg == pytest.approx(whole.likely_kcal_kg)


def test_youth_pregnancy_nursing_and_illness_have_none() -> None:
    for body in (CHILD, *(dataclasses.replace(WOMAN, condition=c)
                          for c in ("pregnant", "nursing", "ill"))):  # fmt: skip
        assert availability(body, days(body, 2), {1: 2500.0, 2: 2500.0}) is None


def test_a_week_has_one_and_eight_days_have_none() -> None:
    assert availability(MAN, days(MAN, MOST_DAYS), dict.fromkeys(range(1, 8), 2500.0)) is not None
    assert availability(MAN, days(MAN, 8), dict.fromkeys(range(1, 9), 2500.0)) is None
    assert availability(MAN, {}, {}) is None


def test_more_food_leaves_more_and_more_walking_less() -> None:
    def of(food: float, walking: float) -> float:
        found = availability(MAN, {1: day(MAN, walking)}, {1: food})
        assert found is not None
        return found.likely_kcal_kg

    assert of(2000.0, 1800.0) < of(2600.0, 1800.0)
    assert of(2600.0, 2400.0) < of(2600.0, 1800.0)


def test_walking_never_counts_below_nothing() -> None:
    found = availability(MAN, {1: day(MAN, 100.0, 6.0)}, {1: 2500.0})
    assert found is not None
    assert found.walking_kcal_day == 0.0


def test_the_consequence_holds_it_and_needs_no_shortfall_for_it() -> None:
    found = consequence(MAN, {1: day(MAN)}, {1: 6000.0})
    assert found.deficit_kcal < 0
    assert found.availability is not None
    assert found.availability.likely_kcal_kg > 45.0
