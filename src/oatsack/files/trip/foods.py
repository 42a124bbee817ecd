"""Whether the foods that a trip names exist in the larder; the desk asks once both are read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from oatsack.errors import Fault
from oatsack.files.trip.document import Document, Place, path_text
from oatsack.files.trip.kinds import nearest
from oatsack.files.trip.toml import read_toml
from oatsack.values.food import Food
from oatsack.values.trip import Trip


def named_foods(trip: Trip) -> Iterator[tuple[str, str]]:
    """Path and id of every food that the trip file names."""
    for number, walker in enumerate(trip.walkers):
        start = f"walkers[{number}]"
        usual = walker.usual
        for meal, choices in usual.meals.items():
            for place, choice in enumerate(choices):
                for pick in choice.picks:
                    yield f"{start}.usual.{meal}[{place}]", pick.food
        for place, pick in enumerate(usual.bags):
            yield f"{start}.usual.bags[{place}]", pick.food
        for place, count in enumerate(usual.counts):
            yield f"{start}.usual.counts[{place}]", count.food
        for food in walker.liking:
            yield f"{start}.liking.{food}", food
    yield from _held(trip)
    for food in trip.now.left if trip.now else ():
        yield f"now.left.{food}", food


def _held(trip: Trip) -> Iterator[tuple[str, str]]:
    """Holds stand before bans in the trip, each in its own list in the file."""
    for sort, held in (
        ("holds", [one for one in trip.rules.holds if one.count > 0]),
        ("bans", [one for one in trip.rules.holds if one.count == 0]),
    ):
        for number, one in enumerate(held):
            yield f"rules.{sort}[{number}].food", one.food


def check_foods(trip: Trip, foods: Iterable[Food], *, text: str = "") -> tuple[Fault, ...]:
    """A fault for every food id, and every disliked word, that the larder lacks.

    `text` is the trip file's text; with it the faults know their column and line.
    """
    larder = list(foods)
    ids = {food.id for food in larder}
    names = {food.name.casefold(): food.id for food in larder}
    kinds = {food.category for food in larder}
    finder = _Finder(trip, text)
    out = [
        finder.fault(path, food, "no food of this id in the larder", _hint(food, ids, names))
        for path, food in named_foods(trip)
        if food not in ids
    ]
    for number, walker in enumerate(trip.walkers):
        for word in sorted(walker.dislikes - ids - kinds):
            path, hint = f"walkers[{number}].dislikes", _hint(word, ids | kinds, names)
            out.append(finder.fault(path, word, "neither a food nor a class of foods", hint))
    return tuple(sorted(out, key=lambda fault: (fault.line, fault.column)))


def _hint(word: str, ids: Iterable[str], names: dict[str, str]) -> str:
    close = nearest(word, sorted(ids)) or names.get(nearest(word.replace("-", " "), names), "")
    return f'did you mean "{close}"?' if close else "look it up with: oatsack foods"


class _Finder:
    """Finds a path's place again: from the text if there is one, else from the trip's origins."""

    def __init__(self, trip: Trip, text: str) -> None:
        self.trip = trip
        name = next((file for file, _ in trip.origins.values()), "the trip")
        self.document: Document = read_toml(text, name)
        self.places = {path_text(path): at for path, at in self.document.values.items()}

    def fault(self, path: str, word: str, wrong: str, instead: str) -> Fault:
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
        row = self.document.line(found.line)
        at = row.find(word, found.column - 1)
        at = row.find(word) if at < 0 else at  # a food that is a key stands before its value
        return Place(found.line, at + 1 if at >= 0 else found.column, found.source)
