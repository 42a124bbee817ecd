"""Explains the kitchen's ledger: heat from grams, minutes from steps, water from what it is for.

What is not named here is explained by counting the whole ledger again (`recounted`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from oatsack.kitchen.cooking import critical
from oatsack.kitchen.drinking import CAMP_ML, DAY_CAP_ML, HOUR_CAP_ML, rate_ml_h
from oatsack.kitchen.fuelplan import WIND_RESERVE
from oatsack.kitchen.fuels import cold_share, efficiency, fuel_of, stove_row
from oatsack.kitchen.keeping import HOT_C, WET_HOT_MIN, WET_MIN
from oatsack.kitchen.price import in_bottle, in_mug
from oatsack.kitchen.salt import SODIUM_MG_MMOL, SWEAT_MMOL_L
from oatsack.values.kitchen import MealLedger
from oatsack.values.menu import Portion
from oatsack.values.route import Day
from oatsack.why.explainers.base import Asked, Explainer, given
from oatsack.why.explainers.recounted import kitchen
from oatsack.why.explanation import Explanation

Rows = Callable[[MealLedger], Iterable[float]]


def _meal(asked: Asked) -> MealLedger:
    meal = asked.taken(asked.home).value
    assert isinstance(meal, MealLedger)
    return meal


def _still(meal: MealLedger) -> bool:
    """Drinking water melted or boiled: nothing is poured, nothing soaks."""
    return not any(step.kind in ("pour", "soak") for step in meal.steps)


def over_steps(formula: str, what: str, rows: Rows) -> Callable[[Asked], Explanation]:
    """Explains a number of a meal by some numbers of its steps, `rows` in the formula."""

    def explain(asked: Asked) -> Explanation:
        found = given(tuple(rows(_meal(asked))), f"{asked.home}/steps: {what}")
        return asked.answer(formula, rows=found)

    return explain


def _waters(meal: MealLedger, *kinds: str) -> list[float]:
    return [step.water_ml for step in meal.steps if step.kind in kinds]


def boiled(asked: Asked) -> Explanation:
    """The fills of the pots."""
    meal = _meal(asked)
    kind = "boil" if any(step.kind == "boil" for step in meal.steps) else "melt"
    rows = given(tuple(_waters(meal, kind)), f"{asked.home}/steps: {kind}")
    return asked.answer("sum(rows)", rows=rows)


def left(asked: Asked) -> Explanation:
    """What was boiled to the next mark and not poured."""
    meal = _meal(asked)
    if _still(meal):
        return kitchen(asked)
    poured = given(tuple(_waters(meal, "pour")), f"{asked.home}/steps: pour")
    return asked.answer("boiled_ml - sum(poured)", boiled_ml=asked.beside("boiled_ml"),
                        poured=poured)  # fmt: skip


def heat(asked: Asked) -> Explanation:
    """What of the fuel's heat reached the pot; priming apart."""
    meal, stove = _meal(asked), asked.plan.trip.kit.stove
    if stove is None or meal.fuel_g <= 0:
        return kitchen(asked)
    day = next(d for d in asked.plan.days if d.number == meal.day)
    row, fuel = stove_row(stove.kind), fuel_of(stove.fuel)
    share = efficiency(stove, windy=day.windy)
    cold = cold_share(day.warm_c if meal.meal == "lunch" else day.cold_c)
    primed = meal.fuel_g - meal.heat_kj / (fuel.lhv_mj_kg * share * cold)
    return asked.answer(
        "(fuel_g - priming_g) * lhv_mj_kg * efficiency * cold",
        source="common practice" if stove.efficiency is None else "ours",
        sure="prior" if stove.efficiency is None else "given",
        fuel_g=asked.beside("fuel_g"),
        priming_g=given(max(0.0, primed), f"stoves.csv, {row.kind}: {row.priming_g:g} g a burner"),
        lhv_mj_kg=given(fuel.lhv_mj_kg, f"fuels.csv, {fuel.kind}: {fuel.source}"),
        efficiency=given(share, f"stoves.csv, {row.kind}: {row.source}"),
        cold=given(cold, "what the cold leaves of it: 2 % less per kelvin under 5 C"),
    )


def reserve(asked: Asked) -> Explanation:
    """A tenth for wind and half a litre more, as one reserve (C16)."""
    windy = {str(d.number) for d in asked.plan.days if d.windy}
    fuel = asked.taken("kitchen/fuel").value
    calm = tuple(g for day, g in fuel.by_day_g.items() if day not in windy)
    half = asked.value - WIND_RESERVE * sum(calm)
    return asked.answer(
        "wind * sum(calm_g) + half_litre_g", source="common practice", sure="prior",
        wind=given(WIND_RESERVE, "a tenth for wind"),
        calm_g=given(calm, "kitchen/fuel/by_day_g, days not cooked in wind"),
        half_litre_g=given(half, "half a litre boiled once more in each kitchen, where it costs"
                                 " most"),
    )  # fmt: skip


