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
    from oatsack.values.menu import MenuRequest


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One point: its name, what it is judged by (liking from 1 to 5), how far it may be above the
    best possible, its text and its plan."""

    name: str
    mass_g: float
    price: float
    liking: float
    gap: float = 0.0
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
    from oatsack.menu.frontier import undominated

    found, plan, rows = _points(asked, hear)
    order = sorted(undominated(list({p.menu.portions: p for p in found}.values())),
                   key=lambda p: p.mass_g)  # fmt: skip
    return tuple(_made(asked, plan, point, rows) for point in order)


def ten(asked: Choosing, hear: Hear) -> tuple[Choice, ...]:
    """Every point, from light to cheap to loved. Raises NoPlan, and Left when nobody waits."""
    found, plan, rows = _points(asked, hear)
    return tuple(_made(asked, plan, point, rows) for point in found)


def along(asked: Choosing, hear: Hear) -> tuple[Choice, ...]:
    """The plans along the energy dial, from little to much, for what they weigh and cost: `text` is
    the trip's as it is. Raises NoPlan, and Left when nobody waits."""
    from oatsack.menu.along import along_the_dial
    from oatsack.solve.highs import solve

    plan, rows, question = questioned(asked)
    found = along_the_dial(question, solve, known=plan.menu, seen=_Counted(hear))
    return tuple(
        _choice(asked, _dialled(plan, float(point.name.rstrip("%")) / 100.0), point,
                (asked.text, rows))
        for point in found
    )  # fmt: skip


def questioned(asked: Choosing) -> tuple[Plan, Mapping[str, Food], MenuRequest]:
    """The plan, the foods it may draw on, and the question that its menu answers."""
    from oatsack.desk.opening import open_trip
    from oatsack.larder.plausible import admitted
    from oatsack.provision.replanned import drafted

    plan = load(asked.plan)
    rows = {food.id: food for food in admitted(open_trip(asked.file, asked.text).foods)[0]}
    return plan, rows, drafted(plan, plan.menu, rows).asked


def _points(asked: Choosing, hear: Hear) -> tuple[list[Point], Plan, Mapping[str, Food]]:
    from oatsack.menu.frontier import frontier
    from oatsack.solve.highs import solve

    plan, rows, question = questioned(asked)
    return frontier(question, solve, known=plan.menu, seen=_Counted(hear)), plan, rows


class _Counted:
    """Tells each point as the best so far is told; ends the work when nobody waits, and stops at
    the points there are when they are enough."""

    def __init__(self, hear: Hear) -> None:
        self.hear, self.count = hear, 0

    def __call__(self, point: Point) -> bool:
        self.count += 1
        seen = Seen(count=self.count, mass_g=point.mass_g, price=point.price,
                    gap=point.menu.gap)  # fmt: skip
        going = self.hear(seen)
        if going is False:
            raise Left("left")
        return going != ENOUGH


def _made(asked: Choosing, plan: Plan, point: Point, rows: Mapping[str, Food]) -> Choice:
    """A point as a plan, with the weights it came from in the trip's text; aims in order go."""
    from oatsack.desk.edits import weighed
    from oatsack.files.trip import edit_trip
    from oatsack.menu.frontier import WEIGHTS

    weights = next(tuple(of) for name, *of in WEIGHTS if name == point.name)
    text = edit_trip(asked.text, weighed(asked.text, *weights))
    return _choice(asked, plan, point, (text, rows))


def _dialled(plan: Plan, share: float) -> Plan:
    """The plan with a share of what everybody was to eat, its menu as it was."""
    target = {w: {n: kcal * share for n, kcal in of.items()} for w, of in plan.target.items()}
    chosen = {w: replace(of, base_kcal=of.base_kcal * share, factor=of.factor * share)
              for w, of in plan.chosen.items()}  # fmt: skip
    return replace(plan, target=target, chosen=chosen)


def _choice(
    asked: Choosing, plan: Plan, point: Point, told: tuple[str, Mapping[str, Food]]
) -> Choice:  # fmt: skip
    from oatsack.desk.opening import digest, paced_as
    from oatsack.files.trip import parse_trip
    from oatsack.provision.replanned import replanned
    from oatsack.route.stops import with_stops

    text, rows = told
    hashes = {"trip": digest(text), "near": digest(asked.plan.decode("utf-8"))}
    trip = paced_as(parse_trip(text, asked.file.name), plan.trip)
    of = replace(plan, trip=with_stops(trip, plan.days))
    eaten = {p.food for p in (*point.menu.portions, *point.menu.spare)}
    made = replanned(of, point.menu, [rows[name] for name in sorted(eaten)], hashes=hashes,
                     searched=True)  # fmt: skip
    return Choice(name=point.name, mass_g=point.mass_g, price=point.price, liking=point.liking,
                  gap=point.menu.gap, text=text, plan=dump(made))  # fmt: skip
