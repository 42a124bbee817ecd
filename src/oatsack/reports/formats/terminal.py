"""A document in a terminal: width-aware tables and folded sentences, quiet colours.

Colour is never the only cue: loud notes carry a word before them. Without colour the text is
plain, so that a pipe gets no escape signs. A table wider than the terminal is told row by row.
"""

from __future__ import annotations

from collections.abc import Iterable

from oatsack.reports.document import (
    Block,
    Bullets,
    Card,
    Cards,
    Cell,
    Document,
    Facts,
    Fold,
    Heading,
    Note,
    Para,
    Picture,
    Row,
    Table,
    bound,
)
from oatsack.reports.formats.layout import Line, Piece, fold, joined, side_by_side, wide, widths
from oatsack.reports.words import say

TONES = {"plain": "", "quiet": "dim", "strong": "bold"}
LEVELS = {"note": "dim", "quiet": "", "caution": "yellow", "block": "red"}
GAP = 2
LONGEST = 24
"""Signs of one word beyond which it may be parted rather than widen its column."""


def render(document: Document, *, width: int = 80, colour: bool = False) -> bytes:
    """The document as UTF-8 text for a terminal of so many columns."""
    lines = [*_text(document.title, "bold", width), *_text(document.subtitle, "dim", width)]
    lines += blocks_lines(document.blocks, width)
    return joined(lines, colour=colour).encode()


def blocks_lines(blocks: Iterable[Block], width: int) -> list[Line]:
    """The lines of blocks, one after the other."""
    return [line for block in blocks for line in _block(block, width)]


def _text(text: str, style: str, width: int) -> list[Line]:
    return [(Piece(line, style),) for line in fold(bound(text), width)] if text else []


BLANK: Line = ()


def _block(block: Block, width: int) -> list[Line]:
    match block:
        case Heading():
            return [BLANK, *_text(block.text, "bold" if block.level == 1 else "underline", width)]
        case Para():
            return _text(block.text, TONES[block.tone], width)
        case Bullets():
            mark = "[\N{NO-BREAK SPACE}]" if block.ticks else "-"
            return [line for item in block.items for line in _pair(mark, item, len(mark), width)]
        case Note():
            return _text(say(f"level.{block.level}", text=block.text), LEVELS[block.level], width)
        case Table():
            return [BLANK, *table_lines(block, width)]
        case Facts():
            return [BLANK, *_facts(block, width)]
        case _:
            return _compound(block, width)


def _compound(block: Block, width: int) -> list[Line]:
    match block:
        case Picture():
            behind = table_lines(block.table, width) if block.table else []
            return [*_text(block.text, "dim", width), *behind]
        case Cards():
            return [line for card in block.cards for line in _card(card, width)]
        case Fold():
            head = _text(block.title, "bold", width)
            return [BLANK, *head, *blocks_lines(block.blocks, width)]
    return [BLANK]


def _pair(name: str, text: str, room: int, width: int, style: str = "") -> list[Line]:
    """A short text and a long one beside it, folded into what is left."""
    cells = (Piece(name, style), Piece(bound(text)))
    return side_by_side(cells, (room, max(8, width - room - 1)), (False, False), 1)


def _facts(facts: Facts, width: int) -> list[Line]:
    room = max((wide(name) for name, _ in facts.pairs), default=0)
    lines: list[Line] = []
    before = ""
    for name, text in facts.pairs:
        lines += _pair("" if name == before else name, text, room, width, "bold")
        before = name
    return lines


def table_lines(table: Table, width: int) -> list[Line]:
    """A table as lines: columns where they fit, else row after row."""
    if least_width(table) > width:
        return _stacked(table, width)
    right = [column.align == "right" for column in table.columns]
    rows = [[_cell(table, i, r) for i in range(len(right))] for r in table.rows]
    texts = [[c.title, *(r[i].text for r in rows)] for i, c in enumerate(table.columns)]
    wides = widths(texts, right, width - GAP * (len(right) - 1))
    lines: list[Line] = []
    if any(column.title for column in table.columns):
        heads = [Piece(column.title, "dim") for column in table.columns]
        lines += side_by_side(heads, wides, right, GAP)
    for cells in rows:
        lines += side_by_side(cells, wides, right, GAP)
    return lines


def _cell(table: Table, at: int, line: Row) -> Piece:
    c: Cell = line.cells[at]
    tick = table.columns[at].align == "tick" and line.kind == "row" and not c.text
    return Piece(
        "[\N{NO-BREAK SPACE}]" if tick else bound(c.text),
        TONES[c.tone] if line.kind == "row" else "bold",
    )


def least_width(table: Table) -> int:
    """Columns of the terminal below which a table would lose figures or part words."""
    least = 0
    for i, column in enumerate(table.columns):
        texts = [column.title, *(_cell(table, i, r).text for r in table.rows)]
        if column.align == "right":
            least += max(map(wide, texts), default=0) + GAP
        else:
            words = [wide(word) for text in texts for word in text.replace("\n", " ").split(" ")]
            least += min(max(words, default=0), LONGEST) + GAP
    return least - GAP


def _stacked(table: Table, width: int) -> list[Line]:
    """A table too wide for the terminal: row after row, each figure beside its title."""
    room = min(max((wide(c.title) for c in table.columns), default=0), width // 2)
    lines: list[Line] = []
    for n, line in enumerate(table.rows):
        lines += [BLANK] if n else []
        for i, column in enumerate(table.columns):
            text = _cell(table, i, line).text
            if text or (column.title and line.kind == "row"):
                lines += _pair(column.title, text, room, width, "dim")
    return lines


def _card(card: Card, width: int) -> list[Line]:
    inner = [line for line in blocks_lines(card.blocks, width - 2) if line]
    inner += _text(card.allergens, "bold", width - 2) + _text(card.foot, "dim", width - 2)
    head = _text(f"{card.title}  {card.mark}".rstrip(), "bold", width)
    return [BLANK, *head, *((Piece("  "), *line) for line in inner)]
