"""Floats in fixed units to text for people, in one system at a time (C1).

Law: reading a shown text gives the value back to the digits shown, and showing it again gives the
same text. So no text has two readings: thousands are set apart by a narrow space, from five digits
on, and no number ever ends in exactly three decimals. `about` and `rounded` write sentences for
people ("about 3,900, between 3,100 and 4,700") and are not meant to be read back.
"""

from __future__ import annotations

import math

from oatsack.units import tables
from oatsack.units.tables import System

THIN = "\u202f"


def digits(value: float, places: int = 0) -> str:
    """A number with so many decimals (never three) and thin spaces from 10,000 on."""
    text = f"{value:.{places}f}"
    if float(text) == 0.0:
        text = text.removeprefix("-")
    whole, _, rest = text.partition(".")
    if len(whole.removeprefix("-")) > 4:
        whole = f"{int(whole):,}".replace(",", THIN)
    return f"{whole}.{rest}" if rest else whole


def show_mass(mass_g: float, system: System = "metric") -> str:
    """A mass: ``250 g``, ``1.25 kg``; ``3.5 oz``, ``3 lb 4 oz``, ``154 lb``."""
    if system == "us":
        return _pounds(mass_g)
    if abs(mass_g) < 9.95:
        return f"{_short(mass_g)} g"
    if abs(mass_g) < 999.5:
        return f"{digits(mass_g)} g"
    return f"{digits(mass_g / 1000.0, 2 if abs(mass_g) < 99_995 else 1)} kg"


def _pounds(mass_g: float) -> str:
    sign, ounces = ("-" if mass_g < 0 else ""), abs(mass_g) / tables.OUNCE_G
    if ounces < 15.95:
        return f"{sign if ounces >= 0.05 else ''}{_short(ounces)} oz"
    if ounces < 16 * 40 - 0.5:
        pounds, rest = divmod(round(ounces), 16)
        return f"{sign}{pounds} lb" + (f" {rest} oz" if rest else "")
    return f"{sign}{digits(ounces / 16)} lb"


def _short(value: float) -> str:
    """One decimal, left out when it is nought."""
    return digits(value, 1).removesuffix(".0")


def show_small_mass(mass_mg: float) -> str:
    """Milligrams of sodium or caffeine: ``200 mg``, in both systems."""
    return f"{digits(mass_mg)} mg"


def show_distance(distance_m: float, system: System = "metric") -> str:
    """A distance along the way: ``850 m``, ``12.4 km``; ``530 ft``, ``7.7 mi``."""
    if system == "us":
        if abs(distance_m) < 0.15 * tables.MILE_M:
            return f"{digits(distance_m / tables.FOOT_M)} ft"
        miles = distance_m / tables.MILE_M
        return f"{digits(miles, 2 if abs(miles) < 0.995 else 1)} mi"
    if abs(distance_m) < 999.5:
        return f"{digits(distance_m)} m"
    return f"{digits(distance_m / 1000.0, 1)} km"


def show_height(height_m: float, system: System = "metric") -> str:
    """A height or climb: ``850 m``; ``2790 ft``."""
    if system == "us":
        return f"{digits(height_m / tables.FOOT_M)} ft"
    return f"{digits(height_m)} m"


def show_body_height(height_cm: float, system: System = "metric") -> str:
    """How tall someone is: ``178 cm``; ``5 ft 10 in``."""
    if system == "us":
        feet, inches = divmod(round(height_cm / 100.0 / tables.INCH_M), 12)
        return f"{feet} ft {inches} in" if inches else f"{feet} ft"
    return f"{digits(height_cm)} cm"


def show_volume(volume_ml: float, system: System = "metric") -> str:
    """A volume: ``475 ml``, ``1.25 l``; ``16 fl oz``, ``2.1 qt``."""
    if system == "us":
        ounces = volume_ml / tables.FLUID_OUNCE_ML
        if abs(ounces) < 63.95:
            return f"{_short(ounces) if abs(ounces) < 9.95 else digits(ounces)} fl oz"
        return f"{digits(volume_ml / tables.QUART_ML, 1)} qt"
    if abs(volume_ml) < 999.5:
        return f"{digits(volume_ml)} ml"
    return f"{digits(volume_ml / 1000.0, 2 if abs(volume_ml) < 9_995 else 1)} l"


