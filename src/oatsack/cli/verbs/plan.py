"""`oatsack plan TRIP.toml`: the whole job on the walker's own files."""

from __future__ import annotations

import datetime as dt
import sys
from dataclasses import replace
from pathlib import Path
from typing import Annotated

from oatsack.cli.option import option
from oatsack.cli.screen import follow, followed, say, show, stoppable


def plan(
    trip: Path,
    *,
    out: Annotated[Path | None, option("--out", "-o")] = None,
    target: str | None = None,
    order: str | None = None,
    near: Path | None = None,
    full: bool = False,
    json: bool = False,
    seed: int = 0,
    work: int = 1,
) -> int:
    """Provision a trip: menu, shopping, bags, fuel.

    Parameters
    ----------
    trip
        The trip file (TOML). `oatsack start` writes one.
    out
        A folder for plan.json, shopping.csv, bags.csv, the whole plan as text and the ribbon.
    target
        How much everyone eats on a full day: "2200 kcal", "75%" of the need, light or hungry.
    order
        What is made least, one after the other, as "load, price": load, mass, price, liking,
        minutes, rubbish, left-over or steps. Without it: all at once, by their weights.
    near
        An earlier plan.json to stay close to.
    full
        Show the whole plan, not only its first screen.
    json
        Print plan.json instead of the screen.
    seed
        Equal seeds give equal plans.
    work
        How long to look for a better menu: 1 is the everyday amount, 5 is worth a coffee.
    """
    from oatsack.desk.export import folder_for, write_out
    from oatsack.desk.log import note
    from oatsack.desk.opening import open_trip
    from oatsack.desk.planning import make_plan, read_order, read_target, with_order
    from oatsack.desk.reading import read_plan
    from oatsack.files.planfile import dump

    opened = open_trip(trip)
    if order:
        opened = replace(opened, trip=with_order(opened.trip, read_order(order)))
    if out is not None:
        folder_for(out)  # before the work, not after it
    with stoppable() as going:
        made = make_plan(
            opened,
            today=dt.datetime.now().astimezone().date(),
            target=read_target(target) if target else None,
            near=read_plan(near) if near else None,
            seed=seed,
            work=work,
            progress=lambda menu: follow(menu) and going(),
        )
    followed()
    how = made.made
    note(f"{how.rounds} rounds, ended by {how.ended}, gap {how.gap:.3f}, {len(made.flags)} flags")
    if json:
        sys.stdout.write(dump(made).decode("utf-8"))
    else:
        show(made, "plan" if full else "first")
    if out is not None:
        for path in write_out(made, out, decimal=opened.decimal):
            say(f"wrote {path}")
    return 0 if made.valid else 1
