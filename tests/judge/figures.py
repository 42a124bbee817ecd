"""The judge's second half: every figure of plan.json counted once more from what stands beside it.

Like the first half it imports nothing of ours and reads nothing but the plan. What each figure
means is written here again; a constant of common practice is typed in once more, not imported.
"""

from __future__ import annotations

import datetime as dt
import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from typing import Any

Json = Any
LOUD = ("block", "caution", "quiet", "note")


def near(a: float, b: float, tolerance: float = 1e-6) -> bool:
    return math.isclose(a, b, rel_tol=tolerance, abs_tol=tolerance)


def differs(what: str, told: float | None, real: float | None) -> Iterator[str]:
    """One complaint where a figure is not what it is counted to be."""
    same = told is real if told is None or real is None else near(told, real)
    if not same:
        yield f"{what}: {told} is not {real}"


def over(part: float, whole: float) -> float:
    return part / whole if whole > 0 else 0.0


def stated(portion: Json, foods: Json, nutrient: str) -> float:
    food = foods[portion["food"]]
    return portion["doses"] * food["dose_g"] / 100.0 * (food["per_100g"][nutrient] or 0.0)


def grams(portion: Json, foods: Json) -> float:
    return portion["doses"] * foods[portion["food"]]["dose_g"]


def minutes(day: Json, *kinds: str) -> float:
    return sum(
        s["end_min"] - s["start_min"] for s in day["stretches"] if not kinds or s["kind"] in kinds
    )


# ── days, slots, hours ─────────────────────────────────────────────────────────────────────────


def days_follow_each_other(plan: Json) -> Iterable[str]:
    days = plan["days"]
    begin = dt.datetime.fromisoformat(plan["trip"]["begin"]).date()
    for n, day in enumerate(days):
        date = (begin + dt.timedelta(days=n)).isoformat()
        if (day["number"], day["date"]) != (n + 1, date):
            yield f"day {n + 1} is numbered {day['number']} and dated {day['date']}, not {date}"
        if (day["camp_m"] is None) != (n == len(days) - 1):
            yield f"day {n + 1}: a camp on the last day, or none before it"
    for before, after in pairwise(days):
        if after["leg"] not in (before["leg"], before["leg"] + 1):
            yield f"day {after['number']}: leg {after['leg']} after leg {before['leg']}"


def stretches_make_the_day(plan: Json) -> Iterable[str]:
    """A day's pieces follow each other without a hole, and add up to its distance."""
    for day in plan["days"]:
        what = f"day {day['number']}"
        for one, two in pairwise(day["stretches"]):
            if not near(one["end_min"], two["start_min"]):
                yield f"{what}: a hole or an overlap at {one['end_min']:.0f} min"
        if any(s["end_min"] < s["start_min"] - 1e-9 for s in day["stretches"]):
            yield f"{what}: a piece that ends before it begins"
        walked = sum(s["distance_m"] for s in day["stretches"] if s["kind"] == "walk")
        yield from differs(f"{what} distance", day["distance_m"], walked)
        if any(s["distance_m"] for s in day["stretches"] if s["kind"] != "walk"):
            yield f"{what}: distance while nobody walks"
        if any(s["height_m"] > day["highest_m"] + 1e-6 for s in day["stretches"]):
            yield f"{what}: walks higher than its highest point"


def slots_bear_their_day(plan: Json) -> Iterable[str]:
    days = {day["number"]: day for day in plan["days"]}
    first: dict[int, int] = {}
    for day in plan["days"]:
        first.setdefault(day["leg"], day["number"])
    for slot in plan["slots"]:
        day = days.get(slot["day"])
        what = f"slot {slot['walker']} {slot['day']} {slot['meal']}"
        if day is None:
            yield f"{what}: no such day"
            continue
        told = slot["date"], slot["leg"], slot["carry_days"]
        if told != (day["date"], day["leg"], slot["day"] - first[day["leg"]] + 1):
            yield f"{what}: {told}"
        clock = plan["trip"]["rules"]["meal_clock_min"].get(slot["meal"], slot["clock_min"])
        yield from differs(f"{what} clock", slot["clock_min"], clock)


