"""The bibliography: every source once, found by its key.

The entries stand in `data/sources/*.toml`, one file per subject, so that a key is unique over all
of them. A citation is written ``Key, place``, as ``Looney2022, eq. 4``: the place is free text.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

from oatsack.errors import UnknownSource
from oatsack.values.frozen import dataclass

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


FOLDER = Path(__file__).parent / "data" / "sources"


@cache
def bibliography() -> Mapping[str, Source]:
    """All sources by key, in key order."""
    found: dict[str, Source] = {}
    for name, text in _texts():
        for source in _sources(text):
            if source.key in found:
                raise UnknownSource(f"source {source.key!r} is described twice, again in {name}")
            found[source.key] = source
    return dict(sorted(found.items()))


def _texts() -> Iterator[tuple[str, str]]:
    for path in sorted(FOLDER.glob("*.toml")):
        yield path.name, path.read_text(encoding="utf-8")


def _sources(text: str) -> Iterator[Source]:
    import tomllib  # most commands cite nothing

    for key, fields in tomllib.loads(text).items():
        yield Source(key=key, **fields)


@cache
def _described(key: str) -> Source | None:
    """One source; only its own entry is parsed."""
    for _, text in _texts():
        _, found, rest = f"\n{text}".partition(f"\n[{key}]\n")
        if found:
            return next(_sources(f"[{key}]\n{rest.partition(chr(10) + '[')[0]}"))
    return None


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
    source = _described(key)
    if source is None:
        raise UnknownSource(f"no source {key!r} in the bibliography; add it to data/sources")
    return f"{source} [{place.strip()}]" if place else str(source)
