"""Small requests for the menu chooser: foods in one line, walkers, days, and seeded larders.

Everything is invented. Numbers are round so that a test can be checked by hand.
"""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from oatsack.menu.slots import day_shares, slots_of
from oatsack.values.food import ALLERGENS, Food, Keep, Meal, Nutrients, Prep
from oatsack.values.menu import MenuRequest, Slot
from oatsack.values.plan import DayNeed
from oatsack.values.route import Day
from oatsack.values.trip import RouteSpec, Rules, Trip
from oatsack.values.walker import Walker
from oatsack.walker.target import targets

FREE = dict.fromkeys(ALLERGENS, "free")
START = dt.date(2026, 6, 5)


def food(
    name: str, *, kcal: float = 450.0, dose_g: float = 50.0, role: str = "snack",
    meals: str = "move", category: str = "snack", **more: Any,
) -> Food:  # fmt: skip
    """A food per 100 g; `meals` as words. Unnamed nutrients are those of plain food."""
    per = {"protein_g": 10.0, "fat_g": 15.0, "carb_g": 60.0, "fibre_g": 6.0, "sodium_mg": 500.0,
           "caffeine_mg": 0.0}  # fmt: skip
    per |= {k: more.pop(k) for k in list(more) if k in per}
    doses = more.pop("doses", 5.0)
    options = {"carry": "sealed", "price": 2.0, "wrap_g": 5.0, "pack_ml": dose_g * doses * 2,
               "diet": "vegan", "allergens": FREE, "taste": "neutral", "liking": 3.0}  # fmt: skip
    return Food(
        id=name, name=name, category=category, per_100g=Nutrients(energy_kcal=kcal, **per),
        pack_g=dose_g * doses, doses_per_pack=doses, dose_g=dose_g, role=role,  # type: ignore[arg-type]
        meals=frozenset(meals.split()), **(options | more),
    )  # fmt: skip


def boiled(wait: float = 5.0, **more: Any) -> Prep:
    """Boiling water and a wait."""
    return Prep(kind="boil", water_ml=200.0, wait_min=wait, **more)


def walker(name: str = "anna", mass: float = 60.0, **more: Any) -> Walker:
    """A walker of this name and mass [kg]."""
    return Walker(id=name, name=name.title(), mass_kg=mass, **more)


def days(count: int, legs: Sequence[int] = ()) -> tuple[Day, ...]:
    """Plain days from START on."""
    return tuple(
        Day(number=i + 1, date=START + dt.timedelta(days=i), stretches=(), distance_m=15e3,
            ascent_m=600.0, descent_m=600.0, highest_m=900.0, camp_m=600.0,
            leg=legs[i] if legs else 1)
        for i in range(count)
    )  # fmt: skip


def trip(
    walkers: Sequence[Walker], count: int, *, begin: float = 6.0, end: float = 20.0,
    rules: Rules | None = None, **more: Any,
) -> Trip:  # fmt: skip
    """A trip of so many days; `begin` and `end` as hours of the first and last day."""
    midnight = dt.datetime.combine(START, dt.time(), dt.UTC)
    last = midnight + dt.timedelta(days=count - 1)
    return Trip(
        title="a walk", begin=midnight + dt.timedelta(hours=begin),
        end=last + dt.timedelta(hours=end), zone="UTC", walkers=tuple(walkers),
        route=RouteSpec(), rules=rules or Rules(), **more,
    )  # fmt: skip


def request(
    foods: Sequence[Food], walkers: Sequence[Walker] = (), *, count: int = 1, need: float = 2500.0,
    rules: Rules | None = None, keep: str = "", begin: float = 6.0, end: float = 20.0,
    legs: Sequence[int] = (), **more: Any,
) -> MenuRequest:  # fmt: skip
    """A request over whole days; `keep` names the only meals that count."""
    people = tuple(walkers) or (walker(),)
    walk = trip(people, count, begin=begin, end=end, rules=rules)
    on = days(count, legs)
    slots = slots_of(walk, on)
    if keep:
        slots = tuple(s for s in slots if s.meal in keep.split())
    target = {w.id: eats(walk, w, slots, need) for w in people}
    drinks = {w.id: {d.number: w.hot_drinks_day for d in on} for w in people}
    return MenuRequest(
        slots=slots, target_kcal=target, walkers=people, foods=tuple(foods), prices={},
        rules=walk.rules, kit=walk.kit, hot_drinks=more.pop("hot_drinks", drinks), **more,
    )  # fmt: skip


