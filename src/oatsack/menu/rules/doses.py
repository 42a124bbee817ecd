"""Whole doses: a food that is taken at all is taken in a sensible amount."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule


def rows(frame: Frame) -> None:
    """least x use <= eat <= most x use, for every portion with a column of its own."""
    row = frame.builder.row
    for options in frame.options.values():
        for o in options:
            if o.use < 0 or o.use == o.eat:
                continue
            where = frame.builder.columns[o.eat].removeprefix("eat/")
            row(f"doses/most/{where}", [(o.eat, 1.0), (o.use, -o.most)], high=0.0)
            row(f"doses/least/{where}", [(o.eat, 1.0), (o.use, -o.least)], low=0.0)


RULE = Rule(
    name="doses",
    help="A food is taken in whole doses and in an amount that makes a portion.",
    rows=rows,
    bends=False,
)
