"""Who explains what, tried in this order: the particular, the recomputed, the given.

To add an explainer, write it into the file of its part of the plan and name it in that list. A file
is loaded only for addresses of its sections, since opening one number should not load every model.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module

from oatsack.why.explainers.base import Explainer

PARTS: tuple[tuple[str, str, frozenset[str]], ...] = (
    ("needs", "NEEDS", frozenset({"need", "target", "chosen", "backs", "timeline"})),
    ("eating", "EATING", frozenset({"totals", "eaten", "prices", "menu"})),
    ("kitchens", "KITCHENS", frozenset({"kitchen"})),
    ("packs", "PACKS", frozenset({"packed"})),
    ("summing", "SUMMING", frozenset({"totals", "kitchen", "packed", "made"})),
    ("recounted", "RECOUNTED", frozenset()),
    ("origins", "ORIGINS", frozenset()),
)
"""File, its list, and the sections of the plan it speaks of (none named: any)."""


def explainers_of(section: str | None = None) -> Iterator[Explainer]:
    """The explainers of a section of the plan, in order; of all sections where none is named."""
    for module, name, sections in PARTS:
        if section is None or not sections or section in sections:
            found: tuple[Explainer, ...] = getattr(import_module(f"{__name__}.{module}"), name)
            yield from found
