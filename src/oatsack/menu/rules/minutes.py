"""Few minutes when tired: from lighting the stove to the last portion, per cook group and meal."""

from __future__ import annotations

from collections import defaultdict

from oatsack.menu.frame import Frame, Option
from oatsack.menu.rules.base import Rule, Term, gathered


def rows(frame: Frame) -> None:
    """Flame minutes of all in the group, plus the wait of the main, <= the meal's limit."""
    for (group, day, meal), options in by_pot(frame).items():
        limit = min((o.slot.minutes_limit or 1e9 for o in options), default=1e9)
        if limit >= 1e9:
            continue
        terms: list[Term] = []
        waits: dict[int, float] = {}
        for o in options:
            price = frame.price(o.food, day)
            terms.append((o.eat, price.flame_min))
            if o.use >= 0 and price.wait_min > 0 and o.food.role == "main":
                waits[o.use] = price.wait_min / (1 if _shared(frame, o) else _mouths(options))
        terms = gathered([*terms, *waits.items()])
        if any(value for _, value in terms):
            frame.builder.row(f"minutes/{group}/{day}/{meal}", terms, high=limit)


def _shared(frame: Frame, o: Option) -> bool:
    return frame.builder.columns[o.use].startswith("dish/")


def _mouths(options: list[Option]) -> int:
    return len({o.slot.walker for o in options})


def by_pot(frame: Frame) -> dict[tuple[str, int, str], list[Option]]:
    """Cook group, day and meal -> every option that may be cooked then."""
    group_of = {w: g.name for g in frame.groups for w in g.walkers}
    out: dict[tuple[str, int, str], list[Option]] = defaultdict(list)
    for (walker, day, meal), options in frame.options.items():
        cooked = [o for o in options if o.food.prep.kind != "none"]
        if cooked:
            out[(group_of[walker], day, meal)] += cooked
    return out


RULE = Rule(
    name="minutes",
    help="At most so many minutes from lighting the stove to the last portion.",
    rows=rows,
    gives_in="min",
    in_trip=("rules.minutes",),
)
