"""Explains totals that are sums over days, bags, meals and purchases."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from oatsack.values.plan import Plan
from oatsack.why.explainers.base import Asked, Explainer, given, sums
from oatsack.why.explanation import Explanation

Values = Callable[[Plan], Iterable[float]]


def over_rows(formula: str, origin: str, values: Values,
              **others: str) -> Callable[[Asked], Explanation]:  # fmt: skip
    """A formula over one list of values (``rows``) and numbers that stand elsewhere."""

    def explain(asked: Asked) -> Explanation:
        inputs = {name: asked.taken(address) for name, address in others.items()}
        inputs["rows"] = given(tuple(values(asked.plan)), origin)
        return asked.answered(formula, inputs)

    return explain


def priced(asked: Asked) -> Explanation:
    """Whole packs times the price of one."""
    line = next(b for b in asked.plan.packed.buy
                if f"{b.leg}-{b.shop}-{b.food}" == asked.words[2].split("~")[0])  # fmt: skip
    price = asked.plan.foods[line.food].price or 0.0
    return asked.answer(
        "packs * price", packs=asked.beside("packs"),
        price=given(price, f"foods/{line.food}/price"),
    )  # fmt: skip


def bag_net(asked: Asked) -> Explanation:
    """The sum of a bag's items."""
    items = tuple(_child(asked, "items"))
    return asked.answer("sum(items)", items=given(items, f"{asked.home}/items/*/net_g"))


def _child(asked: Asked, name: str) -> Iterable[float]:
    rows = asked.taken(f"{asked.home}/{name}").value
    return (item.net_g for item in rows)


def item_net(asked: Asked) -> Explanation:
    """Doses times the mass of a dose."""
    item = asked.taken(asked.home).value
    dose = asked.plan.foods[item.food].dose_g
    return asked.answer(
        "doses * dose_g", doses=asked.beside("doses"),
        dose_g=given(dose, f"foods/{item.food}/dose_g"),
    )  # fmt: skip


def sack_start(asked: Asked) -> Explanation:
    """The sum of its bags, wrapping included (C6)."""
    sack = asked.taken(asked.home).value
    gross = {bag.id: bag.gross_g for bag in asked.plan.packed.bags}
    return asked.answer(
        "sum(bags_g)", bags_g=given(tuple(gross[b] for b in sack.bags), "packed/bags")
    )


def _spare(plan: Plan, nutrient: str | None) -> Iterable[float]:
    for p in plan.menu.spare:
        food = plan.foods[p.food]
        yield p.doses * (food.dose_g if nutrient is None else food.per_dose(nutrient) or 0.0)


SUMMING: tuple[Explainer, ...] = (
    Explainer(pattern="totals/person_days", explain=over_rows(
        "count(walkers) * sum(rows) / 1440", "days/*: minutes inside the walk",
        lambda p: (d.inside_min for d in p.days), walkers="trip/walkers")),
    Explainer(pattern="totals/gross_g", explain=over_rows(
        "sum(rows)", "packed/bags: net and wrapping",
        lambda p: (b.gross_g for b in p.packed.bags))),
    Explainer(pattern="totals/start_kg", explain=over_rows(
        "sum(rows) / 1000", "packed/sacks of leg 1",
        lambda p: (s.start_g for s in p.packed.sacks if s.leg == 1))),
    Explainer(pattern="totals/g_per_person_day", explain=sums("over(net_g, person_days)")),
    Explainer(pattern="totals/cook_minutes_day", explain=over_rows(
        "sum(rows) / count(days)", "kitchen/meals/*/minutes",
        lambda p: (m.minutes for m in p.kitchen.meals), days="days")),
    Explainer(pattern="totals/boiled_ml_day", explain=over_rows(
        "sum(rows) / count(days)", "kitchen/meals/*/boiled_ml",
        lambda p: (m.boiled_ml for m in p.kitchen.meals), days="days")),
    Explainer(pattern="totals/fuel_g", explain=over_rows(
        "sum(rows)", "kitchen/fuel/by_day_g",
        lambda p: p.kitchen.fuel.by_day_g.values() if p.kitchen.fuel else ())),
    Explainer(pattern="totals/rubbish_g", explain=over_rows(
        "max(rows)", "packed/rubbish/*/mass_g",
        lambda p: [0.0, *(r.mass_g for r in p.packed.rubbish)])),
    Explainer(pattern="totals/volume_ml", explain=over_rows(
        "sum(rows)", "packed/bags/*/volume_ml", lambda p: (b.volume_ml for b in p.packed.bags))),
    Explainer(pattern="totals/kg_days", explain=over_rows(
        "sum(rows)", "packed/sacks/*/kg_days", lambda p: (s.kg_days for s in p.packed.sacks))),
    Explainer(pattern="totals/price", explain=over_rows(
        "sum(rows)", "packed/buy/*/price",
        lambda p: (b.price for b in p.packed.buy if b.packs > 0 and b.price is not None))),
    Explainer(pattern="totals/unpriced", explain=over_rows(
        "sum(rows)", "packed/buy without a price",
        lambda p: (float(b.packs > 0 and b.price is None) for b in p.packed.buy))),
    Explainer(pattern="totals/spare_g", explain=over_rows(
        "sum(rows)", "menu/spare x foods/*/dose_g", lambda p: _spare(p, None))),
    Explainer(pattern="totals/spare_kcal", explain=over_rows(
        "sum(rows)", "menu/spare x foods/*/per_100g/energy_kcal",
        lambda p: _spare(p, "energy_kcal"))),
    Explainer(pattern="kitchen/fuel/burnt_g", explain=over_rows(
        "sum(rows)", "kitchen/fuel/by_day_g",
        lambda p: p.kitchen.fuel.by_day_g.values() if p.kitchen.fuel else ())),
    Explainer(pattern="kitchen/fuel/need_g", explain=sums("burnt_g + reserve_g")),
    Explainer(pattern="kitchen/fuel/left_g", explain=sums("carried_g - burnt_g")),
    Explainer(pattern="packed/buy/*/price", explain=priced),
    Explainer(pattern="packed/buy/*/left_g", explain=sums("packs * pack_g + from_home_g - need_g")),
    Explainer(pattern="packed/bags/*/net_g", explain=bag_net),
    Explainer(pattern="packed/bags/*/items/*/net_g", explain=item_net),
    Explainer(pattern="packed/sacks/*/start_g", explain=sack_start),
    Explainer(pattern="made/gap", explain=over_rows(
        "max(0, over(aim - bound, aim))", "menu", lambda p: (),
        aim="menu/aim", bound="menu/bound")),
)  # fmt: skip
