"""Which papers go along: two sheets for one or two walkers, the set that a group needs.

`print_set` names them, `papers` makes one PDF of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from oatsack.errors import UsageError
from oatsack.reports.contents import CONTENTS, build
from oatsack.reports.telling import telling
from oatsack.values.plan import Plan


def print_set(plan: Plan, *, everything: bool = False) -> tuple[str, ...]:
    """The papers of a plan by name: what is used, and nothing that would stay empty."""
    useful = [c.name for c in CONTENTS if c.paper and _holds(plan, c.name)]
    if everything:
        return tuple(useful)
    if len(plan.trip.walkers) <= 2:
        wanted: tuple[str, ...] = ("shopping", "sheet")
    else:
        wanted = ("shopping", "menu", "labels", "tags", "carriers", "cook-cards", "allergy",
                  "pack-out", "tally")  # fmt: skip
    return tuple(name for name in (*wanted, "boxes") if name in useful)


def _holds(plan: Plan, name: str) -> bool:
    """Whether a paper would say anything for this plan."""
    if name == "boxes":
        return bool(plan.packed.boxes)
    if name == "allergy":
        return any(w.avoids for w in plan.trip.walkers)
    if name in ("kitchen", "cook-cards"):
        return bool(plan.kitchen.meals)
    return True


def papers(plan: Plan, only: Sequence[str] = (), *, everything: bool = False,
           paper: Literal["a4", "letter"] = "a4") -> bytes:  # fmt: skip
    """One PDF with the papers named, else those of `print_set`."""
    known = {c.name for c in CONTENTS if c.paper}
    for name in only:
        if name not in known:
            raise UsageError(f"there is no paper {name!r}; there are: {', '.join(sorted(known))}")
    from oatsack.reports.formats.pdf import render_many

    told = telling(plan)
    names = tuple(only) or print_set(plan, everything=everything)
    return render_many([build(told, name) for name in names], paper=paper)
