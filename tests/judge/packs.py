"""The judge on what is bought, bagged and carried: each figure counted again from the bags' items.

Imports nothing of ours. Constants of packing are common practice or ours as the docs state them;
they are typed in once more here, so that no slip in the source slips into the judge as well.
"""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from judge.figures import differs, over

Json = Any
WORST = ("contains", "unknown", "may", "free")
CRUSHED_G_ML = 0.1
POUCH_SCRAPS_G, POT_SCRAPS = 10.0, 0.03
TIED_BAG_ML = 2000.0
SOFT, STIFF = 0.9, 0.7
"""How much of a store soft bags and sealed pieces fill (common practice)."""
DOG_FOOD_G_ML = 0.4
EIGHT_IN_TEN = 1.2816
"""Deviations of a normal spread within which eight cases in ten lie (any table of it)."""


def spans(plan: Json) -> dict[int, tuple[int, int]]:
    """Leg -> first and last day."""
    out: dict[int, tuple[int, int]] = {}
    for day in plan["days"]:
        first, _ = out.get(day["leg"], (day["number"], 0))
        out[day["leg"]] = first, day["number"]
    return out


def left_g(bag: Json, day: int) -> float:
    """Food still in a bag at waking on a day."""
    return sum(i["net_g"] for i in bag["items"] if i["day"] <= 0 or i["day"] >= day)


def torn_g(bag: Json, day: int) -> float:
    """Wrapping that is empty by the end of a day."""
    left = left_g(bag, day + 1)
    if bag["sealed"] and bag["net_g"] > 0:
        return bag["wrap_g"] * (1.0 - left / bag["net_g"])
    return bag["wrap_g"] if left < 1e-6 else 0.0


def held(plan: Json, leg: int, first: int) -> list[Json]:
    """Bags that are carried on a leg: its own and what rides on into it."""
    return [
        b for b in plan["packed"]["bags"]
        if b["leg"] == leg or (b["leg"] < leg and b["empty_day"] >= first)
    ]  # fmt: skip


def energy(item: Json, foods: Json) -> float:
    food = foods[item["food"]]
    return item["doses"] * food["dose_g"] / 100.0 * (food["per_100g"]["energy_kcal"] or 0.0)


# ── bags ───────────────────────────────────────────────────────────────────────────────────────


def bags_are_numbered_through(plan: Json) -> Iterable[str]:
    """Labelled bags 1 to N of each leg, and what is carried as bought in a row of its own."""
    rows: dict[tuple[int, bool], list[tuple[int, int]]] = defaultdict(list)
    for bag in plan["packed"]["bags"]:
        rows[bag["leg"], bag["sealed"]].append((bag["number"], bag["of"]))
    for key, row in rows.items():
        if row != [(n, len(row)) for n in range(1, len(row) + 1)]:
            yield f"bags of leg {key[0]}, sealed {key[1]}: numbered {row}"
    names = [b["id"] for b in plan["packed"]["bags"]]
    if len(set(names)) != len(names):
        yield "two bags bear one name"


def bags_say_when_they_are_open(plan: Json) -> Iterable[str]:
    legs = spans(plan)
    last = max(end for _, end in legs.values())
    for bag in plan["packed"]["bags"]:
        eaten = [i["day"] for i in bag["items"] if i["day"] > 0]
        what = f"bag {bag['id']}"
        if eaten:
            told = bag["open_day"], bag["empty_day"]
            if told != (min(eaten), max(eaten)):
                yield f"{what}: open {told}, eaten {min(eaten)} to {max(eaten)}"
            if bag["label"] != "spare" and not all(_within(legs[bag["leg"]], d) for d in eaten):
                yield f"{what}: eaten on another leg"
        else:
            first, end = legs[bag["leg"]]
            wanted = (first, last) if bag["label"] == "spare" else (bag["open_day"], end)
            if (bag["open_day"], bag["empty_day"]) != wanted:
                yield f"{what}: open {bag['open_day']} to {bag['empty_day']}, not {wanted}"
        if not 1 <= bag["open_day"] <= bag["empty_day"]:
            yield f"{what}: opened on day {bag['open_day']}, empty on day {bag['empty_day']}"
        limit = _good_until(bag, plan["foods"], legs[bag["leg"]][0])
        if bag["eat_by_day"] != limit:
            yield f"{what}: eat by day {bag['eat_by_day']}, its foods say {limit}"


