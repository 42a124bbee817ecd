"""Keeps what a trip's text names inside the folder that the pages serve.

On the command line a trip file may name any file its owner can read. A page takes texts from a
browser, so there every named file must lie in the folder itself, links followed.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from oatsack.errors import Fault, TripFileError
from oatsack.files.trip.document import Document, path_text
from oatsack.files.trip.toml import read_toml
from oatsack.reports.words import say

BUNDLED = "bundled"


def confine(folder: Path, text: str, name: str) -> None:
    """Raises TripFileError with a fault for every file named outside the folder."""
    document = read_toml(text, name)
    faults = [_fault(document, where, file) for where, file in _named(document.data)
              if file != BUNDLED and not inside(folder, file)]  # fmt: skip
    if faults:
        raise TripFileError(faults)


def inside(folder: Path, name: str) -> bool:
    """Whether a name leads to somewhere in the folder, links followed."""
    try:
        return (folder / name).resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a null byte, a link that leads to itself
        return False


def _named(data: dict[str, Any]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Every file that a text names, and where."""
    larder, route, walkers = data.get("larder"), data.get("route"), data.get("walkers")
    if isinstance(larder, dict):
        yield from _texts(("larder", "files"), larder.get("files"))
        yield from _texts(("larder", "stock"), larder.get("stock"))
    if isinstance(route, dict):
        yield from _texts(("route", "track"), route.get("track"))
    for number, walker in enumerate(walkers if isinstance(walkers, list) else ()):
        if isinstance(walker, dict):
            yield from _texts(("walkers", number, "pace_track"), walker.get("pace_track"))


def _texts(
    where: tuple[str | int, ...], given: object
) -> Iterator[tuple[tuple[str | int, ...], str]]:
    if isinstance(given, str):
        yield where, given.strip()
    elif isinstance(given, list):
        yield from (((*where, n), one.strip()) for n, one in enumerate(given)
                    if isinstance(one, str))  # fmt: skip


def _fault(document: Document, where: tuple[str | int, ...], file: str) -> Fault:
    return document.fault(path_text(where), document.place(where), say("desk.outside"),
                          read=f'"{file}"', instead=say("desk.into-folder"))  # fmt: skip
