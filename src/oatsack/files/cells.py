"""One cell of a larder file -> a value, or why not. One small reader per kind of column.

A plain number stands in the unit of its column; a number with a unit of its own ("3 oz", "1 cup")
is converted. A cell that cannot be read raises BadCell with what to write instead. Blank cells
never come here: blank is absent, not zero (C2).
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Final, Literal

from oatsack.errors import UnitError
from oatsack.files.sheet import Decimal, number

YES: Final = {"yes": True, "y": True, "true": True, "1": True, "x": True}
NO: Final = {"no": False, "n": False, "false": False, "0": False, "-": False}
_YES_NO: Final = YES | NO
Measure = Literal["mass_g", "mass_mg", "volume_ml", "energy_kcal", "minutes", "number"]


class BadCell(ValueError):
    """A cell that cannot be read: what is wrong, and what to write instead."""

    def __init__(self, wrong: str, instead: str) -> None:
        self.wrong, self.instead = wrong, instead
        super().__init__(wrong)


_MARKS: Final = {".": "point", ",": "comma"}


def quantity(text: str, decimal: Decimal | None, measure: Measure, *, own: float = 1.0) -> float:
    """A bare number times the column's own unit, or one with a unit (C1); never below zero."""
    plain = number(text, decimal)
    if plain is not None:
        return plain * own
    bare = not any(sign.isalpha() for sign in text)
    if decimal and re.fullmatch(r"\d*[.,]\d{1,2}", text):
        wrong = f"has no decimal {_MARKS[decimal]} as the other numbers of the file"
        raise BadCell(wrong, f"write {re.sub('[.,]', decimal, text)}")
    value = measured(text, decimal, "number") * own if bare else measured(text, decimal, measure)
    if value < 0.0:
        raise BadCell("is below zero", "write a number that is not negative, or leave it blank")
    return value


def measured(text: str, decimal: Decimal | None, measure: Measure) -> float:
    """What `oatsack.units` reads, in the fixed unit that the measure names."""
    from oatsack import units  # slow to import, and few cells bring a unit of their own

    try:
        return float(getattr(units, measure)(text, decimal=decimal))
    except UnitError as error:
        named = error.wrong.startswith('"')  # the part that no unit explains
        raise BadCell(error.wrong if named else f"is {error.wrong}", error.instead) from None


def yes_no(text: str) -> bool:
    """Yes or no."""
    try:
        return _YES_NO[text.lower()]
    except KeyError:
        raise BadCell("is neither yes nor no", "write yes or no") from None


def date(text: str) -> dt.date:
    """A day as 2027-03-31 or 31.3.2027; one with two readings is refused."""
    try:
        found = re.fullmatch(r"(\d{1,2})\.(\d{1,2})\.(\d{4})", text)
        if found:
            return dt.date(int(found[3]), int(found[2]), int(found[1]))
        return dt.date.fromisoformat(text)
    except ValueError:
        two = re.fullmatch(r"(\d{1,2})/(\d{1,2})/(\d{4})", text)
        wrong = "has two readings" if two else "is no date"
        raise BadCell(wrong, "write year-month-day, as 2027-03-31") from None


def choice(known: tuple[str, ...]) -> Callable[[str], str]:
    """A reader of one word out of a list; capitals do not matter."""
    table = {word: word for word in known}

    def read(text: str) -> str:
        word = table.get(text.lower())
        if word is None:
            raise BadCell("is not known here", one_of(text, known))
        return word

    return read


def words(known: tuple[str, ...]) -> Callable[[str], frozenset[str]]:
    """A reader of several words out of a list, apart by blanks, commas, semicolons or bars."""
    table = frozenset(known)

    def read(text: str) -> frozenset[str]:
        found = re.split(r"[\s,;|+/]+", text.lower())
        for word in found:
            if word and word not in table:
                raise BadCell(f"holds {word!r}, which is not known here", one_of(word, known))
        return frozenset(filter(None, found))

    return read


def one_of(text: str, known: tuple[str, ...]) -> str:
    """What to write instead of a word that is not on a list, the nearest first."""
    near = nearest(text, known)
    start = f"did you mean {near!r}? " if near else ""
    return f"{start}write one of: {', '.join(known)}"


def nearest(text: str, known: tuple[str, ...]) -> str | None:
    """The word of a list that is spelt most like a text, or None if none is like it."""
    from difflib import get_close_matches  # only faults need it, and it is slow to import

    found = get_close_matches(text.lower(), known, n=1, cutoff=0.6)
    return found[0] if found else None
