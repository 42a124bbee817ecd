"""What each day uses, with its range and parts, beside what is eaten; and what follows from it."""

from __future__ import annotations

from oatsack.reports.document import Block, Document, Heading, Para, Row, Table, cell, row, table
from oatsack.reports.telling import Telling, neutral_line, short_date
from oatsack.values.route import Day
from oatsack.values.walker import Walker


def document(told: Telling, *, lines: bool = True) -> Document:
    """One table per walker; `lines` leaves out what a first screen above has told already."""
    blocks: list[Block] = []
    for walker in told.plan.trip.walkers:
        blocks += walker_blocks(told, walker, line=lines)
    return Document(
        title=told.say("need.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="need", foot=told.foot(),
    )  # fmt: skip


def walker_blocks(told: Telling, walker: Walker, *, line: bool = True) -> list[Block]:
    """A walker's days: what they use, what is eaten, and the neutral line once (C11)."""
    said = [Para(text=neutral_line(told, walker))] if line else []
    return [Heading(text=walker.name), need_table(told, walker), *said]


def need_table(told: Telling, walker: Walker) -> Table:
    """Day by day: likely, low and high, the parts, and what is eaten [kcal]."""
    heads = (told.say("need.day"), ">" + told.say("need.uses"), ">" + told.say("need.range"),
             ">" + told.say("need.walking"), ">" + told.say("need.rest"),
             ">" + told.say("need.eats"), ">" + told.say("need.pack"))  # fmt: skip
    rows = [_row(told, walker, day) for day in told.plan.days]
    need = told.plan.need[walker.id].values()
    eaten = told.plan.eaten[walker.id].values()
    uses, eats = sum(n.energy_kcal for n in need), sum(t.energy_kcal for t in eaten)
    rows.append(
        row(told.say("need.total"), cell(told.m.about(uses), uses),
            _range(told, sum(n.low_kcal for n in need), sum(n.high_kcal for n in need)),
            "", "", cell(told.m.about(eats), eats), "", kind="total")
    )  # fmt: skip
    return table(heads, rows, caption=told.say("need.caption", walker=walker.name))


def _row(told: Telling, walker: Walker, day: Day) -> Row:
    key = str(day.number)
    n, t = told.plan.need[walker.id][key], told.plan.eaten[walker.id][key]
    at = f"need/{walker.id}/{key}"
    resting, uses = n.energy_kcal - n.walking_kcal, told.m.about(n.energy_kcal)
    return row(
        short_date(day), cell(uses, n.energy_kcal, address=f"{at}/energy_kcal"),
        _range(told, n.low_kcal, n.high_kcal),
        cell(told.m.about(n.walking_kcal), n.walking_kcal, address=f"{at}/walking_kcal"),
        cell(told.m.about(resting), resting),
        cell(told.m.about(t.energy_kcal), t.energy_kcal,
             address=f"eaten/{walker.id}/{key}/energy_kcal"),
        cell(told.m.heavy(n.pack_start_kg), n.pack_start_kg, address=f"{at}/pack_start_kg"),
    )  # fmt: skip


def _range(told: Telling, low: float, high: float) -> str:
    return told.say("need.from_to", low=low, high=high)
