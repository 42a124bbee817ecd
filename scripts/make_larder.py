"""Makes src/oatsack/data/larder.csv from the hand-kept tables in scripts/data.

composition.csv   nutrients per 100 g of USDA SR28 rows (public domain, number kept), rows derived
                  from them, and a few estimates; allergens it typically contains, diet, density
blends.csv        foods that are mixtures of rows of composition.csv, by parts in 100
packs.csv         invented packs: how a food is sold, carried, made and liked

Run it as ``python scripts/make_larder.py``; a test compares the result with the packaged file.
"""

from __future__ import annotations

import csv
import math
import sys
from collections.abc import Iterator
from pathlib import Path

from oatsack.files.larder import BUNDLED, write_larder
from oatsack.values.food import (
    ALLERGENS,
    MEALS,
    Food,
    Keep,
    Nutrients,
    Origin,
    Pouch,
    Prep,
    State,
)  # fmt: skip

HERE = Path(__file__).resolve().parent / "data"
NUTRIENTS = {
    "kcal": "energy_kcal", "protein_g": "protein_g", "fat_g": "fat_g", "carb_g": "carb_g",
    "sugars_g": "sugars_g", "fibre_g": "fibre_g", "sodium_mg": "sodium_mg",
    "potassium_mg": "potassium_mg", "caffeine_mg": "caffeine_mg",
}  # fmt: skip
MEAL_LETTERS = dict(zip("BLMDK", MEALS, strict=True))
SOURCES = {
    "table": "Usda2015",
    "derived": "Usda2015, rescaled to dry",
    "computed": "WhoUnicef2006, computed from the formula",
    "memory": "from memory",
    "estimated": "ours",
    "blend": "Usda2015, blend",
}
KEEPS = {
    "A": Keep(),
    "B": Keep(opened_days=0.0),
    "C": Keep(opened_days=7.0),
    "D": Keep(opened_days=3.0, warm_days=21.0),
    "E": Keep(opened_days=3.0, warm_days=5.0),
    "F": Keep(opened_days=7.0, warm_days=7.0),
    "G": Keep(opened_days=14.0, warm_days=21.0),
    "H": Keep(opened_days=0.0, warm_days=1.0),
}
"""Common practice: dry and sealed; opened and eaten in one meal; dried meat; hard sausage; hard
cheese; bread; grana cheese; soft cheese, which goes on the first day or stays at home."""
INVENTED = frozenset({
    "pack_g", "doses_per_pack", "dose_g", "wrap_g", "pack_ml", "price", "shop", "allergens",
    "liking", "taste", "meals", "prep", "keep", "resealable",
})  # fmt: skip
PUFFED_G_ML = 0.15
"""A freeze-dried pouch as bought holds this much food per ml (common practice: 0.10 to 0.20)."""


