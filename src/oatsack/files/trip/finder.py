"""Where in a trip file a path or a word stands, for complaints made once the file was read.

Whoever compares a trip with other files (foods, the track) knows paths and words, not columns.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from oatsack.errors import Fault
from oatsack.files.trip.document import Document, Place, path_text
from oatsack.files.trip.toml import read_toml
from oatsack.values.trip import Trip


def placed(trip: Trip, faults: Iterable[Fault], text: str) -> tuple[Fault, ...]:
    """The same faults with the column and the line that each is about, in the file's order."""
    finder = Finder(trip, text)
    found = [one if one.text else finder.placed(one) for one in faults]
    return tuple(sorted(found, key=lambda fault: (fault.line, fault.column)))


class Finder:
    """Finds a path's place again: from the text if there is one, else from the trip's origins."""

    def __init__(self, trip: Trip, text: str) -> None:
        self.trip = trip
        name = next((file for file, _ in trip.origins.values()), "the trip")
        self.document: Document = read_toml(text, name)
        self.places = {path_text(path): at for path, at in self.document.values.items()}

    def fault(self, path: str, word: str, wrong: str, instead: str) -> Fault:
        """A fault of a word that stands at a path."""
        place = self._place(path, word)
        return self.document.fault(path, place, wrong, read=f'"{word}"', instead=instead)

    def _place(self, path: str, word: str) -> Place:
        """Where the word stands; in a list that was written as one text, the list."""
        here = path
        while here and here not in self.places and here not in self.trip.origins:
            here = here[: max(here.rfind("."), here.rfind("["), 0)]
        found = self.places.get(here)
        if found is None:
            _, line = self.trip.origins.get(here, ("", 0))
            return Place(line, 1 if line else 0, "")
        items = (at for where, at in self.places.items() if where.startswith(f"{here}["))
        found = next((at for at in items if at.source.strip("'\"") == word), found)
        row = self.document.line(found.line)
        at = row.find(word, found.column - 1)
        at = row.find(word) if at < 0 else at  # a food that is a key stands before its value
        return Place(found.line, at + 1 if at >= 0 else found.column, found.source)

    def placed(self, fault: Fault) -> Fault:
        """A fault that knows its path only, put where what was read stands, or its value."""
        at = self._place(fault.path, fault.read.strip("'\""))
        if not at.line:
            return fault
        return replace(fault, line=at.line, column=at.column, text=self.document.line(at.line))
