"""Who carries what: bags by carrier, common things, and each back by day."""

from __future__ import annotations

from oatsack.reports.contents.bags import bag_name, in_order, number
from oatsack.reports.contents.first_screen import clip
from oatsack.reports.contents.losses import loss_blocks
from oatsack.reports.document import Block, Document, Heading, Para, Row, Table, cell, row, table
from oatsack.reports.telling import Telling, bags_of, short_date
from oatsack.values.pack import Sack


def document(told: Telling) -> Document:
    """One table of backs by day per leg, then each sack's list."""
    blocks: list[Block] = [Para(text=told.say("carriers.intro"), tone="quiet")]
    for leg in dict.fromkeys(s.leg for s in told.plan.packed.sacks):
        blocks += _leg(told, leg)
    for sack in told.plan.packed.sacks:
        blocks += _list(told, sack)
    blocks += loss_blocks(told)
    return Document(
        title=told.say("carriers.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="carriers", foot=told.foot(),
    )  # fmt: skip


def _leg(told: Telling, leg: int) -> list[Block]:
    legs = {s.leg for s in told.plan.packed.sacks}
    title = told.say("carriers.leg", n=leg) if len(legs) > 1 else told.say("carriers.backs")
    return [Heading(text=title), back_table(told, leg)]


def back_table(told: Telling, leg: int) -> Table:
    """Food on each back by day, at waking [kg]; common things named apart."""
    sacks = [s for s in told.plan.packed.sacks if s.leg == leg]
    days = [d for d in told.plan.days if d.leg == leg]
    heads = (told.say("carriers.who"), *(f">{short_date(d)}" for d in days),
             ">" + told.say("carriers.common"))  # fmt: skip
    rows = [
        row(clip(told.name(s.walker), 24), *(_on_back(told, s, d.number) for d in days),
            _grams(told, sum(s.common_g.values())))
        for s in sacks
    ]  # fmt: skip
    rows.append(
        row(told.say("carriers.sum"), *(_sum(told, sacks, d.number) for d in days),
            _grams(told, sum(sum(s.common_g.values()) for s in sacks)), kind="total")
    )  # fmt: skip
    return table(heads, rows, caption=told.say("carriers.backs"))


def _on_back(told: Telling, sack: Sack, day: int) -> str:
    return told.m.heavy(sack.by_day_g.get(str(day), 0.0) / 1000.0)


def _grams(told: Telling, grams: float) -> str:
    return told.m.mass(grams) if grams > 0 else ""


def _sum(told: Telling, sacks: list[Sack], day: int) -> str:
    return told.m.heavy(sum(s.by_day_g.get(str(day), 0.0) for s in sacks) / 1000.0)


def _list(told: Telling, sack: Sack) -> list[Block]:
    bags = bags_of(told.plan, sack.walker, sack.leg)
    heads = ("[]", ">" + told.say("bags.number"), told.say("bags.bag"),
             told.say("carriers.for"), ">" + told.say("bags.gross"))  # fmt: skip
    rows: list[Row] = [
        row("", number(b), bag_name(told, b),
            told.group(b.group),
            cell(told.m.fine(b.gross_g), b.gross_g))
        for b in in_order(bags)
    ]  # fmt: skip
    rows += [
        row("", "", told.say(f"common.{name}"), told.say("bags.all"), cell(told.m.fine(g), g))
        for name, g in sack.common_g.items()
    ]
    total = sack.start_g + sum(sack.common_g.values())
    rows.append(row("", "", told.say("carriers.sum"), "", cell(told.m.mass(total), total),
                    kind="total"))  # fmt: skip
    title = told.name(sack.walker)
    if len({s.leg for s in told.plan.packed.sacks}) > 1:
        title = told.say("bags.of_leg", walker=title, leg=sack.leg)
    return [Heading(text=title, level=2), table(heads, rows, caption=title)]
