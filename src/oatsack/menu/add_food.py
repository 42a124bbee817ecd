"""Which kind of food would help when no menu fits: a way out that asks for something to be added.

A kind is told by what its likes in the larder are in the middle (energy, protein, dose, price); the
food that stands for it suits everybody. Each is tried like any other way out (`menu/no_plan`), so
that none is named without a menu. What to buy is the walker's choice: no food is named.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import median

from oatsack.menu.refuse import Give
from oatsack.menu.ways_out import WayOut
from oatsack.values.flags import Flag
from oatsack.values.food import ALLERGENS, Food, Keep, Meal, Nutrients, Prep, Role, Stock
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest

PROTEIN_G = 20.0
"""What a savoury food of much protein brings in 100 g at least; ours."""
SMALL_KCAL = 60.0
"""A dose of what fills the last of a day's window; ours."""
ONE_BRINGS_KCAL = 500.0
"""One more food brings about so much to a day; ours."""
SEVERAL = "way-out.add-several"
UNLIKE = 3.0
"""How much a food is liked that nobody has tasted yet."""
FREE = dict.fromkeys(ALLERGENS, "free")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of food: where it is eaten, and what it brings where the larder has none like it
    (common practice: freeze-dried dishes and bars)."""

    name: str
    role: Role
    meals: frozenset[Meal]
    category: str
    taste: str
    energy_kcal: float
    protein_g: float
    dose_g: float
    price_g: float
    least_protein_g: float = 0.0
    cooked: bool = False
    helps: frozenset[str] = frozenset({"energy-day", "energy-trip"})
    """Rules that it may help with where they are short."""
    over: bool = False
    """Whether it helps where a day would come to too much instead."""


KINDS: tuple[Kind, ...] = (
    Kind(name="savoury", role="snack", meals=frozenset({"lunch", "move"}), category="protein",
         taste="salty", energy_kcal=450.0, protein_g=24.0, dose_g=30.0, price_g=0.03,
         least_protein_g=PROTEIN_G,
         helps=frozenset({"protein", "energy-day", "energy-trip"})),
    Kind(name="nibble", role="snack", meals=frozenset({"lunch", "move"}), category="snack",
         taste="neutral", energy_kcal=470.0, protein_g=9.0, dose_g=40.0, price_g=0.015),
    Kind(name="dinner", role="main", meals=frozenset({"dinner"}), category="meal", taste="salty",
         energy_kcal=430.0, protein_g=17.0, dose_g=110.0, price_g=0.07, cooked=True,
         helps=frozenset({"mains", "energy-day", "energy-trip"})),
    Kind(name="breakfast", role="main", meals=frozenset({"breakfast"}), category="breakfast",
         taste="sweet", energy_kcal=390.0, protein_g=12.0, dose_g=50.0, price_g=0.01, cooked=True,
         helps=frozenset({"mains", "energy-day", "energy-trip"})),
    Kind(name="small", role="snack", meals=frozenset({"move"}), category="snack", taste="neutral",
         energy_kcal=400.0, protein_g=7.0, dose_g=15.0, price_g=0.015, over=True),
)  # fmt: skip
"""What may be asked for: what is easiest to add first."""


def additions(request: MenuRequest, gives: Sequence[Give]) -> Iterator[WayOut]:
    """Requests with a kind of food added, for what gives, the likeliest to help first: where a day
    lacks more than one food brings, all that may help together.

    A dish is asked for a meal that exists; without a flame, and where nothing is cooked at that
    meal, it is one that is eaten cold.
    """
    lacking = {g.row.split("/")[0] for g in gives if g.short > 0} & {"mains"}
    kinds = [k for k in sorted(KINDS, key=lambda kind: not lacking & kind.helps)
             if _may_help(k, gives) and any(s.meal in k.meals for s in request.slots)]  # fmt: skip
    eaten = [k for k in kinds if not k.over]
    if len(eaten) > 1 and _short_kcal(gives) > ONE_BRINGS_KCAL:
        flag = Flag(key=SEVERAL, level="note", values={"n": len(eaten)})
        yield WayOut(request=_with(request, eaten), flag=flag)
    for kind in kinds:
        changed = _with(request, [kind])
        flag = Flag(key=f"way-out.add-{kind.name}", level="note", values=_told(changed.foods[-1]))
        yield WayOut(request=changed, flag=flag)


def _with(request: MenuRequest, kinds: Sequence[Kind]) -> MenuRequest:
    """The request with the food that stands for each kind."""
    foods = [middle(request, kind) for kind in kinds]
    prices = dict(request.prices)
    for kind, food in zip(kinds, foods, strict=True):
        prices.update(_priced(request, kind, food))
    return replace(request, foods=(*request.foods, *foods), prices=prices)


def _short_kcal(gives: Sequence[Give]) -> float:
    """The most that a day lacks [kcal]."""
    return max((g.short for g in gives if g.row.startswith("energy-day/")), default=0.0)


def _told(food: Food) -> dict[str, float | int | str]:
    """What is said of it: in 100 g, and in a piece."""
    per = food.per_100g
    return {"energy_kcal": per.energy_kcal or 0.0, "protein_g": math.floor(per.protein_g or 0.0),
            "dose_kcal": food.dose_kcal}  # fmt: skip


def _priced(
    request: MenuRequest, kind: Kind, food: Food
) -> dict[tuple[str, int], DosePrice]:  # fmt: skip
    """What it costs in each day's kitchen: as much as the food that is made like it."""
    model = _model(request, kind)
    if model is None or food.prep != model.prep:
        return {}
    return {(food.id, day): price for (name, day), price in request.prices.items()
            if name == model.id}  # fmt: skip


