"""The loss of one pack: what is left, and what sharing does about it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.packing.loss import (
    KEEP_ENERGY,
    Heat,
    eats_cold,
    is_safe,
    limits,
    losses,
    planned_kcal,
    safe_kcal,
)
from oatsack.values.food import Prep
from oatsack.values.kit import Kit, Pot
from oatsack.values.menu import Menu
from oatsack.values.pack import Bag
from oatsack.values.walker import Avoid
from support.each import each
from support.packs import FREE, LARDER, bag, eat, food, packed, people, usual_menu

NUT_ALLERGY = Avoid(allergen="tree_nut")
NUTTY = food("nutty", role="main", allergens={**FREE, "tree_nut": "contains"})
BLANK = food("blank", role="main", allergens={})


@each("party", [3, 4, 6, 12])
def test_from_three_walkers_on_any_loss_leaves_six_tenths_of_the_energy(party: int) -> None:
    plan = packed(people(party), 5)
    assert len(plan.losses) == party
    assert min(x.energy_share for x in plan.losses) >= KEEP_ENERGY


def test_exactly_one_loss_of_a_leg_is_marked_the_worst() -> None:
    for party in (2, 3, 5):
        assert sum(x.worst for x in packed(people(party), 3).losses) == 1


def test_a_walker_alone_has_no_loss_to_report() -> None:
    assert packed(people(1), 3).losses == ()


def test_shares_left_and_lost_sum_to_one_over_all_packs() -> None:
    plan = packed(people(4), 4)
    assert sum(1.0 - x.energy_share for x in plan.losses) == pytest.approx(1.0)


def test_the_loss_of_the_only_stove_leaves_cold_food() -> None:
    plan = packed(people(3), 4)
    cold = [x for x in plan.losses if not x.heat]
    assert len(cold) == 1
    assert cold[0].flameless_share > 0.35
    assert not any(f.key == "packing.loss.heat" for f in plan.flags)


def test_two_kits_in_two_groups_keep_heat_whoever_is_lost() -> None:
    heat = Heat(stoves=frozenset({"a", "b"}), fuel=frozenset({"a", "b"}))
    assert heat.without("a") and heat.without("b") and heat.without("c")
    assert not Heat(stoves=frozenset({"a"}), fuel=frozenset({"a", "b"})).without("a")
    assert not Heat(stoves=frozenset({"a", "b"}), fuel=frozenset({"a"})).without("a")


def test_a_second_pot_gives_each_cook_group_a_stove() -> None:
    one = packed(people(12), 3)
    two = packed(people(12), 3, kit=Kit(pots=(Pot(), Pot())), cans=2)
    assert [x.heat for x in one.losses].count(False) == 1
    assert all(x.heat for x in two.losses)
    carrying = [s.walker for s in two.sacks if s.common_g.get("fuel")]
    assert len(carrying) == 2
    assert sum(s.common_g.get("fuel", 0.0) for s in two.sacks) == pytest.approx(460.0)


def test_unknown_is_not_safe_and_traces_only_where_allowed() -> None:
    a = replace(people(1)[0], avoids=(NUT_ALLERGY,))
    traces = replace(a, avoids=(Avoid(allergen="tree_nut", traces=True),))
    may = food("may", allergens={**FREE, "tree_nut": "may"})
    assert not is_safe(NUTTY, a) and not is_safe(BLANK, a) and not is_safe(may, a)
    assert is_safe(may, traces) and not is_safe(NUTTY, traces) and not is_safe(BLANK, traces)
    assert is_safe(LARDER["oats"], a)


def test_nothing_loose_beside_something_unsafe_is_safe() -> None:
    rows = {**LARDER, "nutty": NUTTY}
    a = replace(people(1)[0], avoids=(NUT_ALLERGY,))
    mixed = bag(contents={"oats": 50.0, "nutty": 50.0})
    assert safe_kcal(mixed, a, rows) == 0.0
    assert safe_kcal(replace(mixed, sealed=True), a, rows) == pytest.approx(200.0)


def test_safe_food_of_an_allergic_walker_is_spread_over_packs() -> None:
    """Only the allergic walker's own dinners are safe, so they may not ride in one pack."""
    first, *others = people(4)
    careful = replace(first, avoids=(NUT_ALLERGY,))
    safe = food("rice", role="main", prep=Prep(kind="boil", water_ml=200.0))
    portions = [eat("a", d, "dinner", "rice", 4.0) for d in range(1, 6)]
    portions += [eat("a", d, "breakfast", "oats", 2.0) for d in range(1, 6)]
    portions += [eat("a", d, "lunch", "cheese", 4.0) for d in range(1, 6)]
    portions += [eat(w.id, d, "dinner", "nutty", 8.0) for w in others for d in range(1, 6)]
    plan = packed((careful, *others), 5, menu=Menu(portions=tuple(portions)),
                  foods={**LARDER, "nutty": NUTTY, "rice": safe})  # fmt: skip
    shares = [x.safe_share["a"] for x in plan.losses]
    assert min(shares) >= 0.45
    assert len({b.carrier for b in plan.bags if b.group == "a"}) >= 2