def timeline_covers_the_days(plan: Json) -> Iterable[str]:
    for walker, hours in plan["timeline"].items():
        for day in plan["days"]:
            mine = [h for h in hours if h["day"] == day["number"]]
            what = f"timeline {walker} day {day['number']}"
            for name, whole in (("minutes", minutes(day)), ("walk_min", minutes(day, "walk")),
                                ("distance_m", day["distance_m"])):  # fmt: skip
                yield from differs(f"{what} {name}", sum(h[name] for h in mine), whole)
            for one, two in pairwise(mine):
                if not near(one["start_min"] + one["minutes"], two["start_min"]):
                    yield f"{what}: a hole at {two['start_min']:.0f} min"
            backs = plan["backs"][walker][str(day["number"])]
            heights = [s["height_m"] for s in day["stretches"]]
            for hour in mine:
                if not hour["need_low_kcal"] <= hour["need_kcal"] <= hour["need_high_kcal"]:
                    yield f"{what} at {hour['start_min']:.0f}: outside its own range"
                if not min(backs) - 1e-6 <= hour["pack_kg"] <= max(backs) + 1e-6:
                    yield f"{what} at {hour['start_min']:.0f}: {hour['pack_kg']} kg on the back"
                if not min(heights) - 1e-6 <= hour["height_m"] <= max(heights) + 1e-6:
                    yield f"{what} at {hour['start_min']:.0f}: {hour['height_m']} m high"


def backs_get_lighter_by_the_day(plan: Json) -> Iterable[str]:
    """As many loads as pieces of the day, none heavier than the one before, none below the base
    weight and what lies in the sack at the next waking; the need tells the first and the last."""
    sacks = {(s["walker"], s["leg"]): s for s in plan["packed"]["sacks"]}
    water = _water_kg(plan)
    for walker in plan["trip"]["walkers"]:
        for day in plan["days"]:
            number = str(day["number"])
            backs = plan["backs"][walker["id"]][number]
            what = f"back {walker['id']} day {number}"
            if len(backs) != len(day["stretches"]):
                yield f"{what}: {len(backs)} loads for {len(day['stretches'])} pieces"
                continue
            if any(two > one + 1e-9 for one, two in pairwise(backs)):
                yield f"{what}: heavier as the day goes on"
            sack = sacks.get((walker["id"], day["leg"]))
            rest = sack["by_day_g"].get(str(day["number"] + 1), 0.0) / 1000.0 if sack else 0.0
            if backs and min(backs) < walker["base_weight_kg"] + rest - 1e-6:
                yield f"{what}: lighter than its own sack"
            most = walker["base_weight_kg"] + water.get(day["number"], 1.0)
            if sack:
                held = sack["by_day_g"].get(number, 0.0) + sum(sack["common_g"].values())
                most += held / 1000.0
            if backs and max(backs) > most + 1e-6:
                yield f"{what}: {max(backs)} kg, with all that it holds {most} kg"
            on_foot = [
                kg for kg, s in zip(backs, day["stretches"], strict=True) if s["kind"] == "walk"
            ]
            need = plan["need"][walker["id"]][number]
            if on_foot:
                yield from differs(f"{what} at first", need["pack_start_kg"], on_foot[0])
                yield from differs(f"{what} at last", need["pack_end_kg"], on_foot[-1])


def _water_kg(plan: Json) -> dict[int, float]:
    """Day -> mean water on a back: half of each carry, by its minutes [kg]."""
    out = {}
    for day in plan["days"]:
        mine = [c for c in plan["kitchen"]["carries"] if c["day"] == day["number"]]
        long = sum(c["minutes"] for c in mine)
        if long > 0:
            out[day["number"]] = sum(c["carry_ml"] * c["minutes"] for c in mine) / long / 2000.0
    return out


