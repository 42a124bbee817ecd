"""A first trip from four answers: what light, usual and hungry weigh, favourites to pick, the file.

The four are: who walks (body mass), from when to when, a usual day, how much one wants to eat.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from oatsack.errors import UsageError
from oatsack.reports.words import say

if TYPE_CHECKING:
    from oatsack.files.trip.write import Answers
    from oatsack.values.food import Food, Meal
    from oatsack.values.trip import Trip

LEVELS = ("light", "usual", "hungry")
OFFERED = 8
"""Favourites shown per meal; more make people leave."""
OFFERS: Mapping[Meal, frozenset[str]] = {
    "breakfast": frozenset({"main"}),
    "lunch": frozenset({"main", "snack", "side"}),
    "dinner": frozenset({"main"}),
    "drinks": frozenset({"drink", "small"}),
}
"""Meal -> roles of food that are offered for it. Nibbles are offered apart, as open bags."""
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """What one level of eating means for everyone together: a full day each, food in all."""

    word: str
    kcal_day: tuple[float, ...]
    food_g: float
    makes: str = ""
    """How many days, nights and meals the answers come to, as a sentence."""


def moment(text: str, today: dt.date, *, after: dt.datetime | None = None) -> dt.datetime:
    """``2026-07-02 09:00``, ``Thu 09:00`` or ``Thu 9 am`` (the next Thursday), local time.

    Raises UsageError that says what to write, also for what is not after `after`.
    """
    found = re.fullmatch(r"(\d{4}-\d{2}-\d{2}|[A-Za-z]{3,9})\.?[T ]\s*(.+)", text.strip())
    begin = after.date() if after else today
    day, clock = (_date(found[1], begin), _clock(found[2])) if found else (None, None)
    if found is None or day is None or clock is None:
        raise UsageError(say("desk.no-moment", text=repr(text), today=today.isoformat()))
    at = dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=clock)
    if after is None or at > after:
        return at
    if found[1].isalpha():
        return at + dt.timedelta(days=7)
    raise UsageError(say("desk.not-after", text=text, after=f"{after:%Y-%m-%d %H:%M}"))


def _date(text: str, begin: dt.date) -> dt.date | None:
    """A date as written, or the first such weekday from a day on; None for neither."""
    if text.isalpha():
        names = [day for day in WEEKDAYS if text.lower().startswith(day)]
        ahead = [(WEEKDAYS.index(day) - begin.weekday()) % 7 for day in names]
        return begin + dt.timedelta(days=ahead[0]) if ahead else None
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None


def _clock(text: str) -> float | None:
    """Minutes since midnight of a time of day; None for what is none, or not within a day."""
    from oatsack import units
    from oatsack.errors import UnitError

    try:
        minutes = units.clock_min(text.removesuffix(":00") if text.count(":") == 2 else text)
    except UnitError:
        return None
    return minutes if 0 <= minutes < 24 * 60 else None


def trip_of(answers: Answers) -> Trip:
    """The trip of these answers. Raises UsageError in the words of the questions, not of a file."""
    from oatsack.errors import TripFileError
    from oatsack.files.trip import parse_trip
    from oatsack.files.trip.write import write_trip

    try:
        return parse_trip(write_trip(answers), "your answers")
    except TripFileError as error:
        said = "\n".join(f"{f.wrong}, got {f.read}; {f.instead}" for f in error.faults)
        raise UsageError(said) from None


def sizes(answers: Answers, today: dt.date) -> tuple[Size, ...]:
    """The mass of eating light, usual and hungry, side by side."""
    return tuple(_size(word, replace(answers, target=word), today) for word in LEVELS)


def _size(word: str, answers: Answers, today: dt.date) -> Size:
    from oatsack.provision import Setting  # heavy; offering favourites needs none of it
    from oatsack.provision.flow import sized

    found = sized(trip_of(answers), setting=Setting(today=today))
    counts = {meal: found.meals.get(meal, 0) for meal in ("breakfast", "lunch", "dinner")}
    makes = say("live.start_makes", days=found.days, nights=found.nights, **counts)
    return Size(word=word, kcal_day=found.kcal_day, food_g=found.food_g, makes=makes)


def weekend(today: dt.date) -> dict[str, str]:
    """From when to when, until somebody says: the next Saturday and Sunday."""
    ahead = (WEEKDAYS.index("sat") - today.weekday() - 1) % 7 + 1
    first = today + dt.timedelta(days=ahead)
    return {"begin": f"{first}T09:00", "end": f"{first + dt.timedelta(days=1)}T15:00"}


def listed(text: str) -> list[str]:
    """What stands between commas or "and"; a comma between two digits is part of a number."""
    return [part.strip() for part in re.split(r"(?<!\d),|,(?!\d)| and ", text) if part.strip()]


def as_energy(text: str) -> str:
    """A bare number is meant in kilocalories; nobody eats two of them, so a comma groups."""
    bare = text.replace(",", "").replace(" ", "")
    return f"{bare} kcal" if bare.isdigit() else text or "usual"


def offers(foods: Iterable[Food], meal: Meal) -> tuple[Food, ...]:
    """A short list of well-liked things for a meal, in the order of liking."""
    roles = OFFERS.get(meal, frozenset({"snack"}))
    suits = [f for f in foods if meal in f.meals and f.role in roles]
    return tuple(sorted(suits, key=lambda f: (-f.liked_by(""), f.id)))[:OFFERED]


def bags(foods: Iterable[Food]) -> tuple[Food, ...]:
    """Open bags that can be nibbled over days, sweet and salty taking turns."""
    fits = sorted((f for f in foods if f.carry == "bag" and "move" in f.meals),
                  key=lambda f: (-f.liked_by(""), f.id))  # fmt: skip
    sweet = [f for f in fits if f.taste == "sweet"]
    other = [f for f in fits if f.taste != "sweet"]
    turns = min(len(sweet), len(other))
    mixed = [f for pair in zip(sweet[:turns], other[:turns], strict=True) for f in pair]
    return (*mixed, *sweet[turns:], *other[turns:])[:OFFERED]


def picked(text: str, offered: Sequence[Food]) -> tuple[str, ...]:
    """``1 3 3`` -> ids with counts: each number once, repeats as a count. Raises UsageError."""
    counts: dict[str, int] = {}
    for word in text.replace(",", " ").split():
        if not word.isdecimal() or not 1 <= int(word) <= len(offered):
            raise UsageError(say("desk.no-number", word=repr(word), n=len(offered)))
        food = offered[int(word) - 1].id
        counts[food] = counts.get(food, 0) + 1
    return tuple(food if n == 1 else f"{n} {food}" for food, n in counts.items())