def test_a_couple_hears_no_red_word_about_its_losses() -> None:
    levels = {f.level for f in packed(people(2), 4).flags if f.key.startswith("packing.loss")}
    assert levels <= {"quiet"}


def test_cold_food_is_what_needs_no_flame_or_soaks_in_cold_water() -> None:
    assert eats_cold(food("bar")) and eats_cold(food("s", prep=Prep(kind="soak")))
    assert eats_cold(food("c", prep=Prep(kind="boil", cold_soak_min=45.0)))
    assert not eats_cold(food("h", prep=Prep(kind="boil"))) and not eats_cold(
        food("p", prep=Prep(kind="simmer"))
    )


def test_shares_are_of_what_was_carried() -> None:
    a, b = people(2)
    bags = (bag("x", {"lentils": 100.0}, carrier="a"), bag("y", {"bar": 120.0}, carrier="b"))
    first, second = losses(1, bags, (a, b), LARDER, Heat())
    lentils, bar = 2 * 200.0, 3 * 180.0
    assert first.energy_share == pytest.approx(bar / (lentils + bar))
    assert first.flameless_share == pytest.approx(bar / (lentils + bar))
    assert second.flameless_share == 0.0
    assert np.isclose(first.energy_share + second.energy_share, 1.0)


def test_menu_without_food_has_no_losses() -> None:
    assert packed(people(3), 2, menu=Menu(portions=())).losses == ()


def test_the_usual_menu_of_five_keeps_its_own_bags_on_their_backs() -> None:
    plan = packed(people(5), 3, menu=usual_menu([w.id for w in people(5)], 3))
    assert all(b.carrier == b.group for b in plan.bags if b.label == "move")


def test_what_a_walker_planned_is_what_bags_hold_for_them_wherever_it_rides() -> None:
    a = bag("x", {"lentils": 100.0}, carrier="b")
    assert planned_kcal([a], "a", LARDER) == pytest.approx(2 * 200.0)
    assert planned_kcal([a], "b", LARDER) == 0.0
    plan = packed(people(2), 3)
    both = sum(planned_kcal(plan.bags, w, LARDER) for w in ("a", "b"))
    items = [i for b in plan.bags for i in b.items]
    assert both == pytest.approx(sum(i.doses * LARDER[i.food].dose_kcal for i in items))


FLAME = Heat(stoves=frozenset({"a"}), fuel=frozenset({"a", "b"}))
"""Walker a has the only stove."""
HOT, COLD = 400.0, 360.0
"""Energy of 100 g of lentils, of 80 g of bars [kcal], by hand from the foods of the tests."""


def a_hot_and_a_cold(count: int = 1) -> tuple[Bag, ...]:
    hot = [bag(f"hot-{k}", {"lentils": 100.0}) for k in range(count)]
    return (*hot, *(bag(f"cold-{k}", {"bar": 80.0}) for k in range(count)))


def test_alone_nothing_is_limited_and_a_couple_only_by_its_stove() -> None:
    assert limits(a_hot_and_a_cold(), people(1), LARDER, FLAME) == ()
    assert limits(a_hot_and_a_cold(), people(2), LARDER, Heat()) == ()
    ((amounts, caps),) = limits(a_hot_and_a_cold(4), people(2), LARDER, FLAME)
    assert list(amounts) == [0.0] * 4 + [COLD] * 4
    # less cold food than what must be left of it: an even part and a tenth, for more is not to ask
    assert caps[0] == pytest.approx(1.1 * 4 * COLD / 2) and np.isinf(caps[1])


def test_from_three_on_nobody_carries_more_than_four_tenths_of_the_energy() -> None:
    for party in (3, 4):
        (amounts, caps), *stove = limits(a_hot_and_a_cold(2), people(party), LARDER, Heat())
        assert list(amounts) == [HOT, HOT, COLD, COLD]
        assert list(caps) == pytest.approx([0.4 * 2 * (HOT + COLD)] * party)
        assert stove == []