def hours_range_as_their_day(plan: Json) -> Iterable[str]:
    """The low and the high of a day are spread over its hours; nothing of the range is lost."""
    for walker, days in plan["need"].items():
        for day, need in days.items():
            mine = [h for h in plan["timeline"][walker] if str(h["day"]) == day]
            for hour, whole in (("need_low_kcal", "low_kcal"), ("need_high_kcal", "high_kcal")):
                yield from differs(f"timeline {walker} {day} {hour}", sum(h[hour] for h in mine),
                                   need[whole])  # fmt: skip


def typed_days_climb_what_was_typed(plan: Json) -> Iterable[str]:
    """Slope times distance over a typed day's pieces is its climb and its descent; a camp is as
    high as the piece that is slept in."""
    for day in plan["days"]:
        what = f"day {day['number']}"
        rise = [s["grade_pct"] * s["distance_m"] / 100.0 for s in day["stretches"]
                if s["kind"] == "walk"]  # fmt: skip
        if day["by_hand"]:
            yield from differs(f"{what} climb", day["ascent_m"], sum(r for r in rise if r > 0))
            yield from differs(f"{what} descent", day["descent_m"], -sum(r for r in rise if r < 0))
        nights = [s["height_m"] for s in day["stretches"] if s["kind"] in ("camp", "sleep")]
        if nights and day["camp_m"] is not None:
            yield from differs(f"{what} camp", day["camp_m"], nights[-1])
        if day["cold_c"] > day["warm_c"]:
            yield f"{what}: colder at noon than at dawn"


def walking_hours_are_those_of_the_day(plan: Json) -> Iterable[str]:
    for walker, days in plan["need"].items():
        for day in plan["days"]:
            told = days[str(day["number"])]["walking_h"]
            yield from differs(f"need {walker} {day['number']} walking", told,
                               minutes(day, "walk") / 60.0)  # fmt: skip


# ── what is eaten, and the trip in one row ─────────────────────────────────────────────────────


def eaten_days_say_how_high_and_how_long(plan: Json) -> Iterable[str]:
    """With nothing blank the high figure is the figure; a blank can only add."""
    foods = plan["foods"]
    for walker, days in plan["eaten"].items():
        for day, told in days.items():
            what = f"eaten {walker} {day}"
            yield from differs(f"{what} target", told["target_kcal"], plan["target"][walker][day])
            cooked = [
                m["minutes"] for m in plan["kitchen"]["meals"]
                if str(m["day"]) == day and walker in m["walkers"]
            ]  # fmt: skip
            yield from differs(f"{what} minutes", told["minutes"], sum(cooked))
            mine = [p for p in plan["menu"]["portions"]
                    if p["walker"] == walker and str(p["day"]) == day]  # fmt: skip
            for low, high in (("sodium_mg", "sodium_high_mg"), ("fat_g", "fat_high_g"),
                              ("caffeine_mg", "caffeine_high_mg")):  # fmt: skip
                blank = sum(
                    grams(p, foods) for p in mine if foods[p["food"]]["per_100g"][low] is None
                )
                extra = told[high] - told[low]
                per_gram = 1.0 if low == "fat_g" else 400.0  # no food is more than fat, or salt
                if extra < -1e-6 or extra > blank * per_gram + 1e-6:
                    yield f"{what} {high}: {told[high]} beside {told[low]}, {blank:.0f} g blank"


