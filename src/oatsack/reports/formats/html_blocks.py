"""The blocks of a document as HTML. Every text is escaped here, and nowhere else."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from html import escape

from oatsack.reports.document import (
    Block,
    Bullets,
    Card,
    Cards,
    Cell,
    Column,
    Facts,
    Fold,
    Heading,
    Note,
    Para,
    Picture,
    Row,
    Table,
    bound,
    stepped,
)
from oatsack.reports.words import say


def blocks_html(blocks: Iterable[Block], *, below: int = 1) -> str:
    """Blocks one after the other; headings start one level below `below`."""
    return "\n".join(_block(block, below) for block in blocks)


@lru_cache(4096)
def said(text: str) -> str:
    """A text, escaped, its numbers tied to their units."""
    return escape(bound(text))


def marked(text: str, opens: Iterable[tuple[str, str]]) -> str:
    """A text, escaped, each of these numbers once with the address where it can be opened."""
    out = said(text)
    for number, address in opens:
        shown = said(number)
        pattern = rf"(?<![\d.,>]){re.escape(shown)}(?![\d<])"
        instead = f'<span data-why="{escape(address)}">{shown}</span>'
        out = re.sub(pattern, lambda _, new=instead: new, out, count=1)  # type: ignore[misc]
    return out


def slug(text: str) -> str:
    """A name for a place in the page."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-") or "part"


def _block(block: Block, below: int) -> str:
    match block:
        case Heading():
            return _heading(block, below)
        case Para():
            tone = "" if block.tone == "plain" else f' class="{block.tone}"'
            return f"<p{tone}>{marked(block.text, block.opens)}</p>"
        case Bullets():
            return _list(block)
        case Note():
            text = marked(say(f"level.{block.level}", text=block.text), block.opens)
            return f'<p class="note {block.level}">{text}</p>'
        case Table():
            return table_html(block)
        case Facts():
            opens = (*block.opens, *((),) * len(block.pairs))
            pairs = "".join(
                _pair(name, marked(what, here), before)
                for ((name, what), before), here in zip(_with(block), opens, strict=False)
            )
            return f"<dl>{pairs}</dl>"
        case _:
            return _compound(block, below)


def _compound(block: Block, below: int) -> str:
    match block:
        case Picture():
            return _figure(block)
        case Cards():
            return f'<div class="cards">{"".join(_card(c, below) for c in block.cards)}</div>'
        case Fold():
            opened = " open" if block.open else ""
            key = f' data-day="{escape(block.key)}"' if block.key else ""
            inner = blocks_html(stepped(block.blocks), below=below + 1)
            level = min(6, below + 1)
            head = f"<summary><h{level}>{said(block.title)}</h{level}></summary>"
            return f'<details class="fold"{opened}{key}>{head}{inner}</details>'
    return ""


def _heading(block: Heading, below: int) -> str:
    level = min(6, block.level + below)
    place = f' id="{slug(block.text)}"' if block.level == 1 and below == 1 else ""
    return f"<h{level}{place}>{said(block.text)}</h{level}>"


def _with(facts: Facts) -> Iterable[tuple[tuple[str, str], str]]:
    before = ""
    for pair in facts.pairs:
        yield pair, before
        before = pair[0]


def _pair(name: str, what: str, before: str) -> str:
    head = "" if name == before else f"<dt>{said(name)}</dt>"
    gap = "" if head else '<dt class="unseen">' + said(name) + "</dt>"
    return f"{head or gap}<dd>{what}</dd>"


def _list(block: Bullets) -> str:
    if not block.ticks:
        return "<ul>" + "".join(f"<li>{said(item)}</li>" for item in block.items) + "</ul>"
    keys = block.keys or ("",) * len(block.items)
    items = "".join(_tick(item, key) for item, key in zip(block.items, keys, strict=True))
    return f'<ul class="ticks">{items}</ul>'


def _tick(item: str, key: str) -> str:
    named = f' data-key="{escape(key)}"' if key else ""
    return f'<li><label><input type="checkbox"{named}><span>{said(item)}</span></label></li>'


MANY = 7
"""A table with more columns is set smaller."""
SHORT = 13
"""A first column of nothing longer, a day or an hour, is not broken."""


