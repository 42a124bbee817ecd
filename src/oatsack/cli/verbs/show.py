"""`oatsack show PLAN.json [REPORT]`: any report of a plan on the terminal."""

from __future__ import annotations

from pathlib import Path


def show(plan: Path, report: str = "first") -> int:
    """Show a report of a plan: first, plan, need, menu, shopping, bags, kitchen, container, ...

    Parameters
    ----------
    plan
        A plan.json.
    report
        Which report. A wrong word names the ones there are.
    """
    from oatsack.cli.screen import show as on_screen
    from oatsack.desk.reading import read_plan

    on_screen(read_plan(plan), report)
    return 0
