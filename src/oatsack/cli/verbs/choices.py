"""`oatsack choices TRIP.toml`: lighter, cheaper, better liked, and the dial from low to high."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Annotated

from oatsack.cli.option import option


def choices(
    trip: Path,
    *,
    take: str | None = None,
    out: Annotated[Path | None, option("--out", "-o")] = None,
    json: bool = False,
) -> int:
    """Show ten menus from light to cheap to loved, and what eating less or more would come to.

    Parameters
    ----------
    trip
        A trip file (TOML), planned first, or a plan.json with its trip file beside it.
    take
        The name of a menu to keep, as the table says it: "best liked".
    out
        A folder for the plan of the menu to keep and its papers.
    json
        Print the figures as JSON.
    """
    from oatsack.cli.screen import follow, followed, line, put, say, stoppable
    from oatsack.desk.export import write_out
    from oatsack.desk.ten import as_values, asked_of, lines_of, named, told_of, worked_out
    from oatsack.files.planfile import load
    from oatsack.reports.words import say as words

    def told(text: str) -> bool:
        line(text)
        return going()

    with stoppable() as going:
        today = dt.datetime.now().astimezone().date()
        asked = asked_of(trip, today, lambda menu: follow(menu) and going())
        found = worked_out(asked, told)
    followed()
    if json:
        from json import dumps

        print(dumps(as_values(found), indent=1, ensure_ascii=False))
    else:
        put(told_of(found))
    if take is not None:
        kept = named(found.ten, take)
        say(f"{words('choices.write')}\n{lines_of(kept.name)}")
        for path in write_out(load(kept.plan), out) if out else ():
            say(f"wrote {path}")
    return 0
