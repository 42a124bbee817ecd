"""What may stand at a key of a trip file: one `Kind` per sort of value, read strictly.

A kind reads a TOML value into what the frozen values hold, says in words what it wants, and shows a
value as TOML text again. Pydantic calls it for each field; a complaint says what to write instead.
Strict: true is no number, a text is no number, a number is no quantity.
"""

from __future__ import annotations

import datetime as dt
import difflib
import math
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from oatsack import units
from oatsack.errors import UnitError


@dataclass(frozen=True, slots=True)
class Kind:
    """How one sort of value is read, described and shown; `example` is TOML text."""

    says: str
    example: str
    read: Callable[[Any], Any]
    show: Callable[[Any], str]
    options: Callable[[], tuple[str, ...]] | None = None
    """The words that may stand there, where there is a list."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.check)

    def check(self, value: object) -> object:
        """The value as read; a complaint as pydantic wants it."""
        try:
            return self.read(value)
        except UnitError as error:
            raise PydanticCustomError(
                "value", "{wrong}", {"wrong": error.wrong, "instead": error.instead}
            ) from None


def quoted(text: str) -> str:
    """TOML source of a text."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def need_text(value: object, says: str, example: str) -> str:
    """The value if it is a text; complains in the terms of what was wanted."""
    if isinstance(value, str):
        return value
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise UnitError(f"a number where {says} is needed", instead=f"write for example {example}")
    raise UnitError(f"not {says}", instead=f"write for example {example}")


def nearest(word: str, known: Iterable[str]) -> str:
    """The known name most like this one, or nothing."""
    names = list(known)
    folded = {name.casefold(): name for name in names}
    close = difflib.get_close_matches(word.casefold(), folded, n=1, cutoff=0.6)
    return folded[close[0]] if close else ""


def quantity(
    reader: Callable[[str], float], says: str, example: str, *, show: Callable[[float], str],
    low: float | None = None, high: float | None = None,
) -> Kind:  # fmt: skip
    """A number with its unit, between two bounds in the fixed unit of its reader."""
    span = _span(low, high, show)

    def read(value: object) -> float:
        text = need_text(value, f"{says} with its unit", quoted(example))
        try:
            found = reader(text)
        except UnitError as error:
            generic = " such as " in error.instead  # the key's own example says more
            instead = f"write for example {quoted(example)}" if generic else error.instead
            raise UnitError(error.wrong, instead=instead) from None
        return _bounded(found, low, high, span)

    return Kind(says + span, quoted(example), read, lambda value: quoted(trimmed(show(value))))


def trimmed(text: str) -> str:
    """A shown quantity without noughts behind the point: ``8.00 kg`` as ``8 kg``."""
    return re.sub(r"(\.\d*?)0+(?=\D|$)", lambda found: found[1].rstrip("."), text)


def _span(low: float | None, high: float | None, show: Callable[[float], str]) -> str:
    if low is None or high is None:
        return "" if low is None else f", {trimmed(show(low))} or more"
    return f", {trimmed(show(low))} to {trimmed(show(high))}"


def _bounded(found: float, low: float | None, high: float | None, span: str) -> float:
    if found < 0 and low is not None and low >= 0:
        raise UnitError("negative", instead=f"write a value{span}")
    if (low is not None and found < low) or (high is not None and found > high):
        raise UnitError("out of range", instead=f"write a value{span}")
    return found


def plain(number: float) -> str:
    """A number as short as it can be written."""
    return f"{number:.10g}"


def number(
    says: str, example: str, *, low: float | None = None, high: float | None = None,
    whole: bool = False,
) -> Kind:  # fmt: skip
    """A bare number, whole or not, between two bounds. True is no number."""
    span = _span(low, high, plain)
    sort = "a whole number" if whole else "a number"

    def read(value: object) -> float:
        if isinstance(value, str) and re.fullmatch(r"\s*\d+(\.\d+)?\s*", value):
            raise UnitError(f"not {sort}", instead=f"write {value.strip()}, without quotes")
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise UnitError(f"not {sort}", instead=f"write for example {example}")
        if not math.isfinite(value) or (whole and value != int(value)):
            raise UnitError(f"not {sort}", instead=f"write for example {example}")
        found = _bounded(float(value), low, high, span)
        return int(found) if whole else found

    return Kind(f"{sort}: {says}{span}" if says else sort + span, example, read, plain)


