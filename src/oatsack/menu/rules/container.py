"""The container must close on the first night of each leg; a safety rule that nothing bends.

Stated volumes fill a store only in part: soft bags nearly all of it, sealed things less. The spare
food lies in it too, and the wrappers of the first day. `packing/container` says how sure the
closing is; here its likely figure counts.
"""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, Term
from oatsack.values.food import Food


def rows(frame: Frame) -> None:
    """Per leg: room of everything eaten after the leg's first day, over the share that its form
    fills, and crushed wrappers of that day, <= room for food less room for the spare (C13, C16)."""
    room = frame.request.container_ml
    if room is None:
        return
    left = room - RULE.value(frame, "spare_ml_per_kcal") * sum(frame.request.spare_kcal.values())
    first: dict[int, int] = {}
    for slot in frame.slots.values():
        first[slot.leg] = min(slot.day, first.get(slot.leg, slot.day))
    for leg, day in first.items():
        terms = _later(frame, leg, day)
        if terms:
            terms += _wrappers(frame, leg, day)
            frame.builder.row(f"container/{leg}", terms, high=left)


def filled_share(frame: Frame, food: Food) -> float:
    """How much of the room it takes a food fills: all gives way but what stays sealed."""
    return RULE.value(frame, "sealed_share" if food.carry == "sealed" else "soft_share")


def _later(frame: Frame, leg: int, first: int) -> list[Term]:
    days = {s.day: s.leg for s in frame.slots.values()}
    terms = [
        (o.eat, o.facts.ml / filled_share(frame, o.food))
        for options in frame.options.values() for o in options
        if o.slot.leg == leg and o.slot.day > first
    ]  # fmt: skip
    for bags in frame.bags.values():
        for b in bags:
            if days[b.bag.days[0]] == leg and b.bag.days[-1] > first:
                whole = b.facts.ml * b.bag.food.doses_per_pack
                terms.append((b.column, whole / filled_share(frame, b.bag.food)))
    return terms


def _wrappers(frame: Frame, leg: int, first: int) -> list[Term]:
    ml_g = RULE.value(frame, "wrapper_ml_per_g")
    return [
        (o.eat, ml_g * o.facts.wrap_g)
        for options in frame.options.values() for o in options
        if o.slot.leg == leg and o.slot.day == first and o.facts.wrap_g > 0.0
    ]  # fmt: skip


RULE = Rule(
    name="container",
    help="The food of the first night closes in the container.",
    rows=rows,
    gives_in="ml",
    in_trip=("kit.containers", "kit.smellables"),
    bends=False,
    settings=(
        Setting(name="soft_share", unit="share", default=0.90, help="a soft bag fills of its room"),
        Setting(name="sealed_share", unit="share", default=0.70, help="a sealed thing fills of it"),
        Setting(name="wrapper_ml_per_g", unit="ml/g", default=10.0, help="crushed wrappers"),
        Setting(name="spare_ml_per_kcal", unit="ml/kcal", default=0.5, help="room of spare food"),
    ),
)
