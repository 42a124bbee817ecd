"""A document in a terminal: width-aware tables and folded sentences, quiet colours.

Colour is never the only cue: loud notes carry a word or a sign before them. Without colour the
text is plain, so that a pipe gets no escape signs.
"""

from __future__ import annotations

import io
from collections.abc import Sequence

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table as Grid
from rich.text import Text

from oatsack.reports.document import (
    Block,
    Break,
    Bullets,
    Card,
    Cards,
    Column,
    Document,
    Facts,
    Fold,
    Heading,
    Note,
    Para,
    Picture,
    Table,
)
from oatsack.reports.words import say

STYLES = {"plain": "", "quiet": "dim", "strong": "bold"}
GAP = 2
NOTE_STYLES = {"note": "dim", "quiet": "", "caution": "bold yellow", "block": "bold red"}


def render(document: Document, *, width: int = 80, colour: bool = False) -> bytes:
    """The document as UTF-8 text for a terminal of so many columns."""
    out = io.StringIO()
    console = Console(
        file=out, width=width, force_terminal=colour, no_color=not colour, highlight=False,
        markup=False, emoji=False, legacy_windows=False,
        color_system="standard" if colour else None,
    )  # fmt: skip
    console.print(Text(document.title, style="bold"))
    if document.subtitle:
        console.print(Text(document.subtitle, style="dim"))
    for block in document.blocks:
        for part in _block(block, width):
            console.print(part)
    lines = [line.rstrip() for line in out.getvalue().splitlines()]
    return ("\n".join(_single_blanks(lines)) + "\n").encode()


def _single_blanks(lines: Sequence[str]) -> list[str]:
    kept: list[str] = []
    for line in lines:
        if line or (kept and kept[-1]):
            kept.append(line)
    while kept and not kept[-1]:
        kept.pop()
    return kept


def _block(block: Block, width: int) -> list[RenderableType]:
    match block:
        case Heading():
            style = "bold" if block.level == 1 else "underline"
            return ["", Text(block.text, style=style)]
        case Para():
            return [Text(block.text, style=STYLES[block.tone])]
        case Bullets():
            return [_list(block)]
        case Note():
            return [_note(block)]
        case Table():
            return ["", _table(block, width)]
        case Facts():
            return ["", _facts(block)]
        case _:
            return _compound(block, width)


def _compound(block: Block, width: int) -> list[RenderableType]:
    match block:
        case Picture():
            return [
                Text(block.text, style="dim"),
                *([_table(block.table, width)] if block.table else []),
            ]
        case Cards():
            return [part for card in block.cards for part in _card(card, width)]
        case Fold():
            inner = [part for b in block.blocks for part in _block(b, width)]
            return ["", Text(block.title, style="bold dim"), *inner]
        case Break():
            return [""]
    return []


def _list(block: Bullets) -> Grid:
    grid = Grid.grid(padding=(0, 1))
    grid.add_column(no_wrap=True)
    grid.add_column(overflow="fold")
    for item in block.items:
        grid.add_row("[ ]" if block.ticks else "-", item)
    return grid


def _note(note: Note) -> Text:
    text = say(f"level.{note.level}", text=note.text)
    return Text(text, style=NOTE_STYLES[note.level])


def _facts(facts: Facts) -> Grid:
    grid = Grid.grid(padding=(0, 1))
    grid.add_column(no_wrap=True, style="bold")
    grid.add_column(overflow="fold")
    before = ""
    for name, text in facts.pairs:
        grid.add_row("" if name == before else name, text)
        before = name
    return grid


def _table(table: Table, width: int) -> RenderableType:
    if least_width(table) > width:
        return _stacked(table)
    headed = any(column.title for column in table.columns)
    grid = Grid(box=None, show_header=headed, header_style="dim", padding=(0, 2, 0, 0),
                pad_edge=False)  # fmt: skip
    for column in table.columns:
        _column(grid, column)
    for line in table.rows:
        texts = [
            Text("[ ]" if column.align == "tick" and line.kind == "row" else c.text,
                 style=STYLES[c.tone])
            for column, c in zip(table.columns, line.cells, strict=True)
        ]  # fmt: skip
        grid.add_row(*texts, style="" if line.kind == "row" else "bold")
    return grid


def least_width(table: Table) -> int:
    """Columns of the terminal below which a table would lose figures or part words."""
    least = 0
    for i, column in enumerate(table.columns):
        texts = [column.title, *(r.cells[i].text for r in table.rows)]
        parts = texts if column.align == "right" else [w for t in texts for w in t.split()]
        least += min(max(map(len, parts), default=0), 24) + GAP
    return least - GAP


def _stacked(table: Table) -> Grid:
    """A table too wide for the terminal: row after row, each figure beside its title."""
    grid = Grid.grid(padding=(0, 1))
    grid.add_column(style="dim")
    grid.add_column(overflow="fold")
    for n, line in enumerate(table.rows):
        if n:
            grid.add_row("", "")
        for column, c in zip(table.columns, line.cells, strict=True):
            if c.text or (column.title and line.kind == "row"):
                grid.add_row(column.title, Text(c.text, style=STYLES[c.tone]))
    return grid


def _column(grid: Grid, column: Column) -> None:
    right = column.align == "right"
    grid.add_column(column.title, justify="right" if right else "left", no_wrap=right,
                    overflow="fold")  # fmt: skip


def _card(card: Card, width: int) -> list[RenderableType]:
    head = f"{card.title}  {card.mark}".rstrip()
    inner = [part for block in card.blocks for part in _block(block, width - 2) if part != ""]
    parts: list[RenderableType] = ["", Text(head, style="bold")]
    parts += [Padding(part, (0, 0, 0, 2)) for part in inner]
    if card.allergens:
        parts.append(Padding(Text(card.allergens, style="bold"), (0, 0, 0, 2)))
    if card.foot:
        parts.append(Padding(Text(card.foot, style="dim"), (0, 0, 0, 2)))
    return parts