def carried(asked: Asked) -> Explanation:
    """What the cans hold."""
    fuel = asked.taken("kitchen/fuel").value
    if not fuel.cans:
        return kitchen(asked)
    held = tuple(grams * count for grams, count in fuel.cans)
    return asked.answer("sum(held)", held=given(held, "kitchen/fuel/cans: grams times number"))


def fuel_day(asked: Asked) -> Explanation:
    """The meals of one day."""
    meals = [m for m in asked.plan.kitchen.meals if str(m.day) == asked.last]
    rows = given(tuple(m.fuel_g for m in meals), f"kitchen/meals of day {asked.last}: fuel_g")
    return asked.answer("sum(rows)", rows=rows)


def _day(asked: Asked) -> Day:
    return next(d for d in asked.plan.days if str(d.number) == asked.words[3])


def walking(asked: Asked) -> Explanation:
    """So much an hour at hand: a suggestion, bounded by the day's cap."""
    day = _day(asked)
    return asked.answer(
        "min(rate_ml_h * minutes / 60, day_cap_ml - camp_ml)", source="common practice",
        sure="prior",
        rate_ml_h=given(rate_ml_h(day, asked.plan.trip.rules),
                        "trip/rules/water_ml_h, half more on hot days"),
        minutes=given(day.walking_min, f"days/{day.number}: walking"),
        day_cap_ml=asked.beside("day_cap_ml"), camp_ml=asked.beside("camp_drinks_ml"),
    )  # fmt: skip


def camp(asked: Asked) -> Explanation:
    """Evening, night and morning, hot drinks included: a suggestion."""
    nights = CAMP_ML if _day(asked).camp_m is not None else 0.0
    return asked.answer(
        "max(camp_ml, hot_drinks_ml)", source="common practice", sure="prior",
        camp_ml=given(nights, "a litre for a night out"),
        hot_drinks_ml=asked.beside("hot_drinks_ml"),
    )  # fmt: skip


def of_portions(mugs: bool) -> Callable[[Asked], Explanation]:
    """Explains cooking water or hot drinks by the day's portions."""

    def counts(asked: Asked, p: Portion) -> bool:
        food = asked.plan.foods[p.food]
        mine = p.walker == asked.words[2] and str(p.day) == asked.words[3]
        wet = food.prep.kind != "none" and not in_bottle(food)
        return mine and wet and in_mug(food) == mugs

    def explain(asked: Asked) -> Explanation:
        if asked.plan.trip.kit.stove is None or asked.plan.trip.rules.no_flame:
            return kitchen(asked)
        found = [p for p in asked.plan.menu.portions if counts(asked, p)]
        rows = tuple(p.doses * asked.plan.foods[p.food].prep.water_ml for p in found)
        names = ", ".join(p.food for p in found) or "nothing"
        origin = f"menu/portions x foods/*/prep/water_ml: {names}"
        return asked.answer("sum(rows)", sure="given", rows=given(rows, origin))

    return explain


def washing(asked: Asked) -> Explanation:
    """This walker's share of each washing-up."""
    walker, day = asked.words[2], asked.words[3]
    shares = tuple(
        m.wash_ml / len(m.walkers)
        for m in asked.plan.kitchen.meals
        if str(m.day) == day and walker in m.walkers
    )
    return asked.answer("sum(shares)", source="common practice", sure="prior",
                        shares=given(shares, "kitchen/meals/*/wash_ml, shared"))  # fmt: skip


def sweat(asked: Asked) -> Explanation:
    """Counted again with the whole ledger; the models and what was stretched stand beside it."""
    whole = kitchen(asked)
    models = " ".join(asked.taken(f"{asked.home}/sweat_models").value)
    source = "ISO7933, table of 4 h means" if "table" in models else "Gonzalez2009, equation"
    return asked.answered(whole.formula, whole.inputs, source=source, sure="model")


def salt(which: str, mmol_l: float) -> Callable[[Asked], Explanation]:
    """Explains sodium sweated out, by one end of the sweat and one of its strength."""

    def explain(asked: Asked) -> Explanation:
        return asked.answer(
            "sweat_ml / 1000 * mmol_l * mg_mmol", source="Baker2016", sure="model",
            sweat_ml=asked.beside(f"sweat_{which}_ml"),
            mmol_l=given(mmol_l, "sodium of sweat, a standard deviation from the mean"),
            mg_mmol=given(SODIUM_MG_MMOL, "molar mass of sodium"),
        )  # fmt: skip

    return explain


def limit(value: float) -> Callable[[Asked], Explanation]:
    """Explains a hard line."""

    def explain(asked: Asked) -> Explanation:
        cap: Any = given(value, "hard line")
        return asked.answer("cap", source="TBMED507", sure="given", cap=cap)

    return explain


def again(source: str, sure: str) -> Callable[[Asked], Explanation]:
    """Explains by counting the whole ledger again, resting on this source."""

    def explain(asked: Asked) -> Explanation:
        whole = kitchen(asked)
        return asked.answered(whole.formula, whole.inputs, source=source, sure=sure)

    return explain


