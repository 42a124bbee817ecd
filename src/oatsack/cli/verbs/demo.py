"""`oatsack demo [DIR]`: the bundled trip, copied out and provisioned."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from oatsack.cli.screen import say
from oatsack.reports.words import say as told


def demo(folder: Path = Path("demo")) -> int:
    """Copy the bundled trip out and provision it. Places and people are invented.

    Parameters
    ----------
    folder
        Where to put the trip, its track and the plan.
    """
    from oatsack.cli.verbs.plan import plan
    from oatsack.desk.export import folder_for, write_file

    folder_for(folder, option="oatsack demo FOLDER")
    source = files("oatsack") / "data" / "demo"
    for item in sorted(source.iterdir(), key=lambda entry: entry.name):
        if item.is_file():
            write_file(folder / item.name, item.read_bytes())
    say(told("cli.lies-in", file=folder / "trip.toml", folder=folder))
    return plan(folder / "trip.toml", out=folder)
