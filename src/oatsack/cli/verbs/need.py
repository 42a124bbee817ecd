"""`oatsack need TRIP.toml`: what the days use and what is chosen to eat of it, without a menu."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Annotated

from oatsack.cli.option import option


def need(
    trip: Path, *, range_: Annotated[bool, option("--range")] = False, json: bool = False
) -> int:
    """Show what each day uses, low to high, by walker; nothing is chosen or bought.

    Parameters
    ----------
    trip
        The trip file (TOML).
    range_
        Draw the need ten thousand times and show where four draws in five lie.
    json
        Print the figures as JSON.
    """
    from oatsack.cli.screen import put
    from oatsack.desk.needing import as_json, need_of, told
    from oatsack.desk.opening import open_trip

    found = need_of(open_trip(trip), today=dt.datetime.now().astimezone().date())
    if json:
        print(as_json(found, drawn=range_))
    else:
        put(told(found, drawn=range_))
    return 0
