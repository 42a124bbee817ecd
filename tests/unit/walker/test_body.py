"""What a shortfall does, and when that deserves a word (C11)."""

from __future__ import annotations

import math

import pytest

from oatsack.values.plan import DayNeed
from oatsack.values.walker import Walker
from oatsack.walker import tissue
from oatsack.walker.body import cautions, consequence
from oatsack.walker.person import Body, body_of
from support.each import each
from support.people import CHILD, MAN, UNKNOWN, WOMAN


def used(days: int, kcal: float = 3500.0) -> dict[int, DayNeed]:
    return {
        n: DayNeed(
            energy_kcal=kcal, low_kcal=0.85 * kcal, high_kcal=1.15 * kcal, walking_kcal=0,
            camp_kcal=0, rest_kcal=0, sleep_kcal=0, thermic_kcal=0,
        )
        for n in range(1, days + 1)
    }  # fmt: skip


def eats(days: int, kcal: float) -> dict[int, float]:
    return dict.fromkeys(range(1, days + 1), kcal)


def keys(body: Body, days: int, kcal: float) -> list[str]:
    return [flag.key for flag in cautions(body, used(days), eats(days, kcal))]


def test_a_week_a_thousand_short_is_1_1_kg_of_tissue_and_up_to_one_of_water() -> None:
    found = consequence(MAN, used(7), eats(7, 2500.0))
    assert found.deficit_kcal == pytest.approx(7000.0)
    assert found.tissue_kg == pytest.approx(1.124, abs=0.001)
    assert (found.water_low_kg, found.water_high_kg) == (0.5, 1.0)
    assert found.tissue_low_kg < found.tissue_kg < found.tissue_high_kg
    assert found.share_of_mass == pytest.approx((1.124 + 0.75) / 75.0, abs=1e-4)


def test_the_range_joins_the_needs_range_and_the_walkers_fat() -> None:
    found = consequence(MAN, used(7), eats(7, 2500.0))
    fat = tissue.fat_kg(MAN)
    low = (0.85 * 3500 - 2500) * 7 / tissue.energy_kcal_per_kg(1.35 * fat)
    assert found.tissue_low_kg == pytest.approx(low)


def test_enough_food_costs_nothing() -> None:
    found = consequence(MAN, used(3), eats(3, 4200.0))
    assert found.deficit_kcal == pytest.approx(-2100.0)
    assert (found.tissue_kg, found.tissue_high_kg, found.share_of_mass) == (0.0, 0.0, 0.0)
    assert (found.water_low_kg, found.water_high_kg) == (0.0, 0.0)


def test_a_small_shortfall_takes_part_of_the_water_allowance() -> None:
    assert tissue.water_kg(1500.0) == (0.25, 0.5)
    assert tissue.water_kg(-500.0) == (0.0, 0.0)
    assert tissue.water_kg(90_000.0) == (0.5, 1.0)


def test_eating_enough_is_not_mentioned() -> None:
    assert keys(MAN, 5, 3400.0) == []


@each(("eaten", "said"), [(3330.0, []), (3320.0, ["body.shortfall"])])
def test_from_five_percent_on_a_shortfall_is_worth_its_line(eaten: float, said: list[str]) -> None:
    """Of 3,500 a day the line begins at 3,325."""
    assert keys(MAN, 5, eaten) == said


def test_eating_less_for_a_few_days_is_one_quiet_line() -> None:
    flags = cautions(MAN, used(5), eats(5, 2300.0), scope="need/anna")
    assert [(flag.key, flag.level) for flag in flags] == [("body.shortfall", "quiet")]
    values = flags[0].values
    assert values["n_days"] == 5
    assert float(values["low_kg"]) < float(values["high_kg"])
    assert flags[0].scope == "need/anna"


def test_less_than_the_body_uses_at_rest_is_a_caution() -> None:
    flags = cautions(MAN, used(2), {1: 2500.0, 2: 1500.0})
    assert [flag.key for flag in flags] == ["body.below-resting", "body.shortfall"]
    assert flags[0].values["n_days"] == 1
    assert flags[0].values["first"] == 2
    assert flags[0].level == "caution"


def test_a_part_day_is_judged_by_its_part_of_resting_use() -> None:
    flags = cautions(MAN, used(2), {1: 900.0, 2: 3400.0}, shares={1: 0.4, 2: 1.0})
    assert "body.below-resting" not in [flag.key for flag in flags]


def test_losing_more_than_three_percent_is_a_caution() -> None:
    assert "body.loss" not in keys(MAN, 7, 2500.0)
    assert "body.loss" in keys(MAN, 10, 2000.0)


