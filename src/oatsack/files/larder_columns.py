"""The columns of a larder file: name, kind, what it means, and where its value stands in a Food.

This table is the only description of the format: the reader, the writer and the reference page
(docs/reference/larder-file.md) are made from it. Adding a column is adding a line.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, Literal, get_args

from oatsack.values.classes import CATEGORIES
from oatsack.values.food import ALLERGENS, MEALS, Carry, Diet, Food, PrepKind, Role, Shop
from oatsack.values.frozen import dataclass

Kind = Literal[
    "text", "id", "mass", "nutrient", "milli", "energy", "volume", "minutes", "days", "count",
    "money", "score", "yes", "date", "choice", "words", "basis",
]  # fmt: skip
Cell = str | float | bool | None | object

PER_100G, PER_SERVING, PER_PACK = "100 g", "serving", "pack"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column. `show` takes its value from a Food, for writing; None: it is read only."""

    name: str
    kind: Kind
    about: str
    show: Callable[[Food], object] | None = None
    known: tuple[str, ...] = ()
    required: bool = False


def _nutrient(name: str, about: str) -> Column:
    kind: Kind = "milli" if name.endswith("_mg") else "nutrient"
    return Column(name=name, kind=kind, about=about, show=lambda food: getattr(food.per_100g, name))


def _in_state(state: str) -> Callable[[Food], object]:
    return lambda food: [name for name in ALLERGENS if food.allergens.get(name) == state]


def _pouch(field: str) -> Callable[[Food], object]:
    return lambda food: getattr(food.pouch, field) if food.pouch else None


def _pouch_stands(food: Food) -> object:
    """A pouch that does not stand says no, so that one of which nothing is true still shows."""
    return food.pouch and (food.pouch.stands or "no")


def _prep(field: str) -> Callable[[Food], object]:
    return lambda food: getattr(food.prep, field)


def _keep(field: str) -> Callable[[Food], object]:
    return lambda food: getattr(food.keep, field)


