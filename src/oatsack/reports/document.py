"""A document: what is said, before anyone decides how it looks.

Contents (`reports/contents`) build documents from a plan; formats (`reports/formats`) turn them
into bytes. A cell carries its text and, where it is a number, the value behind it, so that a sheet
or a CSV file need not read text back. Texts are finished: units and words are settled here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Literal

from oatsack.values.frozen import dataclass

Tone = Literal["plain", "quiet", "strong"]
Align = Literal["left", "right", "tick"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading of level 1 to 3 below the document's title."""

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Para:
    """A paragraph. `quiet` is background; `strong` is the one place for bold (allergies)."""

    text: str
    tone: Tone = "plain"
    opens: tuple[tuple[str, str], ...] = ()
    """Numbers in it as they are shown, each with the address where it can be opened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bullets:
    """A plain list, or a list of boxes to tick."""

    items: tuple[str, ...]
    ticks: bool = False
    keys: tuple[str, ...] = ()
    """A short key per item, by which a page remembers and tells what was ticked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A flag as a sentence, as loud as its level says."""

    text: str
    level: Literal["note", "quiet", "caution", "block"] = "quiet"
    opens: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell: its text, the number behind it, and the address where that number can be opened."""

    text: str = ""
    value: float | None = None
    tone: Tone = "plain"
    address: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its title, its side, and its share of the width (0: as wide as it needs)."""

    title: str
    align: Align = "left"
    width: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row of cells; a `total` row closes a group, a `head` row opens one."""

    cells: tuple[Cell, ...]
    kind: Literal["row", "total", "head"] = "row"


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows under columns. The caption names it for those who cannot see it."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    caption: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Pairs of a name and what it is, one line each."""

    pairs: tuple[tuple[str, str], ...]
    opens: tuple[tuple[tuple[str, str], ...], ...] = ()
    """For each pair the numbers in it as they are shown, with where they are opened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing of ours with its words: `table` holds what it shows; `narrow` is the same drawn
    again for the width of a phone."""

    svg: str
    title: str
    text: str
    table: Table | None = None
    narrow: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """A new page on paper; nothing elsewhere. `side` turns the sheet over."""

    side: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """Something small that is cut out: a label, a cook's card, a day card."""

    title: str
    mark: str = ""
    """What stands large in the corner, as ``3 of 12``."""
    blocks: tuple[Block, ...] = ()
    foot: str = ""
    allergens: str = ""
    """The one line in bold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cards:
    """Cards of one size, laid out as many to a page as fit."""

    cards: tuple[Card, ...]
    size: Literal["label", "half", "quarter", "sixth"] = "quarter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fold:
    """What folds away on a screen, and follows in small print on paper."""

    title: str
    blocks: tuple[Block, ...]
    open: bool = False
    key: str = ""
    """What a page may find it by, as the date of a day."""


Block = Heading | Para | Bullets | Note | Table | Facts | Picture | Break | Cards | Fold


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A whole document."""

    title: str
    blocks: tuple[Block, ...]
    subtitle: str = ""
    name: str = "report"
    lang: str = "en"
    wide: bool = False
    """Landscape on paper."""
    large: bool = False
    """Large print, for dusk."""
    one_side: bool = False
    """Whatever stands before the next break fills one side of paper, as large as it can."""
    script: str = ""
    """A script that an HTML page may run, by name; the page is whole without it."""
    version: str = ""
    """The version of the plan, by which a page keeps its ticks apart from another's."""
    foot: str = ""
    """What stands at the foot of each page: the trip and the version of the plan."""


def cell(text: str, value: float | None = None, **more: str) -> Cell:
    """A cell, the short way."""
    return Cell(text=text, value=value, **more)  # type: ignore[arg-type]


def row(*cells: Cell | str, kind: Literal["row", "total", "head"] = "row") -> Row:
    """A row of cells or texts."""
    made = tuple(c if isinstance(c, Cell) else Cell(text=c) for c in cells)
    return Row(cells=made, kind=kind)


def columns(*titles: str) -> tuple[Column, ...]:
    """Columns by title; a leading ``>`` sets one to the right, ``[]`` makes boxes to tick, and a
    trailing ``*n`` gives its share of the width."""
    return tuple(_column(title) for title in titles)


def _column(title: str) -> Column:
    name, _, width = title.partition("*")
    align: Align = "right" if name.startswith(">") else "tick" if name.startswith("[]") else "left"
    text = name.removeprefix(">").removeprefix("[]")
    return Column(title=text, align=align, width=float(width or 0.0))


def table(heads: Sequence[str], rows: Iterable[Row], *, caption: str = "") -> Table:
    """A table from short column titles and rows."""
    return Table(columns=columns(*heads), rows=tuple(rows), caption=caption)


_UNITS = "kcal|kg|g|ml|l|km|mi|m|ft|oz|lb|qt|cups?|fl oz|in³|min|h|mg|EUR|USD|days?|bags?|packs?"
_APART = re.compile(rf"(?<=[\d½¼¾]) (?=(?:{_UNITS})\b|[%×°])|(?<=[±×]) (?=\d)")


APART = "|"
"""Between the addresses of one number that comes of several."""


def bound(text: str) -> str:
    """A text whose numbers are not parted from their units at the end of a line."""
    if " " not in text:
        return text
    return _APART.sub("\N{NO-BREAK SPACE}", text)


def stepped(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """The same blocks with headings that never skip a level, as readers of pages need it."""
    level = 0
    out: list[Block] = []
    for block in blocks:
        if isinstance(block, Heading):
            level = min(block.level, level + 1)
            out.append(Heading(text=block.text, level=level))
        else:
            level = 1 if isinstance(block, Fold) else level
            out.append(block)
    return tuple(out)


def tables_of(blocks: Iterable[Block]) -> list[Table]:
    """Every table of a document, those behind pictures and folds included."""
    found: list[Table] = []
    for block in blocks:
        if isinstance(block, Table):
            found.append(block)
        elif isinstance(block, Picture) and block.table:
            found.append(block.table)
        elif isinstance(block, Fold):
            found += tables_of(block.blocks)
        elif isinstance(block, Cards):
            found += [t for card in block.cards for t in tables_of(card.blocks)]
    return found


__all__ = [
    "Block", "Break", "Bullets", "Card", "Cards", "Cell", "Column", "Document", "Facts", "Fold",
    "Heading", "Note", "Para", "Picture", "Row", "Table", "bound", "cell", "columns", "row",
    "stepped", "table", "tables_of",
]  # fmt: skip
