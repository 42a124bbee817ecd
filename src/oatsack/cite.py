"""The bibliography: every source once, found by its key.

The entries stand in `data/sources/*.toml`, one file per subject, so that a key is unique over all
of them. A citation is written ``Key, place``, as ``Looney2022, eq. 4``: the place is free text.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from oatsack.errors import UnknownSource

COMMON_PRACTICE = "common practice"
FROM_MEMORY = "from memory"
OURS = "ours"
UNSOURCED = frozenset({COMMON_PRACTICE, FROM_MEMORY, OURS})


@dataclass(frozen=True, slots=True)
class Source:
    """One work: who, when, what, where to find it, and how far it was read."""

    key: str
    authors: str
    year: int
    title: str
    where: str
    doi: str = ""
    read: str = ""

    def __str__(self) -> str:
        tail = f" doi {self.doi}." if self.doi else ""
        return f"{self.authors} ({self.year}). {self.title}. {self.where}.{tail}"


@cache
def bibliography() -> Mapping[str, Source]:
    """All sources by key, in key order."""
    found: dict[str, Source] = {}
    folder = files("oatsack") / "data" / "sources"
    for entry in sorted(folder.iterdir(), key=lambda item: item.name):
        if entry.name.endswith(".toml"):
            table = tomllib.loads(entry.read_text(encoding="utf-8"))
            for key, fields in table.items():
                if key in found:
                    raise UnknownSource(f"source {key!r} is described twice, again in {entry.name}")
                found[key] = Source(key=key, **fields)
    return dict(sorted(found.items()))


def key_of(citation: str) -> str:
    """The key of a citation such as ``Looney2022, eq. 4``."""
    return citation.split(",", 1)[0].strip()


def cite(citation: str) -> str:
    """The full text of a citation; the words of `UNSOURCED` stand for themselves.

    Raises UnknownSource for a key that no file describes.
    """
    key, _, place = citation.partition(",")
    key = key.strip()
    if key in UNSOURCED:
        return citation
    source = bibliography().get(key)
    if source is None:
        raise UnknownSource(f"no source {key!r} in the bibliography; add it to data/sources")
    return f"{source} [{place.strip()}]" if place else str(source)
