"""Who carries what: bags by carrier, common things, and each back by day."""

from __future__ import annotations

from oatsack.reports.contents.bags import bag_name, in_order, number
from oatsack.reports.contents.first_screen import clip
from oatsack.reports.contents.losses import loss_blocks
from oatsack.reports.document import (
    APART,
    Block,
    Cell,
    Document,
    Heading,
    Para,
    Row,
    Table,
    cell,
    row,
    table,
)
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
            _common(told, s))
        for s in sacks
    ]  # fmt: skip
    rows.append(
        row(told.say("carriers.sum"), *(_sum(told, sacks, d.number) for d in days),
            _all_common(told, sacks), kind="total")
    )  # fmt: skip
    return table(heads, rows, caption=told.say("carriers.backs"))


def _on_back(told: Telling, sack: Sack, day: int) -> Cell:
    kg = sack.by_day_g.get(str(day), 0.0) / 1000.0
    known = str(day) in sack.by_day_g
    return cell(told.m.heavy(kg), address=f"{address(sack)}/by_day_g/{day}" if known else "")


def _common(told: Telling, sack: Sack) -> Cell:
    total = sum(sack.common_g.values())
    at = APART.join(f"{address(sack)}/common_g/{name}" for name in sack.common_g)
    return cell(_grams(told, total), address=at if total > 0 else "")


def address(sack: Sack) -> str:
    """Where a sack stands in the plan."""
    return f"packed/sacks/{sack.leg}-{sack.walker}"


def _grams(told: Telling, grams: float) -> str:
    return told.m.mass(grams) if grams > 0 else ""


def _sum(told: Telling, sacks: list[Sack], day: int) -> Cell:
    kg = sum(s.by_day_g.get(str(day), 0.0) for s in sacks) / 1000.0
    return cell(told.m.heavy(kg), address=APART.join(
        f"{address(s)}/by_day_g/{day}" for s in sacks if str(day) in s.by_day_g))  # fmt: skip


def _all_common(told: Telling, sacks: list[Sack]) -> Cell:
    total = sum(sum(s.common_g.values()) for s in sacks)
    at = APART.join(f"{address(s)}/common_g/{name}" for s in sacks for name in s.common_g)
    return cell(_grams(told, total), address=at if total > 0 else "")


def _list(told: Telling, sack: Sack) -> list[Block]:
    bags = bags_of(told.plan, sack.walker, sack.leg)
    heads = ("[]", ">" + told.say("bags.number"), told.say("bags.bag"),
             told.say("carriers.for"), ">" + told.say("bags.gross"))  # fmt: skip
    rows: list[Row] = [
        row("", number(b), bag_name(told, b),
            told.group(b.group),
            cell(told.m.fine(b.gross_g), b.gross_g, address=f"packed/bags/{b.id}/gross_g"))
        for b in in_order(bags)
    ]  # fmt: skip
    rows += [
        row("", "", told.say(f"common.{name}"), told.say("bags.all"),
            cell(told.m.fine(g), g, address=f"{address(sack)}/common_g/{name}"))
        for name, g in sack.common_g.items()
    ]
    total = sack.start_g + sum(sack.common_g.values())
    at = [f"{address(sack)}/start_g", *(f"{address(sack)}/common_g/{n}" for n in sack.common_g)]
    summed = cell(told.m.mass(total), total, address=APART.join(at))
    rows.append(row("", "", told.say("carriers.sum"), "", summed, kind="total"))
    title = told.name(sack.walker)
    if len({s.leg for s in told.plan.packed.sacks}) > 1:
        title = told.say("bags.of_leg", walker=title, leg=sack.leg)
    return [Heading(text=title, level=2), table(heads, rows, caption=title)]
