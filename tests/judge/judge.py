"""The judge: reads plan.json alone, imports nothing of ours, and recomputes every total and rule.

`judge(plan)` returns complaints; an honest plan has none. The rules are written again here from
what they mean for a walker, not from the code that made the plan.
"""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from judge.choices import CHOICES
from judge.figures import FIGURES
from judge.packs import PACKS

Json = Any
DIETS = {
    "vegan": {"vegan"},
    "vegetarian": {"vegan", "vegetarian"},
    "fish": {"vegan", "vegetarian", "fish"},
    "anything": {"vegan", "vegetarian", "fish", "meat", "check"},
}
NUTRIENTS = ("energy_kcal", "protein_g", "fat_g", "carb_g", "fibre_g", "sodium_mg", "caffeine_mg")


def near(a: float, b: float, tolerance: float = 1e-6) -> bool:
    return math.isclose(a, b, rel_tol=tolerance, abs_tol=max(tolerance, 1e-6))


def judge(plan: Json) -> list[str]:
    """Everything that is wrong with a plan."""
    return [text for check in CHECKS for text in check(plan)]


def rows_of(plan: Json) -> Iterator[tuple[Json, Json]]:
    for portion in plan["menu"]["portions"]:
        yield portion, plan["foods"][portion["food"]]


def amount(portion: Json, food: Json, nutrient: str) -> float:
    per = food["per_100g"][nutrient]
    return 0.0 if per is None else portion["doses"] * food["dose_g"] * per / 100.0


def walkers_of(plan: Json) -> dict[str, Json]:
    return {w["id"]: w for w in plan["trip"]["walkers"]}


# ── the menu ───────────────────────────────────────────────────────────────────────────────────


def portions_stand_in_slots(plan: Json) -> Iterable[str]:
    slots = {(s["walker"], s["day"], s["meal"]) for s in plan["slots"]}
    for p in plan["menu"]["portions"]:
        if (p["walker"], p["day"], p["meal"]) not in slots:
            yield f"portion outside the walk: {p}"


def _in_town(plan: Json, day: int, meal: str) -> bool:
    """Lunch and dinner of the day of arrival, and the next breakfast, where the trip says so."""
    return any(
        meal in place["town_meals"] and place["day"] + (meal == "breakfast") == day
        for place in plan["trip"]["places"]
    )


def town_meals_are_credited(plan: Json) -> Iterable[str]:
    """Whoever has meals in town on a day is credited something there, and nobody else is."""
    places = plan["trip"]["places"]
    told = {p["day"] for p in places if p["town_meals"] or p["town_kcal"]}
    told |= {p["day"] + 1 for p in places if "breakfast" in p["town_meals"]}
    for walker, chosen in plan["chosen"].items():
        for day, kcal in chosen["town"].items():
            if int(day) not in told or kcal < 0:
                yield f"{walker} day {day}: credited {kcal:.0f} kcal that nobody named"
        for place in places:
            dinner = "dinner" in place["town_meals"] and str(place["day"]) in chosen["share"]
            if dinner and str(place["day"]) not in chosen["town"]:
                yield f"{walker} day {place['day']}: a dinner in town without a credit"


def slots_follow_the_clock(plan: Json) -> Iterable[str]:
    """A meal is ours when its clock lies inside the walk (C4), own switches apart."""
    trip, rules = plan["trip"], plan["trip"]["rules"]
    begin = dt.datetime.fromisoformat(trip["begin"]).replace(tzinfo=None)
    end = dt.datetime.fromisoformat(trip["end"]).replace(tzinfo=None)
    slots = {(s["walker"], s["date"], s["meal"]) for s in plan["slots"]}
    for walker in walkers_of(plan):
        for offset in range((end.date() - begin.date()).days + 1):
            date = begin.date() + dt.timedelta(days=offset)
            for meal in ("breakfast", "lunch", "dinner"):
                at = dt.datetime.combine(date, dt.time()) + dt.timedelta(
                    minutes=rules["meal_clock_min"][meal]
                )
                switched = (date == begin.date() and rules["first_day_meals"] is not None) or (
                    date == end.date() and meal == "lunch" and rules["last_lunch"] is not None
                )
                wanted = begin <= at <= end and not _in_town(plan, offset + 1, meal)
                there = (walker, date.isoformat(), meal) in slots
                if wanted != there and not switched:
                    yield f"{walker} {date} {meal}: served {there}, inside the walk {wanted}"


def doses_are_whole(plan: Json) -> Iterable[str]:
    for p, _ in rows_of(plan):
        loose = p["why"] in ("bag", "count", "usual", "held")
        if p["doses"] < 0 or (not loose and not near(p["doses"], round(p["doses"]))):
            yield f"not a whole dose: {p}"