def table(name: str) -> list[dict[str, str]]:
    """The rows of one hand-kept table."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def blended(parts: dict[str, float], rows: dict[str, dict[str, str]]) -> dict[str, str]:
    """A composition row of a mixture; a nutrient that one part lacks is left blank (C2)."""
    out: dict[str, str] = {}
    for column in (*NUTRIENTS, "density_g_ml"):
        cells = [rows[part][column] for part in parts]
        if all(cells):
            total = sum(float(cell) * parts[part] for cell, part in zip(cells, parts, strict=True))
            out[column] = (
                f"{total / 100.0:.3g}" if column == "density_g_ml" else f"{total / 100.0:.2f}"
            )
    out["contains"] = " ".join(
        sorted({a for part in parts for a in rows[part]["contains"].split()})
    )
    out["sr28"] = " ".join(rows[part]["sr28"] for part in parts)
    diets = ["vegan", "vegetarian", "fish", "meat", "check"]
    out["diet"] = max((rows[part]["diet"] for part in parts), key=diets.index)
    return out


def compositions() -> dict[str, dict[str, str]]:
    """All composition rows by id, blends included."""
    rows = {row["id"]: row for row in table("composition.csv")}
    for blend in table("blends.csv"):
        words = blend["parts"].split()
        parts = {name: float(share) for name, share in zip(words[::2], words[1::2], strict=True)}
        assert math.isclose(sum(parts.values()), 100.0), blend
        row = blended(parts, rows) | {"made": "blend", "category": blend["category"]}
        rows[blend["id"]] = row
    return rows


def nutrients(row: dict[str, str]) -> Nutrients:
    """Nutrients per 100 g of a composition row; blanks stay absent."""
    stated = {field: float(row[col]) for col, field in NUTRIENTS.items() if row.get(col)}
    return Nutrients(**stated)


def allergens(row: dict[str, str], pack: dict[str, str]) -> dict[str, State]:
    """State by allergen; free where nothing is said, or where ``-gluten`` is said."""
    contains = set(row["contains"].split())
    if "wheat" in contains:
        contains.add("gluten")
    said = pack["may"].split()
    may, unknown = {word for word in said if word[0] != "-"}, set(pack["unknown"].split())
    contains -= {word[1:] for word in said if word[0] == "-"}
    assert (contains | may | unknown) <= set(ALLERGENS), pack["id"]
    states: dict[str, State] = {}
    for name in ALLERGENS:
        if name in contains:
            states[name] = "contains"
        elif name not in unknown:
            states[name] = "may" if name in may else "free"
    return states


def prep(text: str, marks: str) -> Prep:
    """``boil 120 2 cold 60`` with the marks p (needs a pot) and b (from the bag)."""
    words = text.split()
    if not words:
        return Prep(from_bag="b" in marks)
    kind, water, minutes = words[0], float(words[1]), float(words[2])
    return Prep(
        kind=kind,  # type: ignore[arg-type]
        water_ml=water,
        wait_min=minutes if kind != "simmer" else 0.0,
        simmer_min=minutes if kind == "simmer" else 0.0,
        needs_pot=kind == "simmer",
        from_bag="b" in marks or "u" in marks,
        cold_soak_min=float(words[4]) if words[3:4] == ["cold"] else None,
    )


def keep(letter: str, marks: str) -> Keep:
    """How long a class keeps, and whether it melts or crushes."""
    base = KEEPS[letter]
    return Keep(
        opened_days=base.opened_days,
        warm_days=base.warm_days,
        melts="m" in marks,
        crushes="c" in marks,
    )


def pouch(marks: str, pack_g: float, pack_ml: float) -> Pouch | None:
    """The mark ``u900`` is a pouch that stands, closes and holds 900 ml."""
    if "u" not in marks:
        return None
    return Pouch(
        stands=True,
        closes=True,
        holds_ml=float(marks.partition("u")[2]),
        flat_ml=pack_ml,
        puffed_ml=float(round(pack_g / PUFFED_G_ML, -1)),
    )


def foods() -> Iterator[Food]:
    """The larder, in the order of packs.csv."""
    rows = compositions()
    for pack in table("packs.csv"):
        row = rows[pack["of"] or pack["id"]]
        yield food(row, pack)


def food(row: dict[str, str], pack: dict[str, str]) -> Food:
    """One food from its composition and its invented pack."""
    pack_g, doses, marks = float(pack["pack_g"]), float(pack["doses"]), pack["marks"]
    pack_ml = float(pack["pack_ml"] or round(pack_g / float(row["density_g_ml"])))
    made = row["made"]
    more = {"per_100g"} if made in ("estimated", "memory") else set()
    return Food(
        id=pack["id"],
        name=pack["name"],
        category=row["category"],
        per_100g=nutrients(row),
        pack_g=pack_g,
        doses_per_pack=doses,
        dose_g=pack_g / doses,
        dose_name=pack["dose_name"],
        role=pack["role"],  # type: ignore[arg-type]
        carry=pack["carry"],  # type: ignore[arg-type]
        taste=pack["taste"],  # type: ignore[arg-type]
        meals=frozenset(MEAL_LETTERS[letter] for letter in pack["meals"].split()),
        prep=prep(pack["prep"], marks),
        keep=keep(pack["keep"], marks.partition("u")[0]),
        pouch=pouch(marks, pack_g, pack_ml),
        wrap_g=float(pack["wrap_g"]),
        pack_ml=pack_ml,
        resealable="r" in marks or "u" in marks,
        price=float(pack["price"]),
        shop=pack["shop"],  # type: ignore[arg-type]
        allergens=allergens(row, pack),
        diet=row["diet"],  # type: ignore[arg-type]
        liking=float(pack["liking"]) if pack["liking"] else None,
        every_day_fine="e" in marks.partition("u")[0],
        origin=Origin(
            source=SOURCES[made],
            source_id=row["sr28"],
            invented=INVENTED | more | ({"pouch"} if "u" in marks else set()),
        ),
    )


def main() -> int:
    """Writes the larder and says what it holds."""
    made = tuple(foods())
    BUNDLED.write_bytes(write_larder(made))
    print(f"{len(made)} foods")
    return 0


if __name__ == "__main__":
    sys.exit(main())
