"""Opens a number of a plan file for either door: the explanation as plain lines of text."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from typing import Any

from oatsack.cite import cite
from oatsack.errors import UnknownAddress, UnknownSource
from oatsack.reports.measures import measures_of
from oatsack.reports.words import Voice
from oatsack.values.plan import Plan
from oatsack.why import Explanation, Input, evaluate, why
from oatsack.why.tree import steps

SURE = {
    "given": "as it was given",
    "sum": "arithmetic",
    "model": "a published model; see the range beside it",
    "choice": "a choice, not a measurement",
    "prior": "a planning figure; your own measurement outranks it",
}
MOST_VALUES = 6
UNITS = (
    ("_kcal_kg", "kcal per kg a day"),
    ("_kcal_day", "kcal a day"), ("_kcal", "kcal"), ("_kj", "kJ"), ("_kg", "kg"), ("_g", "g"),
    ("_mg", "mg"), ("_ml", "ml"), ("_min", "min"), ("_h", "h"), ("_m", "m"), ("_pct", "%"),
    ("_c", "°C"),
)  # fmt: skip


def told(plan: Plan, address: str) -> tuple[str, ...]:
    """Lines for a person: the number, its formula, inputs with their origin, source, how sure."""
    voice = Voice(measures=measures_of(plan.trip.units, plan.trip.rules.currency))
    return tuple(_lines(why(plan, address), voice))


def counted_again(explanation: Explanation) -> float:
    """The number worked out again from the explanation's inputs."""
    from oatsack.why.functions import Remembered  # loads every model; showing needs none

    return evaluate(explanation, Remembered().functions())


def _lines(found: Explanation, voice: Voice) -> Iterator[str]:
    name = found.address.rsplit("/", 1)[-1]
    yield f"{found.address} = {shown(found.value)}{unit_of(name)}"
    yield f"  = {found.formula}"
    for name, given in found.inputs.items():
        yield f"  {name:<14} {brief(given)}"
    yield f"  source: {source_text(found.source)}"
    yield f"  how sure: {SURE[found.sure]}"
    yield from (f"  {voice.flag(flag)}" for flag in found.flags)


def unit_of(name: str) -> str:
    """The unit that a name ends with, with a blank before it."""
    return next((f" {unit}" for end, unit in UNITS if name.endswith(end)), "")


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
    for name, given in why(plan, address).inputs.items():
        try:
            why(plan, given.origin)
        except UnknownAddress:
            continue
        found.append((name, given.origin))
    return tuple(found)
