"""Puts the question to the menu chooser: slots, targets, foods with their kitchen price, rules."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oatsack.kitchen.counts import first_fills
from oatsack.kitchen.drinking import at_hand_ml
from oatsack.kitchen.price import conditions_of, dose_price
from oatsack.menu.slots import cups
from oatsack.packing.dogs import dog_bags, most_room_ml
from oatsack.provision.needs import shares_of
from oatsack.values.food import Food
from oatsack.values.kit import Kit
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest, Slot
from oatsack.values.route import Day
from oatsack.values.trip import Trip
from oatsack.values.walker import Walker

SPARE_DAYS_FROM = 7
"""Up to so many days the spare is one cold meal, beyond it one day (common practice)."""
AIM_NAMES = {"load": "kg-days"}
"""What the trip file calls an aim, where the menu calls it otherwise."""
SPARE_MEAL_KCAL = 500.0
"""One cold meal held in reserve, ours."""


def kitchen_prices(foods: Sequence[Food], days: Sequence[Day],
                   kit: Kit) -> Mapping[tuple[str, int], DosePrice]:  # fmt: skip
    """(food, day) -> the marginal cost of a dose in that day's kitchen."""
    return {
        (food.id, day.number): dose_price(food, conditions_of(day), kit)
        for day in days
        for food in foods
        if food.prep.kind != "none"
    }


def _fills(day: Day, trip: Trip) -> float:
    """How often each walker's first bottle is filled for the day's walking."""
    return first_fills(at_hand_ml(day, trip.rules), trip.kit.bottles_ml)


def _cups(walker: Walker, days: Sequence[Day], slots: Sequence[Slot]) -> dict[int, float]:
    """Day -> hot drinks, told by the meals of that day that this walker has on the way."""
    meals = {day.number: {s.meal for s in slots if (s.walker, s.day) == (walker.id, day.number)}
             for day in days}  # fmt: skip
    return {number: cups(walker.hot_drinks_day, served) for number, served in meals.items()}


def container_room(trip: Trip, days: Sequence[Day] = ()) -> float | None:
    """Room for food on the first night: the containers less the other things that smell, the dogs'
    food among them [ml]."""
    if not trip.kit.containers:
        return None
    room = sum(c.volume_ml for c in trip.kit.containers)
    firsts = {d.leg: d.number for d in reversed(days)}
    legs = {leg: (first, first) for leg, first in firsts.items()}
    dogs = most_room_ml(dog_bags(trip, days), legs) if trip.dogs else 0.0
    return room - trip.kit.other_smellables_ml * len(trip.walkers) - dogs


def ordinary_day(target: Mapping[int, float], share: Mapping[int, float]) -> float:
    """Energy of one's ordinary full day [kcal]: all that is eaten over the parts of days inside the
    walk, so that an appetite that grows on the way evens out."""
    parts = sum(share.get(day, 0.0) for day in target)
    return sum(target.values()) / parts if parts > 0.0 else 0.0


def spare_kcal(trip: Trip, full: Mapping[str, float]) -> Mapping[str, float]:
    """Walker -> energy of the spare food (C16); `full` is everyone's ordinary day [kcal]."""
    spare = trip.rules.spare
    if isinstance(spare, int | float):
        return {w.id: float(spare) for w in trip.walkers}
    if spare is None:
        spare = "meal" if trip.day_count <= SPARE_DAYS_FROM else "day"
    energy = {"none": 0.0, "meal": SPARE_MEAL_KCAL}
    return {w.id: energy.get(spare, full[w.id]) for w in trip.walkers}


def request(trip: Trip, days: Sequence[Day], slots: Sequence[Slot], foods: Sequence[Food], *,
            target: Mapping[str, Mapping[int, float]],
            prices: Mapping[tuple[str, int], DosePrice],
            walking_h: Mapping[str, Mapping[int, float]] | None = None,
            ) -> MenuRequest:  # fmt: skip
    """The whole question as one value, without an earlier menu to stay close to."""
    full = {w.id: ordinary_day(target[w.id], shares_of(trip, slots, w.id)) for w in trip.walkers}
    return MenuRequest(
        slots=tuple(slots),
        target_kcal=target,
        walkers=trip.walkers,
        foods=tuple(foods),
        prices=prices,
        rules=trip.rules,
        kit=trip.kit,
        temperatures_c={day.number: day.warm_c for day in days},
        hot_drinks={w.id: _cups(w, days, slots) for w in trip.walkers},
        bottle_fills={
            w.id: {day.number: _fills(day, trip) for day in days} for w in trip.walkers
        },
        walking_h=walking_h or {},
        container_ml=container_room(trip, days),
        spare_kcal=spare_kcal(trip, full),
        aims=tuple(AIM_NAMES.get(name, name) for name in trip.rules.aims),
        aims_within=trip.rules.aims_within,
        settings=trip.rules.settings,
        shops={p.leg: p.sells for p in trip.places if p.kind == "shop"},
    )
