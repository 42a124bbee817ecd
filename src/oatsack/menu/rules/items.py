"""A meal is a few things, not a dozen: at most so many different foods at once."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting


def rows(frame: Frame) -> None:
    """Sum of use over a meal, open bags counted at the move, is at most the setting."""
    for key in frame.slots:
        if key in frame.given.whole:
            continue
        options = frame.options.get(key, [])
        terms = [(o.use, 1.0) for o in options if o.use >= 0]
        picked = sum(1 for o in options if o.why in ("usual", "held"))
        if key[2] == "move":
            bags = frame.day_bags(key[0], key[1])
            terms += [(b.column, 1.0) for b in bags if not b.fixed]
            picked += sum(1 for b in bags if b.fixed)
        most = max(1.0, RULE.value(frame, key[2]) - picked)
        if len(terms) > most:
            frame.builder.row(f"items/{'/'.join(map(str, key))}", terms, high=most)


def _setting(meal: str, most: float) -> Setting:
    return Setting(name=meal, unit="", default=most, help=f"different foods at {meal}")


RULE = Rule(
    name="items",
    help="At most so many different foods at one meal.",
    rows=rows,
    settings=(
        _setting("breakfast", 3.0), _setting("lunch", 4.0), _setting("move", 5.0),
        _setting("dinner", 4.0), _setting("drinks", 4.0),
    ),
)  # fmt: skip
