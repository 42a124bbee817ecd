"""A document on paper: PDF by typst, tagged for readers (PDF/UA-1), byte-identical for equal input.

The looks stand in `paper.typ`; this module hands it the document as JSON, the sheet and the fonts.
Nothing is fetched and no system font is used, so that equal input gives equal bytes.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Sequence
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import Any, Literal

from oatsack.reports import fonts
from oatsack.reports.document import Card, Cards, Document, Fold, Table, bound, stepped
from oatsack.reports.formats.json import plain

NARROW = 18
"""Signs up to which a column is as wide as its longest cell."""
SHORT = 14
"""Rows up to which a table stays with its heading on one page."""
COMPACT = 60
"""Signs in a row up to which a table need not fill the width."""


def render(document: Document, *, paper: Literal["a4", "letter"] = "a4",
           grey: bool = False) -> bytes:  # fmt: skip
    """The document as PDF. `grey` turns the colours of drawings into greys, for black ink."""
    text = json.dumps({"documents": [_sized(document)], "paper": paper})
    return _compiled(greyed(text) if grey else text)


def _compiled(told: str) -> bytes:
    """Runs typst in memory; only the two faces go through a folder that is gone at once."""
    import typst

    template = (files("oatsack") / "reports" / "formats" / "paper.typ").read_bytes()
    with tempfile.TemporaryDirectory() as folder:
        for weight in ("Regular", "Bold"):
            (Path(folder) / f"{weight}.ttf").write_bytes(fonts.tabular(weight))
        faces = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=True, font_paths=[folder]
        )
        compiler = typst.Compiler(
            template, font_paths=faces, ignore_system_fonts=True, sys_inputs={"told": told}
        )
        made = compiler.compile(format="pdf", pdf_standards=["ua-1"], timestamp=0)
    return made[0] if isinstance(made, list) else made or b""


COLOUR = re.compile(r"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\b", re.IGNORECASE)


def greyed(svg: str) -> str:
    """A drawing with each colour as the grey that looks as bright (luma of ITU-R BT.601)."""

    def grey(match: re.Match[str]) -> str:
        red, green, blue = (int(part, 16) for part in match.groups())
        return "#" + f"{round(0.299 * red + 0.587 * green + 0.114 * blue):02x}" * 3

    return COLOUR.sub(grey, svg)


def _bound(told: Any, key: str = "") -> Any:
    """All texts with numbers tied to their units; drawings and keys stay as they are."""
    if isinstance(told, dict):
        return {name: _bound(value, name) for name, value in told.items()}
    if isinstance(told, list):
        return [_bound(item) for item in told]
    return bound(told) if isinstance(told, str) and key != "svg" else told


def _sized(document: Document) -> dict[str, Any]:
    blocks = stepped(document.blocks)
    told: dict[str, Any] = plain(replace(document, blocks=blocks))
    _size(blocks, told["blocks"])
    if not document.one_side:
        told["blocks"] = together(told["blocks"])
    bound_of: dict[str, Any] = _bound(told)
    return bound_of


def together(told: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Ties a heading to the short table that follows it, so that no page ends between them."""
    out: list[dict[str, Any]] = []
    held: list[dict[str, Any]] = []
    for block in told:
        if block["kind"] == "heading":
            out += held
            held = [block]
        elif held and block["kind"] == "para":
            held.append(block)
        elif held and block["kind"] == "table" and len(block["rows"]) <= SHORT:
            out.append({"kind": "together", "blocks": [*held, block]})
            held = []
        else:
            out += [*held, block]
            held = []
    return out + held


def _size(blocks: Sequence[Any], told: Sequence[dict[str, Any]]) -> None:
    """Adds to every table the widths of its columns; typst lays out, this decides shares."""
    for block, twin in zip(blocks, told, strict=True):
        if isinstance(block, Table):
            twin["widths"] = widths(block)
        elif isinstance(block, Fold | Card):
            _size(block.blocks, twin["blocks"])
        elif isinstance(block, Cards):
            _size(block.cards, twin["cards"])


def widths(table: Table) -> list[float]:
    """A share of the width per column; 0 is as wide as it needs."""
    longest_of = [_longest(table, i) for i in range(len(table.columns))]
    if not any(c.width for c in table.columns) and sum(longest_of) <= COMPACT:
        return [0.0] * len(table.columns)
    out = []
    for column, longest in zip(table.columns, longest_of, strict=True):
        if column.width:
            out.append(column.width)
        elif column.align != "left" or max(longest, len(column.title)) <= NARROW:
            out.append(0.0)
        else:
            out.append(min(4.0, max(1.0, longest / 14.0)))
    return out


def _longest(table: Table, i: int) -> int:
    lines = [line for r in table.rows for line in r.cells[i].text.split("\n")]
    return max(map(len, lines), default=0)