def _good_until(bag: Json, foods: Json, first: int) -> int | None:
    """The last day on which all in a bag is good: days in the warm from the leg's start, days open
    from the evening before, or from its own day where it is carried as bought; sealed, no limit."""
    limits = []
    for food in {i["food"] for i in bag["items"]}:
        keep, carry = foods[food]["keep"], foods[food]["carry"]
        if keep["warm_days"] is not None:
            limits.append(first - 1 + int(keep["warm_days"]))
        if keep["opened_days"] is not None and carry != "sealed":
            opened = bag["open_day"] if carry == "bag" and bag["sealed"] else first
            limits.append(opened - 1 + max(1, int(keep["opened_days"])))
    return min(limits, default=None)


def _within(span: tuple[int, int], day: int) -> bool:
    return span[0] <= day <= span[1]


def bags_are_what_their_items_are(plan: Json) -> Iterable[str]:
    foods = plan["foods"]
    for bag in plan["packed"]["bags"]:
        what = f"bag {bag['id']}"
        rows = [(i, foods[i["food"]]) for i in bag["items"]]
        for item, food in rows:
            yield from differs(f"{what} {item['food']}", item["net_g"],
                               item["doses"] * food["dose_g"])  # fmt: skip
        if all(f["pack_ml"] is not None for _, f in rows):
            room = sum(i["doses"] / f["doses_per_pack"] * f["pack_ml"] for i, f in rows)
            yield from differs(f"{what} volume", bag["volume_ml"], room)
        at: dict[tuple[int, str], float] = defaultdict(float)
        for item, food in rows:
            at[item["day"], item["meal"]] += item["doses"] * food["prep"]["water_ml"]
        yield from differs(f"{what} water", bag["water_ml"], max(at.values(), default=0.0))
        wait = max((f["prep"]["wait_min"] + f["prep"]["simmer_min"] for _, f in rows), default=0.0)
        yield from differs(f"{what} wait", bag["wait_min"], wait)
        if not 0.0 <= bag["wrap_g"] <= 0.6 * bag["net_g"] + 30.0:
            yield f"{what}: {bag['wrap_g']} g of wrapping around {bag['net_g']} g"


def bags_bear_the_worst_of_their_allergens(plan: Json) -> Iterable[str]:
    foods = plan["foods"]
    named = {a for f in foods.values() for a in f["allergens"]}
    for bag in plan["packed"]["bags"]:
        for allergen in named:
            states = [foods[i["food"]]["allergens"].get(allergen, "unknown") for i in bag["items"]]
            worst = min(states, key=WORST.index)
            if bag["allergens"].get(allergen, "unknown") != worst:
                yield f"bag {bag['id']}: {allergen} is {worst}, the label says otherwise"


def sealed_stays_sealed(plan: Json) -> Iterable[str]:
    """What is carried as bought holds one food, and that is none to be repacked."""
    for bag in plan["packed"]["bags"]:
        kinds = {i["food"] for i in bag["items"]}
        ways = {plan["foods"][f]["carry"] for f in kinds}
        if bag["sealed"] and bag["label"] != "spare" and (len(kinds) > 1 or "repack" in ways):
            yield f"bag {bag['id']}: sealed, yet {sorted(kinds)}"


def who_avoids_shares_no_opened_bag(plan: Json) -> Iterable[str]:
    """A bag that is opened on several days holds no food of others beside theirs (C10)."""
    careful = {w["id"] for w in plan["trip"]["walkers"] if w["avoids"]}
    for bag in plan["packed"]["bags"]:
        eaters = {i["walker"] for i in bag["items"]}
        days = {i["day"] for i in bag["items"]}
        if not bag["sealed"] and len(days) > 1 and len(eaters) > 1 and eaters & careful:
            yield f"bag {bag['id']}: opened again and again, shared by {sorted(eaters)}"


# ── pools ──────────────────────────────────────────────────────────────────────────────────────