def test_the_line_is_drawn_at_three_percent() -> None:
    for days in range(1, 25):
        found = consequence(MAN, used(days), eats(days, 2400.0))
        assert ("body.loss" in keys(MAN, days, 2400.0)) == (found.share_of_mass > 0.03)


def test_a_long_walk_far_below_need_is_a_caution() -> None:
    assert "body.long-far-below" in keys(MAN, 11, 2500.0)
    assert "body.long-far-below" not in keys(MAN, 10, 2500.0)
    assert "body.long-far-below" not in keys(MAN, 12, 2700.0)


def test_whoever_must_eat_in_full_hears_no_line_about_shortfall() -> None:
    ill = Body(mass_kg=70.0, condition="ill")
    for body in (CHILD, ill):
        assert keys(body, 7, 1000.0) == ["body.professional"]


def test_usual_fat_grows_with_age_and_is_higher_in_women() -> None:
    older = Body(mass_kg=75.0, height_cm=178.0, age_years=55.0, sex="male")
    woman = Body(mass_kg=75.0, height_cm=178.0, age_years=35.0, sex="female")
    assert tissue.fat_share(MAN) < tissue.fat_share(older)
    assert tissue.fat_share(MAN) < tissue.fat_share(woman)
    unstated = Body(mass_kg=75.0, height_cm=178.0, age_years=35.0)
    halfway = (tissue.fat_share(MAN) + tissue.fat_share(woman)) / 2
    assert tissue.fat_share(unstated) == pytest.approx(halfway)


def test_usual_fat_is_held_within_what_bodies_have() -> None:
    assert tissue.fat_share(Body(mass_kg=40.0, height_cm=195.0, sex="male")) == 0.05
    assert tissue.fat_share(Body(mass_kg=240.0, height_cm=150.0, sex="female")) == 0.60


def test_fat_after_is_exact_for_no_change() -> None:
    for fat in (2.0, 14.0, 60.0):
        assert tissue.fat_after(fat, 0.0) == pytest.approx(fat)
        assert not math.isnan(tissue.fat_after(fat, -0.9 * fat))


def test_a_bare_mass_gets_the_named_defaults() -> None:
    """40 years, average height, between the sexes; the range is widened for it."""
    body = body_of(Walker(id="x", name="X", mass_kg=68.0))
    assert (body.age_years, body.height_cm, body.sex) == (40.0, 169.5, None)
    assert body.guessed == ("age_years", "height_cm", "sex")
    assert not body.fully_fed


def test_a_stated_sex_brings_its_average_height() -> None:
    assert body_of(Walker(id="x", name="X", mass_kg=60.0, sex="female")).height_cm == 163.0
    assert body_of(Walker(id="x", name="X", mass_kg=60.0, sex="male")).height_cm == 176.0


def test_what_is_stated_is_taken() -> None:
    walker = Walker(
        id="x", name="X", mass_kg=62.0, sex="female", age_years=30.0, height_cm=165.0
    )
    assert body_of(walker) == WOMAN
    assert UNKNOWN.guessed
    assert CHILD.youth


def whole_days(count: int) -> dict[int, DayNeed]:
    """Days whose hours can be told from their parts: all rest, 24 hours of it."""
    rest = 1.3 * 1692.5
    return {
        n: DayNeed(
            energy_kcal=rest, low_kcal=0.85 * rest, high_kcal=1.15 * rest, walking_kcal=0,
            camp_kcal=0, rest_kcal=rest, sleep_kcal=0, thermic_kcal=0,
        )
        for n in range(1, count + 1)
    }  # fmt: skip


def test_halls_model_stands_beside_for_the_same_shortfall() -> None:
    """A week 500 short of 1.3 times rest, by the model itself; on the scales, water included."""
    from oatsack.walker.hall_2011 import mass_change_kg

    found = consequence(MAN, whole_days(7), eats(7, 1.3 * 1692.5 - 500.0))
    assert found.scales_hall_kg == pytest.approx(
        -mass_change_kg(MAN, -500.0, days=7, activity_level=1.3)
    )
    low = found.tissue_low_kg + found.water_low_kg
    assert 0.8 * low < found.scales_hall_kg < 1.25 * (found.tissue_high_kg + found.water_high_kg)


def test_without_a_shortfall_the_comparison_is_nothing() -> None:
    assert consequence(MAN, whole_days(7), eats(7, 3000.0)).scales_hall_kg == 0.0
    assert consequence(MAN, used(7), eats(7, 2500.0)).scales_hall_kg == 0.0  # no hours known
