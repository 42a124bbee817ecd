"""Counts, salt, caffeine, cans: what is counted, not weighed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.kitchen import caffeine, salt
from oatsack.kitchen.cans import EACH_G, choose, gross_g, grouped
from oatsack.kitchen.counts import count_lines, fills, first_fills, mugs, strength
from oatsack.kitchen.fuels import fuel_of
from oatsack.values.food import Nutrients, Prep
from oatsack.values.kit import FuelCan
from oatsack.values.kitchen import WaterDay
from oatsack.values.menu import Portion
from oatsack.values.walker import Count, Usual
from support.each import each
from support.kitchen import FOODS, days, food, menu_of, portion, walker

GAS = fuel_of("gas").cans


def test_bottles_are_drunk_in_turn() -> None:
    assert fills(2500.0, (1000.0, 750.0)) == ((0, 1.75), (1, 1.0))
    assert fills(400.0, (1000.0, 1000.0)) == ((0, 0.4), (1, 0.0))
    assert fills(0.0, (1000.0,)) == ((0, 0.0),)


def test_bottle_fills_hold_the_days_water() -> None:
    for litres in (300.0, 1234.0, 3250.0):
        held = sum((1000.0, 750.0)[i] * n for i, n in fills(litres, (1000.0, 750.0)))
        assert held == pytest.approx(litres)


@each(
    ("bottle", "share"), [(473.0, 1.0), (500.0, 0.946), (700.0, 0.676), (1000.0, 0.473)]
)
def test_a_tablet_is_for_a_pint_of_water(bottle: float, share: float) -> None:
    # common practice: one effervescent tablet for 16 fl oz
    assert strength(bottle, 1) == pytest.approx(share, abs=0.0005)
    assert strength(bottle, 2) == pytest.approx(2.0 * strength(bottle, 1))
    assert strength(bottle, 1, bottle) == 1.0


def test_mugs_are_hot_drinks_only() -> None:
    portions = [portion("anna", 1, "drinks", "coffee", 2.0), portion("anna", 1, "dinner", "pouch"),
                portion("bert", 1, "drinks", "coffee", 5.0)]  # fmt: skip
    assert mugs(portions, FOODS, "anna") == {1: 2.0}


def test_the_first_bottle_is_filled_in_turn_with_the_others() -> None:
    # 3.25 l from two bottles of a litre: the first twice, the second once and a quarter
    assert first_fills(3250.0, (1000.0, 1000.0)) == 2
    assert first_fills(400.0, (1000.0, 1000.0)) == 1
    assert first_fills(0.0, (1000.0,)) == 0


def by_habit(count: Count, *portions: Portion, bottles: tuple[float, ...] = (1000.0, 1000.0)):
    who = walker(usual=Usual(counts=(count,)))
    return count_lines(menu_of(portions), FOODS | SMALL, [who], bottles).get("anna", {})


SMALL = {
    "tablet": food("tablet", role="small", prep=Prep(kind="soak", water_ml=500.0)),
    "sachet": food("sachet", role="small"),
}


def packed(name: str, number: int, doses: float) -> Portion:
    return replace(portion("anna", number, "drinks", name, doses), why="count")


def test_half_a_sachet_a_day_is_two_on_four_days() -> None:
    halves = [packed("sachet", n, 0.5) for n in range(1, 5)]
    got = by_habit(Count(food="sachet", count=0.5), *halves)
    assert got["sachet"].take == 2.0
    assert sum(got["sachet"].by_day.values()) == 2.0


def test_a_tablet_goes_into_the_first_bottle_and_says_what_water_it_is_made_for() -> None:
    got = by_habit(
        Count(food="tablet", count=1.0, per="bottle"), packed("tablet", 1, 2.0),
        bottles=(750.0, 1000.0),
    )["tablet"]  # fmt: skip
    assert (got.per, got.each, got.bottle_ml, got.made_for_ml) == ("bottle", 1.0, 750.0, 500.0)
    assert strength(got.bottle_ml, got.each, got.made_for_ml) == pytest.approx(2.0 / 3.0)


def test_only_what_the_menu_packs_by_habit_is_counted() -> None:
    chosen = portion("anna", 1, "drinks", "sachet", 3.0)
    assert by_habit(Count(food="sachet", count=1.0), chosen) == {}


def test_the_strongest_day_and_thing_stand_beside_the_limits() -> None:
    menu, foods = cups(2.0, 3.0)
    (line,) = caffeine.caffeine_lines(menu, foods, [walker(caffeine_mg_day=250.0)]).values()
    assert (line.most_mg, line.most_day, line.single_mg) == (285.0, 2, 95.0)
    assert (line.day_cap_mg, line.single_cap_mg, line.usual_mg) == (400.0, 200.0, 250.0)
    (two,) = caffeine.caffeine_lines(menu, foods, [walker(condition="pregnant")]).values()
    assert two.day_cap_mg == 200.0
    assert caffeine.caffeine_lines(menu_of([]), foods, [walker()]) == {}


def test_sodium_of_one_and_four_litres_of_sweat() -> None:
    # Baker2016: 35.9 mmol/l; hand sums at 20, 36, 50, 70 mmol/l
    for mmol, mg in ((20.0, 460), (36.0, 828), (50.0, 1149), (70.0, 1609)):
        assert salt.sodium_mg(1.0, mmol) == pytest.approx(mg, abs=1.0)
    # 58.44 g of table salt hold 22.99 g of sodium: four litres at 36 mmol/l are 8.4 g of it
    assert salt.sodium_mg(4.0, 36.0) * 58.44 / 22.99 / 1000.0 == pytest.approx(8.4, abs=0.05)


def water(low: float, high: float) -> WaterDay:
    return WaterDay(walking_suggested_ml=0.0, sweat_low_ml=low, sweat_high_ml=high, cooking_ml=0.0,
                    washing_ml=0.0, camp_drinks_ml=0.0,
                    sodium_low_mg=salt.sodium_mg(low / 1000.0, salt.SWEAT_MMOL_L[0]),
                    sodium_high_mg=salt.sodium_mg(high / 1000.0, salt.SWEAT_MMOL_L[2]))  # fmt: skip


SALTY = {"jerky": food("jerky", per_100g=Nutrients(energy_kcal=300.0, sodium_mg=2000.0))}


def test_sodium_eaten_stands_beside_sodium_lost_as_a_range() -> None:
    menu = menu_of([portion("anna", 1, "lunch", "jerky", 0.5)])
    got = salt.sodium_days(menu, SALTY, {"anna": {"1": water(1000.0, 3000.0)}})["anna"]["1"]
    assert got.eaten_mg == pytest.approx(1000.0)
    assert got.lost_low_mg == pytest.approx(25.5 * 22.99)
    assert got.lost_high_mg == pytest.approx(3.0 * 46.3 * 22.99)


def test_an_ordinary_day_stays_quiet_about_salt_and_a_hot_one_speaks_once() -> None:
    menu = menu_of([portion("anna", n, "lunch", "jerky") for n in (1, 2)])
    calm = {"anna": {"1": water(1500.0, 3500.0), "2": water(1500.0, 3500.0)}}
    hot = {"anna": {"1": water(6500.0, 9000.0), "2": water(7000.0, 9500.0)}}
    assert list(salt.sodium_flags(salt.sodium_days(menu, SALTY, calm))) == []
    (flag,) = salt.sodium_flags(salt.sodium_days(menu, SALTY, hot))
    assert flag.level == "quiet"
    assert flag.values["day"] == 2


def cups(*per_day: float, mg: float = 95.0):
    brew = food("brew", dose_g=100.0, per_100g=Nutrients(caffeine_mg=mg))
    menu = menu_of([portion("anna", n, "drinks", "brew", c) for n, c in enumerate(per_day, 1)])
    return menu, {"brew": brew}


def told(menu, foods, **fields) -> list[str]:
    flags = caffeine.caffeine_flags(menu, foods, walkers=[walker(**fields)], days=days(4))
    return [f.key.removeprefix("kitchen.") for f in flags]


def test_four_cups_are_harmless_and_five_are_said_once() -> None:
    # EfsaCaffeine2015: 400 mg a day for adults
    assert told(*cups(4, 4, 4, 4)) == []
    assert told(*cups(5, 5, 5, 5)) == ["caffeine-day"]


@each("condition", ["pregnant", "nursing"])
def test_the_limit_is_half_when_expecting(condition: str) -> None:
    # EfsaCaffeine2015: 200 mg a day
    assert told(*cups(2, 2, 2, 2), condition=condition) == []
    assert told(*cups(3, 3, 3, 3), condition=condition) == ["caffeine-expecting"]


def test_the_young_are_held_to_their_body_mass() -> None:
    # EfsaCaffeine2015: 3 mg a day for each kg of children and adolescents
    young = {"age_years": 9.0, "mass_kg": 32.0}
    assert told(*cups(2, 2, 2, 2, mg=48.0), **young) == []
    assert told(*cups(3, 3, 3, 3, mg=48.0), **young) == ["caffeine-young"]
    assert told(*cups(3, 3, 3, 3, mg=48.0), age_years=18.0, mass_kg=32.0) == []
    assert "caffeine-single" in told(*cups(1, mg=97.0), **young)
    assert "caffeine-single" not in told(*cups(1, mg=97.0), mass_kg=32.0)
    (line,) = caffeine.caffeine_lines(*cups(2.0), [walker(**young)]).values()
    assert (line.day_cap_mg, line.single_cap_mg) == (96.0, 96.0)


def test_one_strong_cup_is_said() -> None:
    # EfsaCaffeine2015: 200 mg at once
    assert told(*cups(1, 1, 1, 1, mg=250.0)) == ["caffeine-single"]


def unread(doses: float, *, name: str = "Ground coffee", grams: float = 15.0):
    """So many cups a day of something whose label says nothing of caffeine."""
    plain = food("brew", category="drink", role="drink", dose_g=grams,
                 per_100g=Nutrients(energy_kcal=300.0))  # fmt: skip
    brew = replace(plain, name=name)
    menu = menu_of([portion("anna", n, "drinks", "brew", doses) for n in (1, 2, 3)])
    return menu, {"brew": brew}


def test_a_blank_counts_as_the_high_value_of_its_kind_against_a_limit_and_as_nothing_else() -> None:
    """C2. Coffee may hold 3,300 mg in 100 g: 15 g of it 495 mg at once."""
    menu, foods = unread(1.0)
    assert caffeine.dose_mg(foods["brew"]) == 0.0
    assert caffeine.dose_mg(foods["brew"], high=True) == pytest.approx(495.0)
    assert caffeine.by_day_mg(menu, foods)["anna"] == {1: 0.0, 2: 0.0, 3: 0.0}
    assert caffeine.by_day_mg(menu, foods, high=True)["anna"][2] == pytest.approx(495.0)
    assert caffeine.single_mg(menu, foods, "anna", high=True) == pytest.approx(495.0)
    assert caffeine.caffeine_lines(menu, foods, [walker()]) == {}


def test_what_no_label_states_is_said_to_be_counted_high() -> None:
    flags = [*caffeine.caffeine_flags(*unread(1.0), walkers=[walker()], days=days(3))]
    assert [(f.key, f.level) for f in flags] == [("kitchen.caffeine-unread", "quiet")]
    assert flags[0].values["food"] == "brew"
    assert flags[0].values["caffeine_mg"] == pytest.approx(495.0)
    assert flags[0].values["limit_mg"] == 400.0


def test_a_blank_that_can_hold_little_or_nothing_is_not_spoken_of() -> None:
    assert told(*unread(1.0, name="Lemon drink")) == []
    assert told(*unread(1.0, grams=2.0)) == []  # 66 mg
    assert told(*unread(1.0, grams=2.0), age_years=9.0, mass_kg=20.0) == ["caffeine-unread"]


def test_a_strong_cup_at_once_is_said_where_the_day_keeps_to_its_limit() -> None:
    """7 g of an unread coffee are 231 mg: more than 200 at once, less than 400 a day."""
    flags = [*caffeine.caffeine_flags(*unread(1.0, grams=7.0), walkers=[walker()], days=days(3))]
    (flag,) = flags
    assert (flag.values["caffeine_mg"], flag.values["limit_mg"]) == (pytest.approx(231.0), 200.0)


def test_what_is_stated_and_too_much_is_said_before_what_is_not_stated() -> None:
    menu, foods = cups(5, 5, 5)
    more, blank = unread(1.0)
    both = menu_of([*menu.portions, *(replace(p, food="blank") for p in more.portions)])
    assert told(both, {**foods, "blank": replace(blank["brew"], id="blank")}) == ["caffeine-day"]


def test_a_blank_serves_no_habit() -> None:
    """Towards a floor it counts as nothing (C2)."""
    assert "caffeine-less" in told(*unread(1.0, grams=2.0), caffeine_mg_day=300.0)


def test_two_weak_cups_are_not_one_strong_one() -> None:
    assert caffeine.single_mg(*cups(3), "anna") == pytest.approx(95.0)


def test_a_habit_that_breaks_off_is_said() -> None:
    # common practice: the headache of the second day
    assert told(*cups(3, 0, 0, 3), caffeine_mg_day=300.0) == ["caffeine-less"]
    assert told(*cups(3, 3, 3, 3), caffeine_mg_day=300.0) == []


def test_first_and_last_day_do_not_count_as_breaking_off() -> None:
    assert told(*cups(0, 3, 3, 0), caffeine_mg_day=300.0) == []


def test_nobody_is_told_who_does_not_drink_it() -> None:
    assert told(*cups(0, 0, 0, 0)) == []
    assert told(*cups(0, 0, 0, 0), caffeine_mg_day=40.0) == []


def test_an_opened_can_counts_by_its_weight() -> None:
    # common practice: a 110 g net can weighs about 211 g full
    can = FuelCan(net_g=110.0, empty_g=101.0, gross_now_g=161.0)
    assert can.fuel_g == 60.0
    assert gross_g(can) == 161.0
    assert FuelCan(net_g=110.0, empty_g=101.0, gross_now_g=90.0).fuel_g == 0.0


def test_an_opened_can_that_suffices_is_taken_alone() -> None:
    opened = FuelCan(net_g=100.0, empty_g=100.0, gross_now_g=160.0)
    assert choose(48.0, (opened, *GAS)) == (opened,)


def test_an_opened_can_is_topped_up_where_that_is_lighter() -> None:
    opened = FuelCan(net_g=100.0, empty_g=100.0, gross_now_g=160.0)
    assert grouped(choose(180.0, (opened, *GAS))) == ((230.0, 1),)
    assert grouped(choose(280.0, (opened, *GAS))) == ((230.0, 1), (60.0, 1))


@each(
    ("need", "cans"),
    [
        (0.0, ()), (48.0, ((100.0, 1),)), (108.0, ((230.0, 1),)), (185.0, ((230.0, 1),)),
        (240.0, ((450.0, 1),)), (2000.0, ((450.0, 4), (230.0, 1))), (2100.0, ((450.0, 5),)),
    ],
)  # fmt: skip
def test_few_and_light_common_cans(need: float, cans: tuple) -> None:
    # common practice for 108 g: one 100 g can is not enough; 175 to 190 g: one of 230
    assert grouped(choose(need, GAS)) == cans


def test_no_set_of_two_sizes_is_better() -> None:
    sizes = [can for can in GAS if can.net_g < 300.0]
    for need in range(20, 900, 37):
        best = sum(gross_g(c) + EACH_G for c in choose(float(need), sizes))
        for a in range(12):
            for b in range(6):
                if 100.0 * a + 230.0 * b >= need:
                    assert best <= 300.0 * a + 480.0 * b + 1e-9


def test_opened_cans_alone_are_all_taken_when_they_do_not_suffice() -> None:
    few = tuple(FuelCan(net_g=100.0, empty_g=100.0, gross_now_g=g) for g in (130.0, 150.0))
    assert sorted(c.fuel_g for c in choose(200.0, few)) == [30.0, 50.0]
