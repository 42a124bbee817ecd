"""Where the kitchen changes its mind: each limit of heat, fuel, water, caffeine and keeping."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations_with_replacement
from math import sqrt
from typing import Any

import pytest

from oatsack.errors import UsageError
from oatsack.kitchen import caffeine, canister, carries, drinking, keeping, salt, sweat
from oatsack.kitchen.boiltest import Boil, boil_test
from oatsack.kitchen.cans import EACH_G, choose, gross_g, grouped
from oatsack.kitchen.carries import Demand, Supply
from oatsack.kitchen.counts import count_lines, fills, first_fills, mugs
from oatsack.kitchen.fuelplan import fuel_plan, half_litre_g
from oatsack.kitchen.fuels import fuel_of, substances
from oatsack.kitchen.heat import enthalpy_kj_kg
from oatsack.kitchen.nesting import Thing, can_size, check_list, depth_mm, mug_share, nest
from oatsack.kitchen.price import flame
from oatsack.values.food import Keep, Nutrients, Prep
from oatsack.values.kit import FuelCan, Kit, Pot, Stove
from oatsack.values.kitchen import Conditions, MealLedger
from oatsack.values.menu import Menu, Pool, Portion
from oatsack.values.trip import Rules
from oatsack.values.walker import Count, Usual
from support.each import each
from support.kitchen import FOODS, day, days, food, menu_of, place, portion, walker

# The walker's own stove

LHV = fuel_of("gas").lhv_mj_kg


def a_boil(burnt_g: float, **more: Any) -> Boil:
    """A litre from 15 to 90 deg C without a pot, for so much fuel."""
    fields = {"water_ml": 1000.0, "from_c": 15.0, "to_c": 90.0, "before_g": 300.0,
              "after_g": 300.0 - burnt_g} | more  # fmt: skip
    return Boil(**fields)


HEAT_KJ = enthalpy_kj_kg(90.0) - enthalpy_kj_kg(15.0)


@each(
    ("burnt", "why"),
    [(0.0, "burnt no fuel"), (-1.0, "burnt no fuel"), (HEAT_KJ / LHV * 0.999, "100% efficient"),
     (HEAT_KJ / LHV * 0.5, "200% efficient")],
)  # fmt: skip
def test_a_boil_that_cannot_be_is_named_by_its_number(burnt: float, why: str) -> None:
    with pytest.raises(UsageError, match=f"boil 2 .*{why}"):
        boil_test([a_boil(12.0), a_boil(burnt)], "gas")


@each(("count", "enough"), [(1, False), (2, False), (3, True), (4, True)])
def test_equal_boils_are_wrong_by_the_scale_alone(count: int, enough: bool) -> None:
    found = boil_test([a_boil(12.0)] * count, "gas", scale_g=1.0)
    eta = HEAT_KJ / (12.0 * LHV)
    # Each boil is weighed twice to a gram: a sum of n differences is uncertain by sqrt(n / 6).
    scale = eta * sqrt(count / 6.0) / (12.0 * count)
    scatter = 0.07 * eta if count == 1 else 0.0
    assert found.efficiency == pytest.approx(eta)
    assert found.error == pytest.approx(sqrt(scale**2 + scatter**2))
    assert (found.enough, found.boils) == (enough, count)


def test_two_boils_scatter_by_half_their_difference() -> None:
    # Oracle: the standard error of the mean of two figures is half of what they differ by.
    found = boil_test([a_boil(10.0), a_boil(14.0)], "gas", scale_g=0.0)
    one, other = found.each
    assert found.error == pytest.approx(abs(one - other) / 2.0)
    assert found.efficiency == pytest.approx(2 * HEAT_KJ / (24.0 * LHV))  # heat over fuel, summed
    assert (found.low, found.high) == pytest.approx(
        (found.efficiency - 2 * found.error, found.efficiency + 2 * found.error)
    )


def test_two_standard_errors_never_leave_what_a_stove_can_do() -> None:
    low = boil_test([a_boil(7.0), a_boil(60.0)], "gas")  # 97 and 11 %
    assert low.efficiency < 2 * low.error
    assert low.low == 0.0
    high = boil_test([a_boil(7.0), a_boil(10.0)], "gas")
    assert high.efficiency + 2 * high.error > 1.0
    assert high.high == 1.0


def test_power_counts_the_boils_that_were_timed_and_no_others() -> None:
    timed, untimed = a_boil(12.0, minutes=5.0), a_boil(30.0)
    alone = boil_test([timed, timed], "gas").power_w
    assert alone == pytest.approx(12.0 * LHV * 1000.0 / 300.0)
    assert boil_test([timed, untimed, timed], "gas").power_w == pytest.approx(alone)
    assert boil_test([untimed], "gas").power_w is None


# Cans

SIZES = (FuelCan(net_g=100.0, empty_g=100.0), FuelCan(net_g=230.0, empty_g=150.0),
         FuelCan(net_g=450.0, empty_g=200.0))  # fmt: skip


@each(
    ("need", "take"),
    [
        (0.0, ()), (-5.0, ()), (1e-12, ()), (0.1, ((100.0, 1),)), (100.0, ((100.0, 1),)),
        (100.1, ((230.0, 1),)), (230.0, ((230.0, 1),)), (231.0, ((450.0, 1),)),
        (451.0, ((230.0, 2),)), (461.0, ((450.0, 1), (100.0, 1))),
        (550.1, ((450.0, 1), (230.0, 1))),
    ],
)  # fmt: skip
def test_the_lightest_set_of_cans_with_a_hundred_grams_for_each(
    need: float, take: tuple[tuple[float, int], ...]
) -> None:
    assert grouped(choose(need, SIZES)) == take


def test_no_set_of_cans_is_better_than_the_chosen_one() -> None:
    """Brute force over all sets of up to five cans."""
    every = [s for n in range(1, 6) for s in combinations_with_replacement(SIZES, n)]
    for need in range(10, 900, 37):
        def worth(take: tuple[FuelCan, ...]) -> float:
            return sum(gross_g(can) + EACH_G for can in take)

        fits = [worth(s) for s in every if sum(c.fuel_g for c in s) >= need]
        assert worth(choose(float(need), SIZES)) == pytest.approx(min(fits)), need


def test_an_opened_can_is_one_can_and_an_empty_one_none() -> None:
    opened = FuelCan(net_g=230.0, empty_g=150.0, gross_now_g=220.0)
    empty = FuelCan(net_g=230.0, empty_g=150.0, gross_now_g=150.0)
    large = SIZES[1:]
    assert choose(60.0, (*large, opened, empty)) == (opened,)
    assert choose(71.0, (*large, opened, empty)) == (SIZES[1],)  # 70 g would not do
    assert choose(60.0, (*SIZES, opened)) == (SIZES[0],)  # a full small one is lighter
    two = choose(150.0, (opened, opened))
    assert two == (opened, opened)  # all there is, though it does not suffice
    assert grouped(two) == ((70.0, 2),)


def test_of_sets_that_weigh_alike_the_fuller_is_taken() -> None:
    lean, full = FuelCan(net_g=100.0, empty_g=120.0), FuelCan(net_g=110.0, empty_g=110.0)
    assert choose(90.0, (lean, full)) == choose(90.0, (full, lean)) == (full,)


# Fuel over the trip


def meal(number: int, fuel_g: float) -> MealLedger:
    return MealLedger(day=number, meal="dinner", walkers=("anna",), boiled_ml=0.0, cold_ml=0.0,
                      wash_ml=0.0, heat_kj=0.0, fuel_g=fuel_g, minutes=0.0)  # fmt: skip


@each(
    ("windy", "reserve"),
    [(frozenset(), 10.0 + 7.0), (frozenset({1}), 3.0 + 7.0), (frozenset({1, 2}), 7.0),
     (frozenset({9}), 17.0)],
)  # fmt: skip
def test_the_reserve_is_a_tenth_of_the_calm_days_and_half_a_litre(
    windy: frozenset[int], reserve: float
) -> None:
    plan = fuel_plan([meal(1, 40.0), meal(1, 30.0), meal(2, 30.0)], Kit(), days=(1, 2, 3),
                     windy=windy, reserve_boil_g=7.0)  # fmt: skip
    assert plan is not None
    assert plan.by_day_g == {"1": 70.0, "2": 30.0, "3": 0.0}
    assert (plan.burnt_g, plan.reserve_g) == (100.0, pytest.approx(reserve))
    assert plan.need_g == pytest.approx(100.0 + reserve)
    assert plan.left_g == pytest.approx(plan.carried_g - 100.0)


def test_wood_is_gathered_and_nothing_is_carried_for_later() -> None:
    kit = Kit(stove=Stove(kind="wood-stove", fuel="wood"))
    plan = fuel_plan([meal(1, 500.0)], kit, days=(1,), windy=frozenset(), reserve_boil_g=0.0)
    assert plan is not None
    assert plan.carried_g == plan.need_g == pytest.approx(550.0)


def test_nothing_burnt_or_no_stove_is_no_fuel_plan() -> None:
    more = {"days": (1,), "windy": frozenset[int](), "reserve_boil_g": 5.0}
    assert fuel_plan([meal(1, 0.0)], Kit(), **more) is None  # type: ignore[arg-type]
    assert fuel_plan([meal(1, 9.0)], Kit(stove=None), **more) is None  # type: ignore[arg-type]


def test_the_half_litre_is_boiled_where_it_costs_most() -> None:
    mild, cold = (flame(Conditions(air_c=c, water_c=w), Stove()) for c, w in ((15, 15), (-5, 2)))
    assert half_litre_g([mild, cold]) == half_litre_g([cold])
    assert half_litre_g([cold]) == pytest.approx(0.5 * cold.boil_kj_kg * cold.fuel_g_kj)
    assert half_litre_g([]) == 0.0


# Gas in the cold


def test_a_mix_pushes_between_its_parts_and_a_pure_can_as_its_gas() -> None:
    pure = canister.moles({"propane": 1.0})
    assert canister.mix_kpa(pure, 0.0) == pytest.approx(canister.vapour_kpa("propane", 0.0))
    half = canister.mix_kpa({"propane": 1.0, "isobutane": 1.0}, 0.0)
    ends = [canister.vapour_kpa(name, 0.0) for name in ("propane", "isobutane")]
    assert half == pytest.approx(sum(ends) / 2.0)  # Raoult


@each("left", [0.05, 0.1, 0.5, 0.9, 1.0])
def test_a_can_fed_as_vapour_holds_the_mass_that_is_left(left: float) -> None:
    start = canister.moles(canister.MIX)
    found = canister.stripped(canister.MIX, -5.0, left)
    mass = sum(n * substances()[name].molar_g for name, n in found.items())
    assert mass == pytest.approx(left, rel=1e-9)
    # Rayleigh's law: logarithms of what is left go as the pressures.
    if left < 1.0:
        from math import log

        ratio = log(found["propane"] / start["propane"]) / log(
            found["isobutane"] / start["isobutane"]
        )
        push = [canister.vapour_kpa(name, -5.0) for name in ("propane", "isobutane")]
        assert ratio == pytest.approx(push[0] / push[1], rel=1e-6)


# Water


@each(("height", "minutes"), [(0.0, 1.0), (1980.0, 1.0), (1981.0, 3.0), (2500.0, 3.0)])
def test_above_6500_feet_water_boils_three_minutes(height: float, minutes: float) -> None:
    assert drinking.boil_minutes(height) == minutes  # CDCBoil


@each(
    ("warm", "rule", "rate"),
    [(26.9, 500.0, 500.0), (27.0, 500.0, 750.0), (35.0, 947.0, 1420.0), (20.0, 2000.0, 1420.0)],
)
def test_half_as_much_again_from_27_degrees_and_never_above_the_cap(
    warm: float, rule: float, rate: float
) -> None:
    assert drinking.rate_ml_h(day(warm_c=warm), Rules(water_ml_h=rule)) == pytest.approx(rate)


@each(
    ("hot_drinks", "camp", "last"), [(250.0, 1000.0, False), (1500.0, 1500.0, False),
                                     (250.0, 250.0, True), (0.0, 0.0, True)]
)  # fmt: skip
def test_camp_water_holds_the_hot_drinks_and_a_day_that_ends_at_home_has_no_other(
    hot_drinks: float, camp: float, last: bool
) -> None:
    found = drinking.water_day(day(last=last), walker(), Rules(), cooking_ml=1.0, washing_ml=2.0,
                               hot_drinks_ml=hot_drinks)  # fmt: skip
    assert (found.camp_drinks_ml, found.hot_drinks_ml) == (camp, hot_drinks)
    assert found.walking_suggested_ml == pytest.approx(7.0 * 500.0)


@each(("hot_drinks", "walking"), [(1000.0, 9940.0), (5000.0, 6360.0), (12_000.0, 0.0)])
def test_walking_and_camp_together_stay_under_the_days_cap(
    hot_drinks: float, walking: float
) -> None:
    # 7 h at the hourly cap are 9,940 ml; TBMED507 allows 11,360 in a day.
    rules = Rules(water_ml_h=1420.0)
    found = drinking.water_day(day(warm_c=35.0), walker(), rules, cooking_ml=0.0, washing_ml=0.0,
                               hot_drinks_ml=hot_drinks)  # fmt: skip
    assert found.walking_suggested_ml == pytest.approx(walking)


@each(
    ("air", "work", "model", "outside", "hot"),
    [
        (15.0, 150.0, "table", (), False),
        (14.9, 150.0, "table", ("air_c",), False),
        (36.0, 350.0, "table", (), False),
        (36.1, 350.0, "equation", ("air_c",), False),
        (30.0, 149.0, "table", ("work_w_m2",), False),
        (30.0, 401.0, "equation", ("work_w_m2",), False),
        (33.0, 400.0, "equation", (), True),  # a blank: too hot within four hours
        (33.0, 350.0, "table", (), False),
        (40.0, 500.0, "equation", ("air_c", "work_w_m2"), True),
    ],
)
def test_the_table_speaks_inside_its_limits_and_the_equation_beyond(
    air: float, work: float, model: str, outside: tuple[str, ...], hot: bool
) -> None:
    found = sweat.sweat(air, work)
    assert (found.model, found.outside, found.too_hot) == (model, outside, hot)
    assert (found.low_ml, found.high_ml) == pytest.approx(
        (0.6 * found.likely_ml, 1.4 * found.likely_ml)
    )


def test_a_figure_of_the_table_is_its_printed_value_and_halfway_the_mean_of_four() -> None:
    # ISO 7933:2004 by pythermalcomfort, as printed in the table of the module.
    assert sweat.table_l_h(21.0, 250.0) == pytest.approx(0.360)
    corners = (0.290, 0.419, 0.360, 0.492)
    assert sweat.table_l_h(19.5, 275.0) == pytest.approx(sum(corners) / 4.0)
    assert sweat.table_l_h(36.0, 400.0) is None
    small = sweat.sweat(21.0, 250.0, area_m2=sweat.TABLE_AREA_M2 / 2.0)
    assert small.likely_ml == pytest.approx(180.0)


def test_beyond_46_degrees_and_450_watts_the_equation_stands_still() -> None:
    assert sweat.sweat(60.0, 300.0).likely_ml == sweat.sweat(46.0, 300.0).likely_ml
    assert sweat.sweat(40.0, 900.0).likely_ml == sweat.sweat(40.0, 450.0).likely_ml
    assert sweat.equation_g_m2_h(15.0, 0.0) == 0.0  # never less than none


@each(
    ("start", "end", "ml"),
    [(0.0, 60.0, 0.0), (60.0, 90.0, 300.0), (90.0, 120.0, 300.0), (0.0, 500.0, 600.0),
     (120.0, 200.0, 0.0)],
)  # fmt: skip
def test_water_used_evenly_counts_by_the_minutes_that_overlap(
    start: float, end: float, ml: float
) -> None:
    assert Demand(start=60.0, end=120.0, water_ml=600.0).within(start, end) == pytest.approx(ml)


@each(
    ("start", "end", "counts"), [(0.0, 60.0, True), (60.0, 90.0, False), (0.0, 59.9, False)]
)
def test_water_used_at_a_moment_counts_up_to_it_and_not_after(
    start: float, end: float, counts: bool
) -> None:
    assert Demand(start=60.0, end=60.0, water_ml=5.0).within(start, end) == 5.0 * counts


@each(
    ("apart", "kept"), [(14.0, False), (15.0, False), (16.0, True)]
)
def test_a_spring_a_quarter_of_an_hour_before_another_is_passed_over(
    apart: float, kept: bool
) -> None:
    one = day(last=True, water=(place("First", 600.0, 3000.0),
                                place("Second", 600.0 + apart, 3400.0)))  # fmt: skip
    names = [found.name for found in carries.supplies([one])]
    assert names == ["start", *["First"] * kept, "Second", "end"]


def test_the_start_is_kept_however_near_the_first_spring_lies() -> None:
    one = day(last=True, water=(place("First", 515.0, 100.0),))
    assert [found.name for found in carries.supplies([one])] == ["start", "First", "end"]


def test_a_camp_supplies_from_arriving_until_leaving_it() -> None:
    first, last = days(2)
    _, camp, _ = carries.supplies([first, last])
    assert camp == Supply(name="camp 1", day=1, at=930.0, until=1440.0 + 510.0,
                          distance_m=16_000.0)  # fmt: skip
    dry = replace(first, camp_dry=True)
    assert [found.name for found in carries.supplies([dry, last])] == ["start", "end"]


# Caffeine and salt


def cups(*doses: tuple[int, str, float]) -> Menu:
    """So many sticks of 62.84 mg at a meal of a day."""
    return menu_of(portion("anna", n, m, "coffee", d) for n, m, d in doses)  # type: ignore[arg-type]


CUP_MG = 62.84


def strong(mg: float) -> dict[str, Any]:
    """The foods, with coffee of so much caffeine a dose."""
    per = Nutrients(energy_kcal=0.0, caffeine_mg=mg * 50.0)
    return {**FOODS, "coffee": replace(FOODS["coffee"], per_100g=per)}


def told(menu: Menu, foods: Any = FOODS, count: int = 3, **who: Any) -> list[str]:
    found = caffeine.caffeine_flags(menu, foods, walkers=[walker(**who)], days=days(count))
    return [flag.key.removeprefix("kitchen.caffeine-") for flag in found]


@each(
    ("mg", "condition", "keys"),
    [
        (200.0, "none", []),  # two of 200: 400 a day and 200 at once
        (200.1, "none", ["day", "single"]),
        (100.0, "pregnant", []),
        (100.1, "pregnant", ["expecting"]),
        (100.1, "nursing", ["expecting"]),
        (100.1, "ill", []),
    ],
)
def test_caffeine_is_told_above_400_a_day_200_at_once_and_200_for_two(
    mg: float, condition: str, keys: list[str]
) -> None:
    # EfsaCaffeine2015
    assert told(cups((2, "drinks", 2.0)), strong(mg), condition=condition) == keys


def test_what_is_drunk_at_one_meal_counts_together_and_over_the_day_one_by_one() -> None:
    for meal_, most in (("drinks", CUP_MG), ("move", CUP_MG), ("breakfast", 3 * CUP_MG)):
        assert caffeine.single_mg(cups((1, meal_, 3.0)), FOODS, "anna") == pytest.approx(most)
    assert caffeine.single_mg(cups((1, "breakfast", 3.0)), FOODS, "bert") == 0.0


@each(
    ("habit", "poor_day", "doses", "keys"),
    [
        (100.0, 2, 0.79, ["less"]),  # 49.6 mg of 100
        (100.0, 2, 0.80, []),
        (99.0, 2, 0.0, []),  # hardly used to it
        (None, 2, 0.0, []),
        (100.0, 1, 0.0, []),  # travel days do not count
        (100.0, 3, 0.0, []),
    ],
)
def test_who_is_used_to_coffee_is_told_of_days_with_less_than_half(
    habit: float | None, poor_day: int, doses: float, keys: list[str]
) -> None:
    menu = cups(*((n, "drinks", doses if n == poor_day else 2.0) for n in (1, 2, 3)))
    assert told(menu, caffeine_mg_day=habit) == keys


def test_on_a_walk_of_two_days_both_count() -> None:
    assert told(cups((1, "drinks", 2.0)), count=2, caffeine_mg_day=100.0) == ["less"]


def test_the_strongest_day_stands_in_the_line_and_who_takes_none_has_no_line() -> None:
    menu = cups((1, "drinks", 1.0), (2, "drinks", 3.0), (3, "drinks", 2.0))
    lines = caffeine.caffeine_lines(menu, FOODS, [walker(), walker("bert")])
    assert list(lines) == ["anna"]
    one = lines["anna"]
    assert (one.most_day, one.most_mg) == (2, pytest.approx(3 * CUP_MG))
    assert (one.day_cap_mg, one.single_cap_mg, one.usual_mg) == (400.0, 200.0, None)
    assert caffeine.caffeine_lines(menu, strong(0.0), [walker()]) == {}


@each(("lost", "told_of"), [(1500.0, False), (1501.0, True)])
def test_salt_is_told_where_the_least_loss_passes_what_is_eaten_by_a_gram_and_a_half(
    lost: float, told_of: bool
) -> None:
    def one(low: float, eaten: float = 500.0) -> salt.SodiumDay:
        return salt.SodiumDay(eaten_mg=eaten, lost_low_mg=low, lost_high_mg=2 * low)

    found = {"anna": {"1": one(700.0), "2": one(500.0 + lost), "3": one(900.0)}, "bert": {}}
    flags = list(salt.sodium_flags(found))
    assert [flag.scope for flag in flags] == (["eaten/anna/2"] if told_of else [])


def test_sodium_eaten_is_summed_by_walker_and_day_and_blank_counts_as_nothing() -> None:
    salty = food("crisps", per_100g=Nutrients(sodium_mg=600.0), dose_g=50.0)
    foods = {**FOODS, "crisps": salty}
    menu = menu_of([portion("anna", 1, "move", "crisps", 2.0), portion("anna", 1, "move", "bar"),
                    portion("bert", 2, "move", "crisps")])  # fmt: skip
    assert salt.eaten_mg(menu, foods) == {"anna": {1: 600.0}, "bert": {2: 300.0}}


# Keeping


@each(
    ("air", "rate", "wet"),
    [(4.4, 1.0, None), (4.5, 1.0, 120.0), (20.0, 1.0, 120.0), (20.1, 2.0, 120.0),
     (32.2, 2.0, 120.0), (32.3, 4.0, 60.0)],
)  # fmt: skip
def test_heat_ages_in_steps_and_shortens_the_clock_of_what_is_wet(
    air: float, rate: float, wet: float | None
) -> None:
    assert keeping.ageing(air) == rate
    assert keeping.wet_minutes(air) == wet  # FSISDanger


@each(
    ("limit", "start", "heat", "last"),
    [
        (3.0, 1, {1: 15.0, 2: 15.0, 3: 15.0}, 3),
        (2.9, 1, {1: 15.0, 2: 15.0, 3: 15.0}, 2),
        (3.0, 2, {1: 40.0, 2: 15.0}, 4),  # the heat before it was bought is not its own
        (4.0, 1, {1: 25.0, 2: 25.0}, 2),
        (5.0, 1, {1: 25.0, 2: 25.0}, 2),
        (6.0, 1, {1: 25.0, 2: 25.0}, 3),  # days beyond are as warm as the last
        (4.0, 1, {1: 35.0}, 1),
        (3.0, 1, {1: 35.0}, 1),  # used up within its first day, which it still serves
        (0.5, 3, {}, 3),
        (2.0, 1, {}, 2),
        (5.0, 4, {1: 25.0, 2: 25.0}, 5),  # bought beyond the days that are known
        (1e9, 1, {1: 25.0}, 500_000_000),  # what keeps for ever is not counted day by day
    ],
)
def test_food_is_eaten_until_the_day_that_uses_up_the_last_of_its_days(
    limit: float, start: int, heat: dict[int, float], last: int
) -> None:
    assert keeping.keeps_until(limit, start, heat) == last


@each(("warm", "perishable"), [(None, False), (0.99, True), (1.0, False)])
def test_less_than_a_day_is_perishable(warm: float | None, perishable: bool) -> None:
    found = keeping.eat_by(food("x", keep=Keep(warm_days=warm)), days(3))
    assert found.perishable is perishable


def test_what_is_told_to_eat_first_ends_before_the_walk_the_most_pressing_first() -> None:
    foods = {
        "ham": food("ham", keep=Keep(warm_days=0.5)),
        "cheese": food("cheese", keep=Keep(warm_days=3.0)),
        "nuts": food("nuts", keep=Keep(opened_days=2.0)),
        "long": food("long", keep=Keep(warm_days=6.0)),
        "bar": food("bar"),
    }
    menu = replace(
        menu_of(portion("anna", 1, "lunch", name) for name in foods),
        pools=(Pool(walker="anna", food="nuts", packs=1.0, open_day=2, last_day=4, by_day_g={}),
               Pool(walker="bert", food="nuts", packs=1.0, open_day=1, last_day=4, by_day_g={})),
    )  # fmt: skip
    lines = keeping.keep_lines(menu, foods, days(6))
    assert list(lines) == ["ham", "nuts", "cheese"]  # six days keep to the end of the walk
    assert (lines["nuts"].opened_day, lines["nuts"].opened_until_day) == (1, 2)
    assert (lines["cheese"].until_day, lines["cheese"].opened_day) == (3, None)


@each(
    ("ready", "air", "safe"), [(120.0, 20.0, True), (121.0, 20.0, False), (600.0, 4.0, True),
                               (61.0, 33.0, False)]
)  # fmt: skip
def test_a_soak_must_be_ready_before_it_must_be_eaten(
    ready: float, air: float, safe: bool
) -> None:
    one = food("x", prep=Prep(kind="boil", water_ml=100.0, cold_soak_min=ready))
    clock = keeping.soak_clock(one, air)
    assert clock is not None
    assert clock.safe is safe


# Counts and pots


@each(
    ("day_ml", "bottles", "filled", "first"),
    [
        (0.0, (1000.0, 1000.0), ((0, 0.0), (1, 0.0)), 0),
        (1000.0, (1000.0, 1000.0), ((0, 1.0), (1, 0.0)), 1),
        (1001.0, (1000.0, 1000.0), ((0, 1.0), (1, 0.001)), 1),
        (2001.0, (1000.0, 1000.0), ((0, 1.001), (1, 1.0)), 2),
        (500.0, (0.0, 1000.0), ((0, 0.0), (1, 0.0)), 0),  # a bottle of nothing fills nothing
        (500.0, (), (), 0),
    ],
)
def test_bottles_are_filled_in_turn(
    day_ml: float, bottles: tuple[float, ...], filled: tuple[tuple[int, float], ...], first: int
) -> None:
    found = fills(day_ml, bottles)
    assert [i for i, _ in found] == [i for i, _ in filled]
    assert [n for _, n in found] == pytest.approx([n for _, n in filled])
    assert first_fills(day_ml, bottles) == first


def test_mugs_are_counted_by_day_for_one_walker() -> None:
    menu = cups((1, "drinks", 2.0), (1, "breakfast", 1.0), (2, "drinks", 1.0))
    others = [portion("bert", 1, "drinks", "coffee", 9.0), portion("anna", 2, "dinner", "pouch")]
    assert mugs((*menu.portions, *others), FOODS, "anna") == {1: 3.0, 2: 1.0}


@each(
    ("fuel", "size"), [(100.0, (90.0, 68.0)), (150.0, (90.0, 68.0)), (151.0, (110.0, 90.0)),
                       (300.0, (110.0, 90.0)), (450.0, (110.0, 150.0))]
)  # fmt: skip
def test_a_can_without_a_size_has_the_usual_one(fuel: float, size: tuple[float, float]) -> None:
    assert can_size(fuel) == size


@each(
    ("water", "share"), [(300.0, (1, 0.0)), (337.0, (1, 0.0)), (338.0, (1, 0.25)),
                         (160.0, (0, 0.5)), (590.0, (2, 0.0)), (0.0, (0, 0.0))]
)  # fmt: skip
def test_water_is_told_in_quarters_of_a_mug(water: float, share: tuple[int, float]) -> None:
    assert mug_share(300.0, water) == share


@each(
    ("widths", "diameter", "fits"),
    [
        ((98.5,), 100.0, True), ((98.6,), 100.0, False),  # a hair of play to come out again
        ((60.0, 40.0), 100.0, True), ((60.0, 40.1), 100.0, False),
        ((46.4, 46.4, 46.4), 100.0, True), ((46.5, 46.5, 46.5), 100.0, False),
    ],
)  # fmt: skip
def test_things_share_a_level_up_to_the_circle_they_need(
    widths: tuple[float, ...], diameter: float, fits: bool
) -> None:
    things = [Thing(name=str(k), diameter_mm=w, height_mm=50.0) for k, w in enumerate(widths)]
    pot = Pot(volume_ml=785.0, diameter_mm=diameter, depth_mm=60.0)
    found = nest(things, pot)
    assert (found is not None) is fits
    if found is not None:
        assert (len(found.layers), found.left_mm) == (1, pytest.approx(10.0))


@each(("depth", "fits"), [(100.0, True), (99.9, False)])
def test_two_levels_need_both_heights_and_a_dome_lends_its_own(depth: float, fits: bool) -> None:
    things = [Thing(name=n, diameter_mm=80.0, height_mm=50.0) for n in "ab"]
    pot = Pot(diameter_mm=100.0, depth_mm=depth)
    assert (nest(things, pot) is not None) is fits
    assert nest(things, replace(pot, depth_mm=90.0), dome_mm=10.0) is not None


def test_a_pot_of_a_litre_and_ten_centimetres_is_127_mm_deep() -> None:
    assert depth_mm(1000.0, 100.0) == pytest.approx(127.324, abs=0.001)  # 4 V / (pi D^2)


def test_days_of_keeping_are_those_counted_one_by_one() -> None:
    """Oracle: the same, day after day."""
    heat = {1: 15.0, 2: 25.0, 3: 35.0, 4: 10.0}

    def slowly(limit: float, start: int) -> int:
        left, at = limit, start
        while (left := left - keeping.ageing(heat.get(at, heat[4]))) > 1e-9:
            at += 1
        return at if abs(left) <= 1e-9 or at == start else at - 1

    for tenths in range(1, 160):
        for start in range(1, 8):
            limit = tenths / 10.0
            assert keeping.keeps_until(limit, start, heat) == slowly(limit, start), (limit, start)


@each(
    ("per", "bottles", "water_ml", "bottle_ml", "made_for"),
    [
        ("bottle", (700.0, 1000.0), 500.0, 700.0, 500.0),
        ("bottle", (700.0,), 0.0, 700.0, 473.0),  # a pint, where its label says nothing
        ("bottle", (), 500.0, 0.0, 500.0),
        ("mug", (700.0,), 250.0, 0.0, 250.0),
        ("day", (700.0,), 0.0, 0.0, 0.0),
    ],
)
def test_what_goes_per_bottle_goes_into_the_first_and_knows_its_water(
    per: Any, bottles: tuple[float, ...], water_ml: float, bottle_ml: float, made_for: float
) -> None:
    foods = {"tablet": food("tablet", role="small", prep=Prep(kind="soak", water_ml=water_ml))}
    menu = menu_of([Portion(walker="anna", day=1, meal="drinks", food="tablet", doses=1.5,
                            why="count"),
                    Portion(walker="anna", day=2, meal="drinks", food="tablet", doses=1.0,
                            why="count")])  # fmt: skip
    who = walker(usual=Usual(counts=(Count(food="tablet", count=1.0, per=per),)))
    line = count_lines(menu, foods, [who, walker("bert")], bottles)["anna"]["tablet"]
    assert (line.bottle_ml, line.made_for_ml) == (bottle_ml, made_for)
    assert (line.by_day, line.take) == ({"1": 1.5, "2": 1.0}, 3.0)  # whole ones are packed


def test_only_what_the_menu_booked_as_a_habit_is_counted() -> None:
    menu = menu_of([portion("anna", 1, "drinks", "coffee", 2.0)])
    who = walker(usual=Usual(counts=(Count(food="coffee", count=2.0, per="day"),)))
    assert count_lines(menu, FOODS, [who], (1000.0,)) == {}


@each(
    ("cans", "sizes"),
    [((), {100.0, 230.0, 450.0}), ((FuelCan(net_g=227.0, empty_g=99.0),), {227.0})],
)
def test_cans_are_the_kits_own_or_the_common_sizes_of_the_fuel(
    cans: tuple[FuelCan, ...], sizes: set[float]
) -> None:
    for burnt in (80.0, 180.0, 400.0):
        plan = fuel_plan([meal(1, burnt)], Kit(cans=cans), days=(1,), windy=frozenset(),
                         reserve_boil_g=0.0)  # fmt: skip
        assert plan is not None
        assert {grams for grams, _ in plan.cans} <= sizes


def test_sweat_is_that_of_walking_uphill_or_level_and_of_no_other_hour() -> None:
    one, who = day(last=True), walker(height_cm=170.0)
    plain = drinking.water_day(one, who, Rules(), cooking_ml=0, washing_ml=0, hot_drinks_ml=0)
    bare = walker()
    assert drinking.with_sweat(plain, one, bare) == drinking.with_sweat(plain, one, who)  # 1.70 m
    rest = replace(one, stretches=tuple(s for s in one.stretches if s.kind != "walk"))
    assert drinking.with_sweat(plain, rest, who).sweat_high_ml == 0.0
    assert drinking.with_sweat(plain, rest, who).sweat_models == ()
    (step,) = (s for s in one.stretches if s.kind == "walk")
    level, down = (sweat.walking_w_m2(replace(step, grade_pct=g), who) for g in (0.0, -20.0))
    assert level == down < sweat.walking_w_m2(step, who)


def test_work_is_energy_over_time_and_skin_and_none_without_time() -> None:
    # DuBois1916, eq. 1, of 70 kg and 1.70 m; 1 kcal is 4,184 J.
    area = 0.202 * 70.0**0.425 * 1.7**0.725
    watts = 1200.0 * 4184.0 / (5.0 * 3600.0)
    assert sweat.work_w_m2(1200.0, 5.0, walker()) == pytest.approx(watts / area)
    assert sweat.work_w_m2(1200.0, 0.0, walker()) == 0.0


def test_small_things_for_a_flame_stay_at_home_without_one() -> None:
    with_flame, without = check_list(flame=True), check_list(flame=False)
    assert set(with_flame) - set(without) == {"lighter", "second-lighter", "pot-grip"}
    assert [one for one in with_flame if one in without] == list(without)


def test_a_bag_that_is_opened_too_early_is_told_and_one_that_keeps_for_ever_is_not() -> None:
    nuts, bar = food("nuts", keep=Keep(opened_days=2.0)), food("bar")
    pools = tuple(Pool(walker="anna", food=name, packs=1.0, open_day=1, last_day=last, by_day_g={})
                  for name, last in (("nuts", 2), ("nuts", 3), ("bar", 9)))  # fmt: skip
    told = list(keeping.keeping_flags(Menu(portions=(), pools=pools),
                                      {"nuts": nuts, "bar": bar}, days(4)))  # fmt: skip
    assert [(flag.values["food"], flag.values["until"], flag.values["day"]) for flag in told] == [
        ("nuts", 2, 3),
    ]  # fmt: skip


def test_days_as_cold_as_a_fridge_have_no_clock_for_what_is_wet() -> None:
    stretch = [day(1, warm_c=4.0), day(2, warm_c=20.0), day(3, warm_c=33.0, last=True)]
    assert keeping.wet_by_day(stretch) == {"2": 120.0, "3": 60.0}