def _may_help(kind: Kind, gives: Sequence[Give]) -> bool:
    if kind.over:
        return any(g.over > 0 and g.row.startswith("energy-") for g in gives)
    return any(g.short > 0 and g.row.split("/")[0] in kind.helps and _at(kind, g) for g in gives)


def _at(kind: Kind, give: Give) -> bool:
    """Whether what gives at one meal is one of the meals of this kind."""
    parts = give.row.split("/")
    return parts[0] != "mains" or not kind.meals.isdisjoint(parts)


def alike(request: MenuRequest, kind: Kind) -> list[Food]:
    """Foods of the larder that are of a kind, whoever may eat them."""
    return [
        f for f in request.foods
        if f.role == kind.role and not kind.meals.isdisjoint(f.meals) and f.dose_kcal > 0
        and (f.per_100g.protein_g or 0.0) >= kind.least_protein_g
        and (kind.taste != "salty" or f.taste == "salty")
    ]  # fmt: skip


def middle(request: MenuRequest, kind: Kind) -> Food:
    """The food that stands for a kind: the middle of its likes in the larder, or what is common
    where there are none; of protein no more than is asked for. It suits every diet and holds no
    allergen."""
    found = alike(request, kind)
    model = _model(request, kind)
    energy = median([f.per_100g.energy_kcal or 0.0 for f in found] or [kind.energy_kcal])
    protein = kind.least_protein_g or median(
        [f.per_100g.protein_g or 0.0 for f in found] or [kind.protein_g]
    )
    dose_g = median([f.dose_g for f in found] or [kind.dose_g])
    if kind.over:
        dose_g = 100.0 * SMALL_KCAL / energy
    price = median([f.price / f.pack_g for f in found if f.price is not None] or [kind.price_g])
    return Food(
        id=_free_id(request, f"any-{kind.name}"), name=kind.name, category=kind.category,
        role=kind.role,
        per_100g=_per_100g(found, energy, protein),
        pack_g=5.0 * dose_g, doses_per_pack=5.0, dose_g=dose_g, carry="sealed",
        taste=kind.taste, meals=kind.meals, keep=Keep(), stock=Stock(),  # type: ignore[arg-type]
        prep=_prep(request, kind, model), wrap_g=0.05 * 5.0 * dose_g, pack_ml=2.5 * 5.0 * dose_g,
        price=price * 5.0 * dose_g, allergens=FREE, diet="vegan", liking=UNLIKE,  # type: ignore[arg-type]
    )  # fmt: skip


def _free_id(request: MenuRequest, name: str) -> str:
    """The name, or a longer one where the larder has it already."""
    taken = {food.id for food in request.foods}
    while name in taken:
        name += "-more"
    return name


def _per_100g(found: Sequence[Food], energy_kcal: float, protein_g: float) -> Nutrients:
    """Middle values of what is stated; fat and carbohydrate share what protein leaves of it."""
    fat = median([f.per_100g.fat_g for f in found if f.per_100g.fat_g is not None] or [15.0])
    sodium = median(
        [f.per_100g.sodium_mg for f in found if f.per_100g.sodium_mg is not None] or [500.0]
    )
    carb = max(0.0, (energy_kcal - 4.0 * protein_g - 9.0 * fat) / 4.0)
    return Nutrients(energy_kcal=energy_kcal, protein_g=protein_g, fat_g=fat, carb_g=carb,
                     fibre_g=min(carb, 6.0), sodium_mg=sodium, caffeine_mg=0.0)  # fmt: skip


def _model(request: MenuRequest, kind: Kind) -> Food | None:
    """The food of a kind nearest the middle in energy that is made with boiling water: how it is
    made, and what that costs in the kitchen."""
    found = [f for f in alike(request, kind) if f.prep.kind == "boil"]
    if not kind.cooked or not found:
        return None
    mid = median(f.per_100g.energy_kcal or 0.0 for f in found)
    return min(found, key=lambda f: (abs((f.per_100g.energy_kcal or 0.0) - mid), f.id))


def _prep(request: MenuRequest, kind: Kind, model: Food | None) -> Prep:
    """As its model is made where its meals are hot; else it is eaten as it is."""
    hot = all(s.hot for s in request.slots if s.meal in kind.meals)
    return model.prep if model is not None and hot else Prep()
