"""The dog's own food: how much, in a bag of its own, on whose back; and what must not reach a dog.

It stands apart from everything the walkers eat: no sum, list or bag of theirs holds it. A dog is
fed half a ration with breakfast and half with dinner, where these lie inside the walk (C4). It
must close in at night like all other food. Does not know a dog's health: that is a vet's matter.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence

from oatsack.packing.label import bag_g
from oatsack.packing.sacks import Common, Legs
from oatsack.packing.volume import SOFT
from oatsack.values.dog import Dog
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.pack import DogBag
from oatsack.values.route import Day
from oatsack.values.trip import MEAL_CLOCK, Trip

AT_HOME_KCAL = 142.8
"""What a grown dog uses a day, times its mass [kg] to the power of 0.75 [kcal]. The mean of 70
groups; one deviation is 55.3, so a dog's own ration outranks it.

Source: Bermingham2014, abstract."""
MASS_POWER = 0.75
ON_THE_WAY = 1.5
"""A day of walking over a day at home (common practice: half as much again, twice in the cold)."""
DRY_KCAL_G = 3.8
"""Dry food [kcal/g] (common practice)."""
DRY_G_ML = 0.4
"""Dry food as it lies in a bag [g/ml] (common practice)."""
MOST_SHARE = 0.15
"""Most of its own mass that a dog should carry (common practice: 10 to 15 per cent)."""
FED: tuple[str, ...] = ("breakfast", "dinner")

HOLDS: Mapping[str, tuple[str, ...]] = {
    "chocolate": ("choc", "cocoa", "cacao", "brownie"),
    "raisins": ("raisin", "sultana", "currant", "grape"),
    "onion": ("onion", "garlic", "shallot", "leek", "chive"),
    "macadamia": ("macadamia",),
    "xylitol": ("xylitol", "birch sugar"),
    "coffee": ("coffee", "espresso"),
}
"""What can poison a dog -> how its presence shows in the name of a food.

Source: Cortinovis2016, abstract (chocolate, onion kind, macadamias, grapes, xylitol); caffeine:
common practice."""


def ration_g(dog: Dog) -> float:
    """What a dog eats on a full day of the walk [g]: as stated, else from its mass."""
    if dog.food_g_day is not None:
        return dog.food_g_day
    return float(ON_THE_WAY * AT_HOME_KCAL * dog.mass_kg**MASS_POWER / DRY_KCAL_G)


def feeds_on(trip: Trip, date: dt.date) -> tuple[float, ...]:
    """The clock times on a date at which a dog is fed: those inside the walk (C4)."""
    clocks = {**MEAL_CLOCK, **trip.rules.meal_clock_min}
    midnight = dt.datetime.combine(date, dt.time())
    begin, end = trip.begin.replace(tzinfo=None), trip.end.replace(tzinfo=None)
    return tuple(
        clock for meal, clock in clocks.items()
        if meal in FED and begin <= midnight + dt.timedelta(minutes=clock) <= end
    )  # fmt: skip


def dog_bags(trip: Trip, days: Sequence[Day]) -> tuple[DogBag, ...]:
    """A bag for each dog on each leg; none for a leg on which it is not fed."""
    found = [
        _bag(dog, leg, {d.number: len(feeds_on(trip, d.date)) for d in days if d.leg == leg})
        for leg in sorted({d.leg for d in days})
        for dog in trip.dogs
    ]
    return tuple(bag for bag in found if bag.feeds > 0)


def _bag(dog: Dog, leg: int, feeds: Mapping[int, int]) -> DogBag:
    ration, count = ration_g(dog), sum(feeds.values())
    net = 0.5 * ration * count
    room = net / DRY_G_ML
    wrap = bag_g(room)
    eaten = {day: 0.5 * ration * sum(n for d, n in feeds.items() if d < day) for day in feeds}
    return DogBag(
        dog=dog.id, leg=leg, carrier=dog.carrier, feeds=float(count), ration_g=ration, net_g=net,
        wrap_g=wrap, volume_ml=room, by_day_g={str(d): net - g + wrap for d, g in eaten.items()},
    )  # fmt: skip


def room_ml(bags: Iterable[DogBag], day: int) -> float:
    """Room in the container on the night after a day for what the dogs still eat [ml]: it smells
    like all other food."""
    left = (bag.by_day_g.get(str(day + 1), bag.wrap_g) - bag.wrap_g
            for bag in bags if str(day) in bag.by_day_g)  # fmt: skip
    return sum(left) / DRY_G_ML / SOFT.likely


def most_room_ml(bags: Sequence[DogBag], legs: Legs) -> float:
    """Room for the dogs on the first night of whichever leg needs most [ml]."""
    return max((room_ml(bags, first) for first, _ in legs.values()), default=0.0)


def with_dogs(common: Common, bags: Iterable[DogBag]) -> Common:
    """What is carried for all, with the dogs' food on the back of the walker who has it."""
    out = {leg: {who: dict(of) for who, of in backs.items()} for leg, backs in common.items()}
    for bag in bags:
        if bag.carrier:
            mine = out.setdefault(bag.leg, {}).setdefault(bag.carrier, {})
            mine["dog"] = mine.get("dog", 0.0) + bag.gross_g
    return out


def not_for_dogs(foods: Iterable[Food]) -> tuple[tuple[str, str], ...]:
    """Food and what it holds that can poison a dog, as far as names tell it.

    What a name does not tell is not safe for that: ready dishes often hold onion or garlic.
    """
    return tuple((food.id, why) for food in foods if (why := _why(food)))


def _why(food: Food) -> str:
    text = f"{food.id} {food.name}".casefold().replace("-", " ")
    return next((what for what, marks in HOLDS.items() if any(m in text for m in marks)), "")


def dog_signs(trip: Trip, bags: Sequence[DogBag], foods: Mapping[str, Food]) -> list[Flag]:
    """What must not reach the dogs, a load that is too much for one, a ration that was guessed."""
    if not trip.dogs:
        return []
    named = [foods[food].name for food, _ in not_for_dogs(foods[f] for f in sorted(foods))]
    dogs = ", ".join(dog.name for dog in trip.dogs)
    key = "named" if named else "unnamed"
    values = {"dogs": dogs, "foods": ", ".join(named)}
    unfit = Flag(key=f"packing.dog.{key}", level="quiet", scope="packed/dogs", values=values,
                 source="Cortinovis2016")  # fmt: skip
    return [unfit, *_loads(trip, bags), *_guesses(trip)]


def _loads(trip: Trip, bags: Sequence[DogBag]) -> list[Flag]:
    own = {dog.id: dog for dog in trip.dogs if not dog.carrier}
    return [
        Flag(key="packing.dog.heavy", level="quiet", scope=f"packed/dogs/{bag.leg}-{bag.dog}",
             values={"dog": own[bag.dog].name, "gross_g": bag.gross_g, "share": MOST_SHARE})
        for bag in bags
        if bag.dog in own and bag.gross_g > 1000.0 * MOST_SHARE * own[bag.dog].mass_kg
    ]  # fmt: skip


def _guesses(trip: Trip) -> list[Flag]:
    return [
        Flag(key="packing.dog.ration", level="note", scope="packed/dogs", source="Bermingham2014",
             values={"dog": dog.name, "ration_g": ration_g(dog)})
        for dog in trip.dogs if dog.food_g_day is None
    ]  # fmt: skip
