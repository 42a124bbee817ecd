"""Lighter, cheaper, better liked: the same days with other weights, each a whole plan to be taken.

The points come from `menu.frontier`; each is made into a plan with its text, so that taking one
costs no further search. It takes several whole searches, so it is asked for, heard and left.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from oatsack.desk.solving import ENOUGH, Hear, Left, Seen
from oatsack.files.planfile import dump, load
from oatsack.values.plan import Plan

if TYPE_CHECKING:
    from oatsack.menu.frontier import Point
    from oatsack.values.food import Food


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One point: its name, what it is judged by (liking from 1 to 5), its text and its plan."""

    name: str
    mass_g: float
    price: float
    liking: float
    text: str = ""
    plan: bytes = b""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choosing:
    """What is asked: a plan, and its trip's text and file."""

    file: Path
    text: str
    plan: bytes


def yours(plan: Plan) -> Choice:
    """The plan as it stands, judged alike."""
    from oatsack.menu.frontier import judged

    mass, price, liking = judged(plan.menu, plan.foods, plan.trip.walkers)
    return Choice(name="yours", mass_g=mass, price=price, liking=liking)


def choices(asked: Choosing, hear: Hear) -> tuple[Choice, ...]:
    """Every undominated point, the lightest first. Raises NoPlan, and Left when nobody waits."""
    from oatsack.desk.opening import open_trip
    from oatsack.larder.plausible import admitted
    from oatsack.menu.frontier import frontier, undominated
    from oatsack.provision.replanned import drafted
    from oatsack.solve.highs import solve

    plan = load(asked.plan)
    rows = {food.id: food for food in admitted(open_trip(asked.file, asked.text).foods)[0]}
    told = _Counted(hear)
    points = frontier(drafted(plan, plan.menu, rows).asked, solve, seen=told)
    found = undominated(list({p.menu.portions: p for p in points}.values()))
    order = sorted(found, key=lambda p: p.mass_g)
    return tuple(_made(asked, plan, point, rows) for point in order)


class _Counted:
    """Tells each point as the best so far is told; ends the work when nobody waits, and stops at
    the points there are when they are enough."""

    def __init__(self, hear: Hear) -> None:
        self.hear, self.count = hear, 0

    def __call__(self, point: Point) -> bool:
        self.count += 1
        seen = Seen(count=self.count, mass_g=point.mass_g, price=point.price, gap=0.0)
        going = self.hear(seen)
        if going is False:
            raise Left("left")
        return going != ENOUGH


def _made(asked: Choosing, plan: Plan, point: Point, rows: Mapping[str, Food]) -> Choice:
    """A point as a plan, with the weights it came from in the trip's text."""
    from oatsack.desk.opening import digest, paced_as
    from oatsack.files.trip import edit_trip, parse_trip
    from oatsack.menu.frontier import WEIGHTS
    from oatsack.provision.replanned import replanned
    from oatsack.route.stops import with_stops

    load_, liking, price = next(tuple(of) for name, *of in WEIGHTS if name == point.name)
    weights = {"load": load_, "liking": liking, "price": price}
    text = edit_trip(asked.text, {f"rules.weights.{k}": w for k, w in weights.items()})
    hashes = {"trip": digest(text), "near": digest(asked.plan.decode("utf-8"))}
    trip = paced_as(parse_trip(text, asked.file.name), plan.trip)
    of = replace(plan, trip=with_stops(trip, plan.days))
    eaten = {p.food for p in (*point.menu.portions, *point.menu.spare)}
    made = replanned(of, point.menu, [rows[name] for name in sorted(eaten)], hashes=hashes)
    return Choice(name=point.name, mass_g=point.mass_g, price=point.price, liking=point.liking,
                  text=text, plan=dump(made))  # fmt: skip
