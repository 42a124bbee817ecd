"""Numbers as text in one system of units, rounded to what can be known and read at a glance.

Inside, every number is a float in a fixed unit (C1); here it becomes what a walker says. One
artefact never mixes two systems. It knows no sentence and no plan.
"""

from __future__ import annotations

from typing import Literal

from oatsack.units.show import show_body_height, show_speed
from oatsack.units.tables import CUP_ML, FOOT_M, INCH3_ML, MILE_M, OUNCE_G, POUND_G, QUART_ML
from oatsack.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """How numbers are shown: metric or US, and in which currency."""

    units: Literal["metric", "us"] = "metric"
    currency: str = "EUR"

    @property
    def us(self) -> bool:
        """Whether ounces and miles are shown."""
        return self.units == "us"

    def number(self, value: float, digits: int = 0) -> str:
        """A plain number with thousands marked; whole numbers without a point."""
        value = float(value)
        if digits == 0 and abs(value - round(value)) > 0.04 and abs(value) < 100:
            return _fraction(value)
        return _thousands(value, digits)

    def mass(self, grams: float) -> str:
        """A small mass: "85 g", "1.24 kg"; "3 oz", "2 lb 12 oz"."""
        if self.us:
            return _pounds(grams)
        if abs(grams) < 999.5:
            return _thousands(grams) + " g"
        return f"{_thousands(grams / 1000.0, 2 if abs(grams) < 9995 else 1)} kg"

    def fine(self, grams: float) -> str:
        """A mass to be weighed on a kitchen scale, never rounded to kilograms: "1,240 g"."""
        return _pounds(grams) if self.us else _thousands(grams) + " g"

    def heavy(self, kilograms: float) -> str:
        """A mass on the back: "4.9 kg"; "10 lb 13 oz"."""
        if self.us:
            return _pounds(kilograms * 1000.0)
        return f"{_thousands(kilograms, 1 if abs(kilograms) >= 0.995 else 2)} kg"

    def body(self, kilograms: float) -> str:
        """A body mass or a change of it: "0.4 kg"; "0.9 lb"."""
        if self.us:
            return f"{_thousands(kilograms * 1000.0 / POUND_G, 1)} lb"
        return f"{_thousands(kilograms, 1)} kg"

    def per_body(self, g_per_kg: float) -> str:
        """Grams to body mass: "1.3 g per kg"; "0.6 g per lb"."""
        if self.us:
            return f"{_thousands(g_per_kg * POUND_G / 1000.0, 1)} g per lb"
        return f"{_thousands(g_per_kg, 1)} g per kg"

    def mass_days(self, kg_days: float) -> str:
        """Mass times days carried: "6.6 kg·days"; "14.6 lb·days"."""
        if self.us:
            return f"{_thousands(kg_days * 1000.0 / POUND_G, 1)} lb·days"
        return f"{_thousands(kg_days, 1)} kg·days"

    def energy(self, kcal: float) -> str:
        """Energy to the nearest ten: "2,340 kcal"."""
        return f"{_thousands(round(kcal, -1) if abs(kcal) >= 100 else kcal)} kcal"

    def about(self, kcal: float) -> str:
        """Energy as one can know it, to the nearest hundred, without the unit: "3,900"."""
        step = 100.0 if abs(kcal) >= 1000 else 50.0
        return _thousands(round(kcal / step) * step)

    def volume(self, millilitres: float) -> str:
        """Water: "350 ml", "1.5 l"; "1½ cups", "3.2 qt"."""
        if self.us:
            return _us_volume(millilitres)
        if abs(millilitres) < 997.5:
            return f"{_thousands(round(millilitres / 5) * 5)} ml"
        return f"{_thousands(millilitres / 1000.0, 1)} l"

    def litres(self, litres: float) -> str:
        """Water given in litres."""
        return self.volume(litres * 1000.0)

    def tall(self, centimetres: float) -> str:
        """How tall someone is: "168 cm"; "5 ft 6 in"."""
        return show_body_height(centimetres, self.units)

    def room(self, millilitres: float) -> str:
        """Packed volume: "8.8 l"; "537 in³"."""
        if self.us:
            return f"{_thousands(millilitres / INCH3_ML)} in³"
        return f"{_thousands(millilitres / 1000.0, 1)} l"

    def height(self, metres: float) -> str:
        """Heights and climbs: "1,150 m"; "3,770 ft"."""
        if self.us:
            return f"{_thousands(round(metres / FOOT_M, -1))} ft"
        return f"{_thousands(round(metres / 5) * 5)} m"

    def distance(self, metres: float) -> str:
        """Distances walked: "14.2 km"; "8.8 mi"."""
        if self.us:
            return f"{_thousands(metres / MILE_M, 1)} mi"
        return f"{_thousands(metres / 1000.0, 1)} km"

    def speed(self, speed_ms: float) -> str:
        """A walking speed: "4.5 km/h"; "2.8 mph"."""
        return show_speed(speed_ms, self.units)

    def temperature(self, celsius: float) -> str:
        """Temperatures: "4 °C"; "39 °F"."""
        if self.us:
            return f"{_thousands(celsius * 1.8 + 32.0)} °F"
        return f"{_thousands(celsius)} °C"

    def minutes(self, minutes: float) -> str:
        """A span: "12 min", "1 h 30"."""
        whole = round(minutes)
        return f"{whole} min" if whole < 90 else f"{whole // 60} h {whole % 60:02d}"

    def clock(self, minutes: float) -> str:
        """A time of day from minutes after midnight: "18:30"."""
        whole = round(minutes) % 1440
        return f"{whole // 60:02d}:{whole % 60:02d}"

    def money(self, amount: float) -> str:
        """A price: "12.40 EUR"."""
        return f"{_thousands(amount, 2)} {self.currency}"

    def percent(self, share: float) -> str:
        """A share: "85 %"."""
        return f"{_thousands(share * 100.0)} %"


