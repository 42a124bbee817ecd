"""The forms a report can take: one file each, and this list.

To add a form, write a module with ``def render(document, **options) -> bytes`` and name it here. A
form whose `whole` is true is given the plan and the content's name instead of a document.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from oatsack.errors import UsageError

if TYPE_CHECKING:
    from oatsack.values.plan import Plan


class Format(NamedTuple):
    """A form: its name, its module, the ending of a file, and which options are its own."""

    name: str
    module: str
    ending: str
    help: str
    options: frozenset[str] = frozenset()
    whole: bool = False

    def render(self, plan: Plan, content: str, options: Mapping[str, Any]) -> bytes:
        """The bytes of a content in this form."""
        module = import_module(f"oatsack.reports.formats.{self.module}")
        mine = {name: value for name, value in options.items() if name in self.options}
        rest = {name: value for name, value in options.items() if name not in self.options}
        if self.whole:
            return bytes(module.render(plan, content, **mine, **rest))
        from oatsack.reports.contents import build, content_of
        from oatsack.reports.telling import telling

        if "width" in mine and content_of(content).fitted:
            rest["width"] = mine["width"]
        return bytes(module.render(build(telling(plan), content, **rest), **mine))


FORMATS: tuple[Format, ...] = (
    Format("terminal", "terminal", "txt", "for the terminal, coloured where it can be",
           frozenset({"width", "colour"})),
    Format("text", "text", "txt", "plain text", frozenset({"width"})),
    Format("csv", "csv", "csv", "tables for a sheet program", frozenset({"decimal"}), whole=True),
    Format("json", "json", "json", "the document as data"),
    Format("pdf", "pdf", "pdf", "paper: tagged PDF", frozenset({"paper", "grey"})),
    Format("html", "html", "html", "one page that needs no network", frozenset({"bold"})),
    Format("xlsx", "xlsx", "xlsx", "a workbook whose formulas carry their values", whole=True),
)  # fmt: skip


def format_of(name: str) -> Format:
    """The form of a name; a UsageError names the ones there are."""
    for form in FORMATS:
        if form.name == name:
            return form
    known = ", ".join(form.name for form in FORMATS)
    raise UsageError(f"there is no form {name!r}; there are: {known}")
