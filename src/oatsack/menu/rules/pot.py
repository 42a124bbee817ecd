"""What cooks in a pot must fit in it: three quarters full with food."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, gathered
from oatsack.menu.rules.minutes import by_pot


def rows(frame: Frame) -> None:
    """Per group and hot meal: sum of room in the pot <= fill share x largest pot x batches."""
    pots = frame.request.kit.pots
    largest = max((p.volume_ml for p in pots), default=0.0)
    room = RULE.value(frame, "fill_share") * largest * RULE.value(frame, "batches")
    for (group, day, meal), options in by_pot(frame).items():
        terms = [(o.eat, frame.price(o.food, day).pot_ml) for o in options if o.food.prep.needs_pot]
        terms = [term for term in gathered(terms) if term[1] > 0]
        if terms:
            frame.builder.row(f"pot/{group}/{day}/{meal}", terms, high=room)


RULE = Rule(
    name="pot",
    help="What is cooked in a pot fits in it.",
    rows=rows,
    settings=(
        Setting(name="fill_share", unit="share", default=0.75, help="of the pot, with food in it"),
        Setting(name="batches", unit="", default=1.0, help="times the pot is filled"),
    ),
)
