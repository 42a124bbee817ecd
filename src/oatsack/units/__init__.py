"""Text to numbers and back, at the edge only (C1). Inside, everything is a float in a fixed unit.

`read`: what people write -> floats (``mass_g("3 lb 4 oz")``), UnitError for what has no reading or
two. `show`: floats -> text in the walker's own system. `tables`: the units as data. `numbers`: a
number without unit. Nothing here knows what is sensible: a schema bounds its own fields.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from oatsack.units.numbers import number
    from oatsack.units.read import (
        Measured,
        clock_min,
        difference_k,
        energy_kcal,
        length_cm,
        length_m,
        length_mm,
        mass_g,
        mass_kg,
        mass_mg,
        measure,
        minutes,
        money,
        power_w,
        share,
        speed,
        speed_ms,
        temperature_c,
        volume_ml,
        written_in,
    )
    from oatsack.units.show import (
        about,
        rounded,
        show_body_height,
        show_clock,
        show_difference,
        show_distance,
        show_energy,
        show_height,
        show_mass,
        show_minutes,
        show_money,
        show_power,
        show_room,
        show_share,
        show_small_mass,
        show_speed,
        show_temperature,
        show_volume,
        step_for,
    )
    from oatsack.units.tables import System

__all__ = [
    "Measured", "System", "about", "clock_min", "difference_k", "energy_kcal", "length_cm",
    "length_m", "length_mm", "mass_g", "mass_kg", "mass_mg", "measure", "minutes", "money",
    "number", "power_w", "rounded", "share", "show_body_height", "show_clock", "show_difference",
    "show_distance", "show_energy", "show_height", "show_mass", "show_minutes", "show_money",
    "show_power", "show_room", "show_share", "show_small_mass", "show_speed", "show_temperature",
    "show_volume", "speed", "speed_ms", "step_for", "temperature_c", "volume_ml", "written_in",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    """Loads a part when it is first asked for: who only shows numbers reads none."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = globals()[name] = getattr(import_module(f"oatsack.units.{_part(name)}"), name)
    return found


def _part(name: str) -> str:
    if name in ("about", "rounded", "step_for") or name.startswith("show_"):
        return "show"
    return {"number": "numbers", "System": "tables"}.get(name, "read")
