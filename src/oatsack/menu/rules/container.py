"""The container must close on the first night of each leg; a safety rule that nothing bends."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Term


def rows(frame: Frame) -> None:
    """Per leg: room of everything eaten after the leg's first day <= room for food (C13)."""
    room = frame.request.container_ml
    if room is None:
        return
    first: dict[int, int] = {}
    for slot in frame.slots.values():
        first[slot.leg] = min(slot.day, first.get(slot.leg, slot.day))
    for leg, day in first.items():
        terms = _later(frame, leg, day)
        if terms:
            frame.builder.row(f"container/{leg}", terms, high=room)


def _later(frame: Frame, leg: int, first: int) -> list[Term]:
    days = {s.day: s.leg for s in frame.slots.values()}
    terms = [
        (o.eat, o.facts.ml) for options in frame.options.values() for o in options
        if o.slot.leg == leg and o.slot.day > first
    ]  # fmt: skip
    for bags in frame.bags.values():
        for b in bags:
            if days[b.bag.days[0]] == leg and b.bag.days[-1] > first:
                terms.append((b.column, b.facts.ml * b.bag.food.doses_per_pack))
    return terms


RULE = Rule(
    name="container",
    help="The food of the first night closes in the container.",
    rows=rows,
    bends=False,
)
