"""Text to floats in fixed units (C1): ``3 lb 4 oz`` -> 1474.2 g. Refuses what has two readings.

Every function takes what a person wrote and gives a float in the unit of its name, or raises
UnitError with what is wrong and what to write instead. Numbers without a unit are refused. Signs
are read, not judged: whether a negative height makes sense is the caller's to say.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable

from oatsack.errors import UnitError
from oatsack.units import tables
from oatsack.units.numbers import Decimal, TwoReadings, leading, number, tidy
from oatsack.units.tables import Dimension, System, Unit
from oatsack.values.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Measured:
    """A value in its fixed unit, and whose units it was written in (None: nobody's alone)."""

    value: float
    system: System | None


@dataclass(frozen=True, slots=True)
class _Part:
    value: float
    unit: Unit
    name: str


def measure(text: str, dimension: Dimension, *, decimal: Decimal | None = None) -> Measured:
    """Reads one quantity of a dimension; see the functions below for the everyday form."""
    clean = tidy(text)
    sign, body = (-1.0, clean[1:].lstrip()) if clean[:1] == "-" else (1.0, clean.removeprefix("+"))
    try:
        parts = _parts(body.strip(), dimension, decimal)
        _check_order(parts, dimension)
    except UnitError as error:
        raise _about(error, text) from None
    total = sign * sum(part.value * part.unit.factor for part in parts) + parts[0].unit.zero
    return Measured(_clean(total), parts[0].unit.system)


def _about(error: UnitError, text: str) -> UnitError:
    """The same complaint, about the whole text as it was written."""
    if isinstance(error, TwoReadings):
        return error.within(text)
    return UnitError(error.wrong, read=f'"{text}"', instead=error.instead)


def _clean(value: float) -> float:
    """Without the last digits that only conversion put there (fifteen are kept)."""
    return float(f"{value:.15g}")


def _parts(body: str, dimension: Dimension, decimal: Decimal | None) -> list[_Part]:
    """Number and unit by turns, to the end of the text."""
    parts: list[_Part] = []
    at = 0
    while at < len(body) or not parts:
        found = leading(body, at, decimal=decimal)
        if found is None:
            raise UnitError(f"not {dimension.word}", instead=f"write {dimension.example}")
        value, at = found
        stop = re.compile(r"\d|[.,]\d|$").search(body, at)
        assert stop is not None
        name = body[at : stop.start()].strip().rstrip(",").removesuffix(" and").strip()
        at = stop.start()
        unit = _unit(name, dimension, parts)
        parts.append(_Part(value, unit, name or unit.names[0]))
    return parts


def _unit(name: str, dimension: Dimension, before: list[_Part]) -> Unit:
    if not name:
        return _unit_of_bare(dimension, before)
    short = name.rstrip(".").strip()
    for spelling in (name, short):
        if spelling in dimension.exact:
            return dimension.exact[spelling]
        if spelling in dimension.caught:
            trap = dimension.caught[spelling]
            raise UnitError(trap.wrong, instead=trap.instead)
    if short.casefold() in dimension.folded:
        return dimension.folded[short.casefold()]
    raise UnitError(
        f'"{name}" is no unit of {dimension.word}', instead=f"write {dimension.example}"
    )


def _unit_of_bare(dimension: Dimension, before: list[_Part]) -> Unit:
    """``1 h 20`` leaves out its minutes, ``5 ft 10`` its inches; no other number may."""
    follows = tables.FOLLOWING.get(before[0].unit.names[0]) if len(before) == 1 else None
    if follows is None:
        raise UnitError(f"{dimension.word} without its unit", instead=f"write {dimension.example}")
    return dimension.exact[follows]


def _check_order(parts: list[_Part], dimension: Dimension) -> None:
    """Of several parts each is smaller than one of the unit before, and of the same system."""
    for above, below in itertools.pairwise(parts):
        if above.unit.system != below.unit.system:
            raise UnitError("metric and US units in one quantity", instead="write one of them")
        if below.value * below.unit.factor >= above.unit.factor or dimension in _SINGLE:
            wrong = f"{below.value:g} {below.name} do not go with {above.value:g} {above.name}"
            raise UnitError(wrong, instead=f"write {dimension.example}")


_SINGLE = (tables.TEMPERATURE, tables.DIFFERENCE, tables.SPEED, tables.ENERGY, tables.POWER)


def mass_g(text: str, *, decimal: Decimal | None = None) -> float:
    """A mass [g]: ``250 g``, ``1,5 kg``, ``3 oz``, ``3 lb 4 oz``."""
    return measure(text, tables.MASS, decimal=decimal).value


def mass_kg(text: str, *, decimal: Decimal | None = None) -> float:
    """A mass [kg], read like `mass_g`."""
    return _clean(mass_g(text, decimal=decimal) / 1000.0)


def mass_mg(text: str, *, decimal: Decimal | None = None) -> float:
    """A mass [mg], read like `mass_g`: ``200 mg`` of caffeine or sodium."""
    return _clean(mass_g(text, decimal=decimal) * 1000.0)


def length_m(text: str, *, decimal: Decimal | None = None) -> float:
    """A distance or height [m]: ``16 km``, ``700 m``, ``12.4 mi``, ``2300 ft``, ``5 ft 10 in``."""
    return measure(text, tables.LENGTH, decimal=decimal).value


def length_cm(text: str, *, decimal: Decimal | None = None) -> float:
    """A length [cm], read like `length_m`; for body heights."""
    return _clean(length_m(text, decimal=decimal) * 100.0)


def length_mm(text: str, *, decimal: Decimal | None = None) -> float:
    """A length [mm], read like `length_m`; for pots and cans."""
    return _clean(length_m(text, decimal=decimal) * 1000.0)


def volume_ml(text: str, *, decimal: Decimal | None = None) -> float:
    """A volume [ml]: ``475 ml``, ``1.3 l``, ``½ cup``, ``16 fl oz``, ``2 qt``, ``700 in³``."""
    return measure(text, tables.VOLUME, decimal=decimal).value


def energy_kcal(text: str, *, decimal: Decimal | None = None) -> float:
    """An energy [kcal]: ``2200 kcal``, ``350 Cal``, ``9200 kJ``."""
    return measure(text, tables.ENERGY, decimal=decimal).value


def power_w(text: str, *, decimal: Decimal | None = None) -> float:
    """A power [W]: ``1800 W``, ``1.8 kW``."""
    return measure(text, tables.POWER, decimal=decimal).value


def temperature_c(text: str, *, decimal: Decimal | None = None) -> float:
    """A temperature [deg C]: ``18 C``, ``64 F``, ``-5 °C``."""
    return measure(text, tables.TEMPERATURE, decimal=decimal).value


def difference_k(text: str, *, decimal: Decimal | None = None) -> float:
    """A difference of temperatures [K]: ``10 C``, ``18 F``."""
    return measure(text, tables.DIFFERENCE, decimal=decimal).value


def minutes(text: str, *, decimal: Decimal | None = None) -> float:
    """A time span [min]: ``45 min``, ``1 h 20``, ``1:20 h``, ``1.5 h``, ``90 s``."""
    found = re.fullmatch(r"(\d{1,3}):([0-5]\d)(?: ?(h|hr|hrs|hours?))?", tidy(text), re.IGNORECASE)
    if found is None:
        return measure(text, tables.SPAN, decimal=decimal).value
    if found[3] is None:
        raise UnitError(
            f"a span with two readings, {int(found[1])} h {found[2]} min or"
            f" {int(found[1])} min {found[2]} s",
            read=f'"{text}"',
            instead=f'write "{int(found[1])} h {int(found[2])}"',
        )
    return 60.0 * int(found[1]) + int(found[2])


CLOCK = re.compile(r"(\d{1,2})(?:[:.h](\d{2}))? ?(am|pm|a\.m\.|p\.m\.)?(?: h)?", re.IGNORECASE)


def clock_min(text: str) -> float:
    """A time of day [min from midnight]: ``7:30``, ``19:05``, ``7 am``, ``7:30 pm``."""
    found = CLOCK.fullmatch(tidy(text))
    half = (found[3] or "").lower().replace(".", "") if found else ""
    if found is None or (found[2] is None and not half):
        raise UnitError("not a time of day", read=f'"{text}"', instead='write "7:30" or "19:05"')
    hour, minute = int(found[1]), int(found[2] or 0)
    most = 12 if half else 23
    if hour > most or minute > 59 or (half and hour == 0):
        raise UnitError("no time of day", read=f'"{text}"', instead='write "7:30" or "19:05"')
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return 60.0 * hour + minute


def speed_ms(text: str, *, decimal: Decimal | None = None) -> float:
    """A speed [m/s]: ``4.5 km/h``, ``2.8 mph``, ``1.2 m/s``, ``13 min/km``, ``12:30 /km``."""
    return speed(text, decimal=decimal).value


def speed(text: str, *, decimal: Decimal | None = None) -> Measured:
    """A speed [m/s] with the system it was written in; a pace is turned over."""
    clean = tidy(text)
    found = re.fullmatch(r"(.*\d) ?([a-z]* ?(?:/|per) ?(?:km|mi|mile))", clean, re.IGNORECASE)
    spelling = re.sub(" ?/ ?", "/", found[2].casefold()) if found else ""
    if found is None or spelling not in tables.PACE:
        return measure(text, tables.SPEED, decimal=decimal)
    metres, system = tables.PACE[spelling]
    taken_min = _pace_minutes(found[1], decimal)
    if taken_min <= 0:
        raise UnitError("not a pace", read=f'"{text}"', instead='write for example "13 min/km"')
    return Measured(metres / (60.0 * taken_min), system)


def _pace_minutes(text: str, decimal: Decimal | None) -> float:
    found = re.fullmatch(r"(\d{1,3}):([0-5]\d)", text)
    return int(found[1]) + int(found[2]) / 60.0 if found else number(text, decimal=decimal)


def money(text: str, *, decimal: Decimal | None = None) -> tuple[float, str]:
    """An amount and the three letters of its currency: ``80 EUR``, ``€ 12,50``, ``$5``."""
    clean = tidy(text)
    sign = r"[A-Z]{3}|US\$|[€£$¥]"
    found = re.fullmatch(rf"(?:({sign}) ?(-?[\d.,' ]+)|(-?[\d.,' ]+?) ?({sign}))", clean)
    if found is None:
        raise UnitError(
            "an amount of money needs its currency" if re.fullmatch(r"[\d.,' ]+", clean)
            else "not an amount of money",
            read=f'"{text}"', instead='write for example "80 EUR" or "$95"',
        )  # fmt: skip
    currency, amount = (found[1], found[2]) if found[1] else (found[4], found[3])
    try:
        return number(amount.strip(), decimal=decimal), tables.CURRENCY.get(currency, currency)
    except UnitError as error:
        raise _about(error, text) from None


def share(text: str, *, decimal: Decimal | None = None) -> float:
    """A share as a fraction of one: ``75%``, ``3/4``, ``0.75``. A bare ``75`` is refused."""
    clean = tidy(text)
    if clean.endswith("%"):
        return _share_number(clean[:-1].strip(), text, decimal) / 100.0
    value = _share_number(clean, text, decimal)
    if abs(value) > 1.0 and "/" not in clean:
        raise UnitError(
            f"a share with two readings, {value:g} % or {value:g} times",
            read=f'"{text}"',
            instead=f'write "{value:g}%"',
        )
    return value


def _share_number(clean: str, text: str, decimal: Decimal | None) -> float:
    try:
        return number(clean, decimal=decimal)
    except TwoReadings as error:
        raise error.within(text) from None
    except UnitError:
        instead = 'write for example "75%" or "3/4"'
        raise UnitError("not a share", read=f'"{text}"', instead=instead) from None


_NAMES: dict[str, System | None] = {
    name: unit.system
    for dimension in (tables.MASS, tables.LENGTH, tables.VOLUME, tables.TEMPERATURE, tables.SPEED)
    for unit in dimension.units
    for name in unit.names
}
_WRITTEN = re.compile(r"\d\s*(fl\.? oz|[^\d\s,;+]+)")


def written_in(texts: Iterable[str]) -> System:
    """Whose units most quantities in some texts are written in; metric when neither wins."""
    counts = {"metric": 0, "us": 0}
    for text in texts:
        for name in _WRITTEN.findall(tidy(text)):
            system = _NAMES.get(name) or _NAMES.get(name.rstrip("."))
            if system is not None:
                counts[system] += 1
    return "us" if counts["us"] > counts["metric"] else "metric"
