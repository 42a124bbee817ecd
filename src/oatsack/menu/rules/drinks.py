"""Hot drinks by habit: as many as wanted each day, never more."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting
from oatsack.menu.usual import Key


def rows(frame: Frame) -> None:
    """Per day: sum of chosen drinks = those wanted less those picked; too few costs grams."""
    for key, slot in frame.slots.items():
        options = frame.options.get(key, [])
        chosen = [(o.eat, 1.0) for o in options if o.use >= 0 and o.food.role == "drink"]
        if slot.meal != "drinks" or not chosen:
            continue
        left = drinks_left(frame, key)
        where = f"{slot.walker}/{slot.day}"
        short = frame.slack(f"no-drink/{where}", RULE.value(frame, "grams") * frame.mean_carry)
        frame.builder.row(f"drinks/{where}", [*chosen, (short, 1.0)], low=left, high=left)


def drinks_left(frame: Frame, key: Key) -> float:
    """Hot drinks of a day that the walker has not picked or counted yet."""
    wanted = frame.request.hot_drinks.get(key[0], {}).get(key[1], 0.0)
    picked = [o for o in frame.options.get(key, ()) if o.use < 0]
    mugs = sum(o.most for o in picked if o.food.prep.kind == "boil")
    return max(0.0, float(round(wanted - mugs)))


RULE = Rule(
    name="drinks",
    help="As many hot drinks a day as wanted.",
    rows=rows,
    in_trip=("walkers.hot_drinks",),
    hard=False,
    settings=(Setting(name="grams", unit="g", default=60.0, help="cost of a drink missing"),),
)
