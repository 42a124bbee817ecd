"""Further ways to falsify a plan, beside those of `test_judge`: what a slip in the program, or a
hand in the file, could do. Each takes a plan and dice and changes one thing.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

Json = Any
Corrupt = Callable[[Json, random.Random], None]


def _any_bag(plan: Json, rng: random.Random, **wanted: Any) -> Json:
    rows = [b for b in plan["packed"]["bags"] if all(b[k] == v for k, v in wanted.items())]
    return rng.choice(rows)


def _sack(plan: Json, rng: random.Random) -> Json:
    return rng.choice(plan["packed"]["sacks"])


# ── days and hours ─────────────────────────────────────────────────────────────────────────────


def two_days_swapped(plan: Json, rng: random.Random) -> None:
    days = plan["days"]
    at = rng.randrange(len(days) - 1)
    days[at], days[at + 1] = days[at + 1], days[at]


def a_stretch_lost(plan: Json, rng: random.Random) -> None:
    pieces = rng.choice(plan["days"])["stretches"]
    pieces.pop(rng.randrange(1, len(pieces) - 1))


def a_stretch_walked_in_the_tent(plan: Json, rng: random.Random) -> None:
    day = rng.choice(plan["days"][:-1])
    rng.choice([s for s in day["stretches"] if s["kind"] != "walk"])["distance_m"] = 300.0


def a_climb_that_nobody_climbs(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["days"])["ascent_m"] += 120.0


def a_slope_turned_round(plan: Json, rng: random.Random) -> None:
    day = rng.choice(plan["days"])
    rng.choice([s for s in day["stretches"] if s["grade_pct"] > 1.0])["grade_pct"] *= -1.0


def dinner_an_hour_later_than_the_rules(plan: Json, rng: random.Random) -> None:
    rng.choice([s for s in plan["slots"] if s["meal"] == "dinner"])["clock_min"] += 60.0


def a_meal_of_another_leg(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["slots"])["leg"] += 1


def carried_a_day_less(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["slots"])["carry_days"] -= 1.0


def an_hour_walked_twice(plan: Json, rng: random.Random) -> None:
    hours = plan["timeline"][rng.choice(["anna", "ben"])]
    hours.insert(rng.randrange(len(hours)), dict(rng.choice([h for h in hours if h["walk_min"]])))


def an_hour_that_weighs_nothing(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["timeline"]["ben"])["pack_kg"] = 0.0


def a_range_narrowed_to_nothing(plan: Json, rng: random.Random) -> None:
    hour = rng.choice(plan["timeline"]["anna"])
    hour["need_low_kcal"] = hour["need_high_kcal"] = hour["need_kcal"]


def a_back_that_grows(plan: Json, rng: random.Random) -> None:
    plan["backs"]["anna"]["2"].reverse()


def a_back_below_its_base_weight(plan: Json, rng: random.Random) -> None:
    plan["backs"]["ben"]["1"] = [kg - 4.0 for kg in plan["backs"]["ben"]["1"]]


def an_hour_less_on_foot(plan: Json, rng: random.Random) -> None:
    plan["need"]["anna"][rng.choice("123")]["walking_h"] -= 1.0


# ── figures ────────────────────────────────────────────────────────────────────────────────────


def days_of_full_people(plan: Json, rng: random.Random) -> None:
    """Six days where the clock counts 4.4: part days taken as whole ones."""
    plan["totals"]["person_days"] = float(len(plan["days"]) * len(plan["trip"]["walkers"]))


def spare_counted_as_eaten(plan: Json, rng: random.Random) -> None:
    plan["totals"]["energy_kcal"] += plan["totals"]["spare_kcal"]


def a_price_forgotten(plan: Json, rng: random.Random) -> None:
    rng.choice([b for b in plan["packed"]["buy"] if b["price"]])["price"] = None


def fat_share_of_the_mass(plan: Json, rng: random.Random) -> None:
    """Grams over grams, where nine kcal a gram over all energy is meant."""
    fat = sum(row["fat_g"] for days in plan["eaten"].values() for row in days.values())
    plan["totals"]["fat_share"] = fat / plan["totals"]["net_g"]


def rubbish_of_the_first_day_only(plan: Json, rng: random.Random) -> None:
    plan["totals"]["rubbish_g"] = plan["packed"]["rubbish"][0]["mass_g"]


def kg_days_without_wrappers(plan: Json, rng: random.Random) -> None:
    plan["totals"]["kg_days"] *= plan["totals"]["net_g"] / plan["totals"]["gross_g"]


def a_blank_read_as_nothing(plan: Json, rng: random.Random) -> None:
    row = rng.choice(list(plan["eaten"]["ben"].values()))
    row["sodium_high_mg"] = row["sodium_mg"] - 20.0


def a_high_figure_out_of_the_air(plan: Json, rng: random.Random) -> None:
    rng.choice(list(plan["eaten"]["anna"].values()))["fat_high_g"] += 400.0


def targets_told_from_another_day(plan: Json, rng: random.Random) -> None:
    days = plan["eaten"]["ben"]
    days["1"]["target_kcal"], days["2"]["target_kcal"] = (
        days["2"]["target_kcal"], days["1"]["target_kcal"])  # fmt: skip


def minutes_of_others_counted(plan: Json, rng: random.Random) -> None:
    rng.choice(list(plan["eaten"]["anna"].values()))["minutes"] *= 2.0


def a_yardstick_bent(plan: Json, rng: random.Random) -> None:
    sticks = plan["yardsticks"]
    sticks[rng.choice(sorted(sticks))] *= 1.02


def a_base_that_is_no_share(plan: Json, rng: random.Random) -> None:
    plan["chosen"]["ben"]["factor"] = 1.0


def a_typed_number_ramped(plan: Json, rng: random.Random) -> None:
    chosen = plan["chosen"]["anna"]
    chosen["ramp"]["2"] = 1.05
    plan["target"]["anna"]["2"] *= 1.05


def late_with_more_than_is_left(plan: Json, rng: random.Random) -> None:
    late = rng.choice(plan["late"])
    late["left_kcal"][rng.choice(["anna", "ben"])] *= 1.1


def late_without_spare_food(plan: Json, rng: random.Random) -> None:
    for late in plan["late"]:
        late["left_kcal"]["ben"] -= plan["totals"]["spare_kcal"] / 2.0


def late_on_yesterdays_fuel(plan: Json, rng: random.Random) -> None:
    for late in plan["late"]:
        late["fuel_left_g"] += plan["kitchen"]["fuel"]["by_day_g"]["1"]


def only_one_day_late(plan: Json, rng: random.Random) -> None:
    plan["late"] = plan["late"][:1]


def a_deficit_halved(plan: Json, rng: random.Random) -> None:
    plan["consequence"][rng.choice(["anna", "ben"])]["deficit_kcal"] *= 0.5


def water_called_tissue(plan: Json, rng: random.Random) -> None:
    told = plan["consequence"]["anna"]
    told["tissue_kg"] += told["water_low_kg"]


def another_share_said_than_counted(plan: Json, rng: random.Random) -> None:
    flag = next(f for f in plan["flags"] if f["key"] == "body.shortfall")
    flag["values"][rng.choice(["deficit_kcal", "low_kg", "high_kg", "water_low_kg"])] *= 0.8


def a_whole_gap_proved_away(plan: Json, rng: random.Random) -> None:
    plan["made"]["gap"] = 0.0


# ── kitchen ────────────────────────────────────────────────────────────────────────────────────


def _meal(plan: Json, rng: random.Random) -> Json:
    return rng.choice([m for m in plan["kitchen"]["meals"] if m["boiled_ml"] > 0])


def a_boil_without_fuel(plan: Json, rng: random.Random) -> None:
    next(s for s in _meal(plan, rng)["steps"] if s["kind"] == "boil")["fuel_g"] = 0.0


def water_boiled_and_not_counted(plan: Json, rng: random.Random) -> None:
    _meal(plan, rng)["boiled_ml"] -= 200.0


def a_batch_forgotten(plan: Json, rng: random.Random) -> None:
    _meal(plan, rng)["batches"] += 1


def a_wait_left_out_of_the_minutes(plan: Json, rng: random.Random) -> None:
    _meal(plan, rng)["minutes"] -= 5.0


def a_step_that_runs_backwards(plan: Json, rng: random.Random) -> None:
    step = _meal(plan, rng)["steps"][0]
    step["start_min"], step["end_min"] = step["end_min"] + 1.0, step["start_min"]


def a_stranger_at_the_pot(plan: Json, rng: random.Random) -> None:
    _meal(plan, rng)["walkers"].append("nobody")


def boiling_at_sea_level_up_there(plan: Json, rng: random.Random) -> None:
    _meal(plan, rng)["boiling_c"] = 110.0


def a_can_less(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["fuel"]["cans"][0][1] += 1


def fuel_of_another_day(plan: Json, rng: random.Random) -> None:
    days = plan["kitchen"]["fuel"]["by_day_g"]
    days["1"], days["2"] = days["2"], days["1"]


def cans_that_weigh_nothing(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["fuel"]["gross_g"] = plan["kitchen"]["fuel"]["carried_g"] - 1.0


def a_coffee_too_few(plan: Json, rng: random.Random) -> None:
    line = plan["kitchen"]["counts"]["anna"]["instant-coffee"]
    line["take"] -= 1.0


def a_habit_nobody_has(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["counts"]["anna"]["instant-coffee"]["each"] = 3.0


def caffeine_of_the_weakest_day(plan: Json, rng: random.Random) -> None:
    line = plan["kitchen"]["caffeine"]["ben"]
    line["most_mg"] = min(row["caffeine_mg"] for row in plan["eaten"]["ben"].values())


def the_strongest_thing_halved(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["caffeine"][rng.choice(["anna", "ben"])]["single_mg"] /= 2.0


def a_carry_left_out(plan: Json, rng: random.Random) -> None:
    carries = plan["kitchen"]["carries"]
    carries.pop(rng.randrange(len(carries)))


def wet_food_stands_all_day(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["wet_min"]["2"] = 600.0


def water_suggested_beyond_the_cap(plan: Json, rng: random.Random) -> None:
    row = plan["kitchen"]["water"]["ben"]["1"]
    row["walking_suggested_ml"] = row["hour_cap_ml"] * 12.0


def sweat_turned_round(plan: Json, rng: random.Random) -> None:
    row = plan["kitchen"]["water"]["anna"][rng.choice("123")]
    row["sweat_low_ml"], row["sweat_high_ml"] = row["sweat_high_ml"], row["sweat_low_ml"]


def cooking_water_forgotten(plan: Json, rng: random.Random) -> None:
    plan["kitchen"]["water"]["anna"]["2"]["cooking_ml"] = 0.0


# ── what is told ───────────────────────────────────────────────────────────────────────────────


def a_quiet_word_before_a_loud_one(plan: Json, rng: random.Random) -> None:
    plan["flags"].reverse()


def a_flag_told_twice(plan: Json, rng: random.Random) -> None:
    plan["flags"].append(plan["flags"][-1])


def a_warning_kept_from_the_walker(plan: Json, rng: random.Random) -> None:
    silent = rng.choice(plan["kitchen"]["flags"])
    plan["flags"] = [f for f in plan["flags"] if f["key"] != silent["key"]]


def assumptions_by_name(plan: Json, rng: random.Random) -> None:
    plan["assumptions"].reverse()


# ── bags, sacks, rubbish, nights, shops ────────────────────────────────────────────────────────


def two_bags_of_one_number(plan: Json, rng: random.Random) -> None:
    _any_bag(plan, rng)["number"] += 1


def a_bag_more_than_there_are(plan: Json, rng: random.Random) -> None:
    for bag in plan["packed"]["bags"]:
        bag["of"] += 1


def a_bag_opened_too_late(plan: Json, rng: random.Random) -> None:
    bag = rng.choice([b for b in plan["packed"]["bags"] if b["open_day"] < b["empty_day"]])
    bag["open_day"] = bag["empty_day"]


def a_bag_on_the_wrong_leg(plan: Json, rng: random.Random) -> None:
    plan["days"][-1]["leg"] = 2


def a_dose_of_another_size(plan: Json, rng: random.Random) -> None:
    rng.choice(_any_bag(plan, rng)["items"])["doses"] *= 2.0


def a_bag_that_takes_no_room(plan: Json, rng: random.Random) -> None:
    _any_bag(plan, rng)["volume_ml"] = 0.0


def water_missing_on_a_label(plan: Json, rng: random.Random) -> None:
    rng.choice([b for b in plan["packed"]["bags"] if b["water_ml"] > 0])["water_ml"] = 0.0


def eat_by_a_day_too_long(plan: Json, rng: random.Random) -> None:
    rng.choice([b for b in plan["packed"]["bags"] if b["eat_by_day"]])["eat_by_day"] += 1


def an_allergen_softened_on_a_label(plan: Json, rng: random.Random) -> None:
    bag = rng.choice([b for b in plan["packed"]["bags"] if "contains" in b["allergens"].values()])
    name = rng.choice([a for a, state in bag["allergens"].items() if state == "contains"])
    bag["allergens"][name] = "may"


def an_unknown_called_free(plan: Json, rng: random.Random) -> None:
    bag = _any_bag(plan, rng)
    plan["foods"][bag["items"][0]["food"]]["allergens"].pop("sesame")


def a_repacked_food_called_sealed(plan: Json, rng: random.Random) -> None:
    bag = rng.choice([b for b in plan["packed"]["bags"] if b["sealed"] and b["label"] != "spare"])
    plan["foods"][bag["items"][0]["food"]]["carry"] = "repack"


def a_spoon_of_another(plan: Json, rng: random.Random) -> None:
    bags = [b for b in plan["packed"]["bags"] if not b["sealed"]
            and len({i["day"] for i in b["items"]}) > 1]  # fmt: skip
    row = rng.choice(bags)["items"]
    row[0]["walker"], row[-1]["walker"] = "anna", "ben"


def an_open_bag_eaten_on_one_day(plan: Json, rng: random.Random) -> None:
    pool = rng.choice(plan["menu"]["pools"])
    whole, first = sum(pool["by_day_g"].values()), str(pool["open_day"])
    pool["by_day_g"] = dict.fromkeys(pool["by_day_g"], 0.0) | {first: whole}


def a_sack_that_never_gets_lighter(plan: Json, rng: random.Random) -> None:
    sack = _sack(plan, rng)
    sack["by_day_g"] = dict.fromkeys(sack["by_day_g"], sack["start_g"])


def wrappers_thrown_away(plan: Json, rng: random.Random) -> None:
    sack = _sack(plan, rng)
    sack["wrappers_by_day_g"] = dict.fromkeys(sack["wrappers_by_day_g"], 0.0)


def a_days_load_left_out(plan: Json, rng: random.Random) -> None:
    sack = _sack(plan, rng)
    sack["kg_days"] -= sack["by_day_g"]["3"] / 1000.0


def a_sack_without_its_last_day(plan: Json, rng: random.Random) -> None:
    _sack(plan, rng)["by_day_g"].pop("3")


def spare_food_on_top(plan: Json, rng: random.Random) -> None:
    sack = _sack(plan, rng)
    sack["bags"].insert(0, sack["bags"].pop())


def fuel_in_nobodys_sack(plan: Json, rng: random.Random) -> None:
    for sack in plan["packed"]["sacks"]:
        sack["common_g"] = {}


def fuel_that_never_burns(plan: Json, rng: random.Random) -> None:
    next(s for s in plan["packed"]["sacks"] if s["common_g"])["common_g"]["fuel"] += 15.0


def scraps_burnt(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["rubbish"])["mass_g"] *= 0.5


def a_rubbish_bag_too_few(plan: Json, rng: random.Random) -> None:
    plan["packed"]["rubbish"][-1]["in_pouches_ml"] += 2500.0


def a_day_without_rubbish(plan: Json, rng: random.Random) -> None:
    plan["packed"]["rubbish"].pop(0)


def the_mildest_loss_called_the_worst(plan: Json, rng: random.Random) -> None:
    for loss in plan["packed"]["losses"]:
        loss["worst"] = not loss["worst"]


def a_loss_that_costs_nothing(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["losses"])["energy_share"] = 1.0


def a_loss_nobody_thought_of(plan: Json, rng: random.Random) -> None:
    plan["packed"]["losses"].pop()


def safe_food_where_there_is_none(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["losses"])["safe_share"]["anna"] += 0.3


def surer_than_the_range(plan: Json, rng: random.Random) -> None:
    plan["packed"]["nights"][0]["chance"] = 1.0


def a_range_without_an_end(plan: Json, rng: random.Random) -> None:
    night = rng.choice(plan["packed"]["nights"])
    night["needed_high_ml"] = night["needed_low_ml"]


def a_container_too_many(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["nights"])["containers_used"] += 1


def tomorrows_bag_outside(plan: Json, rng: random.Random) -> None:
    bag = rng.choice([b for b in plan["packed"]["bags"] if b["open_day"] > 1])
    plan["packed"]["nights"][0]["outside"].append(bag["id"])


def a_night_without_rubbish(plan: Json, rng: random.Random) -> None:
    plan["packed"]["nights"][1]["needed_ml"] -= plan["packed"]["rubbish"][1]["volume_ml"]


def a_pack_at_half_price(plan: Json, rng: random.Random) -> None:
    rng.choice([b for b in plan["packed"]["buy"] if b["price"]])["price"] *= 0.5


def a_pack_too_many(plan: Json, rng: random.Random) -> None:
    line = rng.choice([b for b in plan["packed"]["buy"] if b["packs"]])
    line["packs"] += 1.0
    line["left_g"] += line["pack_g"]


def from_an_empty_cupboard(plan: Json, rng: random.Random) -> None:
    line = rng.choice([b for b in plan["packed"]["buy"] if b["packs"]])
    line["from_home_g"], line["left_g"] = 5000.0, line["left_g"] + 5000.0


def bought_and_never_bagged(plan: Json, rng: random.Random) -> None:
    line = rng.choice([b for b in plan["packed"]["buy"] if b["left_g"] > 40.0])
    line["need_g"], line["left_g"] = line["need_g"] + 40.0, line["left_g"] - 40.0


def a_box_on_a_walk_without_resupply(plan: Json, rng: random.Random) -> None:
    plan["packed"]["boxes"].append({
        "leg": 1, "place": "Nowhere", "arrive_day": 2, "bags": [], "gross_g": 0.0, "kind": "box",
        "post_from": None, "post_until": None, "shut": [], "open_chance": 1.2, "wait_days": 0,
        "box_chance": None, "post_on": None, "early": None, "late": None,
    })  # fmt: skip


# ── what was chosen ────────────────────────────────────────────────────────────────────────────


def _chosen_food(plan: Json, rng: random.Random, walker: str = "ben") -> Json:
    rows = [p for p in plan["menu"]["portions"] if p["why"] == "chosen" and p["walker"] == walker]
    return plan["foods"][rng.choice(rows)["food"]]


def a_food_that_suits_no_meal(plan: Json, rng: random.Random) -> None:
    _chosen_food(plan, rng)["meals"] = []


def a_disliked_food_served(plan: Json, rng: random.Random) -> None:
    plan["trip"]["walkers"][1]["dislikes"] = [_chosen_food(plan, rng)["id"]]


def cheese_that_went_off(plan: Json, rng: random.Random) -> None:
    rows = [p for p in plan["menu"]["portions"] if p["why"] == "chosen" and p["day"] > 1]
    plan["foods"][rng.choice(rows)["food"]]["keep"]["warm_days"] = 1.0


def chocolate_in_the_heat(plan: Json, rng: random.Random) -> None:
    _chosen_food(plan, rng)["keep"]["melts"] = True
    plan["days"][0]["warm_c"] = 30.0


def half_an_hour_of_soaking_at_noon(plan: Json, rng: random.Random) -> None:
    rows = [p for p in plan["menu"]["portions"]
            if p["why"] == "chosen" and p["meal"] == "lunch"]  # fmt: skip
    food = plan["foods"][rng.choice(rows)["food"]]
    food["prep"]["kind"], food["prep"]["wait_min"] = "soak", 30.0


def coffee_for_a_child(plan: Json, rng: random.Random) -> None:
    plan["trip"]["walkers"][1]["age_years"] = 9.0
    _chosen_food(plan, rng)["per_100g"]["caffeine_mg"] = 900.0


def peanuts_on_the_common_knife(plan: Json, rng: random.Random) -> None:
    food = _chosen_food(plan, rng)
    food["carry"], food["allergens"]["peanut"] = "repack", "contains"


def a_hold_forgotten(plan: Json, rng: random.Random) -> None:
    food = _chosen_food(plan, rng)["id"]
    hold = {"food": food, "walker": "ben", "date": None, "meal": None, "count": 2.0}
    plan["trip"]["rules"]["holds"].append(hold)


def a_portion_written_twice(plan: Json, rng: random.Random) -> None:
    row = rng.choice([p for p in plan["menu"]["portions"] if p["doses"] >= 2 and p["why"] != "bag"])
    row["doses"] /= 2.0
    plan["menu"]["portions"].append(dict(row))


def a_dog_left_hungry(plan: Json, rng: random.Random) -> None:
    mass_kg = rng.uniform(8.0, 40.0)
    dog = {"id": "bo", "name": "Bo", "mass_kg": mass_kg, "food_g_day": None, "carrier": ""}
    plan["trip"]["dogs"].append(dog)


def dog_food_of_no_dog(plan: Json, rng: random.Random) -> None:
    rng.choice(plan["packed"]["sacks"])["common_g"]["dog"] = 900.0


FURTHER: tuple[Corrupt, ...] = (
    two_days_swapped, a_stretch_lost, a_stretch_walked_in_the_tent, a_climb_that_nobody_climbs,
    a_slope_turned_round, dinner_an_hour_later_than_the_rules, a_meal_of_another_leg,
    carried_a_day_less, an_hour_walked_twice, an_hour_that_weighs_nothing,
    a_range_narrowed_to_nothing, a_back_that_grows, a_back_below_its_base_weight,
    an_hour_less_on_foot, days_of_full_people, spare_counted_as_eaten, a_price_forgotten,
    fat_share_of_the_mass, rubbish_of_the_first_day_only, kg_days_without_wrappers,
    a_blank_read_as_nothing, a_high_figure_out_of_the_air, targets_told_from_another_day,
    minutes_of_others_counted, a_yardstick_bent, a_base_that_is_no_share, a_typed_number_ramped,
    late_with_more_than_is_left, late_without_spare_food, late_on_yesterdays_fuel,
    only_one_day_late, a_deficit_halved, water_called_tissue, another_share_said_than_counted,
    a_whole_gap_proved_away, a_boil_without_fuel, water_boiled_and_not_counted, a_batch_forgotten,
    a_wait_left_out_of_the_minutes, a_step_that_runs_backwards, a_stranger_at_the_pot,
    boiling_at_sea_level_up_there, a_can_less, fuel_of_another_day, cans_that_weigh_nothing,
    a_coffee_too_few, a_habit_nobody_has, caffeine_of_the_weakest_day, the_strongest_thing_halved,
    a_carry_left_out, wet_food_stands_all_day, water_suggested_beyond_the_cap, sweat_turned_round,
    cooking_water_forgotten, a_quiet_word_before_a_loud_one, a_flag_told_twice,
    a_warning_kept_from_the_walker, assumptions_by_name, two_bags_of_one_number,
    a_bag_more_than_there_are, a_bag_opened_too_late, a_bag_on_the_wrong_leg,
    a_dose_of_another_size, a_bag_that_takes_no_room, water_missing_on_a_label,
    eat_by_a_day_too_long, an_allergen_softened_on_a_label, an_unknown_called_free,
    a_repacked_food_called_sealed, a_spoon_of_another, an_open_bag_eaten_on_one_day,
    a_sack_that_never_gets_lighter, wrappers_thrown_away, a_days_load_left_out,
    a_sack_without_its_last_day, spare_food_on_top, fuel_in_nobodys_sack, fuel_that_never_burns,
    scraps_burnt, a_rubbish_bag_too_few, a_day_without_rubbish, the_mildest_loss_called_the_worst,
    a_loss_that_costs_nothing, a_loss_nobody_thought_of, safe_food_where_there_is_none,
    surer_than_the_range, a_range_without_an_end, a_container_too_many, tomorrows_bag_outside,
    a_night_without_rubbish, a_pack_at_half_price, a_pack_too_many, from_an_empty_cupboard,
    bought_and_never_bagged, a_box_on_a_walk_without_resupply, a_food_that_suits_no_meal,
    a_disliked_food_served, cheese_that_went_off, chocolate_in_the_heat,
    half_an_hour_of_soaking_at_noon, coffee_for_a_child, peanuts_on_the_common_knife,
    a_hold_forgotten, a_portion_written_twice, a_dog_left_hungry, dog_food_of_no_dog,
)  # fmt: skip