def take(asked: Asked) -> Explanation:
    """What the menu packs by habit, over all days, in whole ones."""
    days = tuple(asked.taken(f"{asked.home}/by_day").value.values())
    return asked.answer(
        "sum(by_day) + to_whole", by_day=given(days, f"{asked.home}/by_day"),
        to_whole=given(asked.value - sum(days), "up to a whole one"),
    )  # fmt: skip


def caffeine_day(asked: Asked) -> Explanation:
    """Everything with caffeine that is eaten or drunk on the strongest day."""
    walker = asked.words[2]
    day = asked.taken(f"{asked.home}/most_day").value
    had = [
        (p.food, p.doses * mg)
        for p in asked.plan.menu.portions if (p.walker, p.day) == (walker, day)
        for mg in [asked.plan.foods[p.food].per_dose("caffeine_mg") or 0.0] if mg > 0
    ]  # fmt: skip
    names = ", ".join(dict.fromkeys(food for food, _ in had))
    rows = given(tuple(mg for _, mg in had), f"caffeine of day {day}'s portions: {names}")
    return asked.answer("sum(rows)", sure="given", rows=rows)


def harmless(asked: Asked) -> Explanation:
    """So much caffeine is held harmless."""
    return asked.answer("cap", source="EfsaCaffeine2015", sure="given",
                        cap=given(asked.value, "for adults, when expecting, or by mass under 18"))


def wet(asked: Asked) -> Explanation:
    """How long moist food may stand on a day of this heat: two hours, one on a hot day."""
    day = next(d for d in asked.plan.days if str(d.number) == asked.last)
    hot = day.warm_c > HOT_C
    return asked.answer(
        "hours * 60", source="FSISDanger", sure="given",
        hours=given(
            (WET_HOT_MIN if hot else WET_MIN) / 60.0,
            f"two hours, one above {HOT_C:g} C; days/{day.number}/warm_c is {day.warm_c:g}",
        ),
    )


KITCHENS: tuple[Explainer, ...] = (
    Explainer(pattern="kitchen/counts/*/*/take", explain=take),
    Explainer(pattern="kitchen/counts/**", explain=again("common practice", "given")),
    Explainer(pattern="kitchen/caffeine/*/most_mg", explain=caffeine_day),
    Explainer(pattern="kitchen/caffeine/*/day_cap_mg", explain=harmless),
    Explainer(pattern="kitchen/caffeine/*/single_cap_mg", explain=harmless),
    Explainer(pattern="kitchen/caffeine/**", explain=again("ours", "given")),
    Explainer(pattern="kitchen/keeping/**", explain=again("common practice", "prior")),
    Explainer(pattern="kitchen/carries/**", explain=again("common practice", "prior")),
    Explainer(pattern="kitchen/wet_min/*", explain=wet),
    Explainer(pattern="kitchen/meals/*/fuel_g", explain=over_steps(
        "sum(rows)", "fuel_g", lambda m: (s.fuel_g for s in m.steps))),
    Explainer(pattern="kitchen/meals/*/minutes", explain=over_steps(
        "sum(rows)", "those one waits for, end to end",
        lambda m: (s.end_min - s.start_min for s in critical(m)))),
    Explainer(pattern="kitchen/meals/*/boiled_ml", explain=boiled),
    Explainer(pattern="kitchen/meals/*/cold_ml", explain=over_steps(
        "sum(rows)", "soak", lambda m: _waters(m, "soak"))),
    Explainer(pattern="kitchen/meals/*/wash_ml", explain=over_steps(
        "sum(rows)", "wash", lambda m: _waters(m, "wash"))),
    Explainer(pattern="kitchen/meals/*/left_ml", explain=left),
    Explainer(pattern="kitchen/meals/*/heat_kj", explain=heat),
    Explainer(pattern="kitchen/fuel/reserve_g", explain=reserve),
    Explainer(pattern="kitchen/fuel/carried_g", explain=carried),
    Explainer(pattern="kitchen/fuel/by_day_g/*", explain=fuel_day),
    Explainer(pattern="kitchen/water/*/*/walking_suggested_ml", explain=walking),
    Explainer(pattern="kitchen/water/*/*/camp_drinks_ml", explain=camp),
    Explainer(pattern="kitchen/water/*/*/cooking_ml", explain=of_portions(mugs=False)),
    Explainer(pattern="kitchen/water/*/*/hot_drinks_ml", explain=of_portions(mugs=True)),
    Explainer(pattern="kitchen/water/*/*/washing_ml", explain=washing),
    Explainer(pattern="kitchen/water/*/*/sweat_low_ml", explain=sweat),
    Explainer(pattern="kitchen/water/*/*/sweat_high_ml", explain=sweat),
    Explainer(pattern="kitchen/water/*/*/sodium_low_mg", explain=salt("low", SWEAT_MMOL_L[0])),
    Explainer(pattern="kitchen/water/*/*/sodium_high_mg", explain=salt("high", SWEAT_MMOL_L[2])),
    Explainer(pattern="kitchen/water/*/*/hour_cap_ml", explain=limit(HOUR_CAP_ML)),
    Explainer(pattern="kitchen/water/*/*/day_cap_ml", explain=limit(DAY_CAP_ML)),
)  # fmt: skip
