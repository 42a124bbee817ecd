"""The judge on what the chooser itself put on a plate: at a meal it suits, while it keeps.

A walker's own picks, habits and holds are theirs to choose; diets and allergies alone stand above
them. Imports nothing of ours.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import Any

Json = Any
MELTS_C, WARM_C = 26.0, 25.0
CHILD_UNDER, MUCH_MG = 16.0, 20.0
SOAKED = ("breakfast", "dinner")
AT_ONCE_MIN = 5.0


def chosen(plan: Json) -> Iterator[tuple[Json, Json]]:
    """What the chooser put there: no pick, habit or hold, no open bag of the walker's own."""
    own = {(w["id"], b["food"]) for w in plan["trip"]["walkers"] for b in w["usual"]["bags"]}
    for p in plan["menu"]["portions"]:
        opened = p["why"] == "bag" and (p["walker"], p["food"]) not in own
        if p["why"] == "chosen" or opened:
            yield p, plan["foods"][p["food"]]


def slots_of(plan: Json) -> dict[tuple[str, int, str], Json]:
    return {(s["walker"], s["day"], s["meal"]): s for s in plan["slots"]}


def chosen_foods_suit_their_meal(plan: Json) -> Iterable[str]:
    for p, food in chosen(plan):
        if p["meal"] not in food["meals"]:
            yield f"{p['food']} at {p['meal']}, which is for {food['meals']}"
        if food["role"] == "small":
            yield f"a small thing chosen as food: {p['food']}"
        if (p["meal"] == "drinks") != (food["role"] == "drink") and p["meal"] != "move":
            yield f"{p['food']}, a {food['role']}, at {p['meal']}"


def nobody_is_served_what_they_dislike(plan: Json) -> Iterable[str]:
    dislikes = {w["id"]: set(w["dislikes"]) for w in plan["trip"]["walkers"]}
    for p, food in chosen(plan):
        if dislikes[p["walker"]] & {food["id"], food["category"]}:
            yield f"{p['walker']} dislikes {p['food']} and is served it"


def chosen_foods_keep_until_they_are_eaten(plan: Json) -> Iterable[str]:
    """Days in the warm count from the leg's start and half above 25 C; what is repacked stands open
    from then on; what melts is not carried into 26 C."""
    slots = slots_of(plan)
    for p, food in chosen(plan):
        keep, what = food["keep"], f"{p['food']} on day {p['day']}"
        slot = slots.get((p["walker"], p["day"], p["meal"]))
        if slot is None:
            continue  # told elsewhere
        hottest = max(d["warm_c"] for d in plan["days"] if d["number"] <= p["day"])
        if keep["melts"] and hottest >= MELTS_C:
            yield f"{what}: melts, carried through {hottest:.0f} C"
        if keep["warm_days"] is not None:
            days = keep["warm_days"] / (2.0 if hottest > WARM_C else 1.0)
            if slot["carry_days"] > days:
                yield f"{what}: keeps {days:g} days, carried {slot['carry_days']:g}"
        opened = keep["opened_days"]
        if food["carry"] == "repack" and opened is not None and slot["carry_days"] > opened:
            yield f"{what}: keeps {opened:g} days open, carried {slot['carry_days']:g}"


def cold_soaks_find_the_time(plan: Json) -> Iterable[str]:
    """Where nothing may be heated a soak takes minutes, unless there is a camp to wait in."""
    slots = slots_of(plan)
    for p, food in chosen(plan):
        slot = slots.get((p["walker"], p["day"], p["meal"]), {"hot": True})
        soak = food["prep"]["cold_soak_min"]
        if food["prep"]["kind"] == "soak" and soak is None:
            soak = food["prep"]["wait_min"]
        dry = food["prep"]["kind"] == "none" or (slot["hot"] and food["prep"]["kind"] != "soak")
        if not dry and (soak is None or (p["meal"] not in SOAKED and soak > AT_ONCE_MIN)):
            yield f"{p['food']} at {p['meal']} of day {p['day']}: soaks for {soak} min"


def children_are_served_no_coffee(plan: Json) -> Iterable[str]:
    ages = {w["id"]: w["age_years"] for w in plan["trip"]["walkers"]}
    for p, food in chosen(plan):
        age, dose = ages[p["walker"]], food["dose_g"] / 100.0
        mg = dose * (food["per_100g"]["caffeine_mg"] or 0.0)
        if age is not None and age < CHILD_UNDER and mg >= MUCH_MG:
            yield f"{p['walker']}, aged {age:g}, is served {p['food']}: {mg:.0f} mg a dose"


def pots_and_tools_stay_clean(plan: Json) -> Iterable[str]:
    """Of whoever's avoids reach to the pot: nothing of the kind is repacked by anyone, nor cooked
    in a cook group of theirs (C10)."""
    groups = plan["kitchen"]["groups"]
    for p in [*plan["menu"]["portions"], *plan["menu"]["spare"]]:
        food = plan["foods"][p["food"]]
        for other in plan["trip"]["walkers"]:
            mates = any(other["id"] in g and p["walker"] in g for g in groups)
            touched = food["carry"] == "repack" or (mates and food["prep"]["kind"] != "none")
            for avoid in other["avoids"] if touched else ():
                state = food["allergens"].get(avoid["allergen"], "unknown")
                bad = state in ("contains", "unknown") or (state == "may" and not avoid["traces"])
                if bad and avoid["scope"] == "pot":
                    yield f"{p['food']} ({state} {avoid['allergen']}) meets {other['id']}'s tools"


def held_stays_held(plan: Json) -> Iterable[str]:
    """A hold stands in the menu as often as it says, or the walker is told that it is lost."""
    lost = {
        (f["values"]["food"], f["values"]["walker"]) for f in plan["flags"]
        if f["key"] == "menu.hold-lost"
    }  # fmt: skip
    dates = {day["number"]: day["date"] for day in plan["days"]}
    for hold in plan["trip"]["rules"]["holds"]:
        if hold["count"] <= 0 or (hold["food"], hold["walker"] or "") in lost:
            continue
        rows = [
            p for p in plan["menu"]["portions"]
            if p["food"] == hold["food"] and p["why"] == "held"
            and hold["walker"] in (None, p["walker"]) and hold["meal"] in (None, p["meal"])
            and hold["date"] in (None, dates[p["day"]])
        ]  # fmt: skip
        if not any(abs(p["doses"] - hold["count"]) < 1e-6 for p in rows):
            yield f"held and not served: {hold}"


def a_dish_is_not_eaten_twice_in_one_meal(plan: Json) -> Iterable[str]:
    """One line for each food of a meal, whoever put it there; of open bags there may be two."""
    lines = Counter(
        (p["walker"], p["day"], p["meal"], p["food"], p["why"])
        for p in plan["menu"]["portions"] if p["why"] != "bag"
    )  # fmt: skip
    yield from (f"two lines for one thing: {found}" for found, n in lines.items() if n > 1)


CHOICES: tuple[Callable[[Json], Iterable[str]], ...] = (
    chosen_foods_suit_their_meal, nobody_is_served_what_they_dislike,
    chosen_foods_keep_until_they_are_eaten, cold_soaks_find_the_time, children_are_served_no_coffee,
    pots_and_tools_stay_clean, held_stays_held, a_dish_is_not_eaten_twice_in_one_meal,
)  # fmt: skip
