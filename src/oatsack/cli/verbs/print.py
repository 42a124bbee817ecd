"""`oatsack print PLAN.json`: the paper that goes along."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from oatsack.cli.option import option
from oatsack.cli.screen import say


def print_(
    plan: Path,
    *,
    only: str | None = None,
    all: Annotated[bool, option("--all")] = False,
    paper: Literal["a4", "letter"] | None = None,
    out: Annotated[Path | None, option("--out", "-o")] = None,
) -> int:
    """Write the paper: for one or two walkers the shopping list and one sheet.

    Parameters
    ----------
    plan
        A plan.json.
    only
        Papers by name, with commas: "labels,cards".
    all
        Every paper there is.
    paper
        a4 or letter; by default what suits the trip's units.
    out
        The folder; by default where the plan lies.
    """
    from oatsack.desk.papers import print_papers
    from oatsack.desk.reading import read_plan

    names = tuple(filter(None, map(str.strip, (only or "").split(","))))
    made = read_plan(plan)
    for path in print_papers(made, out or plan.parent, only=names, everything=all, paper=paper):
        say(f"wrote {path}")
    return 0
