"""Resupply boxes: what is inside each, for the lid and for whoever sends it."""

from __future__ import annotations

from oatsack.reports.contents.bags import bag_name, contents, in_order, number
from oatsack.reports.document import Block, Break, Document, Heading, Para, cell, row, table
from oatsack.reports.telling import Telling, long_date
from oatsack.values.pack import Box


def document(told: Telling) -> Document:
    """A page per box."""
    blocks: list[Block] = []
    for n, box in enumerate(told.plan.packed.boxes):
        blocks += [Break()] if n else []
        blocks += _box(told, box)
    if not blocks:
        blocks = [Para(text=told.say("boxes.none"))]
    return Document(
        title=told.say("boxes.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="boxes", foot=told.foot(), large=True,
    )  # fmt: skip


def _box(told: Telling, box: Box) -> list[Block]:
    bags = [b for b in told.plan.packed.bags if b.id in box.bags]
    arrive = long_date(told.day(box.arrive_day)) if box.arrive_day >= 1 else ""
    heads = ("[]", ">" + told.say("bags.number"), told.say("bags.bag"),
             told.say("bags.contents") + "*3", ">" + told.say("bags.gross"))  # fmt: skip
    rows = [
        row("", number(b), bag_name(told, b), ", ".join(contents(told, b)),
            cell(told.m.fine(b.gross_g), b.gross_g))
        for b in in_order(bags)
    ]  # fmt: skip
    rows.append(row("", "", told.say("boxes.sum"), "", cell(told.m.mass(box.gross_g), box.gross_g),
                    kind="total"))  # fmt: skip
    return [
        Heading(text=told.say("boxes.of", place=box.place, leg=box.leg)),
        Para(text=told.say("boxes.when", date=arrive)),
        table(heads, rows, caption=box.place),
        Para(text=told.say("boxes.not_inside")),
    ]
