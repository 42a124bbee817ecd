"""The kitchen as things: how full a pot may be, marks to measure by, what goes into the pot, and
the small things that are missed at the first dinner."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from oatsack.kitchen.nesting import (
    Nested,
    Thing,
    can_size,
    check_list,
    mark_mm,
    mug_share,
    nest,
    usable_ml,
)
from oatsack.kitchen.occasions import takes_water
from oatsack.kitchen.price import in_mug
from oatsack.reports.document import Block, Bullets, Document, Heading, Para, cell, row, table
from oatsack.reports.telling import Telling
from oatsack.values.kit import Pot

LIGHTER = Thing(name="lighter", diameter_mm=25.0, height_mm=80.0)
"""A lighter as a cylinder, small ones are less. Common practice."""


def document(told: Telling) -> Document:
    """Pots, marks, nesting, check list."""
    return Document(
        title=told.say("kit.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=(*_pots(told), *_marks(told), *_nests(told), *_checks(told)), name="kit",
        foot=told.foot(),
    )  # fmt: skip


def _pots(told: Telling) -> list[Block]:
    pots = told.plan.trip.kit.pots
    if not pots or told.plan.trip.kit.stove is None:
        return [Para(text=told.say("first.heat_none"))]
    heads = (told.say("kitchen.pot"), told.say("kit.for"), ">" + told.say("kit.brim"),
             ">" + told.say("kit.food"), ">" + told.say("kit.water"))  # fmt: skip
    rows = [
        row(pot.name, ", ".join(told.name(w) for w in pot.walkers) or told.say("bags.all"),
            cell(told.m.volume(pot.volume_ml), pot.volume_ml,
                 address=f"trip/kit/pots/{i}/volume_ml"),
            told.m.volume(usable_ml(pot, food=True)), told.m.volume(usable_ml(pot, food=False)))
        for i, pot in enumerate(pots)
    ]  # fmt: skip
    title = told.say("kit.pots")
    return [Heading(text=title), table(heads, rows, caption=title)]


def _waters(told: Telling) -> list[tuple[str, float]]:
    """Foods that take water, with what one portion needs; the usual portion of each."""
    found: dict[str, list[float]] = {}
    for p in told.plan.menu.portions:
        food = told.food(p.food)
        if takes_water(food) and food.prep.water_ml > 0 and p.why != "bag":
            doses = 1.0 if in_mug(food) else p.doses
            found.setdefault(p.food, []).append(doses * food.prep.water_ml)
    return [(told.food(food).name, sorted(ml)[len(ml) // 2]) for food, ml in found.items()]


def _marks(told: Telling) -> list[Block]:
    """Water for one portion as mugs, and as a height in the pot where its diameter is known."""
    mug = told.plan.trip.kit.mug_ml
    pot = next((p for p in told.plan.trip.kit.pots if p.diameter_mm is not None), None)
    rows = []
    for name, ml in _waters(told):
        whole, part = mug_share(mug, ml)
        high = "" if pot is None else told.say("kit.mm", mm=mark_mm(pot, ml))
        rows.append(row(name, cell(told.m.volume(ml), ml), told.m.number(whole + part), high))
    if not rows:
        return []
    heads = (told.say("small.what"), ">" + told.say("kit.need"),
             ">" + told.say("kit.mugs", mug=mug),
             ">" + (told.say("kit.high", pot=pot.name) if pot else ""))  # fmt: skip
    title = told.say("kit.marks")
    return [Heading(text=title), table(heads, rows, caption=title)]


def _things(told: Telling) -> Iterator[Thing]:
    """A can of each size that is taken, the folded stove, a lighter."""
    plan = told.plan
    known = {round(c.fuel_g, 3): c for c in plan.trip.kit.cans}
    sizes = sorted({size for size, _ in plan.kitchen.fuel.cans}) if plan.kitchen.fuel else []
    for size in sizes[:2]:
        can = known.get(round(size, 3))
        stated = can and can.diameter_mm and can.height_mm
        wide, high = (can.diameter_mm, can.height_mm) if can and stated else can_size(size)
        yield Thing(name=told.say("kit.can", size=size), diameter_mm=wide or 0.0,
                    height_mm=high or 0.0)  # fmt: skip
    stove = plan.trip.kit.stove
    if stove and stove.diameter_mm and stove.length_mm:
        yield Thing(name=told.say("kit.stove"), diameter_mm=stove.diameter_mm,
                    height_mm=stove.length_mm)  # fmt: skip
    yield Thing(name=told.say("check.lighter"), diameter_mm=LIGHTER.diameter_mm,
                height_mm=LIGHTER.height_mm)  # fmt: skip


def most_that_fits(things: list[Thing], pot: Pot) -> tuple[list[Thing], Nested | None]:
    """The largest set of things that goes into a pot, earlier things first, and how."""
    for count in range(len(things), 0, -1):
        for some in combinations(things, count):
            found = nest(some, pot)
            if found is not None:
                return list(some), found
    return [], None


def _nests(told: Telling) -> list[Block]:
    if told.plan.kitchen.fuel is None:
        return []
    things = list(_things(told))
    lines = [_nest(told, pot, things) for pot in told.plan.trip.kit.pots]
    stove = told.plan.trip.kit.stove
    if stove and not (stove.diameter_mm and stove.length_mm):
        lines.append(told.say("kit.stove_unknown"))
    return [Heading(text=told.say("kit.nest")), Bullets(items=tuple(dict.fromkeys(lines))),
            Para(text=told.say("kit.sizes"), tone="quiet")]  # fmt: skip


def _nest(told: Telling, pot: Pot, things: list[Thing]) -> str:
    if pot.diameter_mm is None:
        return told.say("kit.unknown", pot=pot.name)
    inside, found = most_that_fits(things, pot)
    if found is None:
        return told.say("kit.none", pot=pot.name)
    parts = [
        told.say("kit.lying" if layer.lying else "kit.upright", what=" + ".join(layer.things))
        for layer in found.layers
    ]
    out = [t.name for t in things if t not in inside]
    text = told.say("kit.fits", pot=pot.name, how=", then ".join(parts), mm=found.left_mm)
    return text + (" " + told.say("kit.outside", list=", ".join(out)) if out else "")


def _checks(told: Telling) -> list[Block]:
    flame = told.plan.kitchen.fuel is not None
    things = tuple(told.say(f"check.{thing}") for thing in check_list(flame=flame))
    return [Heading(text=told.say("kit.check")), Bullets(items=things, ticks=True)]
