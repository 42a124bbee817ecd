"""A document as one HTML file that needs nothing else: no network, no script, fonts inside.

Light, dark and print looks stand in `page.css`. A content policy with hashes lets nothing run or
load but what this file holds. Drawings are inlined; numbers that can be opened carry their address.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Sequence
from functools import cache
from html import escape
from importlib.resources import files

from oatsack.reports import fonts
from oatsack.reports.document import Document, Heading, stepped
from oatsack.reports.formats.html_blocks import blocks_html, slug
from oatsack.reports.words import say


def render(document: Document, *, bold: bool = True, contents: bool = True) -> bytes:
    """The document as one UTF-8 HTML page. `bold` embeds the bold face; else it is drawn."""
    return page(document, style=style(bold=bold), contents=contents).encode()


def page(document: Document, *, style: str, script: str = "", contents: bool = True) -> str:
    """The page around the blocks."""
    blocks = stepped(document.blocks)
    heads = [b.text for b in blocks if isinstance(b, Heading) and b.level == 1]
    body = [f"<h1>{escape(document.title)}</h1>"]
    if document.subtitle:
        body.append(f'<p class="quiet">{escape(document.subtitle)}</p>')
    if contents and len(heads) > 3:
        body.append(_nav(heads))
    body.append(blocks_html(blocks))
    body.append(f'<footer class="foot">{escape(document.foot)}</footer>')
    return _shell(document, "\n".join(body), style=style, script=script)


def _nav(heads: Sequence[str]) -> str:
    items = "".join(f'<li><a href="#{slug(h)}">{escape(h)}</a></li>' for h in heads)
    return f'<nav aria-label="{escape(say("page.contents"))}"><ul>{items}</ul></nav>'


def _shell(document: Document, body: str, *, style: str, script: str) -> str:
    policy = (
        f"default-src 'none'; style-src {sha(style)}; font-src data:; img-src data:; "
        f"base-uri 'none'; form-action 'none'"
    ) + (f"; script-src {sha(script)}" if script else "")
    tail = f'<script type="module">{script}</script>' if script else ""
    return (
        f'<!doctype html>\n<html lang="{document.lang}"><head><meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<link rel="icon" href="{ICON}">\n'
        f"<title>{escape(document.title)}</title>\n<style>{style}</style></head>\n"
        f"<body><main>\n{body}\n</main>{tail}</body></html>\n"
    )


ICON = "data:,"


def sha(text: str) -> str:
    """The hash of an inline part, as a content policy writes it."""
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return f"'sha256-{digest}'"


@cache
def style(*, bold: bool = True) -> str:
    """The style sheet with its fonts inside."""
    faces = [_face("Regular", 400)] + ([_face("Bold", 700)] if bold else [])
    sheet = (files("oatsack") / "reports" / "formats" / "page.css").read_text(encoding="utf-8")
    return "".join(faces) + sheet


def _face(weight: fonts.Weight, number: int) -> str:
    return (
        f'@font-face{{font-family:"{fonts.FAMILY}";font-weight:{number};font-display:swap;'
        f"src:url(data:font/woff;base64,{fonts.woff(weight)})}}"
    )