def diets_and_allergens_hold(plan: Json) -> Iterable[str]:
    walkers = walkers_of(plan)
    everyone = [*plan["menu"]["portions"], *plan["menu"]["spare"]]
    for p in everyone:
        food, eater = plan["foods"][p["food"]], walkers[p["walker"]]
        if food["diet"] not in DIETS[eater["eats"]]:
            yield f"{eater['id']} eats {eater['eats']}, got {p['food']} ({food['diet']})"
        for other in walkers.values():
            for avoid in other["avoids"]:
                concerns = other["id"] == eater["id"] or avoid["scope"] == "party"
                state = food["allergens"].get(avoid["allergen"], "unknown")
                bad = state in ("contains", "unknown") or (state == "may" and not avoid["traces"])
                if concerns and bad:
                    yield f"{p['food']} ({state} {avoid['allergen']}) for {other['id']}: {p}"


def doubtful_labels_stay_out(plan: Json) -> Iterable[str]:
    for p, food in rows_of(plan):
        if food["per_100g"]["energy_kcal"] is None:
            yield f"no energy stated, yet eaten: {p['food']}"


def bans_and_holds_hold(plan: Json) -> Iterable[str]:
    dates = {day["number"]: day["date"] for day in plan["days"]}
    for hold in plan["trip"]["rules"]["holds"]:
        matching = [
            p for p in plan["menu"]["portions"]
            if p["food"] == hold["food"]
            and hold["walker"] in (None, p["walker"])
            and hold["date"] in (None, dates[p["day"]])
            and hold["meal"] in (None, p["meal"])
        ]  # fmt: skip
        if hold["count"] <= 0 and matching:
            yield f"banned yet eaten: {matching[0]}"


def flames_only_where_allowed(plan: Json) -> Iterable[str]:
    """What the walker picked stays picked where it cannot be heated, but they are told so."""
    told = {
        (f["values"]["food"], f["scope"].split("/")[1]) for f in plan["flags"]
        if f["key"] in ("kitchen.needs-flame", "kitchen.cold-drink")
    }  # fmt: skip
    hot = {(s["walker"], s["day"], s["meal"]): s["hot"] for s in plan["slots"]}
    for p, food in rows_of(plan):
        prep = food["prep"]
        cold = prep["kind"] in ("none", "soak") or prep["cold_soak_min"] is not None
        mine = p["why"] != "chosen" and (p["food"], p["walker"]) in told
        if not hot.get((p["walker"], p["day"], p["meal"]), False) and not cold and not mine:
            yield f"needs a flame where there is none: {p}"


def energy_stays_in_its_windows(plan: Json) -> Iterable[str]:
    rules = plan["trip"]["rules"]
    excused = {f["scope"] for f in plan["flags"] if f["level"] in ("quiet", "caution", "block")
               and "energy" in f["key"]}  # fmt: skip
    for walker, days in plan["target"].items():
        eaten = defaultdict(float)
        for p, food in rows_of(plan):
            if p["walker"] == walker:
                eaten[str(p["day"])] += amount(p, food, "energy_kcal")
        for day, target in days.items():
            off = abs(eaten[day] - target)
            if off > rules["day_window"] * target + 1.0 and not excused:
                yield f"{walker} day {day}: eats {eaten[day]:.0f} of {target:.0f}"
        whole = sum(days.values())
        if abs(sum(eaten.values()) - whole) > rules["trip_window"] * whole + 1.0 and not excused:
            yield f"{walker}: eats {sum(eaten.values()):.0f} of {whole:.0f} over the trip"


def targets_follow_from_base_ramp_and_share(plan: Json) -> Iterable[str]:
    for walker, chosen in plan["chosen"].items():
        for day, target in plan["target"][walker].items():
            wanted = chosen["base_kcal"] * chosen["ramp"][day] * chosen["share"][day]
            wanted -= chosen["town"].get(day, 0.0)
            if not near(wanted, target):
                yield f"target {walker} {day}: {target} is not base x ramp x share {wanted}"


def budget_holds(plan: Json) -> Iterable[str]:
    budget = plan["trip"]["rules"]["budget"]
    spent = sum(line["price"] or 0.0 for line in plan["packed"]["buy"])
    flagged = any("budget" in f["key"] for f in plan["flags"])
    if budget is not None and spent > budget + 0.01 and not flagged:
        yield f"costs {spent:.2f}, budget {budget:.2f}"


def open_bags_are_whole_packs_shared_out(plan: Json) -> Iterable[str]:
    for pool in plan["menu"]["pools"]:
        food = plan["foods"][pool["food"]]
        held = pool["packs"] * food["pack_g"]
        shared = sum(pool["by_day_g"].values())
        if shared > held + 1e-6:
            yield f"more nibbled than the bags hold: {pool}"
        if not near(pool["packs"], round(pool["packs"])):
            yield f"not whole packs: {pool}"


# ── sums ───────────────────────────────────────────────────────────────────────────────────────


