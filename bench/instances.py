"""The fixed set of menu questions that the bench measures: seeded, generic foods, no clock.

Names are ``party-larder-usual-tightness``, as ``solo7-150-none-easy``. Larders are drawn from the
bundled one; beyond its size, foods are repeated with slightly other numbers under other names.
Tidying (fewer things to buy, at a price in the aim) is off, since the aim is what is compared.
"""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from oatsack.files.larder import bundled
from oatsack.larder.plausible import admitted
from oatsack.menu.slots import day_shares, slots_of
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest, Slot
from oatsack.values.plan import DayNeed
from oatsack.values.route import Day
from oatsack.values.trip import RouteSpec, Rules, Trip
from oatsack.values.walker import Avoid, Choice, Pick, Usual, Walker
from oatsack.walker.target import targets

SEED = 20260612
START = dt.date(2026, 6, 12)
PARTS_OF_NEED = ("low_kcal", "high_kcal", "walking_kcal", "camp_kcal", "rest_kcal", "sleep_kcal",
                 "thermic_kcal")  # fmt: skip
PARTIES = {"solo3": (1, 3, 1), "solo7": (1, 7, 1), "couple7": (2, 7, 1), "4x10": (4, 10, 1),
           "12x14": (12, 14, 1), "150x25": (1, 150, 25)}  # fmt: skip
"""Party -> walkers, days, legs."""
SUBSET = ("solo3-150-none-easy", "solo7-150-none-easy", "solo7-60-half-easy",
          "solo7-400-none-easy", "couple7-150-none-easy", "4x10-150-none-easy",
          "solo7-150-none-tight", "solo7-150-none-impossible")  # fmt: skip
"""What `make bench` runs."""

CAME_LATER = frozenset({"fd-lentil-rice", "fd-bean-corn-chili", "fd-pasta-tomato",
                        "curry-sauce-mix", "peanut-sauce-mix"})  # fmt: skip
"""Foods that came into the bundled larder after the set was fixed: left out, so that it stays."""


@dataclass(frozen=True, slots=True)
class Instance:
    """One question by name."""

    name: str
    request: MenuRequest


def instance(name: str) -> Instance:
    """The question of this name."""
    party, size, usual, tight = name.split("-")
    count, days, legs = PARTIES[party]
    foods = larder(int(size))
    walkers = tuple(_walker(i, foods, usual) for i in range(count))
    return Instance(name, _tightened(_request(walkers, days, legs, foods), tight))


def instances(*, full: bool) -> Iterator[Instance]:
    """The set, or the subset of it that fits in ten minutes."""
    names = full_set() if full else list(SUBSET)
    yield from (instance(name) for name in names)


def full_set() -> list[str]:
    """Every party on the middle larder, and variations of larder, usual and tightness on solo 7."""
    names = [f"{party}-150-none-easy" for party in PARTIES]
    names += [f"solo7-{size}-none-easy" for size in (60, 400)]
    names += [f"{party}-150-{usual}-easy" for party in ("solo7", "couple7")
              for usual in ("half", "full")]  # fmt: skip
    names += [f"{party}-150-none-{tight}" for party in ("solo7", "4x10")
              for tight in ("tight", "impossible")]  # fmt: skip
    return names


