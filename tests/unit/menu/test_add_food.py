"""Which kind of food is asked for where no menu fits: the larder's middle, tried by solving."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.menu.add_food import KINDS, PROTEIN_G, SEVERAL, additions, middle
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.menu.refuse import Give
from oatsack.reports.words import say, sentences
from oatsack.solve.highs import solve
from oatsack.values.food import ALLERGENS
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Work
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid
from support.menu_checker import faults_of
from support.menus import boiled, food, request, retarget, walker

STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=100.0, kcal=400.0,
            protein_g=12.0, taste="salty", prep=boiled())  # fmt: skip
ROAST = replace(STEW, id="roast", diet="meat", dose_g=120.0)
BAR = food("bar", meals="lunch move", dose_g=45.0, kcal=450.0)
JERKY = food("jerky", meals="lunch move", category="protein", dose_g=25.0, kcal=300.0,
             protein_g=35.0, taste="salty", diet="meat")  # fmt: skip
KINDS_BY = {kind.name: kind for kind in KINDS}
SHORT = (Give(row="energy-day/anna/1", short=200.0, low=800.0, high=1000.0),)
DISH = (Give(row="mains/anna/1/dinner", short=1.0, low=1.0, high=1.0),)
OVER = (Give(row="energy-day/anna/1", over=90.0, low=800.0, high=1000.0),)


def asking(*foods, kcal: float = 900.0, meals: str = "lunch dinner",  # type: ignore[no-untyped-def]
           **more: object) -> MenuRequest:  # fmt: skip
    rules = replace(more.pop("rules", Rules()), day_window=0.2, trip_window=0.15)  # type: ignore[type-var]
    return retarget(request(foods, keep=meals, rules=rules, **more), kcal)  # type: ignore[arg-type]


def named(asked: MenuRequest, gives: tuple[Give, ...]) -> list[str]:
    return [way.flag.key.removeprefix("way-out.add-") for way in additions(asked, gives)]


def fits(asked: MenuRequest) -> bool:
    """Whether the engine finds a menu; one that is chosen keeps every hard rule."""
    if solve(build(asked)[1], Work(nodes=200)).x is None:
        return False
    assert faults_of(asked, choose(asked, solve)) == []
    return True


def test_what_gives_says_which_kinds_may_help() -> None:
    asked = asking(STEW, BAR)
    assert named(asked, SHORT) == ["savoury", "nibble", "dinner"]
    assert named(asked, (*SHORT, *DISH)) == ["dinner", "savoury", "nibble"], "a dish is lacking"
    assert named(asked, DISH) == ["dinner"]
    assert named(asked, OVER) == []
    assert named(asking(STEW, BAR, meals="move dinner"), OVER) == ["small"]
    assert named(asked, (Give(row="packs/budget", over=9.0, high=20.0),)) == []
    assert named(asked, (Give(row="pot/anna/1/dinner", over=9.0, high=20.0),)) == []
    assert named(asked, (Give(row="protein/anna", short=9.0, low=48.0),)) == ["savoury"]


def test_a_kind_is_the_middle_of_its_likes_and_suits_everybody() -> None:
    asked = asking(STEW, replace(ROAST, per_100g=replace(STEW.per_100g, energy_kcal=500.0)), BAR)
    dish = middle(asked, KINDS_BY["dinner"])
    assert (dish.per_100g.energy_kcal, dish.dose_g) == (450.0, 110.0)
    assert dish.diet == "vegan"
    assert {dish.state(name) for name in ALLERGENS} == {"free"}
    assert dish.prep == STEW.prep


def test_a_savoury_food_is_told_by_the_least_of_protein_that_was_tried() -> None:
    found = middle(asking(STEW, JERKY), KINDS_BY["savoury"])
    assert found.per_100g.protein_g == PROTEIN_G
    assert found.per_100g.energy_kcal == 300.0
    assert found.prep.kind == "none"


def test_a_larder_without_its_like_is_answered_with_what_is_common() -> None:
    found = middle(asking(BAR), KINDS_BY["dinner"])
    kind = KINDS_BY["dinner"]
    assert (found.per_100g.energy_kcal, found.dose_g) == (kind.energy_kcal, kind.dose_g)
    assert found.prep.kind == "none", "nobody knows how it is made"


def test_a_dish_costs_in_the_kitchen_what_one_like_it_costs_and_without_fire_is_cold() -> None:
    asked = replace(asking(STEW, BAR), prices={("stew", 1): DosePrice(flame_min=4.0)})
    (dish,) = additions(asked, DISH)
    assert dish.request.prices[("any-dinner", 1)] == DosePrice(flame_min=4.0)
    cold = asking(STEW, BAR, rules=Rules(no_flame=True))
    (dish,) = additions(cold, DISH)
    assert dish.request.foods[-1].prep.kind == "none"
    assert ("any-dinner", 1) not in dish.request.prices


CASES = {
    "a vegan among meat finds no dinner":
        (asking(ROAST, BAR, walkers=[walker(eats="vegan")]), DISH, "dinner"),
    "too little to carry a day":
        (asking(STEW, replace(BAR, meals=frozenset({"lunch"}), dose_g=20.0)), SHORT, "nibble"),
    "nothing without an allergen":
        (asking(replace(STEW, allergens={}), BAR,
                walkers=[walker(avoids=(Avoid(allergen="milk"),))]), DISH, "dinner"),
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(CASES))
def test_without_it_no_menu_fits_and_with_it_one_does(name: str) -> None:
    asked, gives, kind = CASES[name]
    assert not fits(asked)
    ways = {way.flag.key.removeprefix("way-out.add-"): way for way in additions(asked, gives)}
    assert fits(ways[kind].request)


def test_a_pouch_too_large_for_the_day_wants_something_in_small_pieces() -> None:
    """One pouch of 450 kcal is short of a day of 600, and two are too much for it."""
    bar = replace(BAR, dose_g=100.0, meals=frozenset({"move"}))
    asked = asking(replace(STEW, dose_g=112.5), bar, kcal=600.0, meals="move dinner")
    assert not fits(asked)
    (small,) = additions(asked, OVER)
    assert small.flag.values["dose_kcal"] == pytest.approx(60.0)
    assert fits(small.request)


def test_a_larder_may_hold_a_food_of_that_name_already() -> None:
    asked = asking(STEW, replace(JERKY, id="any-savoury"))
    (found, *_) = additions(asked, SHORT)
    names = [food.id for food in found.request.foods]
    assert len(set(names)) == len(names)


@pytest.mark.slow
def test_a_day_that_lacks_more_than_one_food_brings_is_answered_with_several() -> None:
    asked = asking(STEW, replace(BAR, dose_g=20.0), JERKY, kcal=3400.0,
                   meals="breakfast lunch move dinner")  # fmt: skip
    much = (replace(SHORT[0], short=900.0),)
    (several, *single) = additions(asked, much)
    assert several.flag.key == SEVERAL
    assert several.flag.values["n"] == len(single) == 4
    assert {f.id for f in several.request.foods} - {f.id for f in asked.foods} == {
        way.request.foods[-1].id for way in single
    }
    assert not fits(asked)
    assert not any(fits(way.request) for way in single)
    assert fits(several.request)
    assert "4 of them" in say(f"flags.{SEVERAL}", **several.flag.values, mass_g=900.0)


def test_every_kind_is_said_in_words_that_leave_no_gap() -> None:
    asked = asking(STEW, JERKY, BAR, meals="breakfast lunch move dinner")
    gives = (*SHORT, *OVER)
    said = {way.flag.key: say(f"flags.{way.flag.key}", **{**way.flag.values, "mass_g": 900.0})
            for way in additions(asked, gives)}  # fmt: skip
    assert set(said) == {f"way-out.add-{kind.name}" for kind in KINDS}
    assert {f"flags.{key}" for key in said} <= set(sentences())
    assert not [text for text in said.values() if "?" in text]
    assert "at least 20 g of protein" in said["way-out.add-savoury"]
