"""Laws of the kitchen: what goes in comes out, and a slow, separate camp cooks the same meal."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from oatsack.kitchen.cans import choose, gross_g
from oatsack.kitchen.cooking import WASH_POT_ML, cook, critical, one_boil
from oatsack.kitchen.fuels import efficiency, fuel_of
from oatsack.kitchen.ledger import ledger
from oatsack.kitchen.occasions import Dish, Occasion, Pour
from oatsack.kitchen.price import conditions_of, dose_price, flame
from oatsack.values.kit import FuelCan, Kit, Pot, Stove
from oatsack.values.kitchen import Conditions, KitchenLedger, MealLedger
from oatsack.values.menu import Menu
from oatsack.values.pots import parties
from oatsack.values.route import Day
from oatsack.values.trip import Rules
from oatsack.values.walker import Walker
from support.amount import examples
from support.kitchen import FOODS, days, menu_of, portion, walkers
from support.slow_camp import SlowCamp, SlowPot, Want

POTS = st.builds(
    Pot,
    name=st.just("pot"),
    volume_ml=st.sampled_from([450.0, 700.0, 900.0, 1300.0, 3000.0]),
    mass_g=st.sampled_from([80.0, 120.0, 250.0]),
    material=st.sampled_from(["aluminium", "titanium", "steel"]),
)
KITS = st.builds(
    Kit,
    pots=st.lists(POTS, min_size=1, max_size=3).map(
        lambda pots: tuple(replace(p, name=f"pot {i}") for i, p in enumerate(pots))
    ),
    stove=st.builds(
        Stove,
        kind=st.sampled_from(["gas-open", "gas-exchanger", "white-gas"]),
        burners=st.integers(1, 3),
    ),
    treatment=st.sampled_from(["filter", "boil"]),
)
PLACES = st.builds(
    Conditions,
    height_m=st.floats(0.0, 5000.0),
    air_c=st.floats(-15.0, 25.0),
    water_c=st.floats(1.0, 20.0),
    snow=st.booleans(),
)


@st.composite
def trips(draw: st.DrawFn) -> tuple[Menu, list[Day], list[Walker], Kit]:
    """A menu of hot, cold and pot-made food for some walkers on some days."""
    people = walkers(draw(st.integers(1, 6)))
    stretch = days(
        draw(st.integers(1, 4)),
        height_m=draw(st.floats(0.0, 4000.0)),
        warm_c=draw(st.sampled_from([-5.0, 10.0, 18.0, 30.0])),
        camp_dry=draw(st.booleans()),
    )
    out = []
    for who in people:
        for day in stretch:
            for meal in ("breakfast", "lunch", "dinner", "drinks"):
                food = draw(st.sampled_from([*FOODS, None]))
                if food is not None:
                    out.append(portion(who.id, day.number, meal, food, draw(st.integers(1, 3))))
    return menu_of(out), stretch, people, draw(named(people))


def named(people: list[Walker]) -> st.SearchStrategy[Kit]:
    """Kits whose pots belong to everyone, or some of them to some walkers."""
    whose = st.lists(st.sampled_from([w.id for w in people]), max_size=3, unique=True).map(tuple)
    return st.builds(
        lambda kit, owners: replace(kit, pots=tuple(
            replace(pot, walkers=who) for pot, who in zip(kit.pots, owners, strict=False)
        )),
        KITS, st.one_of(st.just([(), (), ()]), st.lists(whose, min_size=3, max_size=3)),
    )  # fmt: skip


def book(trip: tuple[Menu, list[Day], list[Walker], Kit]) -> KitchenLedger:
    """The ledger; four walkers and more are two cook groups."""
    menu, stretch, people, kit = trip
    names = [w.id for w in people]
    groups = [names[::2], names[1::2]] if len(names) >= 4 else None
    return ledger(menu, FOODS, stretch, people, kit, Rules(), groups=groups)


@given(trips())
@settings(max_examples=examples(30))
def test_water_in_is_drunk_and_cooked_and_washed_and_left(trip: tuple) -> None:
    menu, _, _, _ = trip
    made = book(trip)
    kitchen = [m for m in made.meals if not is_still(m)]
    wet = sum(p.doses * FOODS[p.food].prep.water_ml for p in menu.portions)
    into = sum(m.boiled_ml + m.cold_ml + m.wash_ml for m in kitchen)
    eaten = sum(w.cooking_ml + w.hot_drinks_ml for d in made.water.values() for w in d.values())
    washed = sum(w.washing_ml for d in made.water.values() for w in d.values())
    left = sum(m.left_ml for m in kitchen)
    assert eaten == pytest.approx(wet)
    assert into == pytest.approx(eaten + washed + left)


def is_still(meal: MealLedger) -> bool:
    """Whether it is drinking water being made: nothing is poured."""
    return not any(s.kind in ("pour", "soak") for s in meal.steps)


@given(trips())
@settings(max_examples=examples(30))
def test_every_millilitre_is_in_a_step(trip: tuple) -> None:
    for meal in book(trip).meals:
        boiled = sum(s.water_ml for s in meal.steps if s.kind in ("boil",))
        melted = sum(s.water_ml for s in meal.steps if s.kind == "melt")
        poured = sum(s.water_ml for s in meal.steps if s.kind == "pour")
        soaked = sum(s.water_ml for s in meal.steps if s.kind == "soak")
        washed = sum(s.water_ml for s in meal.steps if s.kind == "wash")
        assert max(boiled, melted) == pytest.approx(meal.boiled_ml)
        assert soaked == pytest.approx(meal.cold_ml)
        assert washed == pytest.approx(meal.wash_ml)
        if not is_still(meal):
            assert meal.boiled_ml == pytest.approx(poured + meal.left_ml)
            queues = 2 * len(parties(trip[3].pots, [w.id for w in trip[2]]))
            assert 0.0 <= meal.left_ml < 50.0 * max(2, queues) + 1e-6


@given(trips())
@settings(max_examples=examples(30))
def test_nobodys_food_comes_from_a_pot_that_is_not_theirs(trip: tuple) -> None:
    menu, _, people, kit = trip
    names = [w.id for w in people]
    groups = [names[::2], names[1::2]] if len(names) >= 4 else []
    own = {w: {kit.pots[i].name for i in part.pots}
           for part in parties(kit.pots, names, groups) for w in part.walkers}  # fmt: skip
    for meal in book(trip).meals:
        for step in meal.steps:
            eaters = {p.walker for p in menu.portions if (p.day, p.food) == (meal.day, step.food)}
            if step.pot and step.food:
                assert any(step.pot in own[w] for w in eaters & set(meal.walkers))


@given(trips())
@settings(max_examples=examples(30))
def test_fuel_in_is_burnt_and_left(trip: tuple) -> None:
    made = book(trip)
    burnt = sum(s.fuel_g for m in made.meals for s in m.steps)
    if made.fuel is None:
        assert burnt == pytest.approx(0.0)
        return
    assert made.fuel.carried_g == pytest.approx(made.fuel.burnt_g + made.fuel.left_g)
    assert made.fuel.burnt_g == pytest.approx(burnt)
    assert sum(made.fuel.by_day_g.values()) == pytest.approx(burnt)
    assert made.fuel.need_g == pytest.approx(made.fuel.burnt_g + made.fuel.reserve_g)
    assert made.fuel.carried_g >= made.fuel.need_g - 1e-6


@given(trips())
@settings(max_examples=examples(30))
def test_minutes_are_the_sum_of_the_steps_one_waits_for(trip: tuple) -> None:
    for meal in book(trip).meals:
        chain = critical(meal)
        assert sum(s.end_min - s.start_min for s in chain) == pytest.approx(meal.minutes)
        for before, after in pairwise(chain):
            assert before.end_min == pytest.approx(after.start_min)
        ends = [s.end_min for s in meal.steps if s.kind != "wash"]
        assert meal.minutes == pytest.approx(max([0.0, *ends]))


@given(trips())
@settings(max_examples=examples(30))
def test_no_pot_does_two_things_at_once(trip: tuple) -> None:
    for meal in book(trip).meals:
        for pot in {s.pot for s in meal.steps if s.pot}:
            mine = sorted((s.start_min, s.end_min) for s in meal.steps if s.pot == pot)
            for (_, end), (start, _) in pairwise(mine):
                assert start >= end - 1e-9


@given(trips())
@settings(max_examples=examples(30))
def test_no_more_pots_heat_than_there_are_burners(trip: tuple) -> None:
    _, _, _, kit = trip
    for meal in book(trip).meals:
        flame_steps = [s for s in meal.steps if s.kind in ("boil", "melt", "simmer")]
        edges = sorted({s.start_min for s in flame_steps})
        for at in edges:
            lit = [s for s in flame_steps if s.start_min <= at < s.end_min - 1e-9]
            assert len(lit) <= kit.stove.burners
            assert len(lit) <= len(kit.pots)


@given(trips())
@settings(max_examples=examples(20))
def test_no_pot_is_filled_over_its_line(trip: tuple) -> None:
    _, _, _, kit = trip
    largest = max(p.volume_ml for p in kit.pots)
    for meal in book(trip).meals:
        for step in meal.steps:
            if step.kind == "boil":
                assert step.water_ml <= 0.85 * largest + 1e-6


@given(trips())
@settings(max_examples=examples(20))
def test_a_better_stove_never_burns_more_and_more_wind_never_less(trip: tuple) -> None:
    menu, stretch, people, kit = trip

    def burnt(share: float) -> float:
        stove = Stove(kind="gas-open", efficiency=share)
        fuel = ledger(
            menu, FOODS, stretch, people,
            Kit(pots=kit.pots, stove=stove, treatment=kit.treatment), Rules(),
        ).fuel  # fmt: skip
        return fuel.burnt_g if fuel else 0.0

    good, poor = burnt(0.7), burnt(0.35)
    assert poor == pytest.approx(2.0 * good)


@given(trips(), st.randoms(use_true_random=False))
@settings(max_examples=examples(30))
def test_the_order_of_portions_changes_nothing(trip: tuple, dice) -> None:
    menu, stretch, people, kit = trip
    mixed = list(menu.portions)
    dice.shuffle(mixed)
    one = ledger(menu, FOODS, stretch, people, kit, Rules())
    two = ledger(menu_of(mixed), FOODS, stretch, people, kit, Rules())
    assert [(m.day, m.meal, m.walkers) for m in one.meals] == [
        (m.day, m.meal, m.walkers) for m in two.meals
    ]
    for a, b in zip(one.meals, two.meals, strict=True):
        assert a.minutes == pytest.approx(b.minutes)
        assert a.fuel_g == pytest.approx(b.fuel_g)
        assert a.boiled_ml == pytest.approx(b.boiled_ml)


FOOD_NAMES = st.sampled_from(["a", "b", "c", "d", "e"])
WANTS = st.lists(
    st.builds(
        Want,
        name=FOOD_NAMES,
        water_ml=st.integers(100, 1500).map(float),
        portions=st.integers(1, 4),
        wait_min=st.sampled_from([0.0, 2.0, 5.0, 10.0]),
        mug=st.booleans(),
        in_pot=st.booleans(),
        dry_g=st.sampled_from([50.0, 100.0, 250.0]),
        simmer_min=st.sampled_from([0.0, 4.0, 12.0]),
    ),
    min_size=1, max_size=4, unique_by=lambda w: w.name,
)  # fmt: skip


def tidy(wants: list[Want]) -> list[Want]:
    """Wants that make sense: a mug has no food and no wait, only a dish simmers."""
    for w in wants:
        if w.in_pot:
            w.mug = False
        else:
            w.dry_g, w.simmer_min = 0.0, 0.0
        if w.mug:
            w.wait_min = 0.0
    return wants


def occasion_of(wants: list[Want]) -> Occasion:
    pours = [
        Pour(food=w.name, water_ml=w.water_ml, wait_min=w.wait_min, portions=w.portions, mug=w.mug)
        for w in wants
        if not w.in_pot
    ]
    dishes = [
        Dish(food=w.name, water_ml=w.water_ml, solids_g=w.dry_g, simmer_min=w.simmer_min,
             wait_min=w.wait_min, portions=w.portions)
        for w in wants
        if w.in_pot
    ]  # fmt: skip
    return Occasion(
        day=1, meal="dinner", walkers=("anna",),
        pours=tuple(sorted(pours, key=lambda p: (p.mug, -p.wait_min, p.food))),
        dishes=tuple(sorted(dishes, key=lambda d: (-(d.simmer_min + d.wait_min), d.food))),
    )  # fmt: skip


def in_order(wants: list[Want]) -> list[Want]:
    """The order a cook would keep: the longest wait first."""
    return sorted(wants, key=lambda w: (-(w.simmer_min + w.wait_min), w.name))


@given(WANTS, st.lists(POTS, min_size=1, max_size=2), PLACES)
@settings(max_examples=examples(60), phases=[Phase.explicit, Phase.generate])
@pytest.mark.slow
def test_a_slow_camp_tick_by_tick_cooks_the_same_meal(
    wants: list[Want], pots: list[Pot], at: Conditions
) -> None:
    wants = in_order(tidy(wants))
    occasion = occasion_of(wants)
    stove = Stove(kind="gas-open")
    hot = flame(at, stove)
    made = cook(occasion, hot, pots=pots, burners=1)
    camp = Recooked(pots, at, stove)
    meals, mugs = [p for p in occasion.pours if not p.mug], [p for p in occasion.pours if p.mug]
    dishes_first = bool(occasion.dishes)
    assume(dishes_first or not shares(meals, mugs, hot, pots))
    seen = camp.run(wants)
    ticks = 0.02 * (len(made.steps) + 2)
    assert made.minutes == pytest.approx(seen.minutes, rel=0.004, abs=ticks)
    assert made.boiled_ml == pytest.approx(seen.boiled_ml)
    assert made.boiled_ml - made.left_ml == pytest.approx(seen.poured_ml)
    assert made.wash_ml == pytest.approx(seen.washed_ml)
    assert made.batches == seen.fills
    assert made.fuel_g == pytest.approx(seen.fuel_g, rel=0.005, abs=0.05 * made.batches)


def shares(meals: list[Pour], mugs: list[Pour], hot, pots: list[Pot]) -> bool:
    """Whether one boil serves meals and mugs: a choice of order the slow cook does not make."""
    from oatsack.kitchen.cooking import Camp, _Hob

    camp = Camp(flame=hot, pots=[_Hob(p) for p in pots], burners=[0.0])
    return one_boil(camp, meals, mugs)


def in_the_cold(air_c: float) -> float:
    """A fiftieth less per kelvin under 5 C, 0.7 at least: said once more."""
    return min(1.0, max(0.7, 0.9 + air_c / 50.0))


class Recooked(SlowCamp):
    """The slow camp with the same pots, place and stove."""

    def __init__(self, pots: list[Pot], at: Conditions, stove: Stove) -> None:
        super().__init__(
            [SlowPot(p.volume_ml, p.mass_g, p.material) for p in pots],
            height_m=at.height_m, water_c=at.water_c, air_c=at.air_c, snow=at.snow,
            power_w=2000.0, efficiency=efficiency(stove) * in_the_cold(at.air_c),
            lhv_mj_kg=fuel_of("gas").lhv_mj_kg,
        )  # fmt: skip


def test_the_slow_camp_would_see_a_lie() -> None:
    at = Conditions(height_m=1000.0, water_c=10.0)
    wants = [Want(name="a", water_ml=475.0, wait_min=10.0)]
    seen = Recooked([Pot()], at, Stove()).run(wants)
    honest = cook(occasion_of(wants), flame(at, Stove()), pots=[Pot()], burners=1)
    assert honest.minutes == pytest.approx(seen.minutes, rel=0.004)
    wrong = cook(
        occasion_of(wants), flame(Conditions(height_m=1000.0, water_c=2.0), Stove()),
        pots=[Pot()], burners=1,
    )  # fmt: skip
    assert abs(wrong.fuel_g - seen.fuel_g) > 0.05 * seen.fuel_g


@given(
    st.floats(1.0, 3000.0),
    st.lists(
        st.builds(
            FuelCan,
            net_g=st.sampled_from([100.0, 230.0, 450.0]),
            empty_g=st.sampled_from([100.0, 150.0, 210.0]),
            gross_now_g=st.one_of(st.none(), st.floats(160.0, 400.0)),
        ),
        min_size=1,
        max_size=4,
    ),
)
def test_cans_hold_the_need_and_dropping_any_would_not(need: float, cans: list[FuelCan]) -> None:
    take = choose(need, cans)
    held = sum(c.fuel_g for c in take)
    if any(c.gross_now_g is None for c in cans):
        assert held >= need - 1e-6
    if held >= need - 1e-6:
        for i in range(len(take)):
            rest = take[:i] + take[i + 1 :]
            assert sum(c.fuel_g for c in rest) < need - 1e-9 or gross_g(take[i]) <= 0
    opened = [c for c in take if c.gross_now_g is not None]
    assert len(opened) <= sum(1 for c in cans if c.gross_now_g is not None)


@given(PLACES, st.sampled_from(sorted(FOODS)))
def test_prices_are_finite_and_never_negative(at: Conditions, name: str) -> None:
    price = dose_price(FOODS[name], at, Kit())
    for value in (price.water_ml, price.boiled_ml, price.heat_kj, price.fuel_g, price.flame_min,
                  price.wait_min, price.pot_ml):  # fmt: skip
        assert 0.0 <= value < 1e5
    assert price.boiled_ml <= price.water_ml


@given(st.floats(0.0, 3000.0), st.floats(10.0, 2000.0))
def test_higher_up_one_burns_less_and_waits_longer(height: float, more: float) -> None:
    low = dose_price(FOODS["pouch"], Conditions(height_m=height), Kit())
    high = dose_price(FOODS["pouch"], Conditions(height_m=height + more), Kit())
    assert high.fuel_g < low.fuel_g
    assert high.wait_min > low.wait_min


def test_the_ledger_and_the_price_agree_for_one_bag_alone() -> None:
    stretch = days(2)
    one = ledger(
        menu_of([portion("w00", 1, "dinner", "pouch")]), FOODS, stretch, walkers(1),
        Kit(pots=(Pot(mass_g=0.0),)), Rules(),
    )  # fmt: skip
    price = dose_price(FOODS["pouch"], conditions_of(stretch[0]), Kit())
    (meal,) = one.meals
    assert meal.boiled_ml == pytest.approx(price.boiled_ml + meal.left_ml)
    assert meal.fuel_g == pytest.approx(price.fuel_g * meal.boiled_ml / price.boiled_ml)
    assert meal.wash_ml == 0.0 or meal.wash_ml == WASH_POT_ML
