"""What cooks in a pot must fit in it: three quarters full with food."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, gathered
from oatsack.menu.rules.minutes import by_pot
from oatsack.values.pots import parties


def rows(frame: Frame) -> None:
    """Per group and hot meal: sum of room in the pot <= fill share x largest pot x batches."""
    fill = RULE.value(frame, "fill_share") * RULE.value(frame, "batches")
    largest = _largest_ml(frame)
    for (group, day, meal), options in by_pot(frame).items():
        room = fill * largest[group]
        terms = [(o.eat, frame.price(o.food, day).pot_ml) for o in options if o.food.prep.needs_pot]
        terms = [term for term in gathered(terms) if term[1] > 0]
        if terms:
            frame.builder.row(f"pot/{group}/{day}/{meal}", terms, high=room)


def _largest_ml(frame: Frame) -> dict[str, float]:
    """Cook group -> the largest pot that its members eat from [ml]."""
    pots = frame.request.kit.pots
    split = parties(pots, list(frame.walkers), [g.walkers for g in frame.groups])
    own = {w: part.pots for part in split for w in part.walkers}
    return {
        g.name: max((pots[i].volume_ml for i in own[g.walkers[0]]), default=0.0)
        for g in frame.groups
    }


RULE = Rule(
    name="pot",
    help="What is cooked in a pot fits in it.",
    rows=rows,
    gives_in="ml",
    in_trip=("kit.pots",),
    settings=(
        Setting(name="fill_share", unit="share", default=0.75, help="of the pot, with food in it"),
        Setting(name="batches", unit="", default=1.0, help="times the pot is filled"),
    ),
)
