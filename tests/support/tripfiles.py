"""Trip files with every key of the tables in them, one to a line, and the place of each key.

Made from the tables themselves, so that a key added there is written, and broken, here too.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from oatsack.files.trip.faults import fields_of, inner_table, is_many, kind_of
from oatsack.files.trip.kinds import Kind
from oatsack.files.trip.reference import sections
from oatsack.files.trip.tables import Table

BY_TRACK = {"route.usual_day", "route.days[]", "route.days[].stretches[]", "route.days[].water[]",
            "route.usual_day.stretches[]", "route.usual_day.water[]"}  # fmt: skip
"""Sections that a file with a track cannot have."""
BY_HAND = {"route.track", "route.camps", "route.cuts", "route.equal_days", "walkers[].pace"}
"""Keys that a file with typed days does not have here."""
ONE_CUT = {"route.cuts", "route.equal_days", "walkers[].pace_track"}
"""Keys that a file with a track does not have here: a pace is told once, and days are cut once."""

FITTING = {
    "to": '"2026-07-05 15:00"', "walkers[].name": '"Anna"', "route.track": '"way.gpx"',
    "rules.holds[].walker": '"Anna"', "rules.bans[].walker": '"anna"',
    "kit.containers[].carrier": '"Anna"', "route.usual_day.highest": '"2100 m"',
    "dogs[].carrier": '"Anna"',
    "route.days[].highest": '"2100 m"', "kit.cans[].now": '"310 g"',
    "route.days[].distance": '"16 km"', "route.usual_day.stretches[].distance": '"16 km"',
    "route.days[].stretches[].distance": '"16 km"',
    "kit.stove.kind": '"gas-open"', "kit.pots[].for": '"Anna"',
}  # fmt: skip
"""Values that must suit each other; all other keys take their kind's example."""


@dataclass(frozen=True)
class Entry:
    """One key of the written file: where it belongs, what it takes, and its line (from 1)."""

    section: str
    key: str
    kind: Kind
    many: bool
    by_name: bool
    needed: bool
    line: int
    source: str

    @property
    def path(self) -> str:
        """The path in faults: the first of each list."""
        section = self.section.replace("[]", "[0]")
        return f"{section}.{self.key}" if section else self.key

    @property
    def value_path(self) -> str:
        """The path of the value, or of the first in a list or table of values."""
        if self.by_name:
            return f"{self.path}.{self.named.strip(chr(34))}"
        return f"{self.path}[0]" if self.many else self.path

    @property
    def named(self) -> str:
        """The key of a value in a table by name: a food, or a setting, which is quoted."""
        return '"protein.g_per_kg"' if self.key == "settings" else "trail-mix"

    @property
    def opening(self) -> str:
        """What stands between the equals sign and the value."""
        return "[" if self.many else f"{{ {self.named} = " if self.by_name else ""

    @property
    def closing(self) -> str:
        """What stands behind the value."""
        return "]" if self.many else " }" if self.by_name else ""

    def text(self, source: str, key: str = "") -> str:
        """The line with another value."""
        return f"{key or self.key} = {self.opening}{source}{self.closing}"

    @property
    def column(self) -> int:
        """The column of the value, from 1."""
        return len(f"{self.key} = {self.opening}") + 1


def full_file(*, by_track: bool) -> tuple[list[str], list[Entry]]:
    """The lines of a trip file with every key that may stand together, and its entries."""
    lines: list[str] = []
    entries: list[Entry] = []
    left_out = BY_TRACK if by_track else set()
    for section, table in sections():
        if section not in left_out:
            if section:
                lines += ["", _heading(section)]
            _write(section, table, lines, entries, ONE_CUT if by_track else BY_HAND)
    return lines, entries


def _heading(section: str) -> str:
    name = section.replace("[]", "")
    return f"[[{name}]]" if section.endswith("[]") else f"[{name}]"


def _write(
    section: str, table: type[Table], lines: list[str], entries: list[Entry], skip: set[str]
) -> None:
    for key, info in fields_of(table).items():
        full = f"{section}.{key}" if section else key
        kind = kind_of(info)
        if inner_table(info.annotation) is not None or full in skip or kind is None:
            continue
        entry = Entry(
            section=section, key=key, kind=kind, many=is_many(info),
            by_name="dict[" in str(info.annotation), needed=info.is_required(),
            line=len(lines) + 1, source=FITTING.get(full, kind.example),
        )  # fmt: skip
        lines.append(entry.text(entry.source))
        entries.append(entry)


def all_entries() -> Iterator[Entry]:
    """Every key once, from both files."""
    seen: set[str] = set()
    for by_track in (True, False):
        for entry in full_file(by_track=by_track)[1]:
            if entry.path not in seen:
                seen.add(entry.path)
                yield entry