def pools_are_nibbled_day_by_day(plan: Json) -> Iterable[str]:
    for pool in plan["menu"]["pools"]:
        what = f"open bag {pool['walker']} {pool['food']}"
        food = plan["foods"][pool["food"]]
        days = sorted(int(d) for d, g in pool["by_day_g"].items() if g > 0)
        if days and (days[0], days[-1]) != (pool["open_day"], pool["last_day"]):
            yield f"{what}: open {pool['open_day']} to {pool['last_day']}, nibbled {days}"
        shares: dict[str, float] = defaultdict(float)
        for p in plan["menu"]["portions"]:
            if (p["walker"], p["food"], p["why"]) == (pool["walker"], pool["food"], "bag"):
                shares[str(p["day"])] += p["doses"] * food["dose_g"]
        same = [
            sum(q["by_day_g"].get(day, 0.0) for q in plan["menu"]["pools"]
                if (q["walker"], q["food"]) == (pool["walker"], pool["food"]))
            for day in shares
        ]  # fmt: skip
        for (day, told), real in zip(shares.items(), same, strict=True):
            yield from differs(f"{what} day {day}", told, real)
        if pool["by_day_g"].keys() - shares.keys():
            yield f"{what}: nibbled on days without a portion"


# ── sacks, rubbish, losses ─────────────────────────────────────────────────────────────────────


def sacks_get_lighter_as_they_are_eaten(plan: Json) -> Iterable[str]:
    legs, bags = spans(plan), {b["id"]: b for b in plan["packed"]["bags"]}
    for sack in plan["packed"]["sacks"]:
        first, last = legs[sack["leg"]]
        mine = [bags[b] for b in sack["bags"] if b in bags]
        what = f"sack {sack['walker']} leg {sack['leg']}"
        if [int(d) for d in sack["by_day_g"]] != list(range(first, last + 1)):
            yield f"{what}: days {list(sack['by_day_g'])}"
            continue
        for day in range(first, last + 1):
            whole = sum(left_g(b, day) + b["wrap_g"] for b in mine)
            torn = sum(torn_g(b, day - 1) for b in mine)
            yield from differs(f"{what} day {day}", sack["by_day_g"][str(day)], whole)
            told = sack["wrappers_by_day_g"][str(day)]
            yield from differs(f"{what} wrappers on day {day}", told, torn)
        carried = sum(sack["by_day_g"].values()) / 1000.0
        yield from differs(f"{what} kg-days", sack["kg_days"], carried)
        spare = [b for b in mine if b["label"] == "spare"]
        if spare and mine[-len(spare):] != spare:
            yield f"{what}: spare food is not at the bottom"


def fuel_rides_in_the_sacks(plan: Json) -> Iterable[str]:
    fuel = plan["kitchen"]["fuel"]
    if fuel is None:
        return
    for leg, (first, _) in spans(plan).items():
        here = [s["common_g"] for s in plan["packed"]["sacks"] if s["leg"] == leg]
        told = sum(c.get("fuel", 0.0) for c in here)
        burnt = sum(g for d, g in fuel["by_day_g"].items() if int(d) < first)
        if any(here):
            left = max(0.0, fuel["carried_g"] - burnt)
            yield from differs(f"fuel in the sacks of leg {leg}", told, left)
            cans = sum(c.get("cans", 0.0) for c in here)
            yield from differs(f"cans of leg {leg}", cans, fuel["gross_g"] - fuel["carried_g"])
        elif fuel["carried_g"] > 0 and here:
            yield f"leg {leg}: {fuel['carried_g']:.0f} g of fuel in nobody's sack"


def scraps_g(item: Json, food: Json) -> float:
    prep = food["prep"]
    if prep["from_bag"] and prep["kind"] != "none":
        return POUCH_SCRAPS_G * item["doses"] / food["doses_per_pack"]
    if prep["kind"] in ("boil", "simmer") and food["role"] in ("main", "side"):
        return POT_SCRAPS * (item["net_g"] + prep["water_ml"] * item["doses"])
    return 0.0


def pouch_ml(item: Json, food: Json) -> float:
    pouch = food["pouch"]
    if not pouch or not pouch["closes"] or pouch["holds_ml"] is None:
        return 0.0
    return pouch["holds_ml"] * item["doses"] / food["doses_per_pack"]


def rubbish_is_what_was_torn_and_left(plan: Json) -> Iterable[str]:
    told = {r["day"]: r for r in plan["packed"]["rubbish"]}
    if plan["packed"]["bags"] and sorted(told) != [d["number"] for d in plan["days"]]:
        yield f"rubbish: days {sorted(told)}"
        return
    for leg, (first, last) in spans(plan).items():
        here = held(plan, leg, first)
        for day in range(first, last + 1) if told else ():
            what = f"rubbish of day {day}"
            eaten = [(i, plan["foods"][i["food"]]) for b in here for i in b["items"]
                     if first <= i["day"] <= day]  # fmt: skip
            torn = sum(torn_g(b, day) for b in here)
            wet = sum(scraps_g(i, f) for i, f in eaten)
            volume = torn / CRUSHED_G_ML + wet
            inside = min(volume, sum(pouch_ml(i, f) for i, f in eaten))
            row = told[day]
            yield from differs(f"{what} mass", row["mass_g"], torn + wet)
            yield from differs(f"{what} volume", row["volume_ml"], volume)
            yield from differs(f"{what} in pouches", row["in_pouches_ml"], inside)
            tied = math.ceil((volume - inside) / TIED_BAG_ML - 1e-12)
            yield from differs(f"{what} bags", row["bags"], tied)


