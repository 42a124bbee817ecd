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


def render(document: Document, *, bold: bool | None = None, contents: bool = True) -> bytes:
    """The document as one UTF-8 HTML page. `bold` embeds the bold face too; a page with a script
    (a phone's) goes without unless told otherwise, and lets the browser draw it."""
    faces = not document.script if bold is None else bold
    script = read(f"{document.script}.js") if document.script else ""
    return page(document, style=style(bold=faces), script=script, contents=contents).encode()


def read(name: str) -> str:
    """A file that lies beside this module."""
    return (files("oatsack") / "reports" / "formats" / name).read_text(encoding="utf-8")


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
    if script:
        body.append(_tally())
    body.append(f'<footer class="foot">{escape(document.foot)}</footer>')
    return _shell(document, "\n".join(body), style=style, script=script)


def _tally() -> str:
    """Where the script tells what was ticked; hidden while no script runs."""
    words = {key: escape(say(f"phone.{key}")) for key in TALLY_WORDS}
    return (
        f'<section id="tally" hidden><h2>{words["tally"]}</h2><p>{words["how"]}</p>'
        f'<label for="fuel">{words["fuel"]}</label> <input id="fuel" inputmode="numeric" size="6">'
        f'<p><label for="note">{words["note"]}</label></p><textarea id="note"></textarea>'
        f'<p><label for="told">{words["told"]}</label></p>'
        f'<textarea id="told" readonly></textarea>'
        f'<p><button id="copy" type="button">{words["copy"]}</button> '
        f'<span id="copied" role="status" data-done="{words["copied"]}"></span></p></section>'
    )


def _nav(heads: Sequence[str]) -> str:
    items = "".join(f'<li><a href="#{slug(h)}">{escape(h)}</a></li>' for h in heads)
    return f'<nav aria-label="{escape(say("page.contents"))}"><ul>{items}</ul></nav>'


def _shell(document: Document, body: str, *, style: str, script: str) -> str:
    policy = (
        f"default-src 'none'; style-src {sha(style)}; font-src data:; img-src data:; "
        f"base-uri 'none'; form-action 'none'"
    ) + (f"; script-src {sha(script)}" if script else "")
    plan = f' data-plan="{escape(document.version)}"' if document.version else ""
    tail = f'<script type="module">{script}</script>' if script else ""
    return (
        f'<!doctype html>\n<html lang="{document.lang}"><head><meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<link rel="icon" href="{ICON}">\n'
        f"<title>{escape(document.title)}</title>\n<style>{style}</style></head>\n"
        f"<body><main{plan}>\n{body}\n</main>{tail}</body></html>\n"
    )


ICON = "data:,"
TALLY_WORDS = ("tally", "how", "fuel", "note", "told", "copy", "copied")


def sha(text: str) -> str:
    """The hash of an inline part, as a content policy writes it."""
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return f"'sha256-{digest}'"


@cache
def style(*, bold: bool = True) -> str:
    """The style sheet with its fonts inside."""
    faces = [_face("Regular", 400)] + ([_face("Bold", 700)] if bold else [])
    return "".join(faces) + read("page.css")


def _face(weight: fonts.Weight, number: int) -> str:
    return (
        f'@font-face{{font-family:"{fonts.FAMILY}";font-weight:{number};font-display:swap;'
        f"src:url(data:font/woff;base64,{fonts.woff(weight)})}}"
    )
