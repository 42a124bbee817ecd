"""`oatsack kitchen PLAN.json`: what to boil, burn, carry and drink, camp by camp."""

from __future__ import annotations

from pathlib import Path


def kitchen(plan: Path, *, no_flame: bool = False, kit: bool = False) -> int:
    """Show the kitchen's ledger of a plan: water, heat, fuel and minutes, camp by camp.

    Both options together show both, one after the other.

    Parameters
    ----------
    plan
        A plan.json.
    no_flame
        The same bags without a flame: what is eaten cold, what soaks, what to swap.
    kit
        Pots and kit: how full, marks to measure by, what goes into the pot.
    """
    from oatsack.cli.screen import show
    from oatsack.desk.reading import read_plan

    read = read_plan(plan)
    if no_flame:
        from oatsack.desk.flameless import twins
        from oatsack.desk.home import Home

        foods = Home(read, plan).foods()
        show(read, "no-flame", twins=twins(read, foods.values()), larder=foods)
    if kit:
        show(read, "kit")
    if not (no_flame or kit):
        show(read, "kitchen")
    return 0