def test_who_has_the_only_stove_leaves_cold_food_and_nobody_else_is_held_to_it() -> None:
    bags = (bag("hot", {"lentils": 25.0}), *(bag(f"c{k}", {"bar": 80.0}) for k in range(9)))
    *_, (amounts, caps) = limits(bags, people(3), LARDER, FLAME)
    cold, whole = 9 * COLD, 9 * COLD + HOT / 4
    assert sum(amounts) == pytest.approx(cold)
    assert caps[0] == pytest.approx(cold - 0.35 * whole)
    assert np.isinf(caps[1:]).all()
    both = replace(FLAME, stoves=frozenset({"a", "b"}))
    assert len(limits(bags, people(3), LARDER, both)) == 1, "the other stove is left"


def test_safe_food_is_held_to_what_its_walker_must_be_left_with() -> None:
    a, b = people(2)
    careful = replace(a, avoids=(NUT_ALLERGY,))
    bags = tuple(bag(f"{k}", {"oats": 100.0}) for k in range(5))
    ((amounts, caps),) = limits(bags, (careful, b), LARDER, Heat())
    assert list(amounts) == [400.0] * 5
    assert list(caps) == pytest.approx([max(2000.0 - 0.6 * 2000.0, 1.1 * 2000.0 / 2)] * 2)


def test_the_worst_loss_is_read_by_what_can_be_eaten_after_it() -> None:
    """The one with the stove carries little, yet what the others keep cannot be cooked."""
    party = people(3)
    bags = (bag("x", {"oats": 50.0}, carrier="a"), bag("y", {"lentils": 150.0}, carrier="b"),
            bag("z", {"bar": 80.0}, carrier="c"))  # fmt: skip
    by = {x.walker: x for x in losses(1, bags, party, LARDER, FLAME)}
    assert by["a"].energy_share > by["b"].energy_share
    assert [w for w, x in by.items() if x.worst] == ["a"]
    spare_stove = replace(FLAME, stoves=frozenset({"a", "b"}))
    by = {x.walker: x for x in losses(1, bags, party, LARDER, spare_stove)}
    assert [w for w, x in by.items() if x.worst] == ["b"]


def test_a_share_that_is_safe_outweighs_one_that_is_large() -> None:
    a, b, c = people(3)
    careful = replace(b, avoids=(NUT_ALLERGY,))
    rows = {**LARDER, "nutty": NUTTY}
    own = [replace(i, walker="b") for i in bag("", {"oats": 50.0}).items]
    bags = (bag("x", {"nutty": 300.0}, carrier="a"), bag("z", {"nutty": 300.0}, carrier="c"),
            replace(bag("y", {"oats": 50.0}, carrier="b"), items=tuple(own)))  # fmt: skip
    found = losses(1, bags, (a, careful, c), rows, Heat())
    assert [x.safe_share for x in found] == [{"b": 1.0}, {"b": 0.0}, {"b": 1.0}]
    assert [x.worst for x in found] == [False, True, False]
    assert losses(1, bags, (a, b, c), rows, Heat())[0].safe_share == {}


def test_bags_without_energy_leave_nothing_and_divide_by_nothing() -> None:
    rows = {**LARDER, "salt": food("salt", 0.0)}
    bags = (bag("x", {"salt": 50.0}, carrier="a"),)
    careful = replace(people(2)[1], avoids=(NUT_ALLERGY,))
    found = losses(1, bags, (people(1)[0], careful), rows, Heat())
    assert {(x.energy_share, x.flameless_share, x.safe_share["b"]) for x in found} == {(0, 0, 0)}


def test_the_strongest_of_three_is_kept_from_carrying_what_must_be_left() -> None:
    """By capacity alone a would carry six tenths of it; the limit leaves at most four."""
    a, b, c = people(3)
    strong = replace(a, capacity=6.0)
    plan = packed((strong, replace(b, capacity=2.0), replace(c, capacity=2.0)), 6,
                  kit=Kit(pots=(Pot(), Pot(), Pot())), cans=3)  # fmt: skip
    assert {x.walker: x.energy_share >= KEEP_ENERGY - 1e-9 for x in plan.losses} == {
        "a": True, "b": True, "c": True,
    }  # fmt: skip
    on_a = sum(b.gross_g for b in plan.bags if b.carrier == "a")
    whole = sum(b.gross_g for b in plan.bags)
    assert on_a > whole / 3, "more than an even part still"
