"""A commented trip file from four answers and some favourites, for whoever starts.

Answers are texts in the walker's own words and units; they are written as they came, so that the
file says what was said. What was not asked is shown as comments with its default, taken from the
tables, so that the hints cannot grow old.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from oatsack.files.trip.edit import source_of
from oatsack.files.trip.reference import default_text
from oatsack.files.trip.tables import KitTable, RouteTable, RulesTable, Table, WalkerTable
from oatsack.values.food import Meal


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What was asked, as it was answered. Only the first five must be given."""

    masses: tuple[str, ...]
    """One for each walker: ``68 kg``."""
    begin: str
    """``2026-07-02 09:00``, local."""
    end: str
    distance: str
    up: str
    target: str = ""
    """``2200 kcal``, ``85%``, ``light``, ``usual`` or ``hungry``; empty: not asked."""
    names: tuple[str, ...] = ()
    title: str = ""
    zone: str = ""
    larders: tuple[str, ...] = ()
    meals: Mapping[Meal, tuple[str, ...]] = field(default_factory=dict)
    """Favourites of everyone, as they are written in the file: ``2 maple-oatmeal``."""
    bags: tuple[str, ...] = ()
    counts: tuple[str, ...] = ()


HINTS: tuple[tuple[str, type[Table], tuple[str, ...]], ...] = (
    ("kit", KitTable, ("pots", "stove", "cans", "mug", "containers")),
    ("rules", RulesTable, ("hot_breakfast", "cook_midday", "no_flame", "last_lunch", "budget",
                           "spare")),
)  # fmt: skip
WALKER_HINTS = ("sex", "age", "height", "base_weight", "eats", "avoids", "dislikes", "hot_drinks")
ROUTE_HINTS = ("track", "pace", "start_height", "warm", "cold", "walk_from")


def write_trip(answers: Answers) -> str:
    """The text of a trip file; reading it gives a trip with these answers."""
    return "\n".join(_lines(answers)) + "\n"


def _lines(answers: Answers) -> Iterator[str]:
    yield "# A trip file of Oatsack. Lines that begin with # are notes; take the # away to use one."
    if answers.title:
        yield f"title = {source_of(answers.title)}"
    yield f"from = {source_of(answers.begin)}"
    yield f"to = {source_of(answers.end)}"
    yield f"zone = {source_of(answers.zone)}" if answers.zone else '# zone = "Europe/Vienna"'
    for number, mass in enumerate(answers.masses):
        yield from _walker(answers, number, mass)
    yield from ("", "[route]")
    day = {"distance": answers.distance, "up": answers.up}
    yield f"usual_day = {source_of(day)}"
    yield from hints(RouteTable, ROUTE_HINTS)
    if answers.larders:
        yield from ("", "[larder]", f"files = {source_of(answers.larders)}")
    for name, table, keys in HINTS:
        yield from ("", f"[{name}]")
        yield from hints(table, keys)


def _walker(answers: Answers, number: int, mass: str) -> Iterator[str]:
    yield from ("", "[[walkers]]")
    if number < len(answers.names):
        yield f"name = {source_of(answers.names[number])}"
    yield f"mass = {source_of(mass)}"
    if answers.target:
        yield f"target = {source_of(answers.target)}"
    if number == 0:
        yield from hints(WalkerTable, WALKER_HINTS)
    yield from _usual(answers)


def _usual(answers: Answers) -> Iterator[str]:
    given = [(meal, items) for meal, items in answers.meals.items() if items]
    if not (given or answers.bags or answers.counts):
        return
    yield from ("", "[walkers.usual]  # favourites: choices take turns, + goes together")
    for meal, items in given:
        yield f"{meal} = {source_of(items)}"
    if answers.bags:
        yield f"bags = {source_of(answers.bags)}  # open bags, nibbled over days"
    if answers.counts:
        yield f"counts = {source_of(answers.counts)}"


def hints(table: type[Table], keys: tuple[str, ...]) -> Iterator[str]:
    """A commented line for each key: what it is, and what stands if it is left out."""
    for key in keys:
        sample, text = default_text(table, key)
        yield f"# {key} = {sample}".ljust(34) + f"# {text}"
