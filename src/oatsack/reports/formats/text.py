"""A document as plain text: what a terminal shows, without colour, for mail and files."""

from __future__ import annotations

from oatsack.reports.document import Document
from oatsack.reports.formats import terminal


def render(document: Document, *, width: int = 80) -> bytes:
    """The document as plain UTF-8 text of so many columns."""
    return terminal.render(document, width=width, colour=False)
