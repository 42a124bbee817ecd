"""The published models as a document for a terminal: the shelf, or one model with its check values.

Facts are read from data/models.json, which `shelves` writes from the models themselves; a contract
test evaluates them again. So the shelf is shown without loading a model.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib.resources import files
from itertools import groupby
from typing import Any

from oatsack.cite import UNSOURCED, cite, key_of
from oatsack.errors import UsageError
from oatsack.reports.document import (
    Block,
    Bullets,
    Document,
    Heading,
    Para,
    Row,
    Table,
    cell,
    row,
    table,
)
from oatsack.reports.words import say

Facts = Mapping[str, Any]


@cache
def all_facts() -> Sequence[Facts]:
    """Every model as plain data, shelf after shelf."""
    text = (files("oatsack") / "data" / "models.json").read_text(encoding="utf-8")
    found: Sequence[Facts] = json.loads(text)
    return found


def named(name: str) -> Facts:
    """The model of a name. A UsageError names the ones there are."""
    for model in all_facts():
        if model["name"] == name.strip().casefold():
            return model
    known = ", ".join(model["name"] for model in all_facts())
    raise UsageError(f"there is no model {name!r}; there are: {known}")


def every() -> Document:
    """All models by shelf, with how their check values came out."""
    blocks: list[Block] = []
    for shelf, found in groupby(all_facts(), key=lambda model: str(model["shelf"])):
        models = list(found)
        blocks += [Heading(text=shelf.capitalize()), _shelf(shelf, models), *_ranges(models)]
    blocks.append(Para(text=say("models.more"), tone="quiet"))
    return Document(title=say("models.title"), blocks=tuple(blocks), name="models")


def _ranges(models: Sequence[Facts]) -> list[Block]:
    """Where each model of a shelf was measured."""
    told = tuple(
        say("models.measured", name=model["name"],
            ranges="; ".join(f"{name} {of['range']}" for name, of in model["validity"].items()))
        for model in models if model["validity"]
    )  # fmt: skip
    return [Para(text=say("models.range")), Bullets(items=told)] if told else []


def _shelf(shelf: str, models: Sequence[Facts]) -> Table:
    heads = [say("models.model"), ">" + say("models.met"), say("models.sources")]
    return table(heads, [_line(model) for model in models], caption=shelf.capitalize())


def _line(model: Facts) -> Row:
    met = sum(case["met"] for case in model["cases"])
    name = say("models.default", name=model["name"]) if model["default"] else model["name"]
    return row(name, cell(say("models.of", met=met, total=len(model["cases"])), met),
               "; ".join(model["sources"]))  # fmt: skip


def one(name: str) -> Document:
    """A model with its range, sources in full, and every check value beside what it gives."""
    model = named(name)
    ranges = (f"{n}: {of['range']} ({of['why']})" for n, of in model["validity"].items())
    blocks: list[Block] = [
        *([Para(text=model["notes"])] if model["notes"] else []),
        Heading(text=say("models.range")), Bullets(items=tuple(ranges)),
        Heading(text=say("models.checks")), _cases(model["cases"]),
        Heading(text=say("models.sources")), Bullets(items=tuple(_sources(model["sources"]))),
    ]  # fmt: skip
    title = say("models.one", name=model["name"], help=model["help"], unit=model["unit"])
    return Document(title=title, blocks=tuple(blocks), name="models")


def _cases(cases: Sequence[Facts]) -> Table:
    heads = [say("models.given"), ">" + say("models.expected"), ">" + say("models.got"),
             ">" + say("models.within"), "", say("models.stands")]  # fmt: skip
    return table(heads, [_case(case) for case in cases], caption=say("models.checks"))


def _case(case: Facts) -> Row:
    return row(
        ", ".join(f"{name} {_short(value)}" for name, value in case["arguments"].items()),
        cell(f"{case['expected']:g}", case["expected"]), cell(f"{case['got']:.6g}", case["got"]),
        cell(f"{case['within']:g}", case["within"]),
        say("models.met" if case["met"] else "models.missed"), case["source"],
    )  # fmt: skip


def _short(value: Any) -> str:
    return f"{value:.4g}" if isinstance(value, float) else str(value)


def _sources(sources: Sequence[str]) -> Iterator[str]:
    for source in sources:
        yield source if key_of(source) in UNSOURCED else f"{source}: {cite(source)}"
