"""`oatsack weigh PLAN.json BAG READING`: what the scale says of a bag."""

from __future__ import annotations

from pathlib import Path


def weigh(plan: Path, bag: str, reading: str) -> int:
    """Type the scale's reading of a bag; hear what explains a difference.

    Parameters
    ----------
    plan
        A plan.json.
    bag
        The number or the code on its label, or its name for one carried sealed.
    reading
        What the scale says: "452 g" or "1 lb".
    """
    from oatsack.desk.reading import read_plan
    from oatsack.desk.weighing import told

    for line in told(read_plan(plan), bag, reading):
        print(line)
    return 0
