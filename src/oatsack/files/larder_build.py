"""The read cells of one row -> a Food, or what contradicts what.

Brings nutrients to 100 g (whatever the label's basis), kJ to kcal, salt to sodium, available
carbohydrate to total (C1), and works out doses from the pack. Two cells that contradict each other
are reported by column; nothing is guessed.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from typing import Any, Final

from oatsack.files.cells import BadCell
from oatsack.files.larder_columns import PER_100G, PER_PACK, PER_SERVING
from oatsack.values.classes import NUTRIENTS
from oatsack.values.food import Food, Keep, Nutrients, Origin, Pouch, Prep, State, Stock

SALT_PER_SODIUM: Final = 2.5
"""Source: Eu1169, Annex I: salt = sodium x 2.5."""
SLACK: Final = 0.03
"""Two statements of one value on a label may differ by this share, for rounding."""

Got = Mapping[str, Any]
Clashes = list[tuple[str, BadCell]]


def build(
    got: Got, bases: Mapping[str, str], origin: tuple[str, int]
) -> tuple[Food | None, Clashes]:
    """A food and what is wrong with its row; None with at least one clash.

    `got` holds read values by column, `bases` what a nutrient column's header says it is per,
    `origin` file and line.
    """
    clashes: Clashes = []
    pack_g, doses, dose_g = _doses(got, clashes)
    weigh = {PER_100G: 100.0, PER_SERVING: got.get("serving_g", dose_g), PER_PACK: pack_g}
    per_100g = _nutrients(got, bases, weigh, clashes)
    allergens = _allergens(got, clashes)
    name = got["name"]
    identity = got.get("id") or slug(name)
    if not identity:
        clashes.append(("name", BadCell("makes no id", "add a column id with a short name for it")))
    if clashes:
        return None, clashes
    food = Food(
        id=identity,
        name=name,
        category=got.get("category", "other"),
        per_100g=per_100g,
        pack_g=pack_g,
        doses_per_pack=doses,
        dose_g=dose_g,
        allergens=allergens,
        prep=_prep(got),
        keep=_some(Keep, got, _KEEP),
        pouch=_pouch(got),
        stock=_some(Stock, got, _STOCK),
        origin=_origin(got, origin),
        liking_by={key[7:]: value for key, value in got.items() if key.startswith("liking ")},
        **{field: got[column] for field, column in _SAME.items() if column in got},
    )
    return food, clashes


_SAME: Final = {
    "dose_name": "dose_name", "role": "role", "carry": "carry", "taste": "taste", "meals": "meals",
    "wrap_g": "wrap_g", "pack_ml": "pack_ml", "resealable": "resealable", "price": "price",
    "shop": "shop", "diet": "diet", "liking": "liking", "every_day_fine": "every_day",
    "confirmed": "confirmed",
}  # fmt: skip
_POUCH: Final = {
    "stands": "pouch_stands", "closes": "pouch_closes", "holds_ml": "pouch_holds_ml",
    "flat_ml": "pouch_flat_ml", "puffed_ml": "pouch_puffed_ml",
}  # fmt: skip
_KEEP: Final = {name: name for name in ("opened_days", "warm_days", "melts", "crushes")}
_STOCK: Final = {"packs": "home_packs", "best_before": "best_before"}
_PREP: Final = {
    "kind": "prep", "water_ml": "water_ml", "wait_min": "wait_min", "simmer_min": "simmer_min",
    "needs_pot": "needs_pot", "from_bag": "from_bag", "cold_soak_min": "cold_soak_min",
}  # fmt: skip


def slug(name: str) -> str:
    """An id from a name: ``Müsli, 500 g`` -> musli-500-g."""
    bare = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", bare.lower()).strip("-")


def _some(kind: type[Any], got: Got, columns: Mapping[str, str]) -> Any:
    """A value of a dataclass with those fields that were stated."""
    if got.keys().isdisjoint(columns.values()):
        return kind()
    return kind(**{field: got[column] for field, column in columns.items() if column in got})


def _prep(got: Got) -> Prep:
    made: Prep = _some(Prep, got, _PREP)
    return made


def _pouch(got: Got) -> Pouch | None:
    if got.keys().isdisjoint(_POUCH.values()):
        return None
    made: Pouch = _some(Pouch, got, _POUCH)
    return made


def _origin(got: Got, origin: tuple[str, int]) -> Origin:
    return Origin(
        file=origin[0],
        line=origin[1],
        source=got.get("source", ""),
        source_id=got.get("source_id", ""),
        invented=frozenset(got.get("invented", "").split()) | _guessed(got),
    )


def _guessed(got: Got) -> frozenset[str]:
    """Available carbohydrate with no fibre stated is only the floor of the total (C2)."""
    floor = "carb_available_g" in got and not {"carb_g", "fibre_g"} & got.keys()
    return frozenset({"carb_g"}) if floor else frozenset()


def _doses(got: Got, clashes: Clashes) -> tuple[float, float, float]:
    """Pack [g], doses, dose [g]; a dose larger than its pack is a clash."""
    pack_g = got["pack_g"]
    for key in ("pack_g", "dose_g", "doses", "serving_g"):
        if got.get(key) == 0.0:
            clashes.append((key, BadCell("is nothing", "write more than 0, or leave it blank")))
    if clashes:
        return pack_g, 1.0, pack_g
    dose_g = got.get("dose_g") or pack_g / got.get("doses", 1.0)
    if dose_g > pack_g * (1.0 + SLACK):
        wrong = BadCell("is more than the whole pack", f"write at most {pack_g:g}")
        clashes.append(("dose_g" if "dose_g" in got else "doses", wrong))
    doses = got.get("doses") or max(1.0, math.floor(pack_g / dose_g * (1.0 + 1e-9)))
    return pack_g, doses, dose_g


def _nutrients(
    got: Got, bases: Mapping[str, str], weigh: Mapping[str, float], clashes: Clashes
) -> Nutrients:
    per: dict[str, float | None] = dict.fromkeys(_LINES)
    for key in _LINES:
        if key in got:
            per[key] = _per_100g(key, got, bases, weigh, clashes)
    energy = _agreed(("kcal", per["kcal"]), ("kj", per["kj"]), clashes)
    salt = per["salt_g"]
    from_salt = None if salt is None else salt * 1000.0 / SALT_PER_SODIUM
    sodium = _agreed(("sodium_mg", per["sodium_mg"]), ("salt_g", from_salt), clashes)
    stated = {name: per[name] for name in NUTRIENTS if name not in ("sodium_mg", "carb_g")}
    return Nutrients(energy_kcal=energy, sodium_mg=sodium, carb_g=_carb(per, clashes), **stated)


_LINES: Final = (*NUTRIENTS, "kcal", "kj", "salt_g", "carb_available_g")


def _per_100g(
    key: str, got: Got, bases: Mapping[str, str], weigh: Mapping[str, float], clashes: Clashes
) -> float | None:
    value: float = got[key]
    basis = bases.get(key) or got.get("per")
    if basis is None:
        clashes.append(("per", BadCell("is blank", "write 100 g, serving, pack, or a mass")))
        return None
    grams = weigh[basis] if isinstance(basis, str) else basis
    return value if grams == 100.0 else value * 100.0 / grams


def _carb(per: Mapping[str, float | None], clashes: Clashes) -> float | None:
    """Total carbohydrate: stated, or available plus fibre; available alone is its floor."""
    available = per["carb_available_g"]
    if available is None:
        return per["carb_g"]
    total = available + (per["fibre_g"] or 0.0)
    return _agreed(("carb_g", per["carb_g"]), ("carb_available_g", total), clashes)


def _agreed(
    first: tuple[str, float | None], second: tuple[str, float | None], clashes: Clashes
) -> float | None:
    """One of two statements of a value; a clash if they differ by more than rounding."""
    (_, one), (key, other) = first, second
    if one is None or other is None:
        return other if one is None else one
    if abs(one - other) > max(SLACK * max(one, other), 2.0):
        made = f"they make {other:.4g} and {one:.4g} per 100 g; leave one of the two out"
        clashes.append((key, BadCell(f"contradicts {first[0]}", made)))
    return one


def _allergens(got: Got, clashes: Clashes) -> dict[str, State]:
    """State by allergen; one named in two columns is a clash, for nobody may guess (C10)."""
    found: dict[str, State] = {}
    for column, state in _STATES:
        for name in sorted(got.get(column, ())):
            if name in found:
                wrong = f"names {name}, which another column names too"
                clashes.append((column, BadCell(wrong, "leave it in one of the columns")))
            found[name] = state
    return found


_STATES: Final[tuple[tuple[str, State], ...]] = (
    ("contains", "contains"), ("may_contain", "may"), ("free_of", "free"),
)  # fmt: skip
