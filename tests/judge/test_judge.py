"""The judge accepts an honest plan and must reject corruption of many kinds, wherever it falls."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Callable
from typing import Any

import pytest

from judge.judge import CHECKS, judge
from oatsack.files.planfile import dump
from support.amount import some
from support.each import each
from support.plans import short_plan

Json = Any


@pytest.fixture(scope="module")
def honest() -> Json:
    return json.loads(dump(short_plan()))


def some_chosen(plan: Json, rng: random.Random) -> Json:
    rows = [p for p in plan["menu"]["portions"] if p["why"] == "chosen"]
    return rng.choice(rows)


def half_a_dose(plan: Json, rng: random.Random) -> None:
    some_chosen(plan, rng)["doses"] += 0.5


def more_food(plan: Json, rng: random.Random) -> None:
    some_chosen(plan, rng)["doses"] += 2.0


def food_vanishes(plan: Json, rng: random.Random) -> None:
    plan["menu"]["portions"].remove(some_chosen(plan, rng))


def other_eater(plan: Json, rng: random.Random) -> None:
    row = some_chosen(plan, rng)
    row["walker"] = "ben" if row["walker"] == "anna" else "anna"


def other_day(plan: Json, rng: random.Random) -> None:
    row = some_chosen(plan, rng)
    row["day"] = row["day"] % 3 + 1


def meal_outside_the_walk(plan: Json, rng: random.Random) -> None:
    row = rng.choice(plan["menu"]["portions"])
    row["day"] = 9


def dinner_in_a_town_that_nobody_named(plan: Json, rng: random.Random) -> None:
    plan["chosen"][rng.choice(["anna", "ben"])]["town"]["2"] = 700.0


def breakfast_before_the_start(plan: Json, rng: random.Random) -> None:
    slot = copy.deepcopy(next(s for s in plan["slots"] if s["meal"] == "breakfast"))
    slot["day"], slot["date"] = 1, plan["days"][0]["date"]
    plan["slots"].append(slot)


def meat_for_the_vegetarian(plan: Json, rng: random.Random) -> None:
    mine = [p for p in plan["menu"]["portions"] if p["walker"] == "anna"]
    plan["foods"][rng.choice(mine)["food"]]["diet"] = "meat"


def unread_label_for_the_allergic(plan: Json, rng: random.Random) -> None:
    mine = [p for p in plan["menu"]["portions"] if p["walker"] == "anna"]
    plan["foods"][rng.choice(mine)["food"]]["allergens"].pop("peanut", None)


def traces_for_the_allergic(plan: Json, rng: random.Random) -> None:
    mine = [p for p in plan["menu"]["portions"] if p["walker"] == "anna"]
    plan["foods"][rng.choice(mine)["food"]]["allergens"]["peanut"] = "may"


def banned_food_eaten(plan: Json, rng: random.Random) -> None:
    food = some_chosen(plan, rng)["food"]
    ban = {"food": food, "walker": None, "date": None, "meal": None, "count": 0.0}
    plan["trip"]["rules"]["holds"].append(ban)


def flame_at_a_cold_meal(plan: Json, rng: random.Random) -> None:
    cold = [p for p in plan["menu"]["portions"] if p["meal"] in ("lunch", "move")]
    food = plan["foods"][rng.choice(cold)["food"]]
    food["prep"]["kind"], food["prep"]["cold_soak_min"] = "simmer", None


def wrong_total(plan: Json, rng: random.Random) -> None:
    plan["totals"][rng.choice(["energy_kcal", "net_g", "gross_g"])] *= 1.01


def wrong_density(plan: Json, rng: random.Random) -> None:
    plan["totals"]["kcal_per_100g"] += 1.0


def wrong_day_sum(plan: Json, rng: random.Random) -> None:
    day = plan["eaten"]["ben"][rng.choice(list(plan["eaten"]["ben"]))]
    day[rng.choice(["energy_kcal", "protein_g", "sodium_mg", "mass_g"])] += 5.0


def wrong_need(plan: Json, rng: random.Random) -> None:
    day = plan["need"]["anna"][rng.choice(list(plan["need"]["anna"]))]
    day[rng.choice(["walking_kcal", "camp_kcal", "energy_kcal"])] += 10.0


def range_turned_round(plan: Json, rng: random.Random) -> None:
    day = plan["need"]["ben"]["1"]
    day["low_kcal"], day["high_kcal"] = day["high_kcal"], day["low_kcal"]


def target_without_its_ramp(plan: Json, rng: random.Random) -> None:
    plan["target"]["ben"]["2"] *= 1.03


def hour_lost(plan: Json, rng: random.Random) -> None:
    plan["timeline"]["ben"].pop(rng.randrange(len(plan["timeline"]["ben"])))


def bag_lighter(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["bags"])["net_g"] -= 10.0


def item_missing_in_a_bag(plan: Json, rng: random.Random) -> None:
    bag = rng.choice(plan["packed"]["bags"])
    item = bag["items"].pop()
    bag["net_g"] -= item["net_g"]


def bag_carried_twice(plan: Json, rng: random.Random) -> None:
    first, second = plan["packed"]["sacks"][:2]
    second["bags"].append(first["bags"][0])


def bag_left_behind(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["sacks"])["bags"].pop()


def sack_mass_wrong(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["sacks"])["start_g"] += 100.0


def container_said_to_close(plan: Json, rng: random.Random) -> None:
    night = plan["packed"]["nights"][0]
    night["needed_ml"], night["verdict"] = night["room_ml"] * 1.2, "closes"


def more_room_than_there_is(plan: Json, rng: random.Random) -> None:
    plan["packed"]["nights"][0]["room_ml"] += 5000.0


def half_a_pack_bought(plan: Json, rng: random.Random) -> None:
    line = rng.choice([b for b in plan["packed"]["buy"] if b["packs"] > 0])
    line["packs"] -= 0.5


def too_little_bought(plan: Json, rng: random.Random) -> None:
    plan["packed"]["buy"].remove(rng.choice(plan["packed"]["buy"]))


def budget_burst(plan: Json, rng: random.Random) -> None:
    plan["trip"]["rules"]["budget"] = 1.0


def fuel_forgotten(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["fuel"]["burnt_g"] -= 10.0


def fuel_out_of_nothing(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["fuel"]["left_g"] += 50.0


def cap_lifted(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["water"]["anna"]["2"]["hour_cap_ml"] = 2000.0


def bound_above_the_answer(plan: Json, rng: random.Random) -> None:
    plan["menu"]["bound"] = plan["menu"]["aim"] * 1.1


def blank_energy(plan: Json, rng: random.Random) -> None:
    plan["foods"][some_chosen(plan, rng)["food"]]["per_100g"]["energy_kcal"] = None


CORRUPTIONS: tuple[Callable[[Json, random.Random], None], ...] = (
    half_a_dose, more_food, food_vanishes, other_eater, other_day, meal_outside_the_walk,
    dinner_in_a_town_that_nobody_named,
    breakfast_before_the_start, meat_for_the_vegetarian, unread_label_for_the_allergic,
    traces_for_the_allergic, banned_food_eaten, flame_at_a_cold_meal, wrong_total, wrong_density,
    wrong_day_sum, wrong_need, range_turned_round, target_without_its_ramp, hour_lost, bag_lighter,
    item_missing_in_a_bag, bag_carried_twice, bag_left_behind, sack_mass_wrong,
    container_said_to_close, more_room_than_there_is, half_a_pack_bought, too_little_bought,
    budget_burst, fuel_forgotten, fuel_out_of_nothing, cap_lifted, bound_above_the_answer,
    blank_energy,
)  # fmt: skip


def test_the_judge_accepts_an_honest_plan(honest: Json) -> None:
    assert judge(honest) == []


@each("corrupt", CORRUPTIONS)
@each("seed", some([1, 2, 3]))
def test_the_judge_rejects(honest: Json, corrupt: Callable[..., None], seed: int) -> None:
    plan = copy.deepcopy(honest)
    corrupt(plan, random.Random(seed))
    assert judge(plan) != []


def test_every_check_of_the_judge_can_fail(honest: Json) -> None:
    """Each check is set off by at least one corruption, so none is decoration."""
    silent = {check.__name__ for check in CHECKS}
    for corrupt in CORRUPTIONS:
        for seed in (1, 2, 3):
            plan = copy.deepcopy(honest)
            corrupt(plan, random.Random(seed))
            silent -= {check.__name__ for check in CHECKS if list(check(plan))}
    assert silent <= {"open_bags_are_whole_packs_shared_out", "ranges_are_ordered",
                      "doubtful_labels_stay_out"}  # fmt: skip


def test_the_judge_imports_nothing_of_ours() -> None:
    from pathlib import Path

    text = (Path(__file__).parent / "judge.py").read_text(encoding="utf-8")
    assert "oatsack" not in text
