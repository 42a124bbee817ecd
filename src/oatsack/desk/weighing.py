"""A bag on the scale: finds the bag, reads the mass, and puts the answers into words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from oatsack import units
from oatsack.errors import UnitError, UsageError
from oatsack.packing.checkweigh import Fault, weigh
from oatsack.packing.code import decode
from oatsack.reports.telling import Telling, telling, version
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
    """A bag by its name, by its number, or by the code on its label. UsageError names what there
    is, and says of a label that it was misread or belongs to another version of the plan."""
    words = asked.casefold().split()
    if asked.count("-") == 3 and words and words[0][0].isdigit():
        return _by_code(plan, asked)
    for bag in plan.packed.bags:
        if bag.id.casefold() == asked.casefold() or words == [str(bag.number)]:
            return bag
    near = [bag.id for bag in plan.packed.bags if words and words[0] in bag.id.casefold()]
    known = ", ".join((near or [bag.id for bag in plan.packed.bags])[:6])
    raise UsageError(say("desk.no-bag", asked=repr(asked), known=known))


def _by_code(plan: Plan, asked: str) -> Bag:
    """A bag by the code on its label; a bag of the plan may be called like one."""
    named = next((b for b in plan.packed.bags if b.id.casefold() == asked.casefold()), None)
    if named is not None:
        return named
    code = decode(asked)
    if code is None:
        raise UsageError(say("weigh.misread", code=asked))
    if code.version != version(plan):
        raise UsageError(say("weigh.stale", code=asked, old=code.version, new=version(plan)))
    for bag in plan.packed.bags:
        if (bag.leg, bag.number, bag.sealed) == (code.leg, code.number, False):
            return bag
    raise UsageError(say("weigh.misread", code=asked))


def _lines(plan: Plan, bag: Bag, grams: float) -> Iterator[str]:
    found, told = weigh(bag, plan.foods, grams), telling(plan)
    values = {"bag": bag.id, "expected": found.expected_g, "read": found.read_g}
    if found.right:
        yield told.say("weigh.right", **values)
        return
    key = "weigh.light" if found.difference_g < 0 else "weigh.heavy"
    yield told.say(key, difference=abs(found.difference_g), **values)
    if found.too_many:
        yield told.say("weigh.many")
    if found.guesses:
        yield told.say("weigh.explained" if found.explained else "weigh.unexplained")
    for guess in found.guesses[:3]:
        yield "  " + told.say("weigh.or").join(_way(told, way) for way in guess.ways[:3])


def _way(told: Telling, faults: tuple[Fault, ...]) -> str:
    """One answer: its slips, those alike counted."""
    counted = Counter(faults)
    return told.say("weigh.and").join(_slip(told, slip, n) for slip, n in counted.items())


def _slip(told: Telling, slip: Fault, times: int) -> str:
    piece = slip.piece
    what = told.say("weigh.several" if times > 1 else "weigh.one", times=times,
                    food=told.food(piece.food).name, grams=piece.grams)  # fmt: skip
    if piece.day > 0:
        what = told.say("weigh.of_day", what=what, day=piece.day)
    return told.say(f"weigh.{slip.kind}", what=what)
