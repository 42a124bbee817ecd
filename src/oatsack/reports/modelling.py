"""The published models as a document for a terminal: the shelf, or one model with its check values.

Facts come from `shelves`, which also writes the reference page; nothing is judged here anew.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
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
from oatsack.reports.shelves import SHELVES, Shelf, bounds, record
from oatsack.reports.words import say
from oatsack.values.model import Case, Model


@dataclass(frozen=True, slots=True)
class Found:
    """A model and the shelf on which it stands."""

    shelf: Shelf
    model: Model


def named(name: str) -> Found:
    """The model of a name. A UsageError names the ones there are."""
    for shelf in SHELVES:
        for model in shelf.models:
            if model.name == name.strip().casefold():
                return Found(shelf, model)
    known = ", ".join(model.name for shelf in SHELVES for model in shelf.models)
    raise UsageError(f"there is no model {name!r}; there are: {known}")


def every() -> Document:
    """All models by shelf, with how their check values came out."""
    blocks: list[Block] = []
    for shelf in SHELVES:
        blocks += [Heading(text=shelf.name.capitalize()), _shelf(shelf), *_ranges(shelf)]
    blocks.append(Para(text=say("models.more"), tone="quiet"))
    return Document(title=say("models.title"), blocks=tuple(blocks), name="models")


def _ranges(shelf: Shelf) -> list[Block]:
    """Where each model of a shelf was measured."""
    told = tuple(
        say("models.measured", name=model.name,
            ranges="; ".join(f"{name} {words}" for name, words, _ in bounds(model)))
        for model in shelf.models if model.validity
    )  # fmt: skip
    return [Para(text=say("models.range")), Bullets(items=told)] if told else []


def _shelf(shelf: Shelf) -> Table:
    rows = [_line(model, default=model is shelf.default) for model in shelf.models]
    heads = [say("models.model"), ">" + say("models.met"), say("models.sources")]
    return table(heads, rows, caption=shelf.name.capitalize())


def _line(model: Model, *, default: bool) -> Row:
    did = record(model)
    name = say("models.default", name=model.name) if default else model.name
    return row(name, cell(say("models.of", met=did.met, total=did.total), did.met),
               "; ".join(model.sources))  # fmt: skip


def one(name: str) -> Document:
    """A model with its range, sources in full, and every check value beside what it gives."""
    model = named(name).model
    blocks: list[Block] = [
        *([Para(text=model.notes)] if model.notes else []),
        Heading(text=say("models.range")),
        Bullets(items=tuple(f"{n}: {words} ({why})" for n, words, why in bounds(model))),
        Heading(text=say("models.checks")), _cases(model),
        Heading(text=say("models.sources")), Bullets(items=tuple(_sources(model))),
    ]  # fmt: skip
    title = say("models.one", name=model.name, help=model.help, unit=model.unit)
    return Document(title=title, blocks=tuple(blocks), name="models")


def _cases(model: Model) -> Table:
    heads = [say("models.given"), ">" + say("models.expected"), ">" + say("models.got"),
             ">" + say("models.within"), "", say("models.stands")]  # fmt: skip
    rows = [_case(*result) for result in model.check()]
    return table(heads, rows, caption=say("models.checks"))


def _case(case: Case, got: float, ok: bool) -> Row:
    return row(
        ", ".join(f"{name} {_short(value)}" for name, value in case.arguments.items()),
        cell(f"{case.expected:g}", case.expected), cell(f"{got:.6g}", got),
        cell(f"{case.tolerance:g}", case.tolerance), say("models.met" if ok else "models.missed"),
        case.source,
    )  # fmt: skip


def _short(value: Any) -> str:
    return f"{value:.4g}" if isinstance(value, float) else str(value)


def _sources(model: Model) -> Iterator[str]:
    for source in model.sources:
        yield source if key_of(source) in UNSOURCED else f"{source}: {cite(source)}"


def facts(found: Found) -> Mapping[str, Any]:
    """A model as plain data, check values evaluated now."""
    model = found.model
    return {
        "name": model.name, "shelf": found.shelf.name,
        "default": model is found.shelf.default, "unit": model.unit, "help": model.help,
        "sources": list(model.sources),
        "validity": {n: {"range": words, "why": why} for n, words, why in bounds(model)},
        "cases": [
            {"arguments": dict(case.arguments), "expected": case.expected, "got": got,
             "within": case.tolerance, "met": ok, "kind": case.kind, "source": case.source}
            for case, got, ok in model.check()
        ],
    }  # fmt: skip


def all_facts() -> list[Mapping[str, Any]]:
    """Every model as plain data."""
    return [facts(Found(shelf, model)) for shelf in SHELVES for model in shelf.models]