COLUMNS: Final[tuple[Column, ...]] = (
    Column(
        name="id",
        kind="id",
        show=lambda f: f.id,
        about="Short name: small letters, digits and hyphens. Blank: made from the name.",
    ),
    Column(
        name="name", kind="text", required=True, show=lambda f: f.name, about="Name, as you say it."
    ),
    Column(
        name="category",
        kind="choice",
        known=CATEGORIES,
        show=lambda f: f.category,
        about="Class of food; it bounds the energy density and fills blanks. Blank: other.",
    ),
    Column(
        name="role",
        kind="choice",
        known=get_args(Role),
        show=lambda f: f.role,
        about="Part it plays in a meal; small things are counted, not chosen. Blank: side.",
    ),
    Column(
        name="carry",
        kind="choice",
        known=get_args(Carry),
        show=lambda f: f.carry,
        about="Carried sealed as bought, as an open bag nibbled over days, or repacked. "
        "Blank: repack.",
    ),
    Column(
        name="pack_g",
        kind="mass",
        required=True,
        show=lambda f: f.pack_g,
        about="Net mass of one pack as bought.",
    ),
    Column(
        name="doses",
        kind="count",
        show=lambda f: f.doses_per_pack,
        about="Doses in a pack; a dose is the least handed out. Blank: pack over dose.",
    ),
    Column(
        name="dose_g",
        kind="mass",
        show=lambda f: f.dose_g,
        about="Net mass of one dose. Blank: pack over doses.",
    ),
    Column(
        name="dose_name",
        kind="text",
        show=lambda f: f.dose_name,
        about="What a dose is called: packet, bar, half pouch, scoop. Blank: serving.",
    ),
    Column(
        name="serving_g",
        kind="mass",
        about="The label's serving, where nutrients stand per serving that is not your dose.",
    ),
    Column(
        name="per",
        kind="basis",
        show=lambda f: PER_100G,
        about="What the nutrients of the row are per: 100 g, serving, pack, or a mass "
        "(30 g, 1 oz). Needed unless the header of each says it.",
    ),
    Column(
        name="kcal",
        kind="energy",
        show=lambda f: f.per_100g.energy_kcal,
        about="Energy in kcal; a cell may say kJ itself.",
    ),
    Column(name="kj", kind="energy", about="Energy in kJ, in place of kcal."),
    _nutrient("protein_g", "Protein."),
    _nutrient("fat_g", "Fat."),
    _nutrient("carb_g", "Carbohydrate with fibre in it, as on American labels."),
    Column(
        name="carb_available_g",
        kind="nutrient",
        about="Carbohydrate without fibre, as on European labels; fibre is added to it.",
    ),
    _nutrient("sugars_g", "Sugars, a part of carbohydrate."),
    _nutrient("fibre_g", "Dietary fibre."),
    _nutrient("polyols_g", "Sugar alcohols, a part of carbohydrate."),
    _nutrient("sodium_mg", "Sodium."),
    Column(
        name="salt_g", kind="nutrient", about="Salt, in place of sodium; salt is 2.5 times sodium."
    ),
    _nutrient("potassium_mg", "Potassium."),
    _nutrient("caffeine_mg", "Caffeine."),
    Column(
        name="contains",
        kind="words",
        known=ALLERGENS,
        show=_in_state("contains"),
        about="Allergens it contains.",
    ),
    Column(
        name="may_contain",
        kind="words",
        known=ALLERGENS,
        show=_in_state("may"),
        about="Allergens it may contain traces of.",
    ),
    Column(
        name="free_of",
        kind="words",
        known=ALLERGENS,
        show=_in_state("free"),
        about="Allergens it is free of, each written out. One that is named nowhere is unknown, "
        "and unknown counts as contained for whoever must avoid it.",
    ),
    Column(
        name="diet",
        kind="choice",
        known=get_args(Diet),
        show=lambda f: f.diet,
        about="Strictest diet it suits. Blank or check: suits none.",
    ),
    Column(
        name="prep",
        kind="choice",
        known=get_args(PrepKind),
        show=_prep("kind"),
        about="Eaten as it is, soaked cold, boiling water and a wait, or simmered. Blank: none.",
    ),
    Column(name="water_ml", kind="volume", show=_prep("water_ml"), about="Water a dose takes."),
    Column(name="wait_min", kind="minutes", show=_prep("wait_min"), about="Wait after pouring."),
    Column(
        name="simmer_min", kind="minutes", show=_prep("simmer_min"), about="Minutes on the flame."
    ),
    Column(
        name="needs_pot", kind="yes", show=_prep("needs_pot"), about="It must be made in a pot."
    ),
    Column(
        name="from_bag", kind="yes", show=_prep("from_bag"), about="It can be eaten from its bag."
    ),
    Column(
        name="cold_soak_min",
        kind="minutes",
        show=_prep("cold_soak_min"),
        about="Minutes in cold water that do without a flame. Blank: they never do.",
    ),
    Column(
        name="opened_days",
        kind="days",
        show=_keep("opened_days"),
        about="Days it keeps once opened. Blank: the trip.",
    ),
    Column(
        name="warm_days",
        kind="days",
        show=_keep("warm_days"),
        about="Days it keeps in the warm. Blank: the trip.",
    ),
    Column(name="melts", kind="yes", show=_keep("melts"), about="It melts in the heat."),
    Column(name="crushes", kind="yes", show=_keep("crushes"), about="It crushes in a full sack."),
    Column(
        name="pouch_stands", kind="yes", show=_pouch_stands, about="Its pouch stands by itself."
    ),
    Column(name="pouch_closes", kind="yes", show=_pouch("closes"), about="Its pouch closes again."),
    Column(
        name="pouch_holds_ml", kind="volume", show=_pouch("holds_ml"), about="What the pouch holds."
    ),
    Column(
        name="pouch_flat_ml",
        kind="volume",
        show=_pouch("flat_ml"),
        about="Volume of the full pouch pressed flat.",
    ),
    Column(
        name="pouch_puffed_ml",
        kind="volume",
        show=_pouch("puffed_ml"),
        about="Volume of the full pouch as bought, puffed.",
    ),
    Column(name="wrap_g", kind="mass", show=lambda f: f.wrap_g, about="Wrapping of one pack."),
    Column(
        name="pack_ml",
        kind="volume",
        show=lambda f: f.pack_ml,
        about="Volume of one pack as packed.",
    ),
    Column(
        name="resealable", kind="yes", show=lambda f: f.resealable, about="The pack closes again."
    ),
    Column(
        name="price",
        kind="money",
        show=lambda f: f.price,
        about="Price of one pack, in the trip's currency.",
    ),
    Column(
        name="shop",
        kind="choice",
        known=get_args(Shop),
        show=lambda f: f.shop,
        about="Smallest kind of shop that has it. Blank: supermarket.",
    ),
    Column(
        name="meals",
        kind="words",
        known=MEALS,
        show=lambda f: [m for m in MEALS if m in f.meals],
        about="Meals it suits; move is what is eaten on the move.",
    ),
    Column(
        name="taste",
        kind="choice",
        known=("sweet", "salty", "neutral"),
        show=lambda f: f.taste,
        about="Sweet, salty or neutral.",
    ),
    Column(
        name="liking",
        kind="score",
        show=lambda f: f.liking,
        about="How much everyone likes it, 1 to 5. A column liking_NAME holds one walker's.",
    ),
    Column(
        name="every_day",
        kind="yes",
        show=lambda f: f.every_day_fine,
        about="Nobody minds eating it every day.",
    ),
    Column(name="home_packs", kind="count", show=lambda f: f.stock.packs, about="Packs at home."),
    Column(
        name="best_before",
        kind="date",
        show=lambda f: f.stock.best_before,
        about="Best before, of what is at home.",
    ),
    Column(
        name="confirmed",
        kind="yes",
        show=lambda f: f.confirmed,
        about="You have looked: the label is right although it looks odd.",
    ),
    Column(
        name="source",
        kind="text",
        show=lambda f: f.origin.source,
        about="Where the nutrients are from.",
    ),
    Column(
        name="source_id",
        kind="text",
        show=lambda f: f.origin.source_id,
        about="Number of the food in that source.",
    ),
    Column(
        name="invented",
        kind="text",
        show=lambda f: sorted(f.origin.invented),
        about="Names of columns whose values are invented or estimated.",
    ),
)
BY_NAME: Final[Mapping[str, Column]] = {column.name: column for column in COLUMNS}


def is_per(column: Column) -> bool:
    """Whether a column's value stands per serving, pack or 100 g."""
    return column.kind in ("nutrient", "milli", "energy")
