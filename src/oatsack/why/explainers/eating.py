"""Explains what is eaten: sums over portions, kitchen prices, and the choices themselves."""

from __future__ import annotations

from dataclasses import replace

from oatsack.values.flags import Flag
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan
from oatsack.values.trip import Rules
from oatsack.why.explainers.base import Asked, Explainer, given
from oatsack.why.explanation import Explanation

TRIP_SUMS = {
    "energy_kcal": ("energy_kcal", "sum(per_portion)"),
    "kcal_per_100g": ("energy_kcal", "over(100 * sum(per_portion), net_g)"),
    "fat_share": ("fat_g", "over(9 * sum(per_portion), energy_kcal)"),
    "sodium_mg_day": ("sodium_mg", "over(sum(per_portion), person_days)"),
    "fibre_g_day": ("fibre_g", "over(sum(per_portion), person_days)"),
    "caffeine_mg_day": ("caffeine_mg", "over(sum(per_portion), person_days)"),
}
"""Number of the trip -> the nutrient summed, and the formula over its other numbers."""


def per_portion(plan: Plan, rows: tuple[Portion, ...], nutrient: str) -> tuple[float, ...]:
    """Doses times the food's nutrient per dose, a blank adding nothing (C2)."""
    return tuple(p.doses * (plan.foods[p.food].per_dose(nutrient) or 0.0) for p in rows)


def trip_sum(asked: Asked) -> Explanation:
    """A sum over all portions of the trip, or what follows from one."""
    nutrient, formula = TRIP_SUMS[asked.last]
    others = [name for name in ("net_g", "energy_kcal", "person_days") if name in formula]
    values = per_portion(asked.plan, asked.plan.menu.portions, nutrient)
    inputs = {name: asked.beside(name) for name in others if name != asked.last}
    inputs["per_portion"] = given(values, f"menu/portions x foods/*/per_100g/{nutrient}")
    return asked.answered(formula, inputs)


def net(asked: Asked) -> Explanation:
    """Doses times their mass, over all portions (spare apart)."""
    plan = asked.plan
    grams = tuple(p.doses * plan.foods[p.food].dose_g for p in plan.menu.portions)
    return asked.answer("sum(grams)", grams=given(grams, "menu/portions x foods/*/dose_g"))


def protein(asked: Asked) -> Explanation:
    """Protein per kilogram of body mass and day."""
    plan = asked.plan
    values = per_portion(plan, plan.menu.portions, "protein_g")
    masses = tuple(w.mass_kg for w in plan.trip.walkers)
    return asked.answer(
        "over(sum(per_portion), person_days * mean(masses_kg))",
        per_portion=given(values, "menu/portions x foods/*/per_100g/protein_g"),
        person_days=asked.beside("person_days"),
        masses_kg=given(masses, "trip/walkers/*/mass_kg"),
    )


def day_sum(asked: Asked) -> Explanation:
    """One walker's day: sums over portions; blanks read high in the ``high`` figures (C2)."""
    _, walker, day, what = asked.words
    if what == "target_kcal":
        return asked.answer("target_kcal", target_kcal=asked.taken(f"target/{walker}/{day}"))
    return asked.answer(
        f"pick(eaten(menu, foods, target, kitchen), '{walker}/{day}/{what}')",
        menu=asked.taken("menu"), foods=asked.taken("foods"), target=asked.taken("target"),
        kitchen=asked.taken("kitchen"),
    )  # fmt: skip


def price(asked: Asked) -> Explanation:
    """What a dose costs in a day's kitchen: water, heat at the camp's boiling point, fuel, time."""
    _, food, day, what = asked.words
    return asked.answer(
        f"pick(dose_price(food, day, kit), '{what}')", source="IapwsIF97", sure="prior",
        food=asked.taken(f"foods/{food}"), day=asked.taken(f"days/{day}"),
        kit=asked.taken("trip/kit"),
    )  # fmt: skip


def decided(asked: Asked) -> Explanation:
    """A choice: the walker's own, or the chooser's, which made the aim least under the rules."""
    plan, place = asked.plan, asked.words
    origin = f"the chooser: {aimed_at(plan.trip.rules)}, inside every rule"
    if place[1] == "portions":
        row = plan.menu.portions[int(place[2])]
        said = {"usual": "your usual", "held": "held by you", "count": "counted by habit",
                "bag": "an open bag's share"}  # fmt: skip
        origin = said.get(row.why, origin)
    answer = asked.answer("choice", sure="choice", choice=given(asked.value, origin))
    return replace(answer, flags=_heard(asked))


def aimed_at(rules: Rules) -> str:
    """What the chooser made least: aims in order, or all at once by their weights."""
    if rules.aims:
        return f"least {', then '.join(rules.aims)}"
    weights = {"load": rules.weight_kgdays, "liking": rules.weight_liking,
               "price": rules.weight_price}  # fmt: skip
    own = {name.removeprefix("aim."): w for name, w in rules.settings.items()
           if name.startswith("aim.")}  # fmt: skip
    said = ", ".join(f"{name} x {weight:g}" for name, weight in (weights | own).items())
    return f"least of all aims together ({said}; minutes, steps and wishes beside them)"


def _heard(asked: Asked) -> tuple[Flag, ...]:
    """What holds the choice, and the next best: of a portion its own, of the aim all."""
    from oatsack.why.explainers.choosing import heard_of, holding, missed_of  # loads the menu

    place = asked.words
    if place[1:2] == ("portions",) and asked.last == "doses":
        portion = asked.plan.menu.portions[int(place[2])]
        return heard_of(asked.plan, portion, asked.larder)
    if asked.last not in ("aim", "bound"):
        return ()
    return tuple(holding(asked.plan.menu.binds, missed_of(asked.plan)))


def nibbled(asked: Asked) -> Explanation:
    """An open bag's share of a day: its doses there times their mass."""
    pool = asked.plan.menu.pools[int(asked.words[2])]
    day = int(asked.last)
    food = asked.plan.foods[pool.food]
    return asked.answer(
        "grams", sure="choice",
        grams=given(pool.by_day_g[day], f"{pool.packs:g} x {food.pack_g:g} g over its days"),
    )  # fmt: skip


EATING: tuple[Explainer, ...] = (
    *(Explainer(pattern=f"totals/{name}", explain=trip_sum) for name in TRIP_SUMS),
    Explainer(pattern="totals/net_g", explain=net),
    Explainer(pattern="totals/protein_g_per_kg_day", explain=protein),
    Explainer(pattern="eaten/*/*/*", explain=day_sum),
    Explainer(pattern="prices/*/*/*", explain=price),
    Explainer(pattern="menu/pools/*/by_day_g/*", explain=nibbled),
    Explainer(pattern="menu/**", explain=decided),
)
