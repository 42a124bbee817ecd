"""`oatsack swap PLAN.json FOOD --for OTHER`: something else was on the shelf."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from oatsack.cli.option import option


def swap(
    plan: Path,
    food: str,
    *,
    for_: Annotated[str, option("--for")],
    out: Annotated[Path | None, option("--out", "-o")] = None,
) -> int:
    """Put another food in place of one: energy, sodium, water and allergens are checked again.

    Parameters
    ----------
    plan
        A plan.json.
    food
        The id of the food that is not to be had.
    for_
        The id of the food that takes its place.
    out
        A folder for the new plan and its papers.
    """
    from oatsack.cli.screen import say
    from oatsack.desk.export import write_out
    from oatsack.desk.home import Home
    from oatsack.desk.reading import read_plan
    from oatsack.desk.swapping import swapped_plan, told_swap

    home = Home(read_plan(plan), plan)
    found = swapped_plan(home.plan, food, for_, home.foods())
    for line in told_swap(found):
        print(line)
    if out is not None:
        for path in write_out(found.plan, out):
            say(f"wrote {path}")
    return 0 if found.plan.valid else 1
