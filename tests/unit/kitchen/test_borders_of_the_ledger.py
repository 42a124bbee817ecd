"""Which pot, which burner, whose water and when: the camp's choices, each where it turns."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from oatsack.kitchen.carries import Demand, carries, supplies
from oatsack.kitchen.cooking import cook
from oatsack.kitchen.ledger import (
    conditions_at,
    demands,
    kitchens,
    ledger,
    waters,
    with_work,
    work_of,
)
from oatsack.kitchen.occasions import Dish, Occasion, Pour, Soak, helpings, occasions
from oatsack.kitchen.price import flame
from oatsack.values.food import Prep
from oatsack.values.kit import Kit, Pot, Stove
from oatsack.values.kitchen import Conditions, CookStep, KitchenLedger, MealLedger
from oatsack.values.plan import DayNeed
from oatsack.values.route import Day
from oatsack.values.trip import Rules
from support.each import each
from support.kitchen import (
    FOODS,
    day,
    days,
    food,
    menu_of,
    place,
    portion,
    simple_menu,
    walker,
    walkers,
)

AT = flame(Conditions(height_m=0.0, air_c=15.0, water_c=15.0), Stove())
SMALL, LARGE = Pot(name="small", volume_ml=700.0), Pot(name="large", volume_ml=1500.0)


def a_pour(water: float = 400.0, wait: float = 10.0, name: str = "pouch", **more: Any) -> Pour:
    return Pour(food=name, water_ml=water, wait_min=wait, portions=1, **more)


def a_dish(name: str = "rice", simmer: float = 10.0, **more: Any) -> Dish:
    fields = {"water_ml": 250.0, "solids_g": 100.0, "wait_min": 0.0, "portions": 1} | more
    return Dish(food=name, simmer_min=simmer, **fields)


def cooked(*, pots: list[Pot] | None = None, burners: int = 1, priming_g: float = 0.0,
           **inside: Any) -> MealLedger:  # fmt: skip
    occasion = Occasion(day=1, meal="dinner", walkers=("anna",), **inside)
    return cook(occasion, AT, pots=pots or [Pot()], burners=burners, priming_g=priming_g)


def of(meal: MealLedger, kind: str) -> list[CookStep]:
    return [step for step in meal.steps if step.kind == kind]


# Pots and burners


def test_each_burner_is_primed_at_its_first_boil() -> None:
    plain = cooked(dishes=(a_dish(), a_dish("stew")), pots=[SMALL])
    primed = cooked(dishes=(a_dish(), a_dish("stew")), pots=[SMALL], priming_g=5.0)
    more = [one.fuel_g - other.fuel_g
            for one, other in zip(of(primed, "boil"), of(plain, "boil"), strict=True)]  # fmt: skip
    assert more == pytest.approx([5.0, 0.0])
    both = cooked(pours=(a_pour(1400.0),), pots=[SMALL, LARGE], burners=2, priming_g=5.0)
    assert both.fuel_g - cooked(pours=(a_pour(1400.0),), pots=[SMALL, LARGE],
                                burners=2).fuel_g == pytest.approx(10.0)  # fmt: skip


def test_of_pots_that_are_free_alike_the_larger_boils_first() -> None:
    for pots in ([SMALL, LARGE], [LARGE, SMALL]):
        assert [s.pot for s in of(cooked(pours=(a_pour(),), pots=pots), "boil")] == ["large"]


def test_coffee_is_boiled_in_the_pot_that_needs_no_washing_first() -> None:
    cups = a_pour(250.0, 0.0, "coffee", mug=True)
    meal = cooked(dishes=(a_dish(),), pours=(cups,), pots=[LARGE, SMALL])
    assert [(s.pot, s.food) for s in of(meal, "boil")] == [("large", "rice"), ("small", "")]
    assert min(s.start_min for s in of(meal, "wash")) >= meal.minutes
    alone = cooked(dishes=(a_dish(),), pours=(cups,), pots=[LARGE])
    assert min(s.start_min for s in of(alone, "wash")) < alone.minutes  # nothing else is there


@each(
    ("waits", "shared"), [((0.5, 0.5), True), ((0.5, 10.0), False), ((10.0, 0.5), False)]
)
def test_the_longest_wait_decides_whether_coffee_shares_the_boil(
    waits: tuple[float, float], shared: bool
) -> None:
    pours = [a_pour(150.0, wait, f"p{k}") for k, wait in enumerate(waits)]
    meal = cooked(pours=(*pours, a_pour(250.0, 0.0, "coffee", mug=True)))
    assert (len(of(meal, "boil")) == 1) is shared


def test_a_shared_boil_may_take_the_largest_pot() -> None:
    meal = cooked(pours=(a_pour(700.0, 0.5), a_pour(500.0, 0.0, "coffee", mug=True)),
                  pots=[SMALL, LARGE])  # fmt: skip
    assert [(s.pot, s.water_ml) for s in of(meal, "boil")] == [("large", 1200.0)]


def test_eaters_of_different_pots_boil_apart_and_none_of_it_twice() -> None:
    pours = (a_pour(300.0, pots=(0,)), a_pour(400.0, name="oats", pots=(1,)))
    meal = cooked(pours=pours, pots=[SMALL, LARGE])
    assert [(s.pot, s.water_ml) for s in of(meal, "boil")] == [("small", 300.0), ("large", 400.0)]
    assert {s.food: s.water_ml for s in of(meal, "pour")} == {"pouch": 300.0, "oats": 400.0}


def test_washing_up_is_no_part_of_the_wait_for_dinner() -> None:
    meal = cooked(dishes=(a_dish(),), soaks=(Soak(food="x", water_ml=100.0, wait_min=99.0),))
    last = max(s.end_min for s in meal.steps if s.kind != "wash")
    assert meal.minutes == last
    assert max(s.end_min for s in of(meal, "wash")) == pytest.approx(last + 2.0)
    assert (meal.cold_ml, of(meal, "soak")[0].start_min) == (100.0, -99.0)


@each(
    ("pots", "burners", "groups", "parts"),
    [
        ((Pot(), Pot()), 2, None, 1),
        ((Pot(walkers=("w00",)), Pot(walkers=("w01",))), 2, None, 2),
        ((Pot(walkers=("w00",)), Pot(walkers=("w01",))), 1, None, 1),  # one flame for both
        # A pot that two parties share keeps them in one kitchen, whatever burners there are.
        ((Pot(walkers=("w00", "w01")), Pot(walkers=("w01",))), 2, None, 1),
        ((Pot(), Pot()), 2, [["w00"], ["w01"]], 2),
    ],
)
def test_who_cooks_side_by_side(
    pots: tuple[Pot, ...], burners: int, groups: Any, parts: int
) -> None:
    kit = Kit(pots=pots, stove=Stove(burners=burners))
    found = kitchens(walkers(2), kit, groups)
    assert len(found) == parts
    assert sorted(w for one in found for w in one.walkers) == ["w00", "w01"]
    assert sum(one.burners for one in found) == burners


# Whose water, and when


def test_cooking_and_hot_drinks_are_booked_to_who_has_them_and_washing_to_who_ate() -> None:
    people = [walker("anna"), walker("bert")]
    menu = menu_of([
        portion("anna", 1, "dinner", "rice"), portion("bert", 1, "dinner", "rice", 2.0),
        portion("anna", 1, "lunch", "couscous"), portion("anna", 1, "drinks", "coffee", 2.0),
    ])  # fmt: skip
    book = ledger(menu, FOODS, days(2), people, Kit(), Rules())
    anna, bert = book.water["anna"]["1"], book.water["bert"]["1"]
    assert (anna.cooking_ml, bert.cooking_ml) == (250.0 + 150.0, 500.0)
    assert (anna.hot_drinks_ml, bert.hot_drinks_ml) == (500.0, 0.0)
    dinner = next(m for m in book.meals if m.meal == "dinner")
    lunch = next(m for m in book.meals if m.meal == "lunch")
    assert bert.washing_ml == pytest.approx(dinner.wash_ml / 2.0)
    assert anna.washing_ml == pytest.approx(dinner.wash_ml / 2.0 + lunch.wash_ml)
    tomorrow = book.water["anna"]["2"]
    assert (tomorrow.cooking_ml, tomorrow.hot_drinks_ml, tomorrow.washing_ml) == (0.0, 0.0, 0.0)


@each(
    ("clock", "meal", "at"),
    [
        ({"breakfast": 420.0}, "breakfast", 1440.0 + 420.0),
        ({"breakfast": 600.0}, "breakfast", 1440.0 + 510.0),  # before one leaves, at 08:30
        ({"dinner": 1110.0}, "dinner", 1440.0 + 1110.0),
        ({"dinner": 600.0}, "dinner", 1440.0 + 931.0),  # once one has arrived, at 15:30
        ({"lunch": 750.0}, "lunch", 1440.0 + 750.0),
        ({"dinner": 1110.0}, "drinks", 1440.0 + 1110.0),  # without a clock of its own, at dinner
        ({"dinner": 1110.0}, "move", 1440.0 + 1110.0),
    ],
)
def test_water_for_a_meal_is_wanted_where_one_is_at_its_clock(
    clock: dict[str, float], meal: Any, at: float
) -> None:
    stretch = days(3)
    eaten = MealLedger(day=2, meal=meal, walkers=("anna",), boiled_ml=100.0, cold_ml=20.0,
                       wash_ml=3.0, heat_kj=0.0, fuel_g=0.0, minutes=0.0)  # fmt: skip
    rules = Rules(meal_clock_min=clock)
    water = waters(stretch, [walker(), walker("bert")], rules, cooked=[])
    found = [d for d in demands(stretch, rules, [eaten], water) if d.water_ml == 123.0 / 2.0]
    assert [(d.start, d.end) for d in found] == [(at, at)]


def test_camp_water_is_wanted_on_arriving_hot_drinks_taken_off() -> None:
    stretch = days(2)
    water = waters(stretch, [walker()], Rules(), cooked=[])
    warm = {"anna": water["anna"] | {"1": replace(water["anna"]["1"], hot_drinks_ml=400.0)}}
    plain = [d for d in demands(stretch, Rules(), [], warm) if d.start == d.end]
    assert [d.water_ml for d in plain] == [600.0, 0.0]  # 1,000 ml a night, none at home
    walked = [d for d in demands(stretch, Rules(), [], warm) if d.start < d.end]
    assert [d.water_ml for d in walked] == pytest.approx([3500.0, 3500.0])  # 7 h at 500 ml


@each(
    ("treatment", "snow", "melts"),
    [("filter", False, []), ("boil", False, [1, 2]), ("filter", True, [1, 2])],
)
def test_drinking_water_is_made_in_every_camp_but_none_on_the_day_that_ends_at_home(
    treatment: Any, snow: bool, melts: list[int]
) -> None:
    stretch = [replace(one, snow=snow) for one in days(3)]
    people = walkers(1)
    book = ledger(simple_menu(people, stretch), FOODS, stretch, people,
                  Kit(treatment=treatment), Rules())  # fmt: skip
    made = [m.day for m in book.meals if m.meal == "drinks"]
    assert made == melts
    no_camp = [replace(stretch[0], camp_m=None), *stretch[1:]]
    book = ledger(menu_of([portion("w00", 2, "dinner", "rice")]), FOODS, no_camp, people,
                  Kit(treatment=treatment), Rules())  # fmt: skip
    assert [m.day for m in book.meals if m.meal == "drinks"] == melts[1:]


def test_work_is_the_days_own_and_who_has_none_keeps_the_stand_in() -> None:
    need = {"anna": {2: DayNeed(energy_kcal=3000.0, low_kcal=0.0, high_kcal=0.0,
                                walking_kcal=1200.0, camp_kcal=0.0, rest_kcal=0.0, sleep_kcal=0.0,
                                thermic_kcal=0.0, walking_h=5.0)}}  # fmt: skip
    people = [walker("anna"), walker("bert")]
    found = work_of(need, people)
    assert set(found["anna"]) == {2} and found["bert"] == {}
    stretch = days(3)
    book = KitchenLedger(water=waters(stretch, people, Rules(), cooked=[]))
    harder = with_work(book, menu_of([]), FOODS, days=stretch, walkers=people,
                       work={"anna": {2: 2.0 * found["anna"][2]}})  # fmt: skip
    assert harder.water["anna"]["2"].sweat_high_ml > book.water["anna"]["2"].sweat_high_ml
    for who, number in (("anna", "1"), ("bert", "2")):
        assert harder.water[who][number] == book.water[who][number]


# What is cooked together


@each(
    ("prep", "role", "made", "bowl", "mug"),
    [
        (Prep(kind="none"), "snack", False, False, False),
        (Prep(kind="soak", water_ml=500.0), "drink", False, False, False),
        (Prep(kind="soak", water_ml=150.0), "main", True, True, False),
        (Prep(kind="boil", water_ml=240.0), "main", True, True, False),
        (Prep(kind="boil", water_ml=400.0, from_bag=True), "main", True, False, False),
        (Prep(kind="boil", water_ml=250.0), "drink", True, False, True),
        (Prep(kind="simmer", water_ml=250.0), "main", True, True, False),
    ],
)
def test_who_needs_a_bowl_or_a_mug(
    prep: Prep, role: Any, made: bool, bowl: bool, mug: bool
) -> None:
    foods = {"x": food("x", prep=prep, role=role, meals=frozenset({"dinner"}))}
    served = helpings([portion("anna", 1, "dinner", "x")], foods)
    assert bool(served) is made
    if made:
        (found,) = occasions(served, {"all": ("anna",)})
        assert (found.bowls, served[0].mug) == (int(bowl), mug)
        assert bool(found.drinks_ml) is mug
        assert sum(found.water_ml.values()) + sum(found.drinks_ml.values()) == prep.water_ml


@each(
    ("prep", "role", "doses", "vessels"),
    [
        (Prep(kind="boil", water_ml=250.0), "drink", 2.5, 3),  # a mug for each, also for a half
        (Prep(kind="boil", water_ml=250.0, from_bag=True), "main", 1.5, 2),
        (Prep(kind="boil", water_ml=250.0), "main", 2.5, 1),  # one bowl for one eater
    ],
)
def test_vessels_to_pour_into(prep: Prep, role: Any, doses: float, vessels: int) -> None:
    foods = {"x": food("x", prep=prep, role=role)}
    served = helpings([portion("anna", 1, "dinner", "x", doses)], foods)
    (found,) = occasions(served, {"all": ("anna",)})
    assert [one.portions for one in found.pours] == [vessels]


def test_without_a_flame_nothing_is_hot_and_no_mug_is_drunk() -> None:
    served = helpings([portion("anna", 1, "drinks", "coffee"), portion("anna", 1, "dinner", "rice"),
                       portion("anna", 1, "lunch", "couscous")], FOODS, flame=False)  # fmt: skip
    assert [(h.food.id, h.cold, h.hot, h.mug) for h in served] == [
        ("coffee", True, False, False), ("rice", True, False, False),
        ("couscous", False, False, False),
    ]  # fmt: skip
    for found in occasions(served, {"all": ("anna",)}):
        assert (found.pours, found.dishes) == ((), ()) and found.soaks


def test_occasions_are_in_the_order_of_days_then_meals_then_kitchens() -> None:
    meals: Any = ("dinner", "breakfast")
    portions = [portion(w, n, m, "rice") for n in (2, 1) for m in meals for w in ("bert", "anna")]
    found = occasions(helpings(portions, FOODS), {"0": ("anna",), "1": ("bert",)})
    assert [(one.day, one.meal, one.walkers) for one in found] == [
        (n, m, (w,)) for n in (1, 2) for m in ("breakfast", "dinner") for w in ("anna", "bert")
    ]  # fmt: skip


# Water on the back


def names(stretch: list[Day]) -> list[str]:
    return [one.name for one in supplies(stretch)]


def test_a_night_is_never_passed_over_however_near_the_next_spring() -> None:
    first, last = days(2)
    near = replace(last, water=(place("Spring", 515.0, 100.0),))  # five minutes after leaving
    assert names([first, near]) == ["start", "camp 1", "Spring", "end"]


def test_a_spring_just_before_the_end_is_still_told() -> None:
    one = day(last=True, water=(place("Spring", 925.0, 15_900.0),))
    assert names([one]) == ["start", "Spring", "end"]


def test_a_day_without_a_camp_in_the_middle_supplies_nothing_at_night() -> None:
    first, second, last = days(3)
    assert names([first, replace(second, camp_m=None), last]) == ["start", "camp 1", "end"]
    assert names([first, second, last]) == ["start", "camp 1", "camp 2", "end"]


def test_stretches_without_any_use_of_water_are_no_carry() -> None:
    stretch = days(2, water=(place("Spring", 700.0, 5000.0),))
    used = [Demand(start=600.0, end=600.0, water_ml=500.0)]
    found = carries(stretch, used, bottles_ml=2000.0)
    assert [(one.start, one.end, one.carry_ml) for one in found] == [("start", "Spring", 500.0)]
    assert found[0].why == "to-next-water"


@each(
    ("water", "dry", "why", "carry"),
    [
        (((), ()), (False, False), "places-unknown", 2000.0),  # the bottles bound it
        ((("Spring",), ()), (False, False), "to-next-water", 3000.0),
        (((), ("Spring",)), (False, False), "places-unknown", 2000.0),
        (((), ()), (True, False), "dry-camp", 6000.0),
    ],
)
def test_why_water_is_carried(
    water: tuple[tuple[str, ...], ...], dry: tuple[bool, ...], why: str, carry: float
) -> None:
    stretch = [
        replace(one, camp_dry=parched,
                water=tuple(place(n, 520.0, 100.0) for n in sources))  # just after setting out
        for one, sources, parched in zip(days(2), water, dry, strict=True)
    ]  # fmt: skip
    used = [Demand(start=a, end=a, water_ml=3000.0) for a in (900.0, 1440.0 + 900.0)]
    first_day = [one for one in carries(stretch, used, bottles_ml=2000.0) if one.day == 1]
    longest = max(first_day, key=lambda one: one.minutes)
    assert (longest.why, longest.carry_ml) == (why, carry)


def test_a_carry_that_begins_after_midnight_bears_the_next_days_number() -> None:
    first, last = days(2)
    found = carries([first, last], [Demand(start=2000.0, end=2000.0, water_ml=1.0)],
                    bottles_ml=9.0)  # fmt: skip
    assert [(one.day, one.start, one.end) for one in found] == [(2, "camp 1", "end")]
    assert found[0].minutes == pytest.approx(1440.0 + 930.0 - (1440.0 + 510.0))


@each(
    ("clock", "height"),
    [(389.0, 950.0), (390.0, 500.0), (509.9, 500.0), (510.0, 700.0), (929.9, 700.0),
     (930.0, 900.0), (1319.9, 900.0), (1320.0, 901.0), (1829.9, 901.0), (1830.0, 950.0)],
)  # fmt: skip
def test_a_meal_at_a_clock_stands_in_the_stretch_that_has_begun_and_not_ended(
    clock: float, height: float
) -> None:
    heights = (500.0, 700.0, 900.0, 901.0)
    plain = day(2, height_m=950.0)
    stretches = tuple(replace(s, height_m=h)
                      for s, h in zip(plain.stretches, heights, strict=True))  # fmt: skip
    found = conditions_at(replace(plain, stretches=stretches), clock, Rules())
    assert found.height_m == height  # outside the day's hours: the night's camp


def test_each_cooks_on_the_pots_of_their_own_kitchen() -> None:
    kit = Kit(pots=(replace(SMALL, walkers=("w00",)), replace(LARGE, walkers=("w01",))),
              stove=Stove(burners=2))  # fmt: skip
    menu = menu_of(portion(w, 1, "dinner", "rice") for w in ("w00", "w01"))
    book = ledger(menu, FOODS, days(2), walkers(2), kit, Rules())
    assert {m.walkers: {s.pot for s in m.steps if s.pot} for m in book.meals} == {
        ("w00",): {"small"}, ("w01",): {"large"},
    }  # fmt: skip


@each(("count", "groups", "parts"), [(10, 2, 1), (11, 2, 2), (11, 1, 1), (11, 0, 1)])
def test_only_a_party_of_groups_beyond_ten_brings_a_kit_for_each(
    count: int, groups: int, parts: int
) -> None:
    people = walkers(count)
    split = [[w.id for w in people[k::groups]] for k in range(groups)]
    found = kitchens(people, Kit(), split or None)
    assert len(found) == parts
    assert sorted(w for one in found for w in one.walkers) == sorted(w.id for w in people)


def test_a_dish_of_the_pot_is_not_poured_as_well_and_the_longest_is_made_first() -> None:
    served = helpings([portion("anna", 1, "dinner", name) for name in ("stew", "rice", "pouch")],
                      FOODS)  # fmt: skip
    (found,) = occasions(served, {"all": ("anna",)})
    assert [one.food for one in found.pours] == ["pouch"]
    assert [one.food for one in found.dishes] == ["rice", "stew"]  # 12 minutes before 8
    assert sum(one.water_ml for one in (*found.pours, *found.dishes)) == 475.0 + 250.0 + 300.0


@each(
    ("first", "then", "reused"),
    [("pouch", "oats", True), ("pouch", "pouch", False), ("oats", "oats", False),
     ("stands", "oats", False)],
)  # fmt: skip
def test_only_a_pouch_eaten_from_is_a_bowl_and_only_for_what_needs_one(
    first: str, then: str, reused: bool
) -> None:
    # "stands" has a pouch that stands, but its food is eaten from a bowl.
    foods = FOODS | {"stands": replace(FOODS["oats"], id="stands", pouch=FOODS["pouch"].pouch)}
    served = helpings([portion("anna", 1, "dinner", first), portion("anna", 2, "dinner", then)],
                      foods)  # fmt: skip
    found = occasions(served, {"all": ("anna",)})
    assert [bool(one.pouch_bowls) for one in found] == [False, reused]


def test_water_named_on_one_of_the_days_walked_is_the_next_water() -> None:
    first, second, last = days(3)
    bare = replace(first, camp_m=None)  # nobody said where this night is spent
    spring = replace(second, water=(place("Spring", 700.0, 5000.0),))
    used = [Demand(start=900.0, end=900.0, water_ml=500.0)]
    (found,) = carries([bare, spring, last], used, bottles_ml=2000.0)
    assert (found.start, found.end, found.why) == ("start", "Spring", "to-next-water")
    (found,) = carries([bare, second, last], used, bottles_ml=2000.0)
    assert (found.end, found.why) == ("camp 2", "places-unknown")