def show_room(volume_ml: float, system: System = "metric") -> str:
    """The room in a container: ``10.0 l``; ``610 in³``."""
    if system == "us":
        return f"{digits(volume_ml / tables.INCH3_ML)} in³"
    return f"{digits(volume_ml / 1000.0, 1)} l"


def show_energy(energy_kcal: float) -> str:
    """An energy: ``2700 kcal``, in both systems."""
    return f"{digits(energy_kcal)} kcal"


def show_power(power_w: float) -> str:
    """A power: ``1800 W``."""
    return f"{digits(power_w)} W"


def show_temperature(temperature_c: float, system: System = "metric") -> str:
    """A temperature: ``18 °C``; ``64 °F``."""
    if system == "us":
        return f"{digits(temperature_c * 9 / 5 + 32)} °F"
    return f"{digits(temperature_c)} °C"


def show_difference(difference_k: float, system: System = "metric") -> str:
    """A difference of temperatures: ``10 °C``; ``18 °F``."""
    if system == "us":
        return f"{digits(difference_k * 9 / 5)} °F"
    return f"{digits(difference_k)} °C"


def show_minutes(minutes: float) -> str:
    """A time span: ``45 min``, ``1 h 20 min``, ``2 h``."""
    hours, rest = divmod(round(abs(minutes)), 60)
    sign = "-" if minutes < 0 and (hours or rest) else ""
    if not hours:
        return f"{sign}{rest} min"
    return f"{sign}{hours} h" + (f" {rest} min" if rest else "")


def show_clock(clock_min: float, system: System = "metric") -> str:
    """A time of day: ``07:30``; ``7:30 am``. Minutes beyond midnight run into the next morning."""
    hour, minute = divmod(round(clock_min) % 1440, 60)
    if system == "us":
        return f"{hour % 12 or 12}:{minute:02d} {'am' if hour < 12 else 'pm'}"
    return f"{hour:02d}:{minute:02d}"


def show_speed(speed_ms: float, system: System = "metric") -> str:
    """A speed: ``4.5 km/h``; ``2.8 mph``."""
    if system == "us":
        return f"{digits(speed_ms * 3600 / tables.MILE_M, 1)} mph"
    return f"{digits(speed_ms * 3.6, 1)} km/h"


def show_money(amount: float, currency: str) -> str:
    """An amount of money: ``80.00 EUR``."""
    return f"{digits(amount, 2)} {currency}"


def show_share(share: float) -> str:
    """A share: ``85 %``, ``2.5 %``."""
    return f"{_short(100.0 * share)} %"


def rounded(value: float, step: float = 1.0) -> str:
    """A number rounded to a step, with commas, for sentences: ``3,900``."""
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    nearest = round(value / step) * step
    return f"{nearest if round(nearest, places) else 0.0:,.{places}f}"


def step_for(low: float, high: float) -> float:
    """The step that suits a range: the largest of 1, 2, 5 times ten that is a tenth of its width.

    A range of no width is rounded to two digits.
    """
    width = abs(high - low) or abs(high) or 1.0
    tenth = width / 10.0 * (1 + 1e-9)
    power = 10.0 ** math.floor(math.log10(tenth))
    return max(factor * power for factor in (1.0, 2.0, 5.0) if factor * power <= tenth)


def about(likely: float, low: float, high: float) -> str:
    """A number with its range, rounded to what the range allows, the ends outward.

    ``about 3,900, between 3,100 and 4,700``.
    """
    step = step_for(low, high)
    floor = rounded(math.floor(low / step + 1e-9) * step, step)
    ceiling = rounded(math.ceil(high / step - 1e-9) * step, step)
    return f"about {rounded(likely, step)}, between {floor} and {ceiling}"
