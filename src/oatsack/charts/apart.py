"""Labels on one line, moved apart where two would touch, each as near to its place as may be.

It knows widths and places along a line, not what is written there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """Labels that stand side by side without a gap, from the first to the last of them."""

    first: int
    wants: tuple[float, ...]
    """Where each would stand if it had the line for itself, its left end [px]."""
    widths: tuple[float, ...]

    @property
    def wide(self) -> float:
        """Width of all together [px]."""
        return sum(self.widths)

    def lefts(self, right: float) -> list[float]:
        """Left end of each: the whole row where the sum of squares moved is least, inside the
        line from 0 to `right` [px]."""
        before = [sum(self.widths[:k]) for k in range(len(self.widths))]
        best = sum(w - b for w, b in zip(self.wants, before, strict=True)) / len(self.wants)
        start = max(0.0, min(best, right - self.wide))
        return [start + b for b in before]


def side_by_side(centres: Sequence[float], widths: Sequence[float], right: float) -> list[Row]:
    """Rows of labels, given from left to right, that touch nowhere on a line from 0 to `right`
    [px], if they fit on it at all; most are alone."""
    out: list[Row] = []
    for k, (centre, width) in enumerate(zip(centres, widths, strict=True)):
        row = Row(k, (centre - width / 2.0,), (width,))
        while out and out[-1].lefts(right)[0] + out[-1].wide > row.lefts(right)[0]:
            last = out.pop()
            row = Row(last.first, last.wants + row.wants, last.widths + row.widths)
        out.append(row)
    return out
