"""Sack tags: a card for the mouth of each food sack, its bags in the order of eating."""

from __future__ import annotations

from oatsack.reports.contents.bags import bag_name, number
from oatsack.reports.document import Block, Card, Cards, Document, Para, Row, cell, row, table
from oatsack.reports.telling import Telling, short_date, version
from oatsack.values.pack import Bag, Sack


def document(told: Telling) -> Document:
    """Two tags to a sheet, one for each sack of each leg."""
    cards = tuple(tag(told, sack) for sack in told.plan.packed.sacks)
    return Document(
        title=told.say("tags.title", title=told.plan.trip.title), name="tags",
        blocks=(Cards(cards=cards, size="half"),), foot=told.foot(),
    )  # fmt: skip


def tag(told: Telling, sack: Sack) -> Card:
    """One sack: whose, what it weighs at its start, and from the top what is eaten first."""
    bags = {bag.id: bag for bag in told.plan.packed.bags}
    heads = (">" + told.say("bags.number"), told.say("bags.bag") + "*2", told.say("boxes.who"),
             told.say("tags.days"), ">" + told.say("bags.gross"))  # fmt: skip
    rows = [_line(told, bags[name]) for name in sack.bags if name in bags]
    legs = {s.leg for s in told.plan.packed.sacks}
    key = "tags.of_leg" if len(legs) > 1 else "tags.of"
    blocks: tuple[Block, ...] = (Para(text=told.say("tags.order"), tone="quiet"),
                                 table(heads, rows))  # fmt: skip
    return Card(
        title=told.say(key, walker=told.name(sack.walker), leg=sack.leg),
        mark=told.say("tags.mass", kg=sack.start_g / 1000.0), blocks=blocks,
        foot=told.say("tags.foot", title=told.plan.trip.title, hash=version(told.plan)),
    )  # fmt: skip


def _line(told: Telling, bag: Bag) -> Row:
    first, last = (short_date(told.day(n)) for n in (bag.open_day, bag.empty_day))
    days = first if first == last else f"{first}–{last}"
    return row(
        number(bag), bag_name(told, bag), told.group(bag.group),
        told.say("tags.spare") if bag.label == "spare" else days,
        cell(told.m.fine(bag.gross_g), bag.gross_g),
    )  # fmt: skip
