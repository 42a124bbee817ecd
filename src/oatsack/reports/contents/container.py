"""The container, night by night: what must close in, the room there is, what stays outside."""

from __future__ import annotations

from oatsack.reports.contents.bags import things_in
from oatsack.reports.document import APART, Block, Document, Para, Row, Table, cell, row, table
from oatsack.reports.telling import Telling, short_date
from oatsack.values.pack import Night


def document(told: Telling) -> Document:
    """One table; a sentence where there is no container."""
    nights = told.plan.packed.nights
    blocks: list[Block] = [Para(text=told.say("container.rule"))]
    blocks += [night_table(told)] if nights else [Para(text=told.say("container.none"))]
    return Document(
        title=told.say("container.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="container", foot=told.foot(),
    )  # fmt: skip


def night_table(told: Telling) -> Table:
    """Night by night: the range of room needed, what there is, and the word for it."""
    heads = (told.say("container.night"), ">" + told.say("container.needed"),
             ">" + told.say("container.room"), told.say("container.verdict"),
             told.say("container.outside"))  # fmt: skip
    rows = [_row(told, night) for night in told.plan.packed.nights]
    return table(heads, rows, caption=told.say("first.night"))


def _row(told: Telling, night: Night) -> Row:
    bags = {b.id: b for b in told.plan.packed.bags}
    outside = ", ".join(
        (told.say("day_cards.bag", n=bags[b].number, kind=things_in(told, bags[b]))
         if not bags[b].sealed else things_in(told, bags[b]))
        if b in bags else b for b in night.outside
    )  # fmt: skip
    span = told.say("container.span", low=night.needed_low_ml, high=night.needed_high_ml)
    at = f"packed/nights/{night.day}"
    needed = cell(span, address=APART.join([f"{at}/needed_low_ml", f"{at}/needed_high_ml"]))
    room = cell(told.m.room(night.room_ml), address=f"{at}/room_ml")
    return row(short_date(told.day(night.day)), needed, room,
               told.say(f"verdict.{night.verdict}"), outside)  # fmt: skip
