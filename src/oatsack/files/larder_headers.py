"""What the header cells of a larder file mean: a column, what its nutrient is per, its unit.

People write ``Fat (g) per 100 g`` where the format says fat_g, or ``pack (oz)`` for pack_g.
Spellings that have two readings are not guessed: bare carbohydrate may or may not hold fibre.
"""

from __future__ import annotations

import re
from typing import Final

from oatsack.files.larder_columns import BY_NAME, PER_100G, PER_PACK, PER_SERVING, Column
from oatsack.values.frozen import dataclass

_BASES: Final = {
    "100g": PER_100G, "100_g": PER_100G, "serving": PER_SERVING, "portion": PER_SERVING,
    "dose": PER_SERVING, "pack": PER_PACK, "package": PER_PACK, "packet": PER_PACK,
}  # fmt: skip
ALIASES: Final = {
    "energy_kcal": "kcal", "calories": "kcal", "energy": "kcal", "energy_kj": "kj",
    "sodium": "sodium_mg", "salt": "salt_g", "protein": "protein_g", "fat": "fat_g",
    "fibre": "fibre_g", "fiber": "fibre_g", "fiber_g": "fibre_g", "sugar": "sugars_g",
    "sugars": "sugars_g", "sugar_g": "sugars_g", "polyols": "polyols_g",
    "potassium": "potassium_mg", "caffeine": "caffeine_mg", "pack": "pack_g", "dose": "dose_g",
    "serving": "serving_g", "servings": "doses", "wrapping": "wrap_g", "wrap": "wrap_g",
    "water": "water_ml", "volume": "pack_ml", "best_before_date": "best_before",
}  # fmt: skip
_UNITS: Final = ("kg", "oz", "lb", "mg", "cups", "cup", "fl_oz", "l", "g")
_HEADER_UNITS: Final = {"cups": "cup", "fl_oz": "fl oz"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """One header cell understood: column, what its nutrient is per, unit, whose liking."""

    column: Column
    basis: str | None = None
    unit: str = ""
    walker: str = ""

    @property
    def key(self) -> str:
        """What must be unique in a file."""
        return f"{self.column.name} {self.walker}".strip()


def normal(text: str) -> str:
    """A header cell in small letters with underscores: ``Fat (g) per 100 g`` -> fat_g_per_100_g."""
    return re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")


def understand(text: str) -> Head | None:
    """What a header cell means, or None if no column is called so."""
    name = normal(text)
    if name.startswith("liking_"):
        return Head(column=BY_NAME["liking"], walker=name.removeprefix("liking_"))
    stem, _, per = name.rpartition("_per_")
    basis = _BASES.get(per)
    if stem and basis:
        name = stem
    name = ALIASES.get(name, name)
    column = BY_NAME.get(name)
    if column:
        return Head(column=column, basis=basis)
    return _with_unit(name, basis)


def _with_unit(name: str, basis: str | None) -> Head | None:
    """A column whose header names another unit than its own: pack_oz, sodium_g, water_cups."""
    for unit in _UNITS:
        stem = name.removesuffix(f"_{unit}")
        column = BY_NAME.get(ALIASES.get(stem, stem)) if stem != name else None
        if column and column.kind in ("mass", "nutrient", "milli", "volume"):
            return Head(column=column, basis=basis, unit=_HEADER_UNITS.get(unit, unit))
    return None