def eaten_days_add_up(plan: Json) -> Iterable[str]:
    for walker, days in plan["eaten"].items():
        for day, told in days.items():
            mine = [
                (p, f) for p, f in rows_of(plan) if p["walker"] == walker and str(p["day"]) == day
            ]
            for name in NUTRIENTS:
                real = sum(amount(p, f, name) for p, f in mine)
                if not near(real, told[name]):
                    yield f"eaten {walker} {day} {name}: {told[name]} is not {real}"
            mass = sum(p["doses"] * f["dose_g"] for p, f in mine)
            if not near(mass, told["mass_g"]):
                yield f"eaten {walker} {day} mass: {told['mass_g']} is not {mass}"


def totals_add_up(plan: Json) -> Iterable[str]:
    told = plan["totals"]
    energy = sum(amount(p, f, "energy_kcal") for p, f in rows_of(plan))
    net = sum(p["doses"] * f["dose_g"] for p, f in rows_of(plan))
    gross = sum(b["net_g"] + b["wrap_g"] for b in plan["packed"]["bags"])
    for name, real in (("energy_kcal", energy), ("net_g", net), ("gross_g", gross)):
        if not near(told[name], real):
            yield f"totals {name}: {told[name]} is not {real}"
    if net and not near(told["kcal_per_100g"], 100.0 * energy / net):
        yield f"totals kcal_per_100g: {told['kcal_per_100g']}"


def needs_add_up(plan: Json) -> Iterable[str]:
    for walker, days in plan["need"].items():
        for day, n in days.items():
            parts = sum(
                n[k] for k in ("walking_kcal", "camp_kcal", "rest_kcal", "sleep_kcal",
                               "thermic_kcal", "terms_kcal")
            )  # fmt: skip
            if not near(parts, n["energy_kcal"]):
                yield f"need {walker} {day}: parts {parts} are not {n['energy_kcal']}"
            if not n["low_kcal"] <= n["energy_kcal"] <= n["high_kcal"]:
                yield f"need {walker} {day}: outside its own range"


def hours_add_up(plan: Json) -> Iterable[str]:
    for walker, hours in plan["timeline"].items():
        eaten = sum(amount(p, f, "energy_kcal") for p, f in rows_of(plan) if p["walker"] == walker)
        eaten += sum(plan["chosen"][walker]["town"].values())
        if not near(sum(h["eaten_kcal"] for h in hours), eaten):
            yield f"timeline {walker}: hours do not eat what the menu holds"
        lifted = walkers_of(plan)[walker]["age_years"]
        for day, need in plan["need"][walker].items():
            used = sum(h["need_kcal"] for h in hours if str(h["day"]) == day)
            if not near(used, need["energy_kcal"]) and (lifted is None or lifted >= 18):
                yield f"timeline {walker} day {day}: {used} is not {need['energy_kcal']}"


# ── bags, sacks, containers ────────────────────────────────────────────────────────────────────


def bags_hold_the_menu(plan: Json) -> Iterable[str]:
    """Every gram eaten or spare stands in exactly one bag."""
    wanted: dict[tuple[str, str, int], float] = defaultdict(float)
    for p in [*plan["menu"]["portions"], *plan["menu"]["spare"]]:
        grams = p["doses"] * plan["foods"][p["food"]]["dose_g"]
        wanted[p["food"], p["walker"], p["day"]] += grams
    bagged: dict[tuple[str, str, int], float] = defaultdict(float)
    for bag in plan["packed"]["bags"]:
        if not near(sum(i["net_g"] for i in bag["items"]), bag["net_g"]):
            yield f"bag {bag['id']}: items are not its net mass"
        for item in bag["items"]:
            if item["meal"] == "left":
                packs = bag["net_g"] / plan["foods"][item["food"]]["pack_g"]
                if not near(packs, round(packs)):
                    yield f"bag {bag['id']}: a rest in {packs:.2f} packs"
                continue
            bagged[item["food"], item["walker"], item["day"]] += item["net_g"]
    for key in wanted.keys() | bagged.keys():
        if not near(wanted[key], bagged[key], 1e-5):
            yield f"bags {key}: {bagged[key]:.1f} g packed, {wanted[key]:.1f} g planned"


def sacks_hold_the_bags(plan: Json) -> Iterable[str]:
    bags = {b["id"]: b for b in plan["packed"]["bags"]}
    carried = [(s["leg"], name) for s in plan["packed"]["sacks"] for name in s["bags"]]
    if {name for _, name in carried} != set(bags) or len(set(carried)) != len(carried):
        yield "some bag is carried by nobody, or by two"
    for leg, name in carried:  # spare food rides on into later legs, nothing else does
        own = bags[name]["leg"] if name in bags else leg
        if leg < own or (leg > own and bags[name]["label"] != "spare"):
            yield f"bag {name} of leg {own} rides on leg {leg}"
    for sack in plan["packed"]["sacks"]:
        gross = sum(bags[b]["net_g"] + bags[b]["wrap_g"] for b in sack["bags"] if b in bags)
        if not near(gross, sack["start_g"]):
            yield f"sack {sack['walker']}: {sack['start_g']} is not {gross}"
        for name in sack["bags"]:
            if name in bags and bags[name]["carrier"] != sack["walker"]:
                yield f"bag {name}: carrier {bags[name]['carrier']}, in {sack['walker']}'s sack"


