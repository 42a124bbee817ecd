"""`oatsack repack OLD.json NEW.json`: from the bags as packed to the bags as now planned."""

from __future__ import annotations

from pathlib import Path


def repack(old: Path, new: Path) -> int:
    """Print the shortest list of what to do at which bag, with new labels only where needed.

    Parameters
    ----------
    old
        The plan.json that was packed.
    new
        The plan.json that holds now.
    """
    from oatsack.desk.reading import read_plan
    from oatsack.desk.swapping import told_repack

    for line in told_repack(read_plan(old), read_plan(new)):
        print(line)
    return 0
