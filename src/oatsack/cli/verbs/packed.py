"""`oatsack packed PLAN.json`: it is packed, so other trips must not count on the same stock."""

from __future__ import annotations

from pathlib import Path


def packed(plan: Path, *, undo: bool = False) -> int:
    """Reserve what the plan takes from the stock at home, so that no other trip plans with it.

    Parameters
    ----------
    plan
        A plan.json; its trip file stands beside it or one folder up.
    undo
        Release it again.
    """
    from oatsack.desk.home import Home
    from oatsack.desk.reading import read_plan
    from oatsack.desk.reserving import told

    for line in told(Home(read_plan(plan), plan), undo=undo):
        print(line)
    return 0