def eats(walk: Trip, one: Walker, slots: Sequence[Slot], need: float) -> dict[int, float]:
    """What one walker eats by day where a full day needs `need` and a part day its share of it."""
    shares = day_shares(walk, tuple(s for s in slots if s.walker == one.id))
    rest = {"low_kcal": 0.0, "high_kcal": 0.0, "walking_kcal": 0.0, "camp_kcal": 0.0,
            "rest_kcal": 0.0, "sleep_kcal": 0.0, "thermic_kcal": 0.0}  # fmt: skip
    needs = {day: DayNeed(energy_kcal=need * share, **rest) for day, share in shares.items()}
    return dict(targets(one, needs, shares).kcal)


def retarget(asked: MenuRequest, kcal: float) -> MenuRequest:
    """The same with another energy for every day."""
    target = {w: dict.fromkeys(by_day, kcal) for w, by_day in asked.target_kcal.items()}
    return replace(asked, target_kcal=target)


def tiny(seed: int) -> MenuRequest:
    """A random question of one lunch and one dinner, that trying everything can answer."""
    dice = random.Random(seed)
    foods = [
        food(f"main-{i}", role="main", meals="dinner", category=dice.choice(["meal", "protein"]),
             kcal=dice.choice([350, 420, 480]), dose_g=dice.choice([90.0, 120.0]),
             price=float(dice.randint(2, 9)), liking=float(dice.randint(1, 5)),
             fat_g=float(dice.randint(5, 25)), protein_g=float(dice.randint(5, 25)),
             diet=dice.choice(["vegan", "vegetarian", "meat"]))
        for i in range(2)
    ]  # fmt: skip
    foods.append(
        food("oil", role="topping", meals="dinner", category="fat", kcal=880, dose_g=10.0,
             fat_g=100.0, protein_g=0.0, fibre_g=0.0)
    )  # fmt: skip
    foods += [
        food(f"bar-{i}", meals="lunch", kcal=dice.choice([380, 450, 520]),
             dose_g=dice.choice([40.0, 60.0]), liking=float(dice.randint(1, 5)),
             sodium_mg=float(dice.choice([100, 800])), price=float(dice.randint(1, 4)))
        for i in range(dice.randint(2, 3))
    ]  # fmt: skip
    eats = dice.choice(["anything", "vegetarian", "vegan"])
    budget = dice.choice([None, None, 8.0, 12.0])
    window = dice.choice([0.12, 0.2, 0.35])
    rules = Rules(budget=budget, day_window=window, trip_window=window)
    asked = request(foods, [walker(eats=eats)], keep="lunch dinner", rules=rules)
    return retarget(asked, float(dice.choice([500, 700, 800, 900, 1100])))


def slot_of(asked: MenuRequest, meal: Meal, day: int = 1) -> Slot:
    """The first slot of this meal and day."""
    return next(s for s in asked.slots if s.meal == meal and s.day == day)


def eaten_kcal(asked: MenuRequest, portions: Sequence[Any]) -> Mapping[tuple[str, int], float]:
    """Energy by walker and day."""
    rows = {f.id: f for f in asked.foods}
    out: dict[tuple[str, int], float] = {}
    for p in portions:
        key = (p.walker, p.day)
        out[key] = out.get(key, 0.0) + p.doses * rows[p.food].dose_kcal
    return out


def keeps(**more: Any) -> Keep:
    """How long a food keeps."""
    return Keep(**more)
