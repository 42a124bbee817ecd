"""The tally: a grid to cross off what was eaten, with room for what was left over."""

from __future__ import annotations

from oatsack.reports.document import Block, Bullets, Document, Heading, Para, Table, row, table
from oatsack.reports.telling import Telling, portions_at, short_date
from oatsack.values.food import MEALS
from oatsack.values.route import Day


def document(told: Telling) -> Document:
    """The grid, and the questions for the way home."""
    blocks: tuple[Block, ...] = (
        Para(text=told.say("tally.how")), tally_table(told),
        Heading(text=told.say("tally.after")),
        Bullets(items=tuple(told.say(f"tally.ask_{n}") for n in range(1, 5)), ticks=True),
    )  # fmt: skip
    return Document(
        title=told.say("tally.of", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=blocks, name="tally", foot=told.foot(), large=True,
    )  # fmt: skip


def tally_table(told: Telling) -> Table:
    """Days by meals, a box each; then what was left and how much fuel."""
    meals = [m for m in MEALS if any(portions_at(told.plan, d.number, m) for d in told.plan.days)]
    heads = (told.say("tally.day"), *(told.say(f"meals.{m}") for m in meals),
             told.say("tally.left") + "*3", told.say("tally.fuel") + "*1")  # fmt: skip
    rows = [row(short_date(d), *(_box(told, d, m) for m in meals), "", "") for d in told.plan.days]
    return table(heads, rows, caption=told.say("tally.title"))


def _box(told: Telling, day: Day, meal: str) -> str:
    eaters = {p.walker for m in MEALS if m == meal for p in portions_at(told.plan, day.number, m)}
    boxes = min(len(eaters), 4)
    return " ".join(BOX for _ in range(boxes))


BOX = "☐"
