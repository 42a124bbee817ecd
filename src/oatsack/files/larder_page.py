"""The reference page of larder and stock files, written from the tables that read them.

A script writes it to docs/reference/larder-file.md and a test compares, so that the page cannot
fall behind the format.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from oatsack.files.larder_columns import COLUMNS, Column
from oatsack.files.larder_headers import ALIASES
from oatsack.files.stock import STOCK_COLUMNS
from oatsack.values.classes import CLASSES, KINDS

_KINDS: Final = {
    "text": "text",
    "id": "short name",
    "mass": "mass, bare number: g",
    "nutrient": "mass, bare number: g",
    "milli": "mass, bare number: mg",
    "energy": "energy",
    "volume": "volume, bare number: ml",
    "minutes": "time, bare number: min",
    "days": "number of days",
    "count": "number",
    "money": "number, no currency",
    "score": "1 to 5",
    "yes": "yes or no; blank: no",
    "date": "2027-03-31 or 31.3.2027",
    "choice": "one of",
    "words": "any of",
    "basis": "100 g, serving, pack, a mass",
}
INTRO: Final = """\
# The larder file

A larder is a table kept in a sheet program and saved as CSV: one food a line, columns in any order.
Three columns are enough to begin:

```csv
name,pack_g,kcal per 100 g
Our own muesli,500,415
```

Encoding (UTF-8 with or without its mark, UTF-16, Windows 1252), separator (comma, semicolon, tab)
and decimal mark (point, comma) are found out. All numbers of a file must have one decimal mark; a
cell that could be thousands or decimals is refused with both readings.

Blank is *not known*, never nought. A number may bring its own unit (`3 oz`, `1 lb 2 oz`, `½ cup`,
`1046 kJ`), and a header may name another unit than its column has (`pack_oz`, `sodium_g`).

Every fault of the file is reported in one run, with its line and column and what to write instead.
A row whose label cannot well be true is read, questioned, and kept out of menus until the column
`confirmed` says yes.

This page is written by a script from the tables that read the file.
"""
PER: Final = """\
## What the nutrients are per

Labels state nutrients per 100 g, per serving or per pack. Say it for a row in the column `per`, or
for one column in its header: `kcal per 100 g`, `fat_g per serving`, `Salt per pack`. A header's
word goes before the row's. A serving is the dose of the row, unless `serving_g` says another mass.

Carbohydrate has two readings and two columns: `carb_g` holds fibre (American labels), and
`carb_available_g` does not (European labels). `kj` stands for `kcal`, `salt_g` for `sodium_mg`; if
both of a pair are given they must agree.
"""
STOCK: Final = """\
## The stock file

What is at home stands in `home_packs` and `best_before`. A food with several lots of different
dates has them in a stock file of its own, one lot a line:
"""
CLASS: Final = """\
## Classes of food

The category bounds what energy is believed, stands in for blanks against a ceiling (at its high
value), and gives the volume of a pack that states none. Some kinds inside a class are told by words
of the name and have bounds of their own.
"""
BUNDLED: Final = """\
## The bundled larder

Its nutrients are rows of a public table (USDA, release SR28; the number stands in `source_id`), or
worked out from them; what is neither is marked. Packs, wrapping, volumes, prices, shops, likings
and allergens are invented, and the column `invented` says so in each row. **Read the label of what
you buy, above all for allergens.**
"""


def larder_page() -> str:
    """The whole page as Markdown."""
    parts = [INTRO, "## Columns\n", "\n".join(_columns()), "", PER, _aliases(), STOCK]
    parts += ["\n".join(_stock()), "", CLASS, "\n".join(_classes()), "", BUNDLED]
    return "\n".join(parts)


def _columns() -> Iterator[str]:
    yield from _head("column", "what stands there", "meaning")
    for column in COLUMNS:
        need = " **Needed.**" if column.required else ""
        yield _row(f"`{column.name}`", _kind(column), column.about + need)
    yield _row("`liking_NAME`", _KINDS["score"], "The liking of the walker with that id.")


def _kind(column: Column) -> str:
    words = ", ".join(f"`{word}`" for word in column.known)
    if column.kind == "energy":
        return f"energy, bare number: {'kJ' if column.name == 'kj' else 'kcal'}"
    return f"{_KINDS[column.kind]} {words}".strip()


def _aliases() -> str:
    said = ", ".join(f"`{name}` for `{column}`" for name, column in sorted(ALIASES.items()))
    return f"Also understood: {said}.\n"


def _stock() -> Iterator[str]:
    yield from _head("column", "meaning")
    for name, about in STOCK_COLUMNS.items():
        yield _row(f"`{name}`", about)


def _classes() -> Iterator[str]:
    yield from _head("class or kind", "kcal in 100 g", "loose g/ml")
    for row in CLASSES.values():
        span = f"{row.low_kcal:g} to {row.high_kcal:g}"
        yield _row(f"`{row.category}`", span, f"{row.loose_g_ml:.2f}")
    for kind in KINDS:
        inside = ", ".join(sorted(kind.categories - {"other"}))
        yield _row(f"{kind.kind} ({inside})", f"{kind.low_kcal:g} to {kind.high_kcal:g}", "")


def _head(*cells: str) -> Iterable[str]:
    return _row(*cells), "|" + "---|" * len(cells)


def _row(*cells: str) -> str:
    return f"| {' | '.join(cells)} |".replace("|  |", "| |")