def totals_are_the_trip_in_one_row(plan: Json) -> Iterable[str]:
    told, foods, packed = plan["totals"], plan["foods"], plan["packed"]
    walkers, meals = plan["trip"]["walkers"], plan["kitchen"]["meals"]
    eaten, count = plan["menu"]["portions"], len(plan["days"])
    whole = {
        n: sum(stated(p, foods, n) for p in eaten)
        for n in ("energy_kcal", "protein_g", "fat_g", "fibre_g", "sodium_mg", "caffeine_mg")
    }
    days = len(walkers) * sum(minutes(day) for day in plan["days"]) / 1440.0
    body = sum(w["mass_kg"] for w in walkers) / len(walkers)
    bought = [line["price"] for line in packed["buy"] if line["packs"] > 0]
    prices = [price for price in bought if price is not None]
    spare = plan["menu"]["spare"]
    real = {
        "person_days": days,
        "start_kg": sum(s["start_g"] for s in packed["sacks"] if s["leg"] == 1) / 1000.0,
        "g_per_person_day": over(sum(grams(p, foods) for p in eaten), days),
        "protein_g_per_kg_day": over(whole["protein_g"], days * body),
        "sodium_mg_day": over(whole["sodium_mg"], days),
        "fibre_g_day": over(whole["fibre_g"], days),
        "caffeine_mg_day": over(whole["caffeine_mg"], days),
        "fat_share": over(9.0 * whole["fat_g"], whole["energy_kcal"]),
        "cook_minutes_day": sum(m["minutes"] for m in meals) / count,
        "boiled_ml_day": sum(m["boiled_ml"] for m in meals) / count,
        "fuel_g": plan["kitchen"]["fuel"]["burnt_g"] if plan["kitchen"]["fuel"] else 0.0,
        "rubbish_g": max((r["mass_g"] for r in packed["rubbish"]), default=0.0),
        "volume_ml": sum(b["volume_ml"] for b in packed["bags"]),
        "kg_days": sum(s["kg_days"] for s in packed["sacks"]),
        "price": sum(prices) if prices or not bought else None,
        "unpriced": len(bought) - len(prices),
        "spare_g": sum(grams(p, foods) for p in spare),
        "spare_kcal": sum(stated(p, foods, "energy_kcal") for p in spare),
    }
    for name, value in real.items():
        yield from differs(f"totals {name}", told[name], value)


RATION_KG, FIRST, LAST = 0.75, (0.75, 0.85), 0.7
GROWS = ((6, 1.0), (14, 1.1), (28, 1.2), (10**9, 1.3))
USUAL_G = {"breakfast": 130.0, "lunch": 150.0, "dinner": 180.0}
DRINKS_G, SNACKS_G_H, DENSE_KCAL_G, RULE_ML, BULK_G_ML = 40.0, 55.0, 4.0, 1640.0, 0.5
"""Common practice, typed in once more."""


def _rations(days: int) -> float:
    """Full rations that one eater takes on a walk of so many days."""
    whole = [next(f for end, f in GROWS if n <= end) for n in range(1, days + 1)]
    whole[: len(FIRST)] = FIRST[: min(days, len(FIRST))]
    whole[-1] = LAST
    return sum(whole)


def yardsticks_measure_the_trip(plan: Json) -> Iterable[str]:
    told, slots = plan["yardsticks"], plan["slots"]
    eaters = {s["walker"] for s in slots}
    rations = len(eaters) * _rations(len(plan["days"]))
    snacked = SNACKS_G_H * len(eaters) * sum(minutes(d, "walk") for d in plan["days"]) / 60.0
    drunk = DRINKS_G * len({(s["walker"], s["day"]) for s in slots})
    served = sum(USUAL_G.get(s["meal"], 0.0) for s in slots)
    asked = sum(kcal for days in plan["target"].values() for kcal in days.values())
    real = {
        "by_mass_kg": rations * RATION_KG,
        "by_energy_kg": asked / DENSE_KCAL_G / 1000.0,
        "by_meals_kg": (served + drunk + snacked) / 1000.0,
        "by_volume_kg": rations * RULE_ML / 1000.0 * BULK_G_ML,
    }
    spread = max(real.values()) - min(real.values())
    bags = plan["packed"]["bags"]
    real["spread"] = over(spread, sum(real.values()) / 4.0)
    real["plan_kg"] = sum(b["net_g"] + b["wrap_g"] for b in bags if b["label"] != "spare") / 1000.0
    for name, value in real.items():
        yield from differs(f"yardstick {name}", told[name], value)


