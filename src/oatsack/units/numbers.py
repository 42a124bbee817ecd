"""A number as people write it: point or comma, thin spaces, fractions. Two readings are refused.

Knows nothing of units. ``1,5`` is one and a half and ``1 500`` is fifteen hundred, but ``1,500``
and ``1.500`` can be either and are refused with both readings, unless the caller knows the decimal
sign of the whole file. Convention C1.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import Literal

from oatsack.errors import UnitError

Decimal = Literal[".", ","]

WHOLE = r"\d+"
FRACTION = rf"(?:{WHOLE} +)?{WHOLE} ?/ ?{WHOLE}"
SPACED = r"[1-9]\d{0,2}(?: \d{3})+(?!\d)(?:[.,]\d+)?"
QUOTED = r"[1-9]\d{0,2}(?:['’]\d{3})+(?!\d)(?:[.,]\d+)?"
PLAIN = r"\d[\d.,]*\d|\d|[.,]\d+"
NUMBER = re.compile(rf"{FRACTION}|{SPACED}|{QUOTED}|{PLAIN}", re.ASCII)
CUBIC_INCH = re.compile(
    r"\bin(?:ch(?:es)?)?\^?3|\bcu(?:bic|\.)? ?in(?:ch(?:es)?)?\b\.?", re.IGNORECASE
)
CUBIC_CM = re.compile(r"\bcm\^?3", re.IGNORECASE)


class TwoReadings(UnitError):
    """A number such as ``1,500``: fifteen hundred to some, one and a half to others."""

    def __init__(self, found: str, readings: tuple[str, str]) -> None:
        self.found, self.readings = found, readings
        large, small = readings
        super().__init__(
            f"a number with two readings, {large} or {small}",
            read=f'"{found}"',
            instead=f'write "{large}" or "{small}"',
        )

    def within(self, text: str) -> UnitError:
        """The same complaint about the whole quantity in which the number stands."""
        large, small = (text.replace(self.found, reading, 1) for reading in self.readings)
        return UnitError(self.wrong, read=f'"{text}"', instead=f'write "{large}" or "{small}"')


def tidy(text: str) -> str:
    """One kind of space, minus and fraction stroke; superscripts and vulgar fractions spelt out."""
    spelt = "".join(_spell(sign) for sign in text)
    spelt = unicodedata.normalize("NFKC", spelt).replace("⁄", "/").replace("−", "-")
    return CUBIC_CM.sub("cc", CUBIC_INCH.sub("cuin", re.sub(r"\s+", " ", spelt).strip()))


def _spell(sign: str) -> str:
    """A vulgar fraction as `` n/d``, a raised digit as ``^d``; any other sign as it is."""
    sort = unicodedata.decomposition(sign).partition(" ")[0]
    before = {"<fraction>": " ", "<super>": "^"}.get(sort)
    return sign if before is None else before + unicodedata.normalize("NFKC", sign)


def number(text: str, *, decimal: Decimal | None = None) -> float:
    """The value of a number without unit, such as ``1 1/2``, ``½``, ``1,5`` or ``1 500``.

    `decimal` is the decimal sign of the whole file where that is known; then ``1,500`` has one
    reading. Raises UnitError for anything that is no number or has two readings.
    """
    clean = tidy(text)
    sign, clean = (-1.0, clean[1:].lstrip()) if clean[:1] == "-" else (1.0, clean.removeprefix("+"))
    if not NUMBER.fullmatch(clean):
        raise UnitError("no number", read=f'"{text}"', instead='write for example "1.5" or "1 1/2"')
    return sign * _value(clean, decimal)


def leading(text: str, at: int, *, decimal: Decimal | None) -> tuple[float, int] | None:
    """The number that starts at a place of a tidied text, and where it ends; None: none does."""
    found = NUMBER.match(text, at)
    return None if found is None else (_value(found[0], decimal), found.end())


def _value(clean: str, decimal: Decimal | None) -> float:
    if "/" in clean:
        return _fraction(clean)
    return float(_digits(re.sub(r"[ '’]", "", clean), decimal))


def _fraction(clean: str) -> float:
    whole, _, rest = clean.rpartition(" ") if re.match(r"\d+ +\d", clean) else ("", "", clean)
    above, below = re.sub(" ", "", rest).split("/")
    if int(below) == 0:
        raise UnitError("a fraction of nothing", read=f'"{clean}"', instead='write "1/2"')
    return float(int(whole or "0") + Fraction(int(above), int(below)))


def _digits(text: str, decimal: Decimal | None) -> str:
    """Digits with a decimal point only; refuses what has two readings or none."""
    if decimal is not None:
        return _with_sign(text, decimal)
    signs = [sign for sign in text if sign in ".,"]
    if not signs:
        return text
    if len(set(signs)) == 2:
        return _with_sign(text, "." if text.rfind(".") > text.rfind(",") else ",")
    if len(signs) > 1:
        return _with_sign(text, "," if signs[0] == "." else ".")
    before, after = text.split(signs[0])
    if len(after) == 3 and 1 <= len(before) <= 3 and before[0] != "0":
        raise _two_readings(text, before, after)
    return f"{before or '0'}.{after}"


def _with_sign(text: str, decimal: Decimal) -> str:
    """Digits read with a known decimal sign; the other sign must group by threes."""
    group = "," if decimal == "." else "."
    whole, _, rest = text.partition(decimal)
    parts = whole.split(group)
    grouped = len(parts) == 1 or (
        1 <= len(parts[0]) <= 3 and parts[0][0] != "0" and all(len(part) == 3 for part in parts[1:])
    )
    if not grouped or group in rest or decimal in rest:
        raise UnitError("no number", read=f'"{text}"', instead='write for example "1500" or "1.5"')
    return f"{''.join(parts) or '0'}.{rest or '0'}"


def _two_readings(text: str, before: str, after: str) -> TwoReadings:
    large = before + after
    small = f"{before}.{after}"
    small = small.rstrip("0").rstrip(".") if after.endswith("0") else small + "0"
    return TwoReadings(text, (large, small))
