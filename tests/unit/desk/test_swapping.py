"""A swap keeps an honest plan honest, says what it changes, and refuses what someone must avoid."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest

from judge.judge import judge
from oatsack.desk.swapping import Changed, swapped_plan, told_repack, told_swap
from oatsack.errors import NoPlan, UsageError
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump, load
from oatsack.packing.repack import repack
from oatsack.values.food import Food
from oatsack.why import evaluate, leaves, why
from oatsack.why.functions import Remembered
from support.each import each
from support.plans import SHORT, plan_of

OUT, INTO = "fd-lasagna-veg", "fd-mac-cheese"


def larder() -> Mapping[str, Food]:
    return {food.id: food for food in bundled()}


@cache
def swapped(out: str = OUT, into: str = INTO) -> Changed:
    return swapped_plan(plan_of(SHORT), out, into, larder())


@pytest.mark.slow
def test_the_new_plan_passes_the_judge_and_survives_its_file() -> None:
    data = dump(swapped().plan)
    assert judge(json.loads(data)) == []
    assert load(data, name="plan.json") == swapped().plan


def test_the_food_is_gone_from_menu_bags_and_shopping() -> None:
    plan = swapped().plan
    assert OUT not in {p.food for p in plan.menu.portions}
    assert OUT not in {i.food for bag in plan.packed.bags for i in bag.items}
    assert OUT not in {line.food for line in plan.packed.buy}
    assert OUT not in plan.foods


@pytest.mark.slow
def test_why_counts_every_number_of_the_new_plan_again() -> None:
    plan, functions = swapped().plan, Remembered().functions()
    wrong = [
        address for address, value in leaves(plan)
        if not math.isclose(evaluate(why(plan, address), functions), value,
                            rel_tol=1e-9, abs_tol=1e-9)
    ]  # fmt: skip
    assert wrong == []


def test_need_and_choice_stay_frozen_and_the_residual_is_stated() -> None:
    before, plan = swapped().before, swapped().plan
    assert plan.target == before.target
    assert plan.chosen == before.chosen
    assert plan.made.residual_kcal >= before.made.residual_kcal
    assert plan.made.near_hash != before.made.near_hash


def test_nothing_is_claimed_to_be_proven_after_a_swap() -> None:
    menu, before = swapped().plan.menu, swapped().before.menu
    assert menu.bound == 0.0
    assert menu.ended == "stopped"
    come = [p for p in menu.portions if p not in before.portions]
    gone = [p for p in before.portions if p not in menu.portions]
    assert menu.moved == len(come) + len(gone) >= 2


def test_swapping_there_and_back_opens_no_bag() -> None:
    there = swapped().plan
    food = next(p.food for p in there.menu.portions if p.why == "chosen")
    twin = replace(larder()[food], id=f"{food}-x")
    back = swapped_plan(there, food, twin.id, {**larder(), twin.id: twin}).plan
    again = swapped_plan(back, twin.id, food, larder()).plan
    assert list(told_repack(there, again)) == ["No bag needs to be opened."]


def test_only_changed_bags_are_named_and_labelled() -> None:
    found = repack(swapped().before.packed.bags, swapped().plan.packed.bags)
    opened = {step.bag or step.becomes for step in found.steps}
    assert 1 <= len(opened) <= 6
    assert len(found.labels) <= 3
    lines = list(told_repack(swapped().before, swapped().plan))
    assert sum("new label for" in line for line in lines) == len(found.labels)
    assert f"{len(found.kept)} bags stay as packed" in lines[0]


def test_what_is_carried_as_bought_comes_along_or_stays_at_home() -> None:
    text = "\n".join(told_repack(swapped().before, swapped().plan))
    assert "leave Freeze-dried vegetable lasagne for Anna at home" in text
    assert "of Freeze-dried macaroni and cheese for Anna along" in text


def test_what_changes_is_said() -> None:
    text = "\n".join(told_swap(swapped()))
    assert "Anna, Sat 4: " in text
    assert "kcal" in text
    assert "Freeze-dried macaroni and cheese" in text


def test_an_allergen_of_an_eater_or_of_the_pot_blocks() -> None:
    peanut = next(f for f in bundled() if f.allergens.get("peanut") == "contains")
    with pytest.raises(NoPlan) as caught:
        swapped_plan(plan_of(SHORT), OUT, peanut.id, larder())
    assert "packing.swap.allergen" in {flag.key for flag in caught.value.flags}
    assert caught.value.exit_code == 1
    assert caught.value.walkers["anna"] == "Anna"


def test_meat_for_a_vegetarian_blocks() -> None:
    with pytest.raises(NoPlan) as caught:
        swapped_plan(plan_of(SHORT), OUT, "fd-beef", larder())
    assert "packing.swap.diet" in {flag.key for flag in caught.value.flags}


def test_a_label_that_was_not_read_counts_as_holding_everything() -> None:
    unread = replace(larder()[INTO], id="unread", allergens={})
    with pytest.raises(NoPlan):
        swapped_plan(plan_of(SHORT), OUT, "unread", {**larder(), "unread": unread})


def test_a_much_richer_food_is_told_where_the_day_leaves_its_window() -> None:
    rich = replace(larder()[INTO], id="rich", dose_g=3 * larder()[INTO].dose_g,
                   pack_g=3 * larder()[INTO].pack_g)  # fmt: skip
    found = swapped_plan(plan_of(SHORT), OUT, "rich", {**larder(), "rich": rich})
    assert "provision.energy-off" in {flag.key for flag in found.plan.flags}


@each(
    ("out", "into", "said"),
    [("fd-lasagna", INTO, "in this plan; did you mean 'fd-lasagna-veg'"),
     (OUT, "fd-mac-chese", "in the larder; did you mean 'fd-mac-cheese'"), (OUT, OUT, "same food")],
)  # fmt: skip
def test_a_wrong_name_is_answered(out: str, into: str, said: str) -> None:
    with pytest.raises(UsageError, match=said):
        swapped_plan(plan_of(SHORT), out, into, larder())
