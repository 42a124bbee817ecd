"""From one packing to another with the fewest bag operations."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.packing.repack import contents, heading, repack, steps_between
from oatsack.values.pack import Bag
from support.packs import bag, eat, packed, people, usual_menu


def kinds(steps) -> list[tuple[str, str]]:
    return [(s.kind, s.food) for s in steps]


def test_nothing_changed_is_nothing_to_do() -> None:
    plan = packed(people(2), 4)
    done = repack(plan.bags, plan.bags)
    assert done.steps == done.labels == done.handed == ()
    assert len(done.kept) == len(plan.bags)


def test_a_new_number_alone_needs_no_new_label() -> None:
    old = (bag("x", number=3, of=9),)
    new = (bag("x", number=2, of=8),)
    assert repack(old, new).steps == ()


def test_less_of_one_food_is_one_step_and_one_label() -> None:
    old, new = bag("x", {"lentils": 100.0, "sauce": 20.0}), bag("x", {"lentils": 80.0, "sauce": 20})
    done = repack([old], [new])
    assert kinds(done.steps) == [("take", "lentils"), ("label", "")]
    assert done.steps[0].grams == pytest.approx(20.0)
    assert done.labels == ("x",)


def test_a_bag_for_another_day_is_only_written_anew() -> None:
    old, new = bag("x", day=1), bag("y", day=2)
    assert kinds(repack([old], [new]).steps) == [("label", "")]


def test_bags_that_change_places_are_written_anew_not_emptied() -> None:
    old = [bag("d1", {"lentils": 100.0}, day=1), bag("d2", {"oats": 80.0}, day=2)]
    new = [bag("d1", {"oats": 80.0}, day=1), bag("d2", {"lentils": 100.0}, day=2)]
    done = repack(old, new)
    assert kinds(done.steps) == [("label", ""), ("label", "")]


def test_a_bag_too_many_is_emptied_and_one_too_few_is_filled() -> None:
    assert kinds(repack([bag("x")], []).steps) == [("empty", "")]
    filled = repack([], [bag("x", {"lentils": 100.0, "sauce": 20.0})])
    assert kinds(filled.steps) == [("put", "lentils"), ("put", "sauce"), ("label", "")]
    assert filled.labels == ("x",)


def test_emptying_is_chosen_where_taking_out_is_longer() -> None:
    old = bag("x", {"lentils": 1.0, "sauce": 20.0, "oats": 3.0, "cheese": 4.0})
    new = bag("x", {"oil": 9.0})
    assert kinds(steps_between(old, new)) == [("empty", ""), ("put", "oil"), ("label", "")]


def test_half_a_gram_is_no_change() -> None:
    assert steps_between(bag("x", {"oats": 100.0}), bag("x", {"oats": 100.4})) == []


def test_a_dinner_swapped_changes_only_its_bag() -> None:
    menu = usual_menu(["a", "b"], 4)
    moved = tuple(
        replace(p, doses=p.doses + 1.0) if (p.walker, p.day, p.food) == ("a", 3, "sauce") else p
        for p in menu.portions
    )
    before = packed(people(2), 4, menu=menu)
    after = packed(people(2), 4, menu=replace(menu, portions=moved))
    done = repack(before.bags, after.bags)
    assert kinds(done.steps) == [("put", "sauce"), ("label", "")]
    assert len(done.labels) == 1


def test_a_walker_who_drops_out_leaves_the_others_bags_alone() -> None:
    three = packed(people(3), 3)
    two = packed(people(2), 3)
    done = repack(three.bags, two.bags)
    theirs = {b.id for b in two.bags if b.group in ("a", "b")}
    assert theirs <= set(done.kept)
    assert any(s.kind in ("empty", "take") for s in done.steps)


def test_sealed_lots_are_never_made_into_labelled_bags() -> None:
    old = [bag("x", {"bar": 80.0}, sealed=True)]
    new = [bag("y", {"bar": 80.0}, sealed=False)]
    assert kinds(repack(old, new).steps) == [("empty", ""), ("put", "bar"), ("label", "")]


def test_bags_that_change_hands_are_named() -> None:
    old, new = bag("x", carrier="a"), bag("x", carrier="b")
    done = repack([old], [new])
    assert done.handed == (("x", "a", "b"),)
    assert done.steps == ()


def test_contents_sum_over_days_and_walkers() -> None:
    plan = packed(people(2), 3)
    shared = next(b for b in plan.bags if b.group == "a+b" and b.label == "breakfast")
    assert contents(shared) == {"oats": pytest.approx(300.0)}
    assert heading(shared) == ("breakfast", "a+b", 1)


def test_the_steps_really_lead_from_old_to_new() -> None:
    menu = usual_menu(["a", "b"], 3)
    changed = replace(menu, portions=tuple(
        p for p in menu.portions if not (p.day == 2 and p.meal == "dinner")
    ) + (eat("a", 2, "dinner", "oats", 3.0),))  # fmt: skip
    old, new = packed(people(2), 3, menu=menu).bags, packed(people(2), 3, menu=changed).bags
    assert follow(repack(old, new), old) == {b.id: contents(b) for b in new}


def follow(done, old: tuple[Bag, ...]) -> dict[str, dict[str, float]]:
    """Carries the steps out, bag by bag."""
    made = {b: dict(contents(next(o for o in old if o.id == b))) for b in done.kept
            if any(o.id == b for o in old)}  # fmt: skip
    before = {b.id: dict(contents(b)) for b in old}
    for step in done.steps:
        if not step.becomes:
            continue
        now = made.setdefault(step.becomes, dict(before.get(step.bag, {})))
        if step.kind == "empty":
            now.clear()
        elif step.kind == "put":
            now[step.food] = now.get(step.food, 0.0) + step.grams
        elif step.kind == "take":
            now[step.food] = now.get(step.food, 0.0) - step.grams
    return {
        name: pytest.approx({f: g for f, g in food.items() if g > 0.5}, abs=0.5)
        for name, food in made.items()
    }


def test_an_unchanged_bag_under_another_name_needs_nothing() -> None:
    done = repack([bag("x"), bag("z", {"oats": 50.0})], [bag("z", {"oats": 50.0}), bag("y")])
    assert done.steps == ()
    assert set(done.kept) == {"y", "z"}


def test_what_is_carried_as_bought_is_never_made_into_another_food() -> None:
    old = [bag("x", {"bar": 80.0}, sealed=True)]
    new = [bag("y", {"cheese": 80.0}, sealed=True)]
    assert kinds(repack(old, new).steps) == [("empty", ""), ("put", "cheese")]


def test_what_is_carried_as_bought_needs_no_label() -> None:
    old, new = bag("x", {"bar": 80.0}, sealed=True), bag("x", {"bar": 120.0}, sealed=True)
    assert kinds(repack([old], [new]).steps) == [("put", "bar")]
    assert repack([old], [new]).labels == ()
    assert kinds(repack([], [new]).steps) == [("put", "bar")]