def eats_cold(food: Json) -> bool:
    prep = food["prep"]
    return prep["kind"] in ("none", "soak") or prep["cold_soak_min"] is not None


def is_safe(food: Json, walker: Json) -> bool:
    states = [(food["allergens"].get(a["allergen"], "unknown"), a) for a in walker["avoids"]]
    return all(s == "free" or (s == "may" and a["traces"]) for s, a in states)


def losses_leave_what_others_carry(plan: Json) -> Iterable[str]:
    foods, walkers = plan["foods"], plan["trip"]["walkers"]
    for leg, (first, _) in spans(plan).items():
        told = [x for x in plan["packed"]["losses"] if x["leg"] == leg]
        bags = held(plan, leg, first)
        if len(walkers) > 1 and bags and [x["walker"] for x in told] != [w["id"] for w in walkers]:
            yield f"losses of leg {leg}: not everyone's pack"
        if told and sum(x["worst"] for x in told) != 1:
            yield f"losses of leg {leg}: no worst, or two"
        for loss in told:
            left = [b for b in bags if b["carrier"] != loss["walker"]]
            what = f"loss of {loss['walker']} on leg {leg}"
            whole = sum(energy(i, foods) for b in bags for i in b["items"])
            for name, counts in (("energy_share", lambda f: True), ("flameless_share", eats_cold)):
                kept = sum(
                    energy(i, foods) for b in left for i in b["items"] if counts(foods[i["food"]])
                )
                yield from differs(f"{what} {name}", loss[name], over(kept, whole))
            for walker in (w for w in walkers if w["avoids"]):
                own = sum(energy(i, foods) for b in bags for i in b["items"]
                          if i["walker"] == walker["id"])  # fmt: skip
                kept = sum(_safe_kcal(b, walker, foods) for b in left)
                told_share = loss["safe_share"][walker["id"]]
                yield from differs(f"{what} for {walker['id']}", told_share, kept / (own or 1.0))
        if told:
            yield from _the_worst(told, f"losses of leg {leg}")


def _safe_kcal(bag: Json, walker: Json, foods: Json) -> float:
    safe = [i for i in bag["items"] if is_safe(foods[i["food"]], walker)]
    if not bag["sealed"] and len(safe) < len(bag["items"]):
        return 0.0
    return sum(energy(i, foods) for i in safe)


def _the_worst(told: list[Json], what: str) -> Iterator[str]:
    def left(loss: Json) -> float:
        usable = loss["energy_share"] if loss["heat"] else loss["flameless_share"]
        return min([usable, *loss["safe_share"].values()])

    worst = [x for x in told if x["worst"]]
    if worst and left(worst[0]) > min(map(left, told)) + 1e-9:
        yield f"{what}: the worst is not the worst"


# ── nights ─────────────────────────────────────────────────────────────────────────────────────


def nights_say_how_surely_it_closes(plan: Json) -> Iterable[str]:
    legs = spans(plan)
    rooms = sorted((c["volume_ml"] for c in plan["trip"]["kit"]["containers"]), reverse=True)
    bags = {b["id"]: b for b in plan["packed"]["bags"]}
    leg_of = {day["number"]: day["leg"] for day in plan["days"]}
    for night in plan["packed"]["nights"]:
        what, day, room = f"night {night['day']}", night["day"], sum(rooms)
        low, likely, high = (night[n] for n in ("needed_low_ml", "needed_ml", "needed_high_ml"))
        if not low <= likely <= high:
            yield f"{what}: range out of order"
        spread = (high - low) / (2.0 * EIGHT_IN_TEN)
        off = (room - likely) / spread if spread > 0 else math.copysign(9.0, room - likely)
        chance = 0.5 * math.erfc(-off / math.sqrt(2.0))
        if low > 0:  # a range cut off at nothing tells no spread
            yield from differs(f"{what} chance", night["chance"], chance)
        wanted = ("closes" if night["chance"] >= 0.975 else "likely" if likely <= room
                  else "unlikely" if low <= room else "no")  # fmt: skip
        if night["verdict"] != wanted:
            yield f"{what}: {night['verdict']}, with a chance of {night['chance']:.3f} {wanted}"
        used = next((n for n in range(len(rooms)) if sum(rooms[:n]) >= likely), len(rooms))
        yield from differs(f"{what} containers", night["containers_used"], used)
        first = legs[leg_of[day]][0]
        outside = [
            b["id"] for b in held(plan, leg_of[day], first)
            if b["open_day"] == b["empty_day"] == day == first
        ]  # fmt: skip
        if sorted(night["outside"]) != sorted(outside) or set(outside) - bags.keys():
            yield f"{what}: outside {night['outside']}, not {outside}"


