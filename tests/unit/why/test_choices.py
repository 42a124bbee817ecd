"""A choice is explained by what holds it and by what the next best would cost, in words."""

from __future__ import annotations

from functools import cache

import pytest

from oatsack.desk.whys import told
from oatsack.errors import UnknownAddress
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump, load
from oatsack.menu.rules import RULES
from oatsack.reports.words import say
from oatsack.values.plan import Plan
from oatsack.values.trip import Rules
from oatsack.why import why
from oatsack.why.explainers.choosing import heard_of, holding, speaks_of
from oatsack.why.explainers.eating import aimed_at
from oatsack.why.tree import portions_at
from support.plans import short_plan

pytestmark = pytest.mark.slow


@cache
def plan() -> Plan:
    return short_plan()


def test_a_place_on_the_menu_is_an_address_by_walker_day_meal_and_food() -> None:
    for p in plan().menu.portions:
        day = portions_at(plan(), f"menu/{p.walker}/{p.day}")
        meal = portions_at(plan(), f"menu/{p.walker}/{p.day}/{p.meal}")
        dish = portions_at(plan(), f"menu/{p.walker}/{p.day}/{p.meal}/{p.food}")
        assert dish
        assert set(dish) <= set(meal) <= set(day)
    assert portions_at(plan(), "menu/portions/0/doses") == ()
    assert portions_at(plan(), "menu/nobody/1/lunch") == ()


def test_a_meal_is_told_in_words_with_its_next_best_and_what_holds_it() -> None:
    chosen = next(p for p in plan().menu.portions
                  if p.why == "chosen" and p.walker == "ben" and p.meal == "lunch")  # fmt: skip
    lines = "\n".join(told(plan(), f"menu/ben/{chosen.day}/lunch"))
    assert f"Ben, day {chosen.day}, lunch: {plan().foods[chosen.food].name}" in lines
    assert "Next best there: " in lines or "as well there" in lines or "nothing else fits" in lines
    assert "?" not in lines, "a field without a value"


def test_the_walkers_own_pick_has_no_next_best() -> None:
    usual = next(p for p in plan().menu.portions if p.why == "usual")
    assert not [f for f in heard_of(plan(), usual) if f.key.startswith("why.next-best")]
    where = f"menu/{usual.walker}/{usual.day}/{usual.meal}/{usual.food}"
    assert "your usual" in "\n".join(told(plan(), where))


def test_every_chosen_portion_can_be_asked_and_answers_with_figures_that_differ() -> None:
    seen = set()
    for i, p in enumerate(plan().menu.portions):
        found = why(plan(), f"menu/portions/{i}/doses", larder=bundled())
        keys = {flag.key for flag in found.flags}
        if p.why == "chosen":
            assert keys & {"why.next-best", "why.next-best-level", "why.alone"}, p
        for flag in found.flags:
            seen.add(flag.key)
            if flag.key.startswith("why.next-best"):
                assert flag.values["food"] != p.food
    assert {"why.next-best", "why.binds"} <= seen


def test_with_a_larder_at_hand_the_next_best_is_never_dearer_than_without() -> None:
    for i, p in enumerate(plan().menu.portions):
        alone = why(plan(), f"menu/portions/{i}/doses").flags
        more = why(plan(), f"menu/portions/{i}/doses", larder=bundled()).flags
        if p.why == "chosen" and p.meal != "dinner" and alone[0].key == "why.next-best":
            assert more[0].key in ("why.next-best", "why.next-best-level")
            assert float(more[0].values["more_g"]) <= float(alone[0].values["more_g"]) + 1e-6


def test_the_aim_tells_every_rule_that_holds_once() -> None:
    flags = why(plan(), "menu/aim").flags
    rules = [flag.values["rule"] for flag in flags if flag.key == "why.binds"]
    assert rules
    assert len(set(rules)) == len(rules)
    assert "What holds it: " in "\n".join(told(plan(), "menu/aim"))


def test_a_row_speaks_only_of_the_walker_day_meal_and_food_in_its_name() -> None:
    one = next(p for p in plan().menu.portions if p.walker == "ben" and p.meal == "lunch")
    here, other = str(one.day), str(one.day % 3 + 1)
    cases = {
        "fat/wish/ben": True, "fat/wish/anna": False, "container/1": one.day == 1,
        f"carbs/ben/{here}": True, f"carbs/ben/{other}": False,
        f"energy-meal/ben/{here}/lunch": True, f"energy-meal/ben/{here}/dinner": False,
        f"energy-day/anna+ben/{here}": True, "packs/budget": True,
    }  # fmt: skip
    found = {row: speaks_of(row, plan(), one) for row in cases}
    assert found == cases


def test_a_row_of_no_rule_is_not_told() -> None:
    rows = ["fat/wish/ben", "nothing/ben", "fat/ben"]
    assert [flag.values["rule"] for flag in holding(rows, {})] == ["fat"]


def test_by_how_much_follows_what_holds_in_the_unit_of_its_rule() -> None:
    """The worst of several rows, or how many there are; a row at its limit is not missed."""
    rows = ["fat/wish/ben", "fat/ben", "variety/dinner/ben/stew/1", "variety/twice/ben/2/bar",
            "sodium/low/ben", "taste/lunch/ben/1"]  # fmt: skip
    missed = {"fat/wish/ben": 90.0, "fat/ben": 20.0, "variety/dinner/ben/stew/1": 1.0,
              "variety/twice/ben/2/bar": 1.0, "taste/lunch/ben/1": 1.0}  # fmt: skip
    found = [(flag.key, dict(flag.values)) for flag in holding(rows, missed)]
    assert found == [
        ("why.binds", {"rule": "fat"}), ("rule.fat.by-how-much", {"give_kcal": 90.0}),
        ("why.binds", {"rule": "variety"}), ("rule.variety.by-how-much", {"n": 2.0}),
        ("why.binds", {"rule": "sodium"}), ("why.binds", {"rule": "taste"}),
    ]  # fmt: skip


def test_every_rule_says_by_how_much_in_the_unit_that_it_gives_in() -> None:
    gaps = []
    for rule in RULES:
        name = "n" if rule.gives_in == "n" else f"give_{rule.gives_in}"
        said = say(rule.by_how_much, **{name: 2.0})
        gaps += [rule.name] if "?" in said or "kcal kcal" in said else []
    assert gaps == []


def test_the_aim_says_by_how_much_as_far_as_a_wish_is_missed() -> None:
    text = "\n".join(told(plan(), "menu/aim"))
    keys = [flag.key for flag in why(plan(), "menu/aim").flags]
    amounts = [key for key in keys if key.endswith(".by-how-much")]
    assert amounts
    assert not [key for key in amounts if key in text], "each is a sentence"


def test_the_plan_file_keeps_what_binds() -> None:
    assert plan().menu.binds
    assert load(dump(plan())).menu.binds == plan().menu.binds


def test_a_wrong_word_names_the_right_ones() -> None:
    with pytest.raises(UnknownAddress, match="menu has no"):
        told(plan(), "menu/nobody/1/lunch")


def test_a_choice_says_what_was_made_least_as_the_trip_asked() -> None:
    cases = [
        (Rules(aims=("price", "load")), "least price, then load"),
        (Rules(weight_price=3.0), "(load x 1, liking x 1, price x 3;"),
        (Rules(settings={"aim.rubbish": 2.0, "fat.wish_share": 0.3}), "price x 1, rubbish x 2;"),
    ]  # fmt: skip
    assert [words for rules, words in cases if words not in aimed_at(rules)] == []
    assert "liking x 1" in "\n".join(told(plan(), "menu/aim"))