def table_html(table: Table) -> str:
    """A table; on a narrow screen it scrolls inside its own frame, which the keyboard reaches."""
    headed = any(column.title for column in table.columns)
    caption = f'<caption class="unseen">{said(table.caption)}</caption>' if table.caption else ""
    head = "".join(_head(column) for column in table.columns)
    rows = "".join(_row(table.columns, line) for line in table.rows)
    kinds = ["bare"] * (not headed) + ["many"] * (len(table.columns) > MANY)
    kinds += ["firm"] * all(len(line.cells[0].text) <= SHORT for line in table.rows)
    look = f' class="{" ".join(kinds)}"' if kinds else ""
    name = escape(table.caption) or escape(say("page.table"))
    return (
        f'<div class="wide" tabindex="0" role="group" aria-label="{name}"><table{look}>{caption}'
        f"{f'<thead><tr>{head}</tr></thead>' if headed else ''}<tbody>{rows}</tbody></table></div>"
    )


def _head(column: Column) -> str:
    side = ' class="r"' if column.align == "right" else ""
    if not column.title:
        return '<td class="blank"></td>'
    return f'<th scope="col"{side}>{said(column.title)}</th>'


def _row(columns: tuple[Column, ...], line: Row) -> str:
    cells = "".join(_cell(column, c, line) for column, c in zip(columns, line.cells, strict=True))
    kind = "" if line.kind == "row" else f' class="{line.kind}"'
    return f"<tr{kind}>{cells}</tr>"


def _cell(column: Column, c: Cell, line: Row) -> str:
    if column.align == "tick" and line.kind == "row" and not c.text:
        what = " ".join(other.text for other in line.cells if other.text)[:60]
        return f'<td><input type="checkbox" aria-label="{escape(what)}"></td>'
    names = [*(["r"] if column.align == "right" else []), *([c.tone] if c.tone != "plain" else [])]
    side = f' class="{" ".join(names)}"' if names else ""
    opened = f' data-why="{escape(c.address)}"' if c.address else ""
    return f"<td{side}{opened}>{said(c.text)}</td>"


SLIM = (
    (re.compile(r'<text [^>]*aria-hidden="true">[^<]*</text>(<text [^>]* class=")(?=f-)'),
     r"\1halo "),
    (re.compile(r' (?:fill|stroke)="#[0-9a-fA-F]{3,6}"(?=[^>]* class=")'), ""),
    (re.compile(r' stroke-line(?:join|cap)="round"'), ""),
    (re.compile(r' (?:text-anchor="start"|font-size="11.5"|stroke-width="1")'), ""),
    (re.compile(r'(<poly(?:line|gon)[^>]*) fill="none"'), r"\1"),
    (re.compile(r"(?<=\d)\.0(?=[\s,\"][^<>]*>)"), ""),
)
"""What a drawing need not say inside a page, because the style sheet says it."""


def slim(svg: str) -> str:
    """A drawing without the looks that the page's style sheet gives it anyway."""
    for pattern, instead in SLIM:
        svg = pattern.sub(instead, svg)
    return svg


def _figure(block: Picture) -> str:
    behind = ""
    if block.table:
        numbers = escape(say("page.numbers"))
        behind = f"<details><summary>{numbers}</summary>{table_html(block.table)}</details>"
    drawn = f'<div class="broad">{slim(block.svg)}</div>' if block.narrow else slim(block.svg)
    if block.narrow:
        drawn += f'<div class="narrow">{slim(block.narrow)}</div>'
    return f"<figure><figcaption>{said(block.title)}</figcaption>{drawn}{behind}</figure>"


def _card(card: Card, below: int) -> str:
    level = min(6, below + 1)
    mark = f"<span>{said(card.mark)}</span>" if card.mark else ""
    head = f"<h{level}><span>{said(card.title)}</span>{mark}</h{level}>"
    inner = blocks_html(stepped(card.blocks), below=below + 1)
    bold = f'<p class="allergens">{said(card.allergens)}</p>' if card.allergens else ""
    foot = f'<p class="foot">{said(card.foot)}</p>' if card.foot else ""
    return f'<section class="card">{head}{inner}{bold}{foot}</section>'
