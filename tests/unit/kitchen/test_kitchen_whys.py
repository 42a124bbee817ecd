"""Every figure of the kitchen opens; its formula gives it back from its inputs alone."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from oatsack.cite import cite
from oatsack.kitchen.ledger import ledger, with_work, work_of
from oatsack.values.kit import FuelCan, Kit, Pot, Stove
from oatsack.values.plan import DayNeed, Plan
from oatsack.values.trip import Rules
from oatsack.why.explanation import evaluate
from oatsack.why.functions import Remembered
from oatsack.why.opening import why
from oatsack.why.tree import leaves
from support.kitchen import FOODS, days, menu_of, place, portion, simple_menu, walkers
from support.plans import short_plan
from support.sample_plan import sample_plan

KITS = {
    "plain": Kit(),
    "small pot": Kit(pots=(Pot(volume_ml=450.0),)),
    "liquid, two burners": Kit(
        pots=(Pot(name="a"), Pot(name="b")),
        stove=Stove(kind="white-gas", fuel="white-gas", burners=2),
    ),
    "own stove, opened can": Kit(
        stove=Stove(efficiency=0.63, power_w=1700.0),
        cans=(FuelCan(net_g=230.0, empty_g=150.0, gross_now_g=300.0),),
    ),
    "boils its water": Kit(treatment="boil"),
    "wood": Kit(stove=Stove(kind="twig", fuel="wood")),
    "no stove": Kit(stove=None),
}


@cache
def plan(kit: str, snow: bool = False, dinner: str = "pouch") -> Plan:
    """A plan whose kitchen is real; the rest is a sample."""
    people = walkers(2)
    warm = -5.0 if snow else 18.0
    stretch = days(3, warm_c=warm, camp_dry=not snow, windy=snow)
    if not snow:
        stretch[1] = replace(stretch[1], water=(place("spring", 700.0, 7000.0),))
    menu = simple_menu(people, stretch, dinner=dinner)
    if kit == "no stove":
        menu = menu_of([portion(w.id, 1, "dinner", "couscous") for w in people])
    base = sample_plan()
    trip = replace(base.trip, walkers=tuple(people), kit=KITS[kit], rules=Rules())
    book = ledger(menu, FOODS, stretch, people, trip.kit, trip.rules)
    need = {w.id: {str(d.number): base_need(base) for d in stretch} for w in people}
    book = with_work(book, menu, FOODS, days=stretch, walkers=people, work=work_of(need, people))
    return replace(base, trip=trip, foods=FOODS, days=tuple(stretch), menu=menu, kitchen=book,
                   need=need)  # fmt: skip


def base_need(base: Plan) -> DayNeed:
    """One day's need of the sample, walking seven hours."""
    row = next(iter(next(iter(base.need.values())).values()))
    return replace(row, walking_kcal=2100.0, walking_h=7.0)


QUICK = ("plain", "own stove, opened can")
CASES = [
    pytest.param(kit, snow, dinner, marks=() if kit in QUICK else pytest.mark.slow)
    for kit in KITS
    for snow in (False, True)
    for dinner in ("pouch", "rice")
]


@pytest.mark.parametrize(("kit", "snow", "dinner"), CASES)
def test_every_figure_is_given_back_by_its_formula(kit: str, snow: bool, dinner: str) -> None:
    one = plan(kit, snow, dinner)
    functions = Remembered().functions()
    found = list(leaves(one.kitchen, "kitchen"))
    assert len(found) > 30
    for address, value in found:
        told = why(one, address)
        assert evaluate(told, functions) == pytest.approx(value, rel=1e-9, abs=1e-9), address
        assert cite(told.source)


def inputs(one: Plan, address: str) -> dict[str, float]:
    return {name: given.value for name, given in why(one, address).inputs.items()}


def test_heat_says_how_efficient_the_stove_is_taken() -> None:
    told = inputs(plan("plain"), "kitchen/meals/1-dinner-w00+w01/heat_kj")
    assert told["efficiency"] == 0.55
    assert told["lhv_mj_kg"] == 45.73
    own = inputs(plan("own stove, opened can"), "kitchen/meals/1-dinner-w00+w01/heat_kj")
    assert own["efficiency"] == 0.63


def test_the_wind_is_seen_in_the_heat() -> None:
    told = inputs(plan("plain", snow=True), "kitchen/meals/1-dinner-w00+w01/heat_kj")
    assert told["efficiency"] == 0.25


def test_priming_is_told_apart() -> None:
    told = inputs(plan("liquid, two burners"), "kitchen/meals/1-dinner-w00+w01/heat_kj")
    assert told["priming_g"] == pytest.approx(8.0)


def test_the_reserve_names_its_parts() -> None:
    told = why(plan("plain"), "kitchen/fuel/reserve_g")
    assert told.source == "common practice"
    assert set(told.inputs) == {"wind", "calm_g", "half_litre_g"}
    assert 6.5 < told.inputs["half_litre_g"].value < 8.5


def test_suggestions_limits_and_estimates_name_their_sources() -> None:
    one = plan("plain")
    assert why(one, "kitchen/water/w00/1/day_cap_ml").source == "TBMED507"
    assert why(one, "kitchen/water/w00/1/walking_suggested_ml").source == "common practice"
    assert why(one, "kitchen/water/w00/1/sweat_high_ml").source.startswith("ISO7933")


def test_minutes_name_only_the_steps_one_waits_for() -> None:
    one = plan("plain")
    told = why(one, "kitchen/meals/1-dinner-w00+w01/minutes")
    meal = next(m for m in one.kitchen.meals if m.day == 1)
    assert len(told.inputs["rows"].value) < len(meal.steps)


def test_small_things_rest_on_labels_and_practice_not_on_steam() -> None:
    plan = short_plan()
    counted = why(plan, "kitchen/counts/anna/instant-coffee/take")
    assert counted.formula == "sum(by_day) + to_whole" and counted.source == "ours"
    most = why(plan, "kitchen/caffeine/anna/most_mg")
    assert "instant-coffee" in most.inputs["rows"].origin
    assert why(plan, "kitchen/caffeine/anna/day_cap_mg").source == "EfsaCaffeine2015"
    wet = why(plan, f"kitchen/wet_min/{next(iter(plan.kitchen.wet_min))}")
    assert wet.source == "FSISDanger"
    steam = [
        address for address, _ in leaves(plan)
        if address.startswith(tuple(f"kitchen/{part}" for part in ("counts", "caffeine", "keeping",
                                                                   "carries")))
        and why(plan, address).source == "IapwsIF97"
    ]  # fmt: skip
    assert steam == []
