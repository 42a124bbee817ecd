"""`oatsack why PLAN.json ADDRESS`: how a number came about."""

from __future__ import annotations

from pathlib import Path


def why(plan: Path, address: str = "totals/energy_kcal") -> int:
    """Open a number of a plan: formula, inputs with where they came from, source, how sure.

    Parameters
    ----------
    plan
        A plan.json.
    address
        Which number, as need/anna/2/energy_kcal. A wrong word names the right ones.
    """
    from oatsack.desk.reading import read_plan
    from oatsack.desk.whys import told

    for line in told(read_plan(plan), address):
        print(line)
    return 0
