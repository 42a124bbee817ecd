"""Hot drinks by habit: as many as wanted each day, never more."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting


def rows(frame: Frame) -> None:
    """Per day: sum of chosen drinks = those wanted less those picked; too few costs grams."""
    for key, slot in frame.slots.items():
        options = [o for o in frame.options.get(key, ()) if o.food.role == "drink"]
        chosen = [(o.eat, 1.0) for o in options if o.use >= 0]
        if slot.meal != "drinks" or not chosen:
            continue
        wanted = frame.request.hot_drinks.get(slot.walker, {}).get(slot.day, 0.0)
        picked = sum(o.most for o in options if o.use < 0)
        left = max(0.0, float(round(wanted - picked)))
        where = f"{slot.walker}/{slot.day}"
        short = frame.slack(f"no-drink/{where}", RULE.value(frame, "grams") * frame.mean_carry)
        frame.builder.row(f"drinks/{where}", [*chosen, (short, 1.0)], low=left, high=left)


RULE = Rule(
    name="drinks",
    help="As many hot drinks a day as wanted.",
    rows=rows,
    hard=False,
    settings=(Setting(name="grams", unit="g", default=60.0, help="cost of a drink missing"),),
)