def nights_hold_what_is_left(plan: Json) -> Iterable[str]:
    """Likely room: soft and stiff over what they fill, rubbish, the other smellables."""
    legs = spans(plan)
    leg_of = {day["number"]: day["leg"] for day in plan["days"]}
    rubbish = {r["day"]: r["volume_ml"] for r in plan["packed"]["rubbish"]}
    other = plan["trip"]["kit"]["other_smellables_ml"] * len(plan["trip"]["walkers"])
    for night in plan["packed"]["nights"]:
        day = night["day"]
        items = [i for b in held(plan, leg_of[day], legs[leg_of[day]][0]) for i in b["items"]
                 if i["day"] <= 0 or i["day"] > day]  # fmt: skip
        rows = [(i, plan["foods"][i["food"]]) for i in items]
        if all(f["pack_ml"] is not None for _, f in rows):
            room = sum(
                i["doses"] / f["doses_per_pack"] * f["pack_ml"]
                / (STIFF if f["carry"] == "sealed" else SOFT) for i, f in rows
            )  # fmt: skip
            dogs = sum(dog_food_left(plan, bag, day) for bag in plan["packed"]["dogs"]
                       if bag["leg"] == leg_of[day]) / DOG_FOOD_G_ML / SOFT  # fmt: skip
            yield from differs(f"night {day} room", night["needed_ml"],
                               room + rubbish[day] + other + dogs)  # fmt: skip


# ── dogs ───────────────────────────────────────────────────────────────────────────────────────


def dog_feeds(plan: Json, day: Json) -> int:
    """How often a dog is fed on a day: at the clocks of breakfast and dinner inside the walk."""
    begin, end = (dt.datetime.fromisoformat(plan["trip"][key]).replace(tzinfo=None)
                  for key in ("begin", "end"))  # fmt: skip
    clocks = {"breakfast": 420.0, "dinner": 1110.0} | plan["trip"]["rules"]["meal_clock_min"]
    date = dt.datetime.fromisoformat(day["date"])
    times = [date + dt.timedelta(minutes=clocks[meal]) for meal in ("breakfast", "dinner")]
    return sum(begin <= time <= end for time in times)


def dog_food_left(plan: Json, bag: Json, day: int) -> float:
    """Grams that a dog still eats on its leg after a day."""
    later = [d for d in plan["days"] if d["leg"] == bag["leg"] and d["number"] > day]
    return 0.5 * bag["ration_g"] * sum(dog_feeds(plan, d) for d in later)


def dogs_eat_their_own_food(plan: Json) -> Iterable[str]:
    """A ration a day in two halves; what a walker carries of it is on that back and in no bag."""
    dogs = {dog["id"]: dog for dog in plan["trip"]["dogs"]}
    fed = {d["leg"] for d in plan["days"] if dog_feeds(plan, d)}
    have = sorted((b["leg"], b["dog"]) for b in plan["packed"]["dogs"])
    if have != sorted((leg, dog) for leg in fed for dog in dogs):
        yield f"food for dogs on legs: {have}"
    for bag in plan["packed"]["dogs"]:
        what, dog = f"food of {bag['dog']} on leg {bag['leg']}", dogs[bag["dog"]]
        mass = 1.5 * 142.8 * dog["mass_kg"] ** 0.75 / 3.8
        stated = dog["food_g_day"]
        yield from differs(f"{what} a day", bag["ration_g"], mass if stated is None else stated)
        whole = dog_food_left(plan, bag, 0)
        yield from differs(what, bag["net_g"], whole)
        for day, grams in bag["by_day_g"].items():
            left = dog_food_left(plan, bag, int(day) - 1) + bag["wrap_g"]
            yield from differs(f"{what} on day {day}", grams, left)
        if bag["carrier"] != dog["carrier"]:
            yield f"{what}: carried by {bag['carrier'] or 'the dog'}"
    for sack in plan["packed"]["sacks"]:
        mine = [b for b in plan["packed"]["dogs"]
                if (b["carrier"], b["leg"]) == (sack["walker"], sack["leg"])]  # fmt: skip
        yield from differs(f"dog food on {sack['walker']}", sack["common_g"].get("dog", 0.0),
                           sum(b["net_g"] + b["wrap_g"] for b in mine))  # fmt: skip


