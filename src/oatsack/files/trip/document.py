"""A trip file's text as read: data, places, faults. What a path is, and how it is said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from oatsack.errors import Fault

Path = tuple[str | int, ...]


def path_text(path: Path) -> str:
    """``walkers[0].usual.breakfast[1]``."""
    out = ""
    for part in path:
        out += f"[{part}]" if isinstance(part, int) else f".{part}" if out else part
    return out


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands, both from 1, its source text, and where it ends (line, column)."""

    line: int
    column: int
    source: str
    end: tuple[int, int] = (0, 0)


@dataclass(slots=True)
class Document:
    """One file as read: data, places, lines, faults; and what was unreadable."""

    name: str
    lines: tuple[str, ...]
    data: dict[str, Any] = field(default_factory=dict)
    keys: dict[Path, Place] = field(default_factory=dict)
    values: dict[Path, Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    broken: set[Path] = field(default_factory=set)
    """Paths whose lines could not be read."""
    bodies: dict[Path, int] = field(default_factory=dict)
    """Table with a heading -> the last line of its own keys, or of the heading."""

    def place(self, path: Path, *, of_key: bool = False) -> Place:
        """The place of a value (or of its key); of the nearest table around it if it has none."""
        for end in range(len(path), 0, -1):
            here = path[:end]
            found = self.keys.get(here) if of_key else self.values.get(here)
            if found := found or self.values.get(here) or self.keys.get(here):
                return found
        return Place(1, 1, "")

    def line(self, number: int) -> str:
        """The text of a line, as the user wrote it."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def fault(self, path: str, place: Place, wrong: str, *, read: str, instead: str) -> Fault:
        """A fault at a place, with its line."""
        return Fault(
            file=self.name, path=path, wrong=wrong, read=read, instead=instead,
            line=place.line, column=place.column, text=self.line(place.line),
        )  # fmt: skip


def resolved(names: Path, last: Mapping[Path, int]) -> Path:
    """A heading's path: the name of several tables means the last one so far."""
    path: Path = ()
    for name in names:
        path = (*path, name)
        if path in last:
            path = (*path, last[path])
    return path