def a_base_is_its_share_of_a_full_day(plan: Json) -> Iterable[str]:
    for walker, chosen in plan["chosen"].items():
        share = over(chosen["base_kcal"], chosen["full_day_kcal"])
        yield from differs(f"chosen {walker} factor", chosen["factor"], share)
        ramp = chosen["ramp"].values()
        if chosen["how"] == "typed" and any(not near(r, 1.0) for r in ramp):
            yield f"chosen {walker}: a typed number is ramped"
        if any(not 0.0 <= s <= 1.0 + 1e-9 for s in chosen["share"].values()):
            yield f"chosen {walker}: more than a day's meals in a day"


# ── late, and the consequence ──────────────────────────────────────────────────────────────────


def _longest_leg(plan: Json) -> tuple[int, int]:
    spans: dict[int, list[int]] = defaultdict(list)
    for day in plan["days"]:
        spans[day["leg"]].append(day["number"])
    longest = max(spans.values(), key=len)
    return longest[0], longest[-1]


def late_plans_stretch_what_is_left(plan: Json) -> Iterable[str]:
    """Noticed half-way through the longest leg; what is left then lasts for more days."""
    first, last = _longest_leg(plan)
    noticed = first - 1 + math.ceil((last - first + 1) / 2)
    rows = [p for p in plan["menu"]["portions"] if noticed < p["day"] <= last]
    rows += plan["menu"]["spare"]
    fuel = plan["kitchen"]["fuel"]
    burnt = {int(d): g for d, g in fuel["by_day_g"].items()} if fuel else {}
    if [late["days"] for late in plan["late"]] != [1, 2, 3]:
        yield "the late plans are not those of one, two and three days"
    for late in plan["late"]:
        what, more = f"late {late['days']}", late["days"]
        for walker, days in plan["target"].items():
            left = sum(stated(p, plan["foods"], "energy_kcal") for p in rows
                       if p["walker"] == walker)  # fmt: skip
            full = max(days.values(), default=0.0)
            wanted = sum(k for d, k in days.items() if noticed < int(d) <= last) + more * full
            share = min(1.0, left / wanted) if wanted > 0 else 1.0
            yield from differs(f"{what} {walker} left", late["left_kcal"][walker], left)
            yield from differs(f"{what} {walker} share", late["share"][walker], share)
            yield from differs(f"{what} {walker} a day", late["kcal_day"][walker], share * full)
        gone = sum(g for d, g in burnt.items() if d <= noticed)
        rest = sum(g for d, g in burnt.items() if noticed < d <= last)
        has = max(0.0, fuel["carried_g"] - gone) if fuel else 0.0
        yield from differs(f"{what} fuel", late["fuel_left_g"], has)
        wants = rest + more * max(burnt.values(), default=0.0)
        yield from differs(f"{what} fuel needed", late["fuel_needed_g"], wants)


def consequences_follow_from_need_and_food(plan: Json) -> Iterable[str]:
    bodies = {w["id"]: w for w in plan["trip"]["walkers"]}
    for walker, told in plan["consequence"].items():
        what = f"consequence {walker}"
        if not 0.0 <= told["water_low_kg"] <= told["water_high_kg"]:
            yield f"{what}: water out of order"
        used = sum(n["energy_kcal"] for n in plan["need"][walker].values())
        fed = sum(plan["target"][walker].values()) + sum(plan["chosen"][walker]["town"].values())
        yield from differs(f"{what} deficit", told["deficit_kcal"], used - fed)
        loss = told["tissue_kg"] + (told["water_low_kg"] + told["water_high_kg"]) / 2.0
        share = told["share_of_mass"] * bodies[walker]["mass_kg"]
        yield from differs(f"{what} share of mass", share, loss)
        for flag in plan["flags"]:
            if flag["key"] == "body.shortfall" and flag["scope"] == f"need/{walker}":
                yield from _shortfall(told, flag["values"], what)
        available = told["availability"]
        if available:
            yield from _availability(plan, walker, available)


def _shortfall(told: Json, said: Json, what: str) -> Iterator[str]:
    """The one neutral line says no other figures than the plan holds."""
    for name, real in (
        ("deficit_kcal", told["deficit_kcal"]),
        ("low_kg", told["tissue_low_kg"] + told["water_low_kg"]),
        ("high_kg", told["tissue_high_kg"] + told["water_high_kg"]),
        ("water_low_kg", told["water_low_kg"]), ("water_high_kg", told["water_high_kg"]),
    ):  # fmt: skip
        yield from differs(f"{what}: said {name}", said[name], real)