# ── shops and boxes ────────────────────────────────────────────────────────────────────────────


def the_bill_is_packs_times_price(plan: Json) -> Iterable[str]:
    for line in plan["packed"]["buy"]:
        food = plan["foods"][line["food"]]
        what = f"buying {line['food']}"
        price = None if food["price"] is None else line["packs"] * food["price"]
        yield from differs(f"{what} price", line["price"], price)
        if (line["shop"], line["pack_g"]) != (food["shop"], food["pack_g"]):
            yield f"{what}: not as the larder sells it"
        if line["when"] != "on the way" and line["leg"] > 1:
            yield f"{what}: for leg {line['leg']}, {line['when']}"
        if line["packs"] and line["left_g"] >= line["pack_g"] - 1e-6:
            yield f"{what}: a whole pack too many"
        stock = [food["stock"], *food["lots"]]
        home = sum(lot["packs"] for lot in stock) * food["pack_g"]
        known = plan["trip"]["stock"] is None
        if known and line["from_home_g"] > home + 1e-6:
            yield f"{what}: {line['from_home_g']} g from home, where {home} g are"


def everything_bought_is_bagged(plan: Json) -> Iterable[str]:
    bagged: dict[str, float] = defaultdict(float)
    for bag in plan["packed"]["bags"]:
        for item in bag["items"]:
            bagged[item["food"]] += item["net_g"]
    needed: dict[str, float] = defaultdict(float)
    for line in plan["packed"]["buy"]:
        needed[line["food"]] += line["need_g"]
    for food in bagged.keys() | needed.keys():
        yield from differs(f"{food}, bought for the bags", needed[food], bagged[food])


def boxes_hold_their_legs_bags(plan: Json) -> Iterable[str]:
    bags = plan["packed"]["bags"]
    legs = spans(plan)
    for box in plan["packed"]["boxes"]:
        what = f"box of leg {box['leg']}"
        mine = [b for b in bags if b["leg"] == box["leg"]]
        if sorted(box["bags"]) != sorted(b["id"] for b in mine):
            yield f"{what}: not the bags of its leg"
        gross = sum(b["net_g"] + b["wrap_g"] for b in mine)
        yield from differs(f"{what} mass", box["gross_g"], gross)
        yield from differs(f"{what} day", box["arrive_day"], max(1, legs[box["leg"]][0] - 1))
        if box["kind"] == "shop" and (box["post_from"] or box["post_on"]):
            yield f"{what}: bought there, yet posted"
        dates = [dt.date.fromisoformat(box[n]) for n in ("early", "late") if box[n]]
        if dates != sorted(dates):
            yield f"{what}: early after late"
        if any(not dates[0] <= dt.date.fromisoformat(d) <= dates[-1] for d in box["shut"]):
            yield f"{what}: shut on a day on which nobody comes"
        for name in ("open_chance", "box_chance"):
            if box[name] is not None and not 0.0 <= box[name] <= 1.0 + 1e-9:
                yield f"{what}: {name} {box[name]}"


PACKS: tuple[Callable[[Json], Iterable[str]], ...] = (
    bags_are_numbered_through, bags_say_when_they_are_open, bags_are_what_their_items_are,
    bags_bear_the_worst_of_their_allergens, sealed_stays_sealed, who_avoids_shares_no_opened_bag,
    pools_are_nibbled_day_by_day, sacks_get_lighter_as_they_are_eaten, fuel_rides_in_the_sacks,
    dogs_eat_their_own_food,
    rubbish_is_what_was_torn_and_left, losses_leave_what_others_carry,
    nights_say_how_surely_it_closes, nights_hold_what_is_left, the_bill_is_packs_times_price,
    everything_bought_is_bagged, boxes_hold_their_legs_bags,
)  # fmt: skip
