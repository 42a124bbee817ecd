"""`oatsack why PLAN.json ADDRESS`: how a number came about; or why a food is not on the menu."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path


def why(plan: Path, address: str = "totals/energy_kcal") -> int:
    """Open a number of a plan: formula, inputs with where they came from, source, how sure.

    Parameters
    ----------
    plan
        A plan.json.
    address
        Which number, as need/anna/2/energy_kcal. A wrong word names the right ones. Or a food that
        is not on the menu: "not energy-bar".
    """
    for line in _lines(plan, address):
        print(line)
    return 0


def _lines(plan: Path, address: str) -> Iterable[str]:
    from oatsack.desk.reading import read_plan

    if address.split(" ")[0].casefold() in ("not", "why"):  # another door, which loads the chooser
        from oatsack.desk import why_not
        from oatsack.desk.home import Home

        food = why_not.food_asked(address)
        if food is not None:
            return why_not.told(Home(read_plan(plan), plan), food)
    from oatsack.desk.whys import told

    return told(read_plan(plan), address)
