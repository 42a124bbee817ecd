"""A copy of a folder's workspace, named by when it was made."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from oatsack.errors import UsageError
from oatsack.reports.words import say
from oatsack.store.workspace import FILE, Workspace


def copied(folder: Path, now: dt.datetime) -> Path:
    """The path of the copy. Raises UsageError where there is no workspace."""
    if not (folder / FILE).is_file():
        raise UsageError(say("desk.no-workspace", folder=folder))
    return Workspace(folder).backup(folder / f"oatsack-{now:%Y%m%d-%H%M%S}.sqlite")
