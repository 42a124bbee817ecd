"""`oatsack backup [FOLDER]`: a whole copy of the workspace."""

from __future__ import annotations

import datetime as dt
from pathlib import Path


def backup(folder: Path = Path()) -> int:
    """Copy the workspace of a folder, also while pages are open on it.

    Parameters
    ----------
    folder
        The folder that `oatsack serve` was given.
    """
    from oatsack.desk.keeping import copied

    print(copied(folder, dt.datetime.now().astimezone()))
    return 0
