"""Opens a number of a plan file for either door: the explanation as plain lines of text."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from oatsack.cite import cite
from oatsack.errors import OatsackError, UnknownAddress, UnknownSource
from oatsack.files.upgrades import LIFTED
from oatsack.reports.measures import measures_of
from oatsack.reports.words import Voice, say
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.why import Explanation, Input, evaluate, why
from oatsack.why.tree import portions_at, steps

MOST_VALUES = 6
UNITS = (
    ("_kcal_kg", "why.unit-kcal-kg"),
    ("_kcal_day", "why.unit-kcal-day"), ("_kcal", "kcal"), ("_kj", "kJ"), ("_kg", "kg"),
    ("_g", "g"), ("_mg", "mg"), ("_ml", "ml"), ("_min", "min"), ("_h", "h"), ("_m", "m"),
    ("_pct", "%"), ("_c", "°C"),
)  # fmt: skip
"""The end of a value's name, and its unit: a sign that is the same everywhere, or a key."""


def told(plan: Plan, address: str) -> tuple[str, ...]:
    """Lines for a person: the number, its formula, inputs with their origin, source, how sure.

    A choice is also told by its place: ``menu/anna/2/dinner``; ``timeline/*/1-09/pack_kg`` is what
    everyone has in that hour, the mean of them first.
    """
    more = _larder(plan) if address.startswith("menu/") else ()
    voice = Voice(
        measures=measures_of(plan.trip.units, plan.trip.rules.currency),
        foods={**plan.names, **{f.id: f.name for f in (*more, *plan.foods.values())}},
        walkers={walker.id: walker.name for walker in plan.trip.walkers},
    )
    places = portions_at(plan, address) or everyone(plan, address)
    found = [why(plan, place, larder=more) for place in places]
    return (
        *(_mean(found, voice) if EVERYONE in address else ()),
        *(line for one in found for line in _lines(one, voice, plan)),
    )


EVERYONE = "/*/"
"""Stands in an address for each walker in turn."""


def everyone(plan: Plan, address: str) -> tuple[str, ...]:
    """The addresses of all walkers where one stands for them; else the address itself."""
    head, star, rest = address.partition(EVERYONE)
    if not star or head != "timeline":
        return (address,)
    return tuple(f"{head}/{walker}/{rest}" for walker in plan.timeline)


def _mean(found: Sequence[Explanation], voice: Voice) -> tuple[str]:
    """The mean of several numbers, before each is opened."""
    mean = sum(one.value for one in found) / len(found)
    unit = unit_of(found[0].address.rsplit("/", 1)[-1])
    return (voice.say("why.mean", n=len(found), value=f"{shown(mean)}{unit}"),)


def _larder(plan: Plan) -> tuple[Food, ...]:
    """The bundled larder where the trip eats from it; a file of one's own may have changed."""
    if plan.trip.larders:
        return ()
    from oatsack.files.larder import bundled  # read only where a choice is opened
    from oatsack.larder.plausible import admitted

    return tuple(admitted(bundled())[0])


def counted_again(explanation: Explanation) -> float:
    """The number worked out again from the explanation's inputs."""
    from oatsack.why.functions import Remembered  # loads every model; showing needs none

    return evaluate(explanation, Remembered().functions())


def _lines(found: Explanation, voice: Voice, plan: Plan) -> Iterator[str]:
    name = found.address.rsplit("/", 1)[-1]
    yield from _portion_line(found.address, voice, plan)
    yield f"{found.address} = {shown(found.value)}{unit_of(name)}"
    yield f"  = {found.formula}"
    for name, given in found.inputs.items():
        yield f"  {name:<14} {brief(given)}"
    yield f"  {voice.say('why.source', source=source_text(found.source))}"
    yield f"  {voice.say('why.sure', sure=voice.say(f'why.sure-{found.sure}'))}"
    yield from _counted_today(found, voice, plan)
    yield from (f"  {voice.flag(flag)}" for flag in found.flags)


def _counted_today(found: Explanation, voice: Voice, plan: Plan) -> Iterator[str]:
    """Of a plan of an older format: what today's formula gives where that differs."""
    if not any(flag.key == LIFTED for flag in plan.flags):
        return
    try:
        again = counted_again(found)
    except OatsackError:
        yield f"  {voice.say('why.not-counted')}"
        return
    if not math.isclose(again, found.value, rel_tol=1e-9, abs_tol=1e-9):
        yield f"  {voice.say('why.counted-today', value=shown(again))}"


def _portion_line(address: str, voice: Voice, plan: Plan) -> Iterator[str]:
    """What is eaten there, before its doses are opened."""
    words = address.split("/")
    if words[:2] == ["menu", "portions"] and words[-1] == "doses":
        portion = plan.menu.portions[int(words[2])]
        yield voice.say("why.portion", walker=portion.walker, day=portion.day, meal=portion.meal,
                        food=portion.food, doses=portion.doses,
                        dose=plan.foods[portion.food].dose_name)  # fmt: skip


def unit_of(name: str) -> str:
    """The unit that a name ends with, with a blank before it."""
    unit = next((unit for end, unit in UNITS if name.endswith(end)), "")
    return f" {say(unit) if unit.startswith('why.') else unit}" if unit else ""


def source_text(source: str) -> str:
    """The full citation, or the word that stands for itself."""
    try:
        return cite(source)
    except UnknownSource:
        return source


def shown(value: float) -> str:
    """A number in at most six digits."""
    return f"{value:,.6g}" if abs(value) < 999_999.5 else f"{value:,.0f}"


def brief(given: Input) -> str:
    """An input in one line: its value if it is short, its origin always."""
    value: Any = given.value
    if isinstance(value, bool | str) or value is None:
        return f"{value}  ({given.origin})"
    if isinstance(value, int | float):
        return f"{shown(float(value))}  ({given.origin})"
    if isinstance(value, tuple) and all(isinstance(v, int | float) for v in value):
        first = ", ".join(shown(float(v)) for v in value[:MOST_VALUES])
        more = f", ... {len(value)} in all" if len(value) > MOST_VALUES else ""
        return f"[{first}{more}]  ({given.origin})"
    if dataclasses.is_dataclass(value) or isinstance(value, Mapping):
        return f"{{{', '.join(n for n, _ in list(steps(value))[:MOST_VALUES])}}}  ({given.origin})"
    return f"({given.origin})"


def inputs_at(plan: Plan, address: str) -> tuple[tuple[str, str], ...]:
    """Inputs of an explanation that can be opened themselves: name and address."""
    found = []
    inputs = (why(plan, one).inputs.items() for one in everyone(plan, address))
    for name, given in (pair for pairs in inputs for pair in pairs):
        try:
            why(plan, given.origin)
        except UnknownAddress:
            continue
        found.append((name, given.origin))
    return tuple(found)
