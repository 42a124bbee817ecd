"""The report with pictures: what the days use, what is eaten, carried and bought, and why."""

from __future__ import annotations

from oatsack.reports.contents import bags, first_screen, flameless, kitchen, menu, plan, shopping
from oatsack.reports.contents.losses import loss_blocks
from oatsack.reports.document import Block, Document, Fold, Heading, Para
from oatsack.reports.pictures import meals_picture, need_picture, weight_picture
from oatsack.reports.ribbon import ribbon_picture
from oatsack.reports.telling import Telling, each_line_on_top, neutral_line
from oatsack.values.walker import Walker

OPEN_UP_TO = 3
"""Walkers whose pictures stand open; of larger parties they fold away."""


def document(told: Telling) -> Document:
    """Pictures first, tables behind."""
    blocks: list[Block] = [
        *first_screen.document(told, brief=False).blocks,
        *plan.flag_blocks(told),
    ]
    blocks += [ribbon_picture(told), Heading(text=told.say("report.work")), *_each(told, _work)]
    blocks += [Heading(text=told.say("report.eat")), *plan.lowered(menu.document(told).blocks)]
    blocks += [Heading(text=told.say("report.carry")), *_each(told, _carry)]
    blocks += _folded(told)
    blocks += [Heading(text=told.say("report.buy")), *plan.lowered(shopping.document(told).blocks)]
    blocks += [*plan.late_blocks(told), *flameless.brief(told), *loss_blocks(told)]
    blocks += plan.totals_blocks(told)
    blocks += plan.behind_blocks(told)
    return Document(
        title=told.plan.trip.title, subtitle=told.title_line(), blocks=tuple(blocks),
        name="report", foot=told.foot(),
    )  # fmt: skip


def _each(told: Telling, part) -> list[Block]:  # type: ignore[no-untyped-def]
    walkers = told.plan.trip.walkers
    if len(walkers) <= OPEN_UP_TO:
        return [block for w in walkers for block in part(told, w)]
    return [Fold(title=w.name, blocks=tuple(part(told, w))) for w in walkers]


def _work(told: Telling, walker: Walker) -> list[Block]:
    said = [] if each_line_on_top(told) else [Para(text=neutral_line(told, walker))]
    return [need_picture(told, walker), *said, meals_picture(told, walker)]


def _carry(told: Telling, walker: Walker) -> list[Block]:
    return [weight_picture(told, walker)]


def _folded(told: Telling) -> list[Block]:
    parts = (bags.document(told), kitchen.document(told))
    return [Fold(title=p.title.split(": ", 1)[-1].capitalize(), blocks=p.blocks) for p in parts]