METRIC = Measures()
_PARTS = {0.25: "¼", 0.5: "½", 0.75: "¾"}


def _thousands(value: float, digits: int = 0) -> str:
    text = f"{value:,.{digits}f}"
    return text[1:] if text.startswith("-") and not text.strip("-0.,") else text


def _fraction(value: float) -> str:
    whole, rest = divmod(abs(value), 1.0)
    part = _PARTS.get(round(rest * 4) / 4)
    if part is None or abs(rest - round(rest * 4) / 4) > 0.011:
        return _thousands(value, 1)
    sign = "-" if value < 0 else ""
    return f"{sign}{int(whole) or ''}{part}"


def _pounds(grams: float) -> str:
    ounces = grams / OUNCE_G
    if abs(ounces) < 9.95:
        return f"{_thousands(ounces, 1).removesuffix('.0')} oz"
    whole = round(abs(ounces))
    sign = "-" if ounces < 0 else ""
    if whole < 16:
        return f"{sign}{whole} oz"
    pounds, rest = divmod(whole, 16)
    return f"{sign}{pounds} lb" + (f" {rest} oz" if rest else "")


def _us_volume(millilitres: float) -> str:
    cups = millilitres / CUP_ML
    if cups < 0.2:
        return f"{_thousands(millilitres / CUP_ML * 8, 1).removesuffix('.0')} fl oz"
    if cups < 8:
        quarter = round(cups * 4) / 4
        shown = _fraction(quarter) if quarter % 1 else str(int(quarter))
        return f"{shown} cup" if quarter <= 1 else f"{shown} cups"
    return f"{_thousands(millilitres / QUART_ML, 1)} qt"


def measures_of(units: Literal["metric", "us"], currency: str) -> Measures:
    """The measures of a trip."""
    return Measures(units=units, currency=currency)
