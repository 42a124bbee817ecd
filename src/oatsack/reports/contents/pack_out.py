"""The pack-out sheet: one row per bag, packed by, checked by, weighed; and what comes back out."""

from __future__ import annotations

from oatsack.reports.contents.bags import bag_name, in_order, number
from oatsack.reports.contents.first_screen import rubbish_line
from oatsack.reports.document import Block, Document, Heading, Para, cell, row, table
from oatsack.reports.telling import Telling, short_date


def document(told: Telling) -> Document:
    """Bags to be checked off before leaving, rubbish by day."""
    heads = ("[]", ">" + told.say("bags.number"), told.say("bags.bag"), told.say("carriers.who"),
             ">" + told.say("pack_out.should"), told.say("pack_out.scale") + "*1",
             told.say("pack_out.packed") + "*1", told.say("pack_out.checked") + "*1")  # fmt: skip
    rows = [
        row("", number(b), bag_name(told, b), told.name(b.carrier),
            cell(told.m.fine(b.gross_g), b.gross_g, address=f"packed/bags/{b.id}/gross_g"),
            "", "", "")
        for b in in_order(told.plan.packed.bags)
    ]  # fmt: skip
    blocks: list[Block] = [
        Para(text=told.say("pack_out.how")), table(heads, rows, caption=told.say("pack_out.bags")),
        *_rubbish(told),
    ]  # fmt: skip
    return Document(
        title=told.say("pack_out.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="pack-out", foot=told.foot(),
    )  # fmt: skip


def rubbish_opens(told: Telling) -> tuple[tuple[str, str], ...]:
    """The numbers of the sentence on rubbish, with where each is opened."""
    rows = told.plan.packed.rubbish
    if not rows:
        return ()
    last = max(rows, key=lambda r: r.mass_g)
    return ((told.m.mass(last.mass_g), f"packed/rubbish/{last.day}/mass_g"),
            (told.m.room(last.volume_ml), f"packed/rubbish/{last.day}/volume_ml"))  # fmt: skip


def _rubbish(told: Telling) -> list[Block]:
    rubbish = told.plan.packed.rubbish
    if not rubbish:
        return []
    heads = (told.say("need.day"), ">" + told.say("pack_out.mass"), ">" + told.say("pack_out.room"))
    rows = [
        row(short_date(told.day(r.day)),
            cell(told.m.mass(r.mass_g), r.mass_g, address=f"packed/rubbish/{r.day}/mass_g"),
            cell(told.m.room(r.volume_ml), r.volume_ml,
                 address=f"packed/rubbish/{r.day}/volume_ml"))
        for r in rubbish
    ]  # fmt: skip
    return [
        Heading(text=told.say("pack_out.rubbish")),
        Para(text=rubbish_line(told), opens=rubbish_opens(told)),
        table(heads, rows, caption=told.say("pack_out.rubbish")),
    ]  # fmt: skip
