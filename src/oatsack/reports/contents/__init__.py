"""What can be told of a plan: one file each, and this list. Each builds a neutral document.

To add a report, write a module with ``def document(told, **options) -> Document`` and name it here.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from oatsack.errors import UsageError

if TYPE_CHECKING:
    from oatsack.reports.document import Document
    from oatsack.reports.telling import Telling


class Content(NamedTuple):
    """A report: its name, the module that builds it, and one line on what it is."""

    name: str
    module: str
    help: str
    paper: bool = False
    """Whether it is meant to go along on paper."""
    fitted: bool = False
    """Whether it is cut to the width at which it is shown."""


CONTENTS: tuple[Content, ...] = (
    Content("first", "first_screen", "the plan on one screen", fitted=True),
    Content("plan", "plan", "the whole plan"),
    Content("need", "need", "what each day uses, and what is eaten of it"),
    Content("menu", "menu", "every meal of every day", paper=True),
    Content("shopping", "shopping", "what to buy, in whole packs", paper=True),
    Content("bags", "bags", "every bag with its contents and mass", paper=True),
    Content("kitchen", "kitchen", "cooking, fuel and water by day", paper=True),
    Content("no-flame", "flameless", "the same bags without a flame: cold, soaked, to swap"),
    Content("kit", "kit", "pots, marks to measure by, what goes into the pot"),
    Content("container", "container", "what closes into the container, night by night"),
    Content("carriers", "carriers", "who carries what", paper=True),
    Content("sheet", "sheet", "one sheet: days by meals, and the late plan behind", paper=True),
    Content("cards", "day_cards", "a card for every day", paper=True),
    Content("labels", "labels", "labels for the bags", paper=True),
    Content("tags", "tags", "a tag for each sack, bags in the order of eating", paper=True),
    Content("cook-cards", "cook_cards", "a card for every cooked meal", paper=True),
    Content("boxes", "boxes", "resupply boxes and their contents", paper=True),
    Content("allergy", "allergy", "the allergy and emergency sheet", paper=True),
    Content("pack-out", "pack_out", "bags to be checked off, and rubbish", paper=True),
    Content("tally", "tally", "a grid to tick on the way", paper=True),
    Content("report", "report", "the whole plan with pictures"),
    Content("phone", "phone", "one page for a phone, without network"),
    Content("workbook", "plan", "shopping, bags, menu and days as a workbook"),
)


def content_of(name: str) -> Content:
    """The content of a name; a UsageError names the ones there are."""
    for content in CONTENTS:
        if content.name == name:
            return content
    known = ", ".join(content.name for content in CONTENTS)
    raise UsageError(f"there is no report {name!r}; there are: {known}")


def build(told: Telling, name: str, **options: Any) -> Document:
    """The document of a content."""
    module = import_module(f"oatsack.reports.contents.{content_of(name).module}")
    made: Document = module.document(told, **options)
    return made
