"""The energy dial prepared ahead: each walker's plan a few steps more and less, ready to be taken.

Every place of the dial is a whole plan (whole things added or taken, dinners still, see
`provision.dialled`), so that turning shows at once what it would weigh, cost and leave behind.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from oatsack.desk.edits import turned
from oatsack.desk.solving import ENOUGH, Hear, Seen
from oatsack.files.planfile import dump, load
from oatsack.values.plan import Plan

STEP_KCAL = 150.0
STEPS = (-4, -3, -2, -1, 1, 2, 3, 4)
"""Places of the dial beside where it stands; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What turning shows: energy a full day and in all, mass on the backs at the start and of all
    food with its wrapping, price, kg-days, cooking a day, rubbish, portions that differ."""

    base_kcal: float
    energy_kcal: float
    start_kg: float
    gross_g: float
    price: float | None
    kg_days: float
    cook_min: float
    rubbish_g: float
    moved: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One place of one walker's dial."""

    walker: str
    step: int
    text: str
    plan: bytes
    figures: Figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """What is asked: a plan with its trip's text, and which places of whose dial."""

    file: Path
    text: str
    plan: bytes
    places: tuple[tuple[str, int], ...]


def figures_of(plan: Plan, walker: str) -> Figures:
    """The figures of a plan, `base_kcal` those of one walker."""
    t = plan.totals
    return Figures(
        base_kcal=plan.chosen[walker].base_kcal, energy_kcal=t.energy_kcal, start_kg=t.start_kg,
        gross_g=t.gross_g, price=t.price,
        kg_days=t.kg_days, cook_min=t.cook_minutes_day, rubbish_g=t.rubbish_g,
        moved=plan.menu.moved or 0,
    )  # fmt: skip


def places_of(walker: str) -> tuple[tuple[str, int], ...]:
    """Every place of a walker's dial, least first."""
    return tuple((walker, step) for step in STEPS)


def turns(asked: Dial, hear: Hear) -> tuple[Turn, ...]:
    """The plans at these places; `hear` is asked between them whether anyone still waits."""
    return tuple(_turns(asked, load(asked.plan), hear))


def _turns(asked: Dial, plan: Plan, hear: Hear) -> Iterator[Turn]:
    from oatsack.files.trip import edit_trip

    for count, (walker, step) in enumerate(asked.places):
        if hear(Seen(count=count, mass_g=0.0, price=0.0, gap=0.0)) in (False, ENOUGH):
            return
        changes = turned(plan, {walker: step * STEP_KCAL})
        yield _turn(asked, plan, edit_trip(asked.text, changes), (walker, step))


def _turn(asked: Dial, plan: Plan, text: str, place: tuple[str, int]) -> Turn:
    from oatsack.desk.opening import digest, paced_as
    from oatsack.files.trip import parse_trip
    from oatsack.provision.dialled import dialled

    walker, step = place
    hashes = {"trip": digest(text), "near": digest(asked.plan.decode("utf-8"))}
    trip = paced_as(parse_trip(text, asked.file.name), plan.trip)
    found = dialled(plan, trip, walker, hashes=hashes)
    return Turn(walker=walker, step=step, text=text, plan=dump(found),
                figures=figures_of(found, walker))  # fmt: skip
