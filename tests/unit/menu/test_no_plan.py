"""Refusals: which wishes clash, by how much, and ways out that are tried and really work."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.errors import NoPlan
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.menu.refuse import clash, may_be_named, may_give
from oatsack.menu.ways_out import ways
from oatsack.solve.highs import solve
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Avoid
from support.each import each
from support.menu_checker import faults_of
from support.menus import FREE, boiled, food, request, retarget, walker

STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=100, kcal=450,
            prep=boiled(), price=4.0, doses=1.0)  # fmt: skip
PIE = food("pie", role="main", meals="dinner", category="meal", dose_g=100, kcal=450,
           price=9.0, doses=1.0)  # fmt: skip
BAR = food("bar", meals="lunch", dose_g=50, kcal=450, price=2.0, doses=1.0)
CHIPS = food("chips", meals="lunch", dose_g=50, kcal=500, price=2.0, doses=1.0, taste="salty")
SOUP = food("soup", role="main", meals="lunch", category="meal", dose_g=80, kcal=450,
            prep=boiled(), price=2.0, doses=1.0)  # fmt: skip


def asking(foods, kcal: float = 900.0, **rules: object) -> MenuRequest:  # type: ignore[no-untyped-def]
    one = request(foods, keep="lunch dinner", rules=Rules(**rules))  # type: ignore[arg-type]
    return retarget(one, kcal)


def refusal(asked: MenuRequest) -> tuple[Flag, ...]:
    with pytest.raises(NoPlan) as caught:
        choose(asked, solve)
    return caught.value.flags


def keys(flags: tuple[Flag, ...]) -> list[str]:
    return [f.key for f in flags if f.key.startswith("no-plan")]


def test_a_budget_that_is_too_small_says_by_how_much() -> None:
    """900 kcal need stew 4, bar 2 and chips 2, and one thing to spare is bought too: 10."""
    flags = refusal(asking((STEW, PIE, BAR, CHIPS), budget=5.0))
    assert keys(flags) == ["no-plan.packs-over"]
    assert flags[0].values["over_money"] == pytest.approx(5.0, abs=1.01)
    assert flags[0].values["limit_money"] == 5.0


def test_too_dear_and_too_much_at_once_is_answered_with_less_to_eat() -> None:
    asked = asking((STEW, BAR, CHIPS), kcal=900.0, budget=7.0, spare="none")
    flags = refusal(replace(asked, rules=replace(asked.rules, day_window=0.06)))
    assert keys(flags) == ["no-plan.packs-over"]
    assert next(f.key for f in flags if f.key.startswith("way-out")) == "way-out.budget"


def test_too_little_wanted_is_answered_with_more_to_eat() -> None:
    """One stew alone is 450 kcal, four times what is asked."""
    flags = refusal(asking((STEW, BAR, CHIPS), kcal=100.0))
    way = next(f for f in flags if f.key == "way-out.eat")
    assert float(way.values["share"]) > 1.0
    more = retarget(asking((STEW, BAR, CHIPS)), float(way.values["energy_kcal"]))
    assert faults_of(more, choose(more, solve)) == []


def test_a_refusal_without_a_single_way_out_says_so() -> None:
    """Nothing suits an allergy, and nothing goes round one (C11)."""
    flags = refusal(allergic((replace(STEW, allergens={}), replace(BAR, allergens={}))))
    assert [f.key for f in flags if f.key.startswith("way-out")] == ["way-out.none"]


def allergic(foods) -> MenuRequest:  # type: ignore[no-untyped-def]
    return replace(asking(foods), walkers=(walker(avoids=(Avoid(allergen="milk"),)),))


def test_who_may_eat_nothing_is_refused_and_told_what_keeps_the_foods_out() -> None:
    """An empty menu is no menu: unknown counts as containing (C10), and both foods are unknown."""
    flags = refusal(allergic((replace(STEW, allergens={}), replace(BAR, allergens={}))))
    short = next(f for f in flags if f.key == "no-plan.energy-day-short")
    assert short.values["short_kcal"] == short.values["limit_kcal"]
    (kept,) = [f for f in flags if f.key == "no-plan.kept-out"]
    assert kept.values == {"walker": "anna", "gate": "allergen-plate", "n": 2, "of": 2}


def test_a_dinner_without_a_dish_is_told_with_what_keeps_the_dishes_out() -> None:
    asked = allergic((replace(STEW, allergens={}), BAR, CHIPS, replace(CHIPS, id="crisps")))
    wide = replace(asked, rules=Rules(day_window=0.5, trip_window=0.5))
    (flag,) = [f for f in choose(retarget(wide, 900.0), solve).flags if f.key == "menu.no-main"]
    assert flag.level == "caution"
    assert flag.values == {"walker": "anna", "meal": "dinner", "gate": "allergen-plate",
                           "n_days": 1}  # fmt: skip


def test_a_dinner_with_a_dish_is_not_told() -> None:
    found = choose(asking((STEW, BAR, CHIPS)), solve)
    assert [f for f in found.flags if f.key == "menu.no-main"] == []


def test_what_is_kept_out_for_being_disliked_is_told_too() -> None:
    asked = replace(asking((STEW, BAR)), walkers=(walker(dislikes=frozenset({"stew", "bar"})),))
    kept = [f.values["gate"] for f in refusal(asked) if f.key == "no-plan.kept-out"]
    assert kept == ["disliked"]


def test_too_little_food_says_how_many_kilocalories_are_missing() -> None:
    flags = refusal(asking((STEW, BAR), kcal=2000.0))
    assert "no-plan.energy-day-short" in keys(flags)
    day = next(f for f in flags if f.key == "no-plan.energy-day-short")
    assert day.values["walker"] == "anna"
    assert float(day.values["short_kcal"]) > 500


def test_minutes_that_no_dinner_keeps_are_named_with_the_minutes_it_takes() -> None:
    asked = asking((STEW, BAR, CHIPS))
    slots = tuple(replace(s, minutes_limit=4.0) if s.meal == "dinner" else s for s in asked.slots)
    prices = {("stew", 1): DosePrice(flame_min=3.0, wait_min=6.0)}
    flags = refusal(replace(asked, slots=slots, prices=prices))
    assert keys(flags) == ["no-plan.minutes-over"]
    assert flags[0].values["over_min"] == pytest.approx(5.0)
    way = next(f for f in flags if f.key == "way-out.minutes")
    assert float(way.values["limit_min"]) >= 9.0


def test_two_clashes_are_told_at_once() -> None:
    """No dinner is quick enough, and the lunch is too dear: both in one refusal."""
    asked = asking((STEW, BAR, CHIPS), budget=5.0)
    slots = tuple(replace(s, minutes_limit=4.0) if s.meal == "dinner" else s for s in asked.slots)
    prices = {("stew", 1): DosePrice(flame_min=3.0, wait_min=6.0)}
    flags = refusal(replace(asked, slots=slots, prices=prices))
    assert {"no-plan.packs-over", "no-plan.minutes-over"} <= set(keys(flags))


def crowded(budget: float | None, room_ml: float, count: int = 3) -> MenuRequest:
    """Three days in which the container lacks room, and perhaps the purse money."""
    one = request((STEW, PIE, BAR, CHIPS), keep="lunch dinner", count=count,
                  rules=Rules(budget=budget))  # fmt: skip
    return replace(retarget(one, 900.0), container_ml=room_ml)


def test_a_container_that_does_not_close_is_named_with_the_room_it_lacks() -> None:
    """Two days of 200 g at 2 ml a gram are in it on the first night, sealed things fill 0.7; beside
    them the wrappers of the first day: three of 5 g at 10 ml a gram."""
    flags = refusal(crowded(None, 700.0))
    assert keys(flags) == ["no-plan.container-over"]
    needed = 2 * 200 * 2.0 / 0.7 + 3 * 5 * 10.0
    assert float(flags[0].values["over_ml"]) == pytest.approx(needed - 700.0, abs=1.0)
    way = next(f for f in flags if f.key == "way-out.container")
    roomy = replace(crowded(None, 700.0), container_ml=float(way.values["room_ml"]))
    assert faults_of(roomy, choose(roomy, solve)) == []


def test_budget_and_container_are_named_at_once_and_mended_together() -> None:
    asked = crowded(12.0, 700.0)
    flags = refusal(asked)
    assert set(keys(flags)) == {"no-plan.packs-over", "no-plan.container-over"}
    way = next(f for f in flags if f.key == "way-out.budget-and-container")
    rules = replace(asked.rules, budget=float(way.values["budget_money"]))
    mended = replace(asked, rules=rules, container_ml=float(way.values["room_ml"]))
    assert faults_of(mended, choose(mended, solve)) == []
    for alone in (replace(asked, rules=rules), replace(asked, container_ml=mended.container_ml)):
        assert keys(refusal(alone)), "one of both is not enough"


def test_a_dish_forbidden_to_one_of_a_group_leaves_a_menu_for_all() -> None:
    """The others of the group then eat another dish with them."""
    people = [walker("anna"), walker("ben"), walker("carl")]
    hold = Hold(food="stew", walker="anna", count=0)
    one = request((STEW, PIE, BAR, CHIPS), people, keep="lunch dinner", rules=Rules(holds=(hold,)))
    menu = choose(retarget(one, 900.0), solve)
    assert {p.food for p in menu.portions if p.meal == "dinner"} == {"pie"}


def test_no_refusal_offers_to_bend_safety() -> None:
    nutty = replace(STEW, allergens={**FREE, "peanut": "contains"})
    person = walker(avoids=(Avoid(allergen="peanut"),))
    asked = retarget(request((nutty, BAR, CHIPS), [person], keep="lunch dinner"), 900.0)
    flags = refusal(asked)
    assert keys(flags)
    for way in ways(asked, clash(*build(asked), solve).gives):
        assert way.request.walkers[0].avoids == person.avoids
        assert way.request.walkers[0].eats == person.eats


def test_rows_of_safety_and_of_measures_never_give() -> None:
    assert not may_give("container/1")
    assert may_be_named("container/1")
    assert not may_give("doses/most/anna/1/dinner/stew")
    assert not may_give("toppings/beside/anna/1/dinner/oil")
    assert not may_give("packs/stew")
    assert not may_give("protein/anna")
    assert not may_give("energy-day/near/anna/1")
    assert may_give("energy-day/anna/1")
    assert may_give("packs/budget")


POTTED = replace(STEW, prep=replace(boiled(), needs_pot=True))
PORRIDGE = food("porridge", role="main", meals="breakfast", category="breakfast", dose_g=100,
                kcal=450, prep=boiled(), doses=1.0)  # fmt: skip


def slow_dinner() -> MenuRequest:
    asked = asking((STEW, BAR, CHIPS))
    slots = tuple(replace(s, minutes_limit=4.0) if s.meal == "dinner" else s for s in asked.slots)
    return replace(asked, slots=slots, prices={("stew", 1): DosePrice(flame_min=3.0, wait_min=6.0)})


def slow_and_crowded() -> MenuRequest:
    asked = crowded(None, 700.0)
    slots = tuple(replace(s, minutes_limit=4.0) if s.meal == "dinner" else s for s in asked.slots)
    prices = {("stew", day): DosePrice(flame_min=3.0, wait_min=6.0) for day in (1, 2, 3)}
    return replace(asked, slots=slots, prices=prices, foods=(STEW, BAR, CHIPS))


def small_pot() -> MenuRequest:
    asked = asking((POTTED, BAR, CHIPS))
    prices = {("stew", 1): DosePrice(pot_ml=900.0)}
    pots = (replace(asked.kit.pots[0], volume_ml=900.0),)
    return replace(asked, prices=prices, kit=replace(asked.kit, pots=pots))


def cold_breakfast() -> MenuRequest:
    one = request((PORRIDGE, BAR), keep="breakfast lunch")
    slots = tuple(replace(s, hot=False) if s.meal == "breakfast" else s for s in one.slots)
    return retarget(replace(one, slots=slots), 675.0)


def two_hungry() -> MenuRequest:
    one = request((STEW, BAR, CHIPS), [walker(), walker("ben")], keep="lunch dinner")
    return retarget(one, 1300.0)


CASES = {
    "budget": asking((STEW, PIE, BAR, CHIPS), budget=5.0),
    "cook-lunch": asking((STEW, SOUP), kcal=810.0),
    "cook-breakfast": cold_breakfast(),
    "dislikes": replace(
        asking((STEW, BAR, CHIPS)), walkers=(walker(dislikes=frozenset({"chips", "bar"})),)
    ),
    "bans": asking((STEW, BAR, CHIPS), holds=(Hold(food="stew", count=0),)),
    "eat": asking((STEW, BAR, CHIPS), kcal=1300.0),
    "eat-all": two_hungry(),
    "minutes": slow_dinner(),
    "pot": small_pot(),
    "container": crowded(None, 700.0),
    "budget-and-container": crowded(12.0, 700.0),
    "minutes-and-container": slow_and_crowded(),
}


@each("case", CASES)
def test_each_way_out_that_is_named_works_when_it_is_taken(case: str) -> None:
    """Of every kind, and every other that is named beside it."""
    asked = CASES[case]
    found = {f.key: f for f in refusal(asked) if f.key.startswith("way-out")}
    assert f"way-out.{case}" in found
    for way in found.values():
        taken = applied(asked, way)
        assert faults_of(taken, choose(taken, solve)) == [], way.key


def test_no_kind_of_way_out_goes_untried() -> None:
    from oatsack.desk.ways import WRITES

    assert set(CASES) - {"budget-and-container", "minutes-and-container"} == set(WRITES)


def applied(asked: MenuRequest, way: Flag) -> MenuRequest:
    """The request after its walker did what the flag says, read from its values alone."""
    rules, v = asked.rules, way.values
    out = asked
    if "budget_money" in v:
        out = replace(out, rules=replace(rules, budget=float(v["budget_money"])))
    if "room_ml" in v:
        out = replace(out, container_ml=float(v["room_ml"]))
    if "pot_ml" in v:
        pots = list(asked.kit.pots)
        pots[int(v["pot"])] = replace(pots[int(v["pot"])], volume_ml=float(v["pot_ml"]))
        out = replace(out, kit=replace(asked.kit, pots=tuple(pots)))
    if "limit_min" in v:
        limit = float(v["limit_min"])
        out = replace(out, slots=tuple(
            replace(s, minutes_limit=limit) if s.meal == v["meal"] else s for s in asked.slots
        ))  # fmt: skip
    if way.key in ("way-out.cook-lunch", "way-out.cook-breakfast"):
        hot = tuple(replace(s, hot=s.hot or s.meal == v["meal"]) for s in asked.slots)
        out = replace(out, slots=hot)
    if way.key == "way-out.dislikes":
        people = tuple(replace(w, dislikes=frozenset()) for w in asked.walkers)
        out = replace(out, walkers=people)
    if way.key == "way-out.bans":
        out = replace(out, rules=replace(rules, holds=()))
    if way.key.startswith("way-out.add-"):
        out = replace(out, foods=(*asked.foods, told_food(way)))
    if "share" in v:
        target = {w: {d: kcal * float(v["share"]) for d, kcal in of.items()}
                  for w, of in asked.target_kcal.items()}  # fmt: skip
        out = replace(out, target_kcal=target)
    return out


def told_food(way: Flag) -> Food:
    """A food such as the flag asks for, of whatever its values say, eaten as it is."""
    kind, v = way.key.removeprefix("way-out.add-"), way.values
    dish = {"dinner": "meal", "breakfast": "breakfast"}.get(kind)
    kcal = float(v["energy_kcal"])
    return food(
        "bought", kcal=kcal, dose_g=100.0 * float(v["dose_kcal"]) / kcal,
        protein_g=float(v["protein_g"]), role="main" if dish else "snack",
        meals=kind if dish else "lunch move", category=dish or "snack",
        taste="salty" if kind in ("dinner", "savoury") else "neutral",
    )  # fmt: skip


def test_a_way_out_carries_the_mass_of_the_menu_it_leads_to() -> None:
    flags = refusal(asking((STEW, PIE, BAR, CHIPS), budget=5.0))
    way = next(f for f in flags if f.key == "way-out.budget")
    assert 150 < float(way.values["mass_g"]) < 400


def test_every_flag_of_a_refusal_has_its_sentence() -> None:
    words = pytest.importorskip("oatsack.reports.words")
    flags = [*refusal(asking((STEW, BAR), kcal=2000.0)),
             *refusal(asking((STEW, BAR, CHIPS), budget=5.0)),
             *refusal(crowded(12.0, 700.0))]  # fmt: skip
    voice = words.Voice(foods={}, walkers={"anna": "Anna"}, days={"1": "Fri 5"})
    for flag in flags:
        said = voice.flag(flag)
        assert flag.key not in said, said
        assert "{" not in said


def test_the_exit_code_of_a_refusal_is_1() -> None:
    assert NoPlan([]).exit_code == 1
    assert NoPlan(["a", "b"]).reasons == ("a", "b")
    assert NoPlan(["a"]).flags == ()


def test_an_absurd_amount_is_answered_with_one_that_fits() -> None:
    """Three times what these foods can bring: what is named was tried and fits."""
    bars = [food(f"bar-{n}", meals="lunch move", kcal=450, dose_g=50) for n in range(4)]
    asked = retarget(request(bars, keep="lunch move", count=2), 9000.0)
    with pytest.raises(NoPlan) as refused:
        choose(asked, solve)
    (way,) = [f for f in refused.value.flags if f.key == "way-out.eat"]
    eaten = float(str(way.values["energy_kcal"]))
    assert 500.0 < eaten < 6000.0
    assert choose(retarget(asked, eaten), solve).portions


def test_too_dear_by_far_is_answered_with_what_the_money_feeds() -> None:
    """Three foods and 8 to spend never make 4,000 kcal; what is offered instead was tried."""
    foods = (STEW, replace(BAR, pack_g=50.0), CHIPS)
    flags = refusal(asking(foods, kcal=4000.0, budget=8.0, spare="none"))
    ways_out = [f for f in flags if f.key == "way-out.eat"]
    for way in ways_out:
        less = retarget(asking(foods, budget=8.0, spare="none"), float(way.values["energy_kcal"]))
        assert faults_of(less, choose(less, solve)) == []
    assert ways_out
