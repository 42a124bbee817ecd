"""A shown quantity read back to what is inside, with the half step that rounding may have taken.

Written apart from the program's own showing: a table of units, and how finely each is shown.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

FRACTIONS = {"¼": 0.25, "½": 0.5, "¾": 0.75}
UNITS = {
    "kg": 1000.0, "g": 1.0, "lb": 453.59237, "oz": 28.349523125, "l": 1000.0, "ml": 1.0,
    "cup": 236.588, "cups": 236.588, "fl oz": 29.5735, "qt": 946.353, "in³": 16.387064,
    "km": 1000.0, "m": 1.0, "mi": 1609.344, "ft": 0.3048, "kcal": 1.0, "min": 1.0, "%": 0.01,
    "EUR": 1.0, "mg": 1.0, "": 1.0,
}  # fmt: skip
"""In g, ml, m, kcal, minutes and shares of one; a pound and an ounce by definition, a US cup, quart
and cubic inch too (NistHb44, appendix C)."""
QUANTITY = re.compile(
    r"(?P<sign>[-−+])?(?P<whole>\d[\d,]*)?(?P<point>\.\d+)?(?P<part>[¼½¾])?"
    r"\s?(?P<unit>fl oz|kcal|kg|km|cups?|EUR|min|in³|mg|ml|mi|ft|lb|oz|qt|g|l|m|%)?(?![\w])"
)


@dataclass(frozen=True, slots=True)
class Shown:
    """A quantity as read: its value in the base unit, half of its last step, and its unit."""

    value: float
    half: float
    unit: str

    def is_near(self, value: float) -> bool:
        """Whether a number may have been shown so; heavy things and ways are counted in thousands
        inside where they are kilograms or kilometres."""
        wanted = [value, value * 1000.0] if self.unit in ("kg", "lb", "oz", "km", "l") else [value]
        return any(abs(self.value - one) <= self.half * 1.0001 + 1e-9 for one in wanted)


def shown(text: str) -> Shown | None:
    """The first quantity of a text; None where it holds none."""
    return next(all_shown(text), None)


def all_shown(text: str) -> Iterator[Shown]:
    """Every quantity of a text; pounds with their ounces are one."""
    plain, at = text.replace("\N{NO-BREAK SPACE}", " ").strip(), 0
    for hours in re.finditer(r"(\d+) h (\d\d)", plain):
        yield Shown(60.0 * int(hours[1]) + int(hours[2]), 0.5, "min")
    while at < len(plain) and (found := QUANTITY.search(plain, at)):
        at = max(found.end(), at + 1)
        if found["whole"] or found["part"]:
            first = _one(found)
            rest = QUANTITY.match(plain, at + 1) if first.unit == "lb" else None
            if rest and rest["whole"] and rest["unit"] == "oz":
                first = Shown(first.value + _one(rest).value, 0.5 * UNITS["oz"], "lb")
                at = rest.end()
            yield first


def _one(found: re.Match[str]) -> Shown:
    digits, unit = found["point"] or "", found["unit"] or ""
    number = float((found["whole"] or "0").replace(",", "") + digits)
    number += FRACTIONS.get(found["part"] or "", 0.0)
    size = UNITS[unit]
    sign = -1.0 if found["sign"] in ("-", "−") else 1.0
    return Shown(sign * number * size, _half(number, digits, unit) * size, unit)


def _half(number: float, digits: str, unit: str) -> float:
    """Half of the step in which a unit is shown."""
    if unit == "kcal":
        return 5.0 if number >= 100 else 0.5
    if unit in ("cup", "cups"):
        return 0.125
    if unit == "ml":
        return 2.5
    if unit == "m":
        return 2.5
    if unit == "ft":
        return 5.0
    if unit == "oz" and number < 10:
        return 0.05
    if unit == "" and number % 50 == 0:  # "about": to the nearest hundred, or fifty
        return 50.0 if number >= 1000 and number % 100 == 0 else 25.0
    return 0.5 * 10.0 ** -max(0, len(digits) - 1)
