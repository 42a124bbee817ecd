"""`oatsack kitchen PLAN.json`: what to boil, burn, carry and drink, camp by camp."""

from __future__ import annotations

from pathlib import Path


def kitchen(plan: Path) -> int:
    """Show the kitchen's ledger of a plan: water, heat, fuel and minutes, camp by camp.

    Parameters
    ----------
    plan
        A plan.json.
    """
    from oatsack.cli.screen import show
    from oatsack.desk.reading import read_plan

    show(read_plan(plan), "kitchen")
    return 0
