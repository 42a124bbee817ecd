"""The dogs' own food: said apart from the walkers', with a label of its own, and what is not for
them marked on the bags that hold it."""

from __future__ import annotations

from oatsack.packing.dogs import not_for_dogs
from oatsack.reports.document import Block, Card, Heading, Para, cell, row, table
from oatsack.reports.telling import Telling
from oatsack.values.pack import Bag, DogBag


def name_of(told: Telling, bag: DogBag) -> str:
    """The dog's name."""
    return next(dog.name for dog in told.plan.trip.dogs if dog.id == bag.dog)


def carrier(told: Telling, bag: DogBag) -> str:
    """Who carries its food: a walker, or the dog itself."""
    return told.name(bag.carrier) if bag.carrier else told.say("dogs.itself")


def address(bag: DogBag) -> str:
    """Where a dog's bag stands in the plan."""
    return f"packed/dogs/{bag.leg}-{bag.dog}"


def unfit_names(told: Telling) -> list[str]:
    """Foods of the bags that are not for dogs, by name."""
    packed = {item.food for bag in told.plan.packed.bags for item in bag.items}
    found = not_for_dogs(told.food(food) for food in sorted(packed))
    return [told.food(food).name for food, _ in found]


def first_line(told: Telling) -> str:
    """The first screen's line; nothing without a dog."""
    bags = [bag for bag in told.plan.packed.dogs if bag.leg == 1]
    if not bags:
        return ""
    each = "; ".join(
        told.say("dogs.line", dog=name_of(told, b), net=b.net_g, who=carrier(told, b)) for b in bags
    )
    names = unfit_names(told)
    return told.say("dogs.first" if names else "dogs.first_bare", each=each, n=len(names))


def blocks(told: Telling) -> list[Block]:
    """The dogs' bags, in a table that no sum of the walkers' holds."""
    if not told.plan.packed.dogs:
        return []
    title = told.say("dogs.title")
    heads = (told.say("dogs.dog"), told.say("dogs.on"), ">" + told.say("dogs.a_day"),
             ">" + told.say("bags.net"), ">" + told.say("bags.gross"))  # fmt: skip
    rows = [
        row(_of_leg(told, b), carrier(told, b),
            *(cell(told.m.mass(grams), grams, address=f"{address(b)}/{what}")
              for what, grams in (("ration_g", b.ration_g), ("net_g", b.net_g),
                                  ("gross_g", b.gross_g))))
        for b in told.plan.packed.dogs
    ]  # fmt: skip
    return [
        Heading(text=title, level=2), table(heads, rows, caption=title),
        Para(text=told.say("dogs.apart"), tone="quiet"),
    ]


def _of_leg(told: Telling, bag: DogBag) -> str:
    legs = {b.leg for b in told.plan.packed.dogs}
    name = name_of(told, bag)
    return told.say("bags.of_leg", walker=name, leg=bag.leg) if len(legs) > 1 else name


def label(told: Telling, bag: DogBag) -> Card:
    """The label of a dog's bag."""
    name = name_of(told, bag)
    text = told.say("dogs.label", half=bag.ration_g / 2.0, times=bag.feeds)
    when = told.say("dogs.packed", net=bag.net_g, gross=bag.gross_g)
    return Card(title=told.say("dogs.of", dog=_of_leg(told, bag)), mark=name,
                blocks=(Para(text=text), Para(text=when)), foot=told.plan.trip.title)  # fmt: skip


def not_for(told: Telling, bag: Bag) -> str:
    """What of a bag is not for the dog, as its label says it; nothing without a dog."""
    if not told.plan.trip.dogs:
        return ""
    foods = dict.fromkeys(item.food for item in bag.items)
    found = not_for_dogs(told.food(food) for food in foods)
    things = ", ".join(dict.fromkeys(told.say(f"dogs.holds.{why}") for _, why in found))
    return told.say("dogs.not_for", things=things) if found else ""