def containers_close(plan: Json) -> Iterable[str]:
    flagged = any("container" in f["key"] for f in plan["flags"])
    room = sum(c["volume_ml"] for c in plan["trip"]["kit"]["containers"])
    for night in plan["packed"]["nights"]:
        if not near(night["room_ml"], room):
            yield f"night {night['day']}: room {night['room_ml']} is not {room}"
        if night["needed_ml"] > room and night["verdict"] in ("closes", "likely"):
            yield f"night {night['day']}: said to close, {night['needed_ml']:.0f} in {room:.0f}"
        if night["verdict"] in ("no", "unlikely") and not flagged:
            yield f"night {night['day']}: does not close and nobody is told"


def packs_are_bought_whole(plan: Json) -> Iterable[str]:
    for line in plan["packed"]["buy"]:
        if not near(line["packs"], round(line["packs"])):
            yield f"not whole packs: {line}"
        over = line["packs"] * line["pack_g"] + line["from_home_g"] - line["need_g"]
        if over < -1e-6 or not near(over, line["left_g"], 1e-5):
            yield f"buying {line['food']}: {line['left_g']} left, counted {over}"
    bought = defaultdict(float)
    for line in plan["packed"]["buy"]:
        bought[line["food"]] += line["need_g"]
    eaten = defaultdict(float)
    for p in [*plan["menu"]["portions"], *plan["menu"]["spare"]]:
        eaten[p["food"]] += p["doses"] * plan["foods"][p["food"]]["dose_g"]
    for food, grams in eaten.items():
        if bought[food] < grams - 1e-3:
            yield f"{food}: {bought[food]} g provided for {grams} g"


# ── kitchen ────────────────────────────────────────────────────────────────────────────────────


def fuel_adds_up(plan: Json) -> Iterable[str]:
    fuel = plan["kitchen"]["fuel"]
    if fuel is None:
        return
    for what, told, real in (
        ("burnt", fuel["burnt_g"], sum(fuel["by_day_g"].values())),
        ("meals", fuel["burnt_g"], sum(m["fuel_g"] for m in plan["kitchen"]["meals"])),
        ("need", fuel["need_g"], fuel["burnt_g"] + fuel["reserve_g"]),
        ("left", fuel["left_g"], fuel["carried_g"] - fuel["burnt_g"]),
    ):
        if not near(told, real, 1e-5):
            yield f"fuel {what}: {told} is not {real}"
    short = any(f["key"].startswith("kitchen.") for f in plan["flags"])
    if fuel["carried_g"] < fuel["need_g"] - 1e-6 and not short:
        yield f"fuel: carries {fuel['carried_g']}, needs {fuel['need_g']}, nobody is told"


def caps_are_hard_lines(plan: Json) -> Iterable[str]:
    for walker, days in plan["kitchen"]["water"].items():
        for day, water in days.items():
            if water["hour_cap_ml"] > 1420.0 + 1e-6 or water["day_cap_ml"] > 11_360.0 + 1e-6:
                yield f"water {walker} {day}: a cap above the published one"


def ranges_are_ordered(plan: Json) -> Iterable[str]:
    for walker, c in plan["consequence"].items():
        if not c["tissue_low_kg"] <= c["tissue_kg"] <= c["tissue_high_kg"]:
            yield f"consequence {walker}: out of order"
    if plan["menu"]["bound"] > plan["menu"]["aim"] * (1 + 1e-6) + 1e-3:
        yield "the bound lies above what was found"


CHECKS: tuple[Callable[[Json], Iterable[str]], ...] = (
    portions_stand_in_slots, slots_follow_the_clock, doses_are_whole, diets_and_allergens_hold,
    doubtful_labels_stay_out, bans_and_holds_hold, flames_only_where_allowed,
    energy_stays_in_its_windows, targets_follow_from_base_ramp_and_share, town_meals_are_credited,
    budget_holds,
    open_bags_are_whole_packs_shared_out, eaten_days_add_up, totals_add_up, needs_add_up,
    hours_add_up, bags_hold_the_menu, sacks_hold_the_bags, containers_close,
    packs_are_bought_whole, fuel_adds_up, caps_are_hard_lines, ranges_are_ordered,
    *FIGURES, *PACKS, *CHOICES,
)  # fmt: skip
