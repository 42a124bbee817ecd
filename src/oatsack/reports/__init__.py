"""Reports: what is said of a plan (`contents`) in the form it is read (`formats`).

`render(plan, "menu", "pdf")` gives bytes. Both lists are explicit, and everything is loaded only
when it is asked for. Sentences stand in `words`, numbers are shown by `measures`, charts are drawn
by `oatsack.charts`. Nothing here decides or adds up; it reads the plan.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from oatsack.reports.document import Document
    from oatsack.values.plan import Plan


def render(plan: Plan, content: str, fmt: str, **options: Any) -> bytes:
    """A report as bytes.

    content   a name of `contents.CONTENTS`
    fmt       a name of `formats.FORMATS`
    options   of the content (``walker="anna"``) or the format (``width=100``, ``paper="letter"``)

    UsageError for a name that does not exist, or a content that has no such form.
    """
    from oatsack.reports.formats import format_of

    return format_of(fmt).render(plan, content, options)


def document_of(plan: Plan, content: str, **options: Any) -> Document:
    """A report as a neutral document, for doors that lay it out themselves."""
    from oatsack.reports.contents import build
    from oatsack.reports.telling import telling

    return build(telling(plan), content, **options)
