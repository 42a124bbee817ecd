"""A substitution at the shelf, and what is checked again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.packing.repack import repack
from oatsack.packing.swap import Swapped, doses_ratio, swap
from oatsack.values.food import Nutrients, Prep
from oatsack.values.menu import Menu, Pool
from oatsack.values.walker import Avoid, Walker
from support.each import each
from support.packs import FREE, LARDER, eat, food, packed, people, usual_menu

OATS, BAR, NUTS = LARDER["oats"], LARDER["bar"], LARDER["nuts"]
RICE = food("rice", 360.0, role="main", prep=Prep(kind="boil", water_ml=120.0))


def swapped(new, old=OATS, walkers: tuple[Walker, ...] | None = None, menu: Menu | None = None,
            **more) -> Swapped:  # fmt: skip
    return swap(menu or usual_menu(["a", "b"], 3), old, new, walkers or people(2), foods=LARDER,
                **more)  # fmt: skip


def keys(done: Swapped) -> set[str]:
    return {f.key for f in done.flags}


def test_every_portion_of_the_old_food_becomes_the_new_one() -> None:
    menu = swapped(RICE).menu
    assert not any(p.food == "oats" for p in menu.portions)
    assert sum(p.food == "rice" for p in menu.portions) == 6
    assert len(menu.portions) == len(usual_menu(["a", "b"], 3).portions)


def test_energy_stays_the_same_to_the_nearest_dose() -> None:
    double = food("double", 800.0)
    menu = Menu(portions=(eat("a", 1, "breakfast", "oats", 4.0),))
    done = swapped(double, menu=menu)
    assert done.menu.portions[0].doses == 2.0
    assert done.energy_kcal[("a", 1)] == pytest.approx(0.0)
    assert done.mass_g == pytest.approx(-100.0)


@each(("by", "ratio"), [("energy", 0.5), ("mass", 0.5), ("doses", 1.0)])
def test_what_stays_equal_can_be_chosen(by, ratio: float) -> None:
    assert doses_ratio(OATS, food("big", 400.0, dose_g=100.0), by) == pytest.approx(ratio)


def test_a_food_without_energy_is_swapped_dose_by_dose() -> None:
    blank = replace(OATS, per_100g=Nutrients())
    assert doses_ratio(OATS, blank, "energy") == 1.0


def test_a_portion_never_vanishes() -> None:
    rich = food("rich", 900.0, dose_g=200.0)
    menu = Menu(portions=(eat("a", 1, "breakfast", "oats", 1.0),))
    assert swapped(rich, menu=menu).menu.portions[0].doses == 1.0


def test_an_allergen_blocks_and_so_does_an_unread_label() -> None:
    a, b = people(2)
    careful = replace(a, avoids=(Avoid(allergen="soy"),))
    soy = food("soya", role="main", allergens={**FREE, "soy": "contains"})
    blank = food("blank", role="main", allergens={})
    for bad in (soy, blank):
        done = swapped(bad, walkers=(careful, b))
        assert not done.allowed
        assert "packing.swap.allergen" in keys(done)
    assert swapped(RICE, walkers=(careful, b)).allowed


def test_what_somebody_else_eats_alone_matters_only_by_scope() -> None:
    a, b = people(2)
    soy = food("soya", role="main", allergens={**FREE, "soy": "contains"})
    menu = Menu(portions=(eat("b", 1, "breakfast", "oats"),))
    for scope, allowed in (("plate", True), ("party", False)):
        careful = replace(a, avoids=(Avoid(allergen="soy", scope=scope),))  # type: ignore[arg-type]
        assert swapped(soy, walkers=(careful, b), menu=menu).allowed == allowed


def test_the_shared_pot_matters_when_the_new_food_goes_into_it() -> None:
    a, b = people(2)
    careful = replace(a, avoids=(Avoid(allergen="soy", scope="pot"),))
    menu = Menu(portions=(eat("b", 1, "dinner", "oats"),))
    pot = food("s", allergens={**FREE, "soy": "may"}, prep=Prep(kind="simmer", needs_pot=True))
    pouch = replace(pot, prep=Prep(kind="boil", from_bag=True))
    assert not swapped(pot, walkers=(careful, b), menu=menu).allowed
    assert swapped(pouch, walkers=(careful, b), menu=menu).allowed


def test_a_diet_blocks_for_those_who_eat_it() -> None:
    a, b = people(2)
    vegetarian = replace(a, eats="vegetarian")
    meat = food("ham", role="main", diet="meat")
    assert "packing.swap.diet" in keys(swapped(meat, walkers=(vegetarian, b)))
    only_b = Menu(portions=(eat("b", 1, "breakfast", "oats"),))
    assert swapped(meat, walkers=(vegetarian, b), menu=only_b).allowed


def test_a_large_change_of_energy_is_said_once_per_day_and_never_blocks() -> None:
    light = food("light", 50.0, dose_g=400.0)
    menu = Menu(portions=(eat("a", 1, "breakfast", "oats", 1.0),
                          eat("a", 2, "breakfast", "oats", 1.0)))  # fmt: skip
    done = swapped(food("water", 4.0), menu=menu, by="doses")
    assert [f.key for f in done.flags].count("packing.swap.energy") == 2
    assert done.allowed
    assert "packing.swap.energy" not in keys(swapped(light, menu=menu, by="energy"))


def test_a_salty_swap_is_said() -> None:
    salty = replace(RICE, per_100g=Nutrients(energy_kcal=400.0, sodium_mg=3000.0))
    assert "packing.swap.sodium" in keys(swapped(salty))
    assert "packing.swap.sodium" not in keys(swapped(RICE))


def test_a_thirsty_swap_is_said() -> None:
    thirsty = replace(RICE, prep=Prep(kind="boil", water_ml=600.0))
    assert "packing.swap.water" in keys(swapped(thirsty))


def test_spare_food_is_swapped_too() -> None:
    done = swapped(RICE, old=BAR)
    assert {p.food for p in done.menu.spare} == {"rice"}


def test_an_open_bag_becomes_whole_packs_of_the_new_food() -> None:
    mix = food("mix", 500.0, carry="bag", pack_g=150.0, dose_g=30.0, doses_per_pack=5.0)
    menu = usual_menu(["a"], 4)
    done = swap(menu, NUTS, mix, people(1), foods=LARDER).menu
    (pool,) = done.pools
    assert isinstance(pool, Pool)
    assert pool.packs == 2.0  # 1,200 kcal are nearest to two packs of 750
    assert sum(pool.by_day_g.values()) == pytest.approx(pool.packs * 150.0)
    shares = [p.doses * 30.0 for p in done.portions if p.food == "mix"]
    assert sum(shares) == pytest.approx(300.0)


def test_a_swap_changes_only_the_bags_it_touches() -> None:
    menu = usual_menu(["a", "b"], 3)
    done = swap(menu, OATS, RICE, people(2), foods=LARDER)
    before = packed(people(2), 3, menu=menu)
    after = packed(people(2), 3, menu=done.menu, foods={**LARDER, "rice": RICE})
    steps = repack(before.bags, after.bags).steps
    assert {s.food for s in steps if s.food} == {"rice"} or {s.kind for s in steps} >= {"put"}
    assert len({s.becomes for s in steps}) == 1


def test_the_old_menu_is_left_as_it_was() -> None:
    menu = usual_menu(["a"], 2)
    copy = replace(menu)
    swap(menu, OATS, RICE, people(1), foods=LARDER)
    assert menu == copy


def test_a_plain_portion_beside_an_open_bag_is_swapped_by_doses_not_by_the_bag() -> None:
    menu = usual_menu(["a"], 4)
    menu = replace(menu, portions=(*menu.portions, eat("a", 1, "lunch", "nuts", 1.0)))
    mix = food("mix", 600.0, carry="bag", pack_g=200.0, dose_g=40.0, doses_per_pack=5.0)
    done = swap(menu, NUTS, mix, people(1), foods=LARDER).menu
    lunch = [p for p in done.portions if p.food == "mix" and p.meal == "lunch"]
    assert [p.doses for p in lunch] == [1.0]
    bags = [p.doses for p in done.portions if p.food == "mix" and p.why == "bag"]
    assert bags == pytest.approx([50.0 / 40.0] * 4)
