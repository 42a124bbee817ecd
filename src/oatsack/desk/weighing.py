"""A bag on the scale: finds the bag, reads the mass, and puts the answers into words."""

from __future__ import annotations

from collections.abc import Iterator

from oatsack import units
from oatsack.errors import UnitError, UsageError
from oatsack.packing.checkweigh import Fault, weigh
from oatsack.reports.words import say
from oatsack.values.pack import Bag
from oatsack.values.plan import Plan


def told(plan: Plan, bag: str, reading: str) -> tuple[str, ...]:
    """Lines for a person: right, or the first answers to what is wrong."""
    return tuple(_lines(plan, found_bag(plan, bag), read_mass(reading)))


def read_mass(text: str) -> float:
    """The scale's reading [g]. Raises UsageError that says what to write."""
    try:
        return units.mass_g(text)
    except UnitError as error:
        raise UsageError(str(error)) from None


def found_bag(plan: Plan, asked: str) -> Bag:
    """A bag by its name, or by its number as on its label. UsageError names what there is."""
    words = asked.casefold().split()
    for bag in plan.packed.bags:
        if bag.id.casefold() == asked.casefold() or words == [str(bag.number)]:
            return bag
    near = [bag.id for bag in plan.packed.bags if words and words[0] in bag.id.casefold()]
    known = ", ".join((near or [bag.id for bag in plan.packed.bags])[:6])
    raise UsageError(f"no bag {asked!r}; there is: {known}")


def _lines(plan: Plan, bag: Bag, grams: float) -> Iterator[str]:
    found = weigh(bag, plan.foods, grams)
    values = {"bag": bag.id, "expected": units.show_mass(found.expected_g, plan.trip.units),
              "read": units.show_mass(found.read_g, plan.trip.units)}  # fmt: skip
    if found.right:
        yield say("weigh.right", **values)
        return
    difference = units.show_mass(abs(found.read_g - found.expected_g), plan.trip.units)
    key = "weigh.light" if found.read_g < found.expected_g else "weigh.heavy"
    yield say(key, difference=difference, **values)
    if found.too_many:
        yield say("weigh.many")
    for guess in found.guesses[:3]:
        ways = say("weigh.or").join(_way(plan, way) for way in guess.ways[:3])
        yield f"  {ways}"


def _way(plan: Plan, faults: tuple[Fault, ...]) -> str:
    return say("weigh.and").join(
        say(f"weigh.{fault.kind}", food=plan.foods[fault.piece.food].name,
            grams=units.show_mass(fault.piece.grams, plan.trip.units))
        for fault in faults
    )  # fmt: skip
