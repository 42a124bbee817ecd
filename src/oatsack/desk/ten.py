"""What `choices` shows: a trip's ten menus and its dial, made from its plan, with their figures."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from oatsack.desk.choosing import Choice, Choosing, along, ten
from oatsack.desk.home import Home
from oatsack.desk.opening import open_trip
from oatsack.desk.planning import make_plan
from oatsack.desk.reading import read_plan
from oatsack.desk.solving import ENOUGH, Going, Seen
from oatsack.errors import UsageError
from oatsack.files.planfile import dump, load
from oatsack.menu.along import SHARES
from oatsack.menu.frontier import WEIGHTS
from oatsack.reports.choosing import Figures, document
from oatsack.reports.document import Document
from oatsack.reports.telling import telling
from oatsack.reports.words import say
from oatsack.values.plan import Plan

Told = Callable[[str], bool]
"""Is told how far the work is; False asks for no more."""
MOST = len(WEIGHTS) + len(SHARES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ten:
    """The plan that all began from, the ten choices, and those along the dial."""

    plan: Plan
    ten: tuple[Choice, ...]
    dial: tuple[Choice, ...]


def asked_of(path: Path, today: dt.date, progress: Callable[..., bool]) -> Choosing:
    """A plan file with the trip file near it, or a trip file with its plan, which is made first.
    Raises UsageError where a plan has no trip file near it."""
    if path.suffix == ".json":
        plan = read_plan(path)
        trip = Home(plan, path).trip_file
        if trip is None:
            raise UsageError(say("desk.name-trip-file", path=path))
    else:
        trip, plan = path, make_plan(open_trip(path), today=today, progress=progress)
    return Choosing(file=trip, text=trip.read_text("utf-8"), plan=dump(plan))


def worked_out(asked: Choosing, told: Told) -> Ten:
    """Ten menus and the dial, each told as it is found; what is there by then where it is asked
    to stop."""
    count, going = 0, True

    def hear(seen: Seen) -> Going:
        nonlocal count, going
        count += 1
        going = told(say("choices.seen", n=count, of=MOST, mass=seen.mass_g, price=seen.price,
                         gap=seen.gap))  # fmt: skip
        return True if going else ENOUGH

    found = ten(asked, hear)
    return Ten(plan=load(asked.plan), ten=found, dial=along(asked, hear) if going else ())


def figures_of(choice: Choice) -> Figures:
    """What a choice comes to."""
    t = load(choice.plan).totals
    return Figures(
        name=choice.name, mass_g=t.gross_g, price=choice.price, kg_days=t.kg_days,
        liking=choice.liking, cook_min_day=t.cook_minutes_day, rubbish_g=t.rubbish_g,
        energy_kcal=t.energy_kcal, gap=choice.gap,
    )  # fmt: skip


def told_of(found: Ten) -> Document:
    """Both tables."""
    return document(telling(found.plan), *(
        [figures_of(c) for c in some] for some in (found.ten, found.dial)
    ))  # fmt: skip


def as_values(found: Ten) -> dict[str, list[dict[str, object]]]:
    """Both tables as plain values."""
    return {
        name: [dataclasses.asdict(figures_of(c)) for c in some]
        for name, some in (("ten", found.ten), ("dial", found.dial))
    }


def named(choices: Sequence[Choice], name: str) -> Choice:
    """The choice of a name as the table or the figures say it. Raises UsageError that names them
    all."""
    words = {say(f"live.choice_{choice.name}"): choice for choice in choices}
    found = words.get(name) or next((c for c in choices if c.name == name), None)
    if found is None:
        raise UsageError(say("choices.no_name", name=name, known=", ".join(words)))
    return found


def lines_of(name: str) -> str:
    """What a trip file says to be planned with the weights of a menu."""
    load_, liking, price = next(tuple(of) for known, *of in WEIGHTS if known == name)
    return f"[rules.weights]\nload = {load_:g}\nliking = {liking:g}\nprice = {price:g}"
