"""One cell of a larder file -> a value, or why not. One small reader per kind of column.

A plain number stands in the unit of its column; a number with a unit of its own ("3 oz", "1 cup")
is converted. A cell that cannot be read raises BadCell with what to write instead. Blank cells
never come here: blank is absent, not zero (C2).
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Mapping
from typing import Final

from oatsack.files.sheet import Decimal, number

MASS: Final[Mapping[str, float]] = {
    "mg": 0.001, "g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237,
}  # fmt: skip
VOLUME: Final[Mapping[str, float]] = {
    "ml": 1.0, "cl": 10.0, "dl": 100.0, "l": 1000.0, "fl oz": 29.5735295625, "cup": 236.5882365,
}  # fmt: skip
TIME: Final[Mapping[str, float]] = {"min": 1.0, "h": 60.0, "d": 1440.0}
KJ_PER_KCAL: Final = 4.184
"""Source: Usda2015, documentation: 1 kcal = 4.184 kJ."""
ENERGY: Final[Mapping[str, float]] = {"kcal": 1.0, "kj": 1.0 / KJ_PER_KCAL}
YES: Final = {"yes": True, "y": True, "true": True, "1": True, "x": True}
NO: Final = {"no": False, "n": False, "false": False, "0": False, "-": False}
_YES_NO: Final = YES | NO
_QUANTITY = re.compile(r"([\d.,]+)\s*([A-Za-z][A-Za-z ]*)\.?")


class BadCell(ValueError):
    """A cell that cannot be read: what is wrong, and what to write instead."""

    def __init__(self, wrong: str, instead: str) -> None:
        self.wrong, self.instead = wrong, instead
        super().__init__(wrong)


_MARK_NAME = {".": "a decimal point", ",": "a decimal comma", None: "no decimal mark that shows"}


def quantity(text: str, decimal: Decimal | None, units: Mapping[str, float]) -> float:
    """A number in the column's unit, or one with a unit of its own."""
    plain = number(text, decimal)
    if plain is not None:
        return plain
    found = _QUANTITY.fullmatch(text)
    if found:
        value, factor = number(found[1], decimal), units.get(found[2].lower().rstrip("s").strip())
        if value is not None and factor is not None:
            return value * factor
    raise not_a_number(text, decimal, units)


def not_a_number(text: str, decimal: Decimal | None, units: Mapping[str, float]) -> BadCell:
    """Why a text is no number of this file."""
    some = f" or with a unit ({', '.join(units)})" if units else ""
    if text.startswith("-"):
        return BadCell("is below zero", "write a number that is not negative, or leave it blank")
    if re.fullmatch(r"\d{1,3}[.,]\d{3}", text):
        bare = re.sub("[.,]", "", text)
        low = re.sub("[.,]", ".", text)
        return BadCell("has two readings", f"write {bare} or {float(low):g} without the mark")
    if re.fullmatch(r"\d*[.,]\d+", text):
        return BadCell("has another decimal mark", f"the other numbers have {_MARK_NAME[decimal]}")
    return BadCell("is no number", f"write a plain number{some}, or leave it blank")


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
