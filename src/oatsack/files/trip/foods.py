"""Whether the foods that a trip names exist in the larder; the desk asks once both are read."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from oatsack.errors import Fault
from oatsack.files.trip.finder import Finder
from oatsack.files.trip.kinds import nearest
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


def check_foods(trip: Trip, foods: Iterable[Food], *, text: str = "",
                at_fault: Collection[str] = ()) -> tuple[Fault, ...]:  # fmt: skip
    """A fault for every food id, and every disliked word, that the larder lacks.

    `text` is the trip file's text; with it the faults know their column and line. `at_fault` are
    ids of rows that could not be read: what is named so is there, and their classes are not known.
    """
    larder = list(foods)
    ids = {food.id for food in larder} | set(at_fault)
    names = {food.name.casefold(): food.id for food in larder}
    kinds = {food.category for food in larder}
    finder = Finder(trip, text)
    out = [
        finder.fault(path, food, "no food of this id in the larder", _hint(food, ids, names))
        for path, food in named_foods(trip)
        if food not in ids
    ]
    for number, walker in enumerate(trip.walkers):
        for word in sorted(walker.dislikes - ids - kinds) if not at_fault else ():
            path, hint = f"walkers[{number}].dislikes", _hint(word, ids | kinds, names)
            out.append(finder.fault(path, word, "neither a food nor a class of foods", hint))
    return tuple(sorted(out, key=lambda fault: (fault.line, fault.column)))


def _hint(word: str, ids: Iterable[str], names: dict[str, str]) -> str:
    close = nearest(word, sorted(ids)) or names.get(nearest(word.replace("-", " "), names), "")
    return f'did you mean "{close}"?' if close else "look it up with: oatsack foods"
