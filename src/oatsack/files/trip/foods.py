"""Whether the foods that a trip names exist in the larder; the desk asks once both are read.

A pick, a like or a dislike of a food that is not there is a fault. A hold or ban of one is a fault
only where a known food was meant; else it no longer applies, and that is told.
"""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable, Iterator, Mapping

from oatsack.errors import Fault
from oatsack.files.trip.finder import Finder
from oatsack.files.trip.kinds import nearest
from oatsack.values.food import Food
from oatsack.values.trip import Hold, Trip


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
        if food not in ids and (not path.startswith("rules.") or _slip(food, ids, names))
    ]
    for number, walker in enumerate(trip.walkers):
        for word in sorted(walker.dislikes - ids - kinds) if not at_fault else ():
            path, hint = f"walkers[{number}].dislikes", _hint(word, ids | kinds, names)
            out.append(finder.fault(path, word, "neither a food nor a class of foods", hint))
    return tuple(sorted(out, key=lambda fault: (fault.line, fault.column)))


def gone(trip: Trip, foods: Iterable[Food]) -> tuple[tuple[str, Hold, str], ...]:
    """Holds and bans that no longer apply, for the walk or the larder has changed: the path in the
    file, the hold, and why (``unknown``, ``nobody``, ``no-day``). They are the walker's words, so
    they are kept and told (DESIGN, section 5)."""
    ids = {food.id for food in foods}
    walkers = {walker.id for walker in trip.walkers}
    first, last = trip.begin.date(), trip.end.date()

    def why(hold: Hold) -> str:
        if hold.food not in ids:
            return "unknown"
        if hold.walker is not None and hold.walker not in walkers:
            return "nobody"
        return "no-day" if hold.date and not first <= hold.date <= last else ""

    ordered = [hold for many in (True, False) for hold in trip.rules.holds
               if (hold.count > 0) is many]  # fmt: skip
    paths = [path.removesuffix(".food") for path, _ in _held(trip)]
    found = ((path, hold, why(hold)) for path, hold in zip(paths, ordered, strict=True))
    return tuple(one for one in found if one[2])


SLIP = 0.85
"""How alike two words are, of 1, from which one is taken for the other misspelt; ours. Below it a
food that was taken out of the larder would be taken for its neighbour."""


def _slip(word: str, ids: Iterable[str], names: Mapping[str, str]) -> bool:
    """Whether a word is a known food misspelt, or a food's name in place of its id."""
    alike = difflib.get_close_matches(word, ids, n=1, cutoff=SLIP)
    said = difflib.get_close_matches(word.replace("-", " "), names, n=1, cutoff=SLIP)
    return bool(alike or said)


def _hint(word: str, ids: Iterable[str], names: dict[str, str]) -> str:
    close = nearest(word, sorted(ids)) or names.get(nearest(word.replace("-", " "), names), "")
    return f'did you mean "{close}"?' if close else "look it up with: oatsack foods"