def larder(size: int) -> tuple[Food, ...]:
    """So many foods, the same kinds in the same proportions, drawn with the fixed seed."""
    dice = random.Random(SEED)
    foods = [f for f in admitted(bundled())[0] if f.role != "small" and f.id not in CAME_LATER]
    if size <= len(foods):
        dice.shuffle(foods)
        foods.sort(key=lambda f: (f.role, sorted(f.meals)))
        return tuple(foods[i * len(foods) // size] for i in range(size))
    copies = [_another(dice.choice(foods), i, dice) for i in range(size - len(foods))]
    return (*foods, *copies)


def _another(food: Food, number: int, dice: random.Random) -> Food:
    per = food.per_100g
    kcal = None if per.energy_kcal is None else per.energy_kcal * dice.uniform(0.95, 1.05)
    liking = None if food.liking is None else min(5.0, max(1.0, food.liking + dice.uniform(-1, 1)))
    price = None if food.price is None else food.price * dice.uniform(0.8, 1.25)
    return replace(food, id=f"{food.id}-{number}", liking=liking, price=price,
                   per_100g=replace(per, energy_kcal=kcal))  # fmt: skip


def _walker(i: int, foods: tuple[Food, ...], usual: str) -> Walker:
    dice = random.Random(SEED + i)
    eats = "vegetarian" if i % 4 == 1 else "anything"
    avoids = (Avoid(allergen="gluten"),) if i == 6 else ()
    return Walker(
        id=f"walker-{i + 1}", name=f"Walker {i + 1}", mass_kg=float(dice.randint(55, 90)),
        eats=eats, avoids=avoids, usual=_usual(foods, eats, usual, dice),  # type: ignore[arg-type]
    )  # fmt: skip


def _usual(foods: tuple[Food, ...], eats: str, usual: str, dice: random.Random) -> Usual:
    if usual == "none":
        return Usual()
    good = [f for f in foods if f.diet in ("vegan", "vegetarian") or eats == "anything"]
    meals = {}
    for meal in ("breakfast", "dinner") if usual == "half" else ("breakfast", "lunch", "dinner"):
        fits = [f for f in good if meal in f.meals and (f.role == "main" or meal == "lunch")
                and f.dose_kcal > 100]  # fmt: skip
        some = dice.sample(fits, min(2, len(fits)))
        meals[meal] = tuple(
            Choice(picks=(Pick(food=f.id, count=max(1.0, round(450 / f.dose_kcal))),))
            for f in some
        )
    return Usual(meals=meals)  # type: ignore[arg-type]


def _request(
    walkers: tuple[Walker, ...], count: int, legs: int, foods: tuple[Food, ...]
) -> MenuRequest:  # fmt: skip
    per_leg = -(-count // legs)
    days = tuple(
        Day(number=i + 1, date=START + dt.timedelta(days=i), stretches=(), distance_m=16e3,
            ascent_m=700.0, descent_m=700.0, highest_m=1100.0, camp_m=700.0, leg=i // per_leg + 1)
        for i in range(count)
    )  # fmt: skip
    begin = dt.datetime.combine(START, dt.time(9), dt.UTC)
    end = dt.datetime.combine(days[-1].date, dt.time(15), dt.UTC)
    trip = Trip(title="bench", begin=begin, end=end, zone="UTC", walkers=walkers,
                route=RouteSpec(), rules=Rules())  # fmt: skip
    slots = slots_of(trip, days)
    target = {w.id: _eats(trip, w, slots) for w in walkers}
    drinks = {w.id: {d.number: 2.0 for d in days} for w in walkers}
    return MenuRequest(slots=slots, target_kcal=target, walkers=walkers,
                       foods=foods, prices={}, rules=trip.rules, kit=trip.kit, hot_drinks=drinks,
                       spare_kcal={w.id: 0.0 for w in walkers},
                       settings={"tidy.grams": 0.0})  # fmt: skip


def _eats(trip: Trip, walker: Walker, slots: tuple[Slot, ...]) -> Mapping[int, float]:
    """What a walker eats by day where a full day needs 48 kcal a kilogram, chosen as by default."""
    shares = day_shares(trip, tuple(s for s in slots if s.walker == walker.id))
    rest = dict.fromkeys(PARTS_OF_NEED, 0.0)
    needs = {day: DayNeed(energy_kcal=48.0 * walker.mass_kg * share, **rest)
             for day, share in shares.items()}  # fmt: skip
    return targets(walker, needs, shares).kcal


def _tightened(request: MenuRequest, tight: str) -> MenuRequest:
    if tight == "easy":
        return request
    person_days = sum(1 for s in request.slots if s.meal == "move")
    per_day = {"tight": 12.0, "impossible": 2.0}[tight]
    return replace(request, rules=replace(request.rules, budget=per_day * person_days))