def word(says: str, options: Callable[[], tuple[str, ...]], *, example: str = "") -> Kind:
    """One of some words, listed when asked for (so that a list may live elsewhere)."""

    def read(value: object) -> str:
        known = options()
        text = need_text(value, says, quoted(example or known[0]))
        if text in known:
            return text
        close = nearest(text, known)
        hint = f'did you mean "{close}"? ' if close else ""
        listed = ", ".join(f'"{name}"' for name in known)
        raise UnitError(f"no {says.removeprefix('a ')} we know", instead=f"{hint}known: {listed}")

    return Kind(says, quoted(example or options()[0]), read, quoted, options)


def words(says: str, *options: str) -> Kind:
    """One of these words."""
    return word(says, lambda: options)


def _read_text(value: object) -> str:
    text = need_text(value, "a text", '"a few words"')
    if not text.strip():
        raise UnitError("an empty text", instead="write a few words, or leave the key out")
    return text.strip()


def _read_yes_no(value: object) -> bool:
    if isinstance(value, bool):
        return value
    raise UnitError("neither true nor false", instead="write true or false, without quotes")


def _read_moment(value: object) -> dt.datetime:
    """A local date and time; the zone stands in its own key."""
    if isinstance(value, str):
        value = _moment_of_text(value)
    if not isinstance(value, dt.datetime):
        raise UnitError("no date with a time", instead='write for example "2026-07-02 09:00"')
    if value.tzinfo is not None:
        raise UnitError("a time with an offset", instead='write local time, and the zone in "zone"')
    return value


def _moment_of_text(text: str) -> dt.datetime:
    try:
        found = dt.datetime.fromisoformat(text.strip())
    except ValueError:
        instead = 'write for example "2026-07-02 09:00": year, month, day, then the time'
        raise UnitError("no date with a time", instead=instead) from None
    if len(text.strip()) <= len("2026-07-02"):
        raise UnitError(
            "a date without a time", instead=f'write for example "{text.strip()} 09:00"'
        )
    return found


def _read_date(value: object) -> dt.date:
    try:
        if isinstance(value, str):
            value = dt.date.fromisoformat(value.strip())
    except ValueError:
        value = None
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return value
    raise UnitError("no date", instead='write for example "2026-07-04"')


def _read_zone(value: object) -> str:
    text = need_text(value, "a time zone", '"Europe/Vienna"')
    try:
        ZoneInfo(text)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        hint = _nearest_zone(text)
        raise UnitError(
            "no time zone we know",
            instead=f'did you mean "{hint}"?' if hint else 'write for example "Europe/Vienna"',
        ) from None
    return text


def _nearest_zone(text: str) -> str:
    from zoneinfo import available_timezones

    known = sorted(available_timezones())
    cities = [zone for zone in known if zone.rpartition("/")[2].casefold() == text.casefold()]
    return cities[0] if cities else nearest(text.replace(" ", "_"), known)


def _read_clock(value: object) -> float:
    if isinstance(value, dt.time):
        return 60.0 * value.hour + value.minute
    return units.clock_min(need_text(value, "a time of day", '"7:30"'))


TEXT = Kind("a text", '"a few words"', _read_text, quoted)
YES_NO = Kind("true or false", "true", _read_yes_no, lambda value: "true" if value else "false")
MOMENT = Kind("a local date and time", '"2026-07-02 09:00"', _read_moment,
              lambda value: quoted(value.strftime("%Y-%m-%d %H:%M")))  # fmt: skip
DATE = Kind("a date", '"2026-07-04"', _read_date, lambda value: quoted(value.isoformat()))
ZONE = Kind("an IANA time zone", '"Europe/Vienna"', _read_zone, quoted)
CLOCK = Kind("a time of day", '"7:30"', _read_clock, lambda value: quoted(units.show_clock(value)))