def _availability(plan: Json, walker: str, told: Json) -> Iterator[str]:
    what = f"availability {walker}"
    full = sum(minutes(day) for day in plan["days"]) / 1440.0
    yield from differs(f"{what} days", told["full_days"], full)
    for name, low, high in (("likely_kcal_kg", "low_kcal_kg", "high_kcal_kg"),
                            ("lean_kg", "lean_low_kg", "lean_high_kg"),
                            ("walking_kcal_day", "walking_low_kcal_day",
                             "walking_high_kcal_day")):  # fmt: skip
        if not told[low] <= told[name] <= told[high]:
            yield f"{what} {name}: out of order"
    fed = sum(plan["target"][walker].values()) + sum(plan["chosen"][walker]["town"].values())
    yield from differs(f"{what} eaten", told["eaten_kcal_day"], fed / full)
    for name, walking, lean in (
        ("likely_kcal_kg", "walking_kcal_day", "lean_kg"),
        ("low_kcal_kg", "walking_high_kcal_day", "lean_high_kg"),
        ("high_kcal_kg", "walking_low_kcal_day", "lean_low_kg"),
    ):
        real = (told["eaten_kcal_day"] - told[walking]) / told[lean]
        yield from differs(f"{what} {name}", told[name], real)


# ── kitchen ────────────────────────────────────────────────────────────────────────────────────


def meals_are_their_steps(plan: Json) -> Iterable[str]:
    people = [w["id"] for w in plan["trip"]["walkers"]]
    for meal in plan["kitchen"]["meals"]:
        what = f"kitchen {meal['day']} {meal['meal']}"
        steps = meal["steps"]
        burnt = sum(s["fuel_g"] for s in steps)
        yield from differs(f"{what} fuel", meal["fuel_g"], burnt)
        ends = max((s["end_min"] for s in steps if s["kind"] != "wash"), default=0.0)
        yield from differs(f"{what} minutes", meal["minutes"], ends)
        water = defaultdict(float)
        for step in steps:
            water[step["kind"]] += step["water_ml"]
        kinds = Counter(s["kind"] for s in steps)
        rounds = max(kinds["boil"], kinds["melt"])  # snow is melted and then boiled in one go
        yield from differs(f"{what} batches", meal["batches"], rounds)
        boiled = max(water["boil"], water["melt"])
        yield from differs(f"{what} boiled", meal["boiled_ml"], boiled)
        yield from differs(f"{what} cold", meal["cold_ml"], water["soak"])
        yield from differs(f"{what} washed with", meal["wash_ml"], water["wash"])
        poured = water["pour"] + water["simmer"]
        if poured:
            yield from differs(f"{what} left in the pot", meal["left_ml"], boiled - poured)
        if meal["dirty_pots"] > len({s["pot"] for s in steps if s["pot"]}):
            yield f"{what}: {meal['dirty_pots']} dirty pots"
        if any(s["start_min"] > s["end_min"] for s in steps):
            yield f"{what}: a step that ends before it begins"
        if any(s["start_min"] < 0.0 for s in steps if s["kind"] != "soak"):
            yield f"{what}: begun before the stove is lit"
        if set(meal["walkers"]) - set(people) or len(set(meal["walkers"])) != len(meal["walkers"]):
            yield f"{what}: for whom?"
        if not 60.0 < meal["boiling_c"] <= 101.5:
            yield f"{what}: boils at {meal['boiling_c']} C"
        if not 0.0 <= meal["left_ml"] <= meal["boiled_ml"] + 1e-6:
            yield f"{what}: {meal['left_ml']} ml left of {meal['boiled_ml']} ml"


