"""One main carries a breakfast or a dinner; a lunch has at most one and is never empty."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule
from oatsack.menu.unserved import without_main
from oatsack.menu.usual import Key


def rows(frame: Frame) -> None:
    """Sum of mains = 1 (breakfast, dinner) or <= 1 (elsewhere); lunch holds something."""
    dishes: set[frozenset[int]] = set()
    for key, options in frame.options.items():
        if key in frame.given.whole:
            continue
        mains = [(o.use, 1.0) for o in options if o.food.role == "main" and o.use >= 0]
        columns = frozenset(c for c, _ in mains)
        if mains and columns not in dishes:
            dishes.add(columns)
            low = 1.0 if key[2] in ("breakfast", "dinner") else 0.0
            frame.builder.row(f"mains/{'/'.join(map(str, key))}", mains, low=low, high=1.0)
        if key[2] == "lunch":
            _something(frame, key)
    frame.given.flags += without_main(frame)


def _something(frame: Frame, key: Key) -> None:
    solid = [o for o in frame.options[key] if o.food.role in ("main", "side", "snack")]
    if solid and not any(o.use < 0 for o in solid):
        name = f"mains/something/{'/'.join(map(str, key))}"
        frame.builder.row(name, [(o.use, 1.0) for o in solid], low=1.0)


RULE = Rule(
    name="mains",
    help="A breakfast and a dinner have one main dish, a lunch has something to bite.",
    rows=rows,
)
