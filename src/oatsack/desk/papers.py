"""Which papers a plan needs, and writing them: two for one or two walkers, a set for groups."""

from __future__ import annotations

from pathlib import Path

from oatsack.desk.export import write_files
from oatsack.reports import render
from oatsack.reports.contents import CONTENTS, content_of
from oatsack.values.plan import Plan

FEW = ("shopping", "sheet")
"""What one or two walkers take along."""
MANY = ("shopping", "menu", "cards", "cook-cards", "labels", "tags", "carriers", "pack-out",
        "tally")  # fmt: skip
"""What a group takes along; boxes and the allergy sheet join where there are any."""


def papers_for(plan: Plan, *, everything: bool = False) -> tuple[str, ...]:
    """Names of the papers that this party needs, or of all that have something to say."""
    if everything:
        return tuple(c.name for c in CONTENTS if c.paper and holds(plan, c.name))
    few = len(plan.trip.walkers) <= 2
    wanted = (*FEW, "boxes") if few else (*MANY, "boxes", "allergy")
    return tuple(name for name in wanted if holds(plan, name))


def holds(plan: Plan, name: str) -> bool:
    """Whether a paper has anything to say of this plan."""
    if name == "boxes":
        return bool(plan.packed.boxes)
    if name == "allergy":
        return any(walker.avoids for walker in plan.trip.walkers)
    if name in ("kitchen", "cook-cards"):
        return bool(plan.kitchen.meals)
    return True


def print_papers(plan: Plan, folder: Path, *, only: tuple[str, ...] = (), everything: bool = False,
                 paper: str | None = None) -> tuple[Path, ...]:  # fmt: skip
    """Writes the papers as PDF and gives their paths. UsageError for a name that does not exist."""
    names = tuple(content_of(name).name for name in only) or papers_for(plan, everything=everything)
    size = paper or ("letter" if plan.trip.units == "us" else "a4")
    made = ((f"{name}.pdf", render(plan, name, "pdf", paper=size)) for name in names)
    return write_files(folder, made)