def fuel_of_a_day_is_that_of_its_meals(plan: Json) -> Iterable[str]:
    fuel = plan["kitchen"]["fuel"]
    if fuel is None:
        return
    for day, told in fuel["by_day_g"].items():
        cooked = sum(m["fuel_g"] for m in plan["kitchen"]["meals"] if str(m["day"]) == day)
        yield from differs(f"fuel on day {day}", told, cooked)
    held = sum(size * count for size, count in fuel["cans"])
    if fuel["cans"]:
        yield from differs("fuel in cans", fuel["carried_g"], held)
    if fuel["gross_g"] < fuel["carried_g"] - 1e-6:
        yield f"fuel: {fuel['gross_g']} g with cans, {fuel['carried_g']} g without"


def counts_are_what_the_menu_books(plan: Json) -> Iterable[str]:
    for walker, lines in plan["kitchen"]["counts"].items():
        for food, line in lines.items():
            booked: dict[str, float] = defaultdict(float)
            for p in plan["menu"]["portions"]:
                if (p["walker"], p["food"], p["why"]) == (walker, food, "count"):
                    booked[str(p["day"])] += p["doses"]
            what = f"count {walker} {food}"
            habits = [(c["count"], c["per"]) for w in plan["trip"]["walkers"] if w["id"] == walker
                      for c in w["usual"]["counts"] if c["food"] == food]  # fmt: skip
            if (line["each"], line["per"]) not in habits:
                yield f"{what}: {line['each']:g} per {line['per']}, the habit is {habits}"
            if booked.keys() != line["by_day"].keys():
                yield f"{what}: days {sorted(line['by_day'])}, booked {sorted(booked)}"
                continue
            for day, told in line["by_day"].items():
                yield from differs(f"{what} day {day}", told, booked[day])
            whole = math.ceil(sum(booked.values()) - 1e-9)
            yield from differs(f"{what} to take", line["take"], whole)


def caffeine_names_the_strongest_day(plan: Json) -> Iterable[str]:
    for walker, line in plan["kitchen"]["caffeine"].items():
        days = plan["eaten"][walker]
        most = max((row["caffeine_mg"] for row in days.values()), default=0.0)
        if not near(line["most_mg"], most):
            yield f"caffeine {walker}: {line['most_mg']} mg at most, a day holds {most}"
        first = next((d for d, row in days.items() if near(row["caffeine_mg"], most)), "")
        if most and str(line["most_day"]) != first:
            yield f"caffeine {walker}: day {line['most_day']} is not the first of the strongest"
        rows = [p for p in plan["menu"]["portions"] if p["walker"] == walker]
        once = [
            stated(p, plan["foods"], "caffeine_mg")
            / (p["doses"] or 1.0 if p["meal"] in ("drinks", "move") else 1.0)
            for p in rows
        ]
        yield from differs(f"caffeine {walker} at once", line["single_mg"], max(once, default=0.0))


def carries_go_all_the_way(plan: Json) -> Iterable[str]:
    """The water places cut the whole walk into carries: no metre without one, none twice."""
    carries = plan["kitchen"]["carries"]
    if carries:
        yield from differs("carries", sum(c["distance_m"] for c in carries),
                           sum(day["distance_m"] for day in plan["days"]))  # fmt: skip
    for one in carries:
        if one["carry_ml"] < 0 or one["minutes"] < 0:
            yield f"carry from {one['start']}: less than nothing"
    if [c["day"] for c in carries] != sorted(c["day"] for c in carries):
        yield "carries: not in the order of the days"
    for day, wet in plan["kitchen"]["wet_min"].items():
        warm = next(d["warm_c"] for d in plan["days"] if str(d["number"]) == day)
        if wet != (60.0 if warm > 32.2 else 120.0):
            yield f"wet food may stand {wet} min on day {day}, of {warm:.0f} C"


def water_caps_bound_the_suggestion(plan: Json) -> Iterable[str]:
    hours = {str(day["number"]): minutes(day, "walk") / 60.0 for day in plan["days"]}
    lit = {(s["walker"], str(s["day"])) for s in plan["slots"] if s["hot"]}
    for walker, days in plan["kitchen"]["water"].items():
        for day, row in days.items():
            what = f"water {walker} {day}"
            if row["sweat_low_ml"] > row["sweat_high_ml"]:
                yield f"{what}: sweat out of order"
            if row["sodium_low_mg"] > row["sodium_high_mg"]:
                yield f"{what}: sodium out of order"
            if row["walking_suggested_ml"] > row["hour_cap_ml"] * hours[day] + 1e-6:
                yield f"{what}: more suggested than an hour's cap allows"
            mine = [(p, plan["foods"][p["food"]]["prep"]) for p in plan["menu"]["portions"]
                    if p["walker"] == walker and str(p["day"]) == day]  # fmt: skip
            mugs = sum(p["doses"] * prep["water_ml"] for p, prep in mine
                       if p["meal"] == "drinks" and prep["kind"] == "boil")  # fmt: skip
            cooked = sum(p["doses"] * prep["water_ml"] for p, prep in mine
                         if p["meal"] in ("breakfast", "lunch", "dinner"))  # fmt: skip
            warm = (walker, day) in lit  # a mug stirred into cold water counts with the meals
            yield from differs(f"{what} hot drinks", row["hot_drinks_ml"], mugs * warm)
            yield from differs(f"{what} cooking", row["cooking_ml"], cooked + mugs * (not warm))
            if row["hot_drinks_ml"] > row["camp_drinks_ml"] + 1e-6:
                yield f"{what}: more hot drinks than drinks"
            if min(row[n] for n in ("cooking_ml", "washing_ml", "camp_drinks_ml")) < 0:
                yield f"{what}: less than no water"


# ── what is told ───────────────────────────────────────────────────────────────────────────────


def flags_stand_once_and_the_loudest_first(plan: Json) -> Iterable[str]:
    ranks = [LOUD.index(flag["level"]) for flag in plan["flags"]]
    if ranks != sorted(ranks):
        yield "flags: not the loudest first"
    seen = Counter(
        (f["key"], f["scope"], str(sorted(f["values"].items()))) for f in plan["flags"]
    )
    yield from (f"flag told twice: {key}" for key, count in seen.items() if count > 1)


def what_packing_and_kitchen_flag_is_told(plan: Json) -> Iterable[str]:
    told = {(f["key"], f["scope"]) for f in plan["flags"]}
    for part in ("kitchen", "packed", "menu"):
        for flag in plan[part]["flags"]:
            if (flag["key"], flag["scope"]) not in told:
                yield f"{part} flags {flag['key']} and the plan is silent"


def assumptions_stand_by_their_weight(plan: Json) -> Iterable[str]:
    effects = [a["effect_kcal"] for a in plan["assumptions"]]
    if effects != sorted(effects, reverse=True) or len(effects) > 5:
        yield f"assumptions: {effects}"


def the_gap_is_that_of_aim_and_bound(plan: Json) -> Iterable[str]:
    aim, bound = plan["menu"]["aim"], plan["menu"]["bound"]
    yield from differs("gap", plan["made"]["gap"], max(0.0, over(aim - bound, aim)))


FIGURES: tuple[Callable[[Json], Iterable[str]], ...] = (
    days_follow_each_other, stretches_make_the_day, slots_bear_their_day, timeline_covers_the_days,
    backs_get_lighter_by_the_day, walking_hours_are_those_of_the_day, hours_range_as_their_day,
    typed_days_climb_what_was_typed,
    eaten_days_say_how_high_and_how_long, totals_are_the_trip_in_one_row,
    yardsticks_measure_the_trip, a_base_is_its_share_of_a_full_day,
    late_plans_stretch_what_is_left, consequences_follow_from_need_and_food, meals_are_their_steps,
    fuel_of_a_day_is_that_of_its_meals, counts_are_what_the_menu_books,
    caffeine_names_the_strongest_day, carries_go_all_the_way, water_caps_bound_the_suggestion,
    flags_stand_once_and_the_loudest_first, what_packing_and_kitchen_flag_is_told,
    assumptions_stand_by_their_weight, the_gap_is_that_of_aim_and_bound,
)  # fmt: skip
