"""The kitchen's ledger of a whole walk: every cooked meal on the clock, fuel, water, and carries.

Reads a finished menu. What it books closes: water in = drunk + cooked + washed + left, fuel in =
burnt + left. Where to read on: `occasions` (what is cooked together), `cooking` (the clock),
`fuelplan` (cans), `drinking` and `carries` (water), `remarks` (what a person should hear).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from oatsack.kitchen.caffeine import caffeine_lines
from oatsack.kitchen.carries import Demand, arrival_min, carries, departure_min, minute
from oatsack.kitchen.cooking import cook, distil
from oatsack.kitchen.counts import count_lines
from oatsack.kitchen.drinking import boil_minutes, rate_ml_h, water_day, with_sweat
from oatsack.kitchen.fuelplan import fuel_plan, half_litre_g
from oatsack.kitchen.fuels import stove_row
from oatsack.kitchen.keeping import keep_lines, wet_by_day
from oatsack.kitchen.occasions import Occasion, helpings, occasions
from oatsack.kitchen.price import Flame, conditions_of, flame
from oatsack.kitchen.remarks import View, remarks, resweated
from oatsack.kitchen.sweat import work_w_m2
from oatsack.values.food import Food, Meal
from oatsack.values.kit import Kit, Pot
from oatsack.values.kitchen import Conditions, KitchenLedger, MealLedger, WaterDay
from oatsack.values.menu import Menu
from oatsack.values.plan import DayNeed
from oatsack.values.pots import parties
from oatsack.values.route import Day
from oatsack.values.trip import Rules
from oatsack.values.walker import Walker

Shares = Mapping[str, Mapping[int, float]]
"""Walker -> day -> millilitres."""


POT_MOST = 10
"""Nobody cooks for more from one stove and pot: a party like that is taken to bring a kit like the
one described for each cook group. Common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kitchen:
    """Those who share burners, and what they cook with."""

    walkers: tuple[str, ...]
    pots: tuple[Pot, ...]
    burners: int
    pots_of: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    """Walker -> the pots they eat from, by their place in `pots`; empty: any."""


def kitchens(
    walkers: Sequence[Walker], kit: Kit, groups: Sequence[Sequence[str]] | None
) -> tuple[Kitchen, ...]:
    """Pots and burners of each group, as `values.pots` deals them.

    With a burner for each of them, those of different pots cook side by side; with fewer they share
    the flame and keep to their pots.
    """
    names = [w.id for w in walkers]
    split = parties(kit.pots, names, groups or ())
    burners = kit.stove.burners if kit.stove else 1
    if len(split) == 1:
        brings = bool(groups) and len(groups or ()) > 1 and len(names) > POT_MOST
        whole = [tuple(g) for g in groups or ()] if brings else [tuple(names)]
        pots = tuple(kit.pots[i] for i in split[0].pots)
        return tuple(Kitchen(walkers=g, pots=pots, burners=burners) for g in whole)
    if burners < len(split) or len({i for p in split for i in p.pots}) < sum(
        len(p.pots) for p in split
    ):
        own = {w: part.pots for part in split for w in part.walkers}
        whole_party = Kitchen(walkers=tuple(names), pots=kit.pots, burners=burners, pots_of=own)
        return (whole_party,)
    return tuple(
        Kitchen(walkers=part.walkers, pots=tuple(kit.pots[j] for j in part.pots),
                burners=len(range(i, burners, len(split))))
        for i, part in enumerate(split)
    )  # fmt: skip


def conditions_at(day: Day, clock_min: float, rules: Rules) -> Conditions:
    """Where a meal is cooked at this clock: breakfast where one woke, dinner in the next camp."""
    base = conditions_of(day)
    here = next((s for s in day.stretches if s.start_min <= clock_min < s.end_min), None)
    if here is None:
        return base
    warm = clock_min == rules.meal_clock_min.get("lunch")
    return replace(base, height_m=here.height_m, air_c=day.warm_c if warm else day.cold_c)


def ledger(
    menu: Menu, foods: Mapping[str, Food], days: Sequence[Day], walkers: Sequence[Walker],
    kit: Kit, rules: Rules, *, groups: Sequence[Sequence[str]] | None = None,
) -> KitchenLedger:  # fmt: skip
    """What the whole menu takes, camp by camp.

    `groups` lists the cook groups; None: all are one. Without a stove or a pot, or where the rules
    allow no flame, everything is made cold and what cannot be is flagged.
    """
    lit = kit.stove is not None and bool(kit.pots) and not rules.no_flame
    used = kit if lit else replace(kit, stove=None)
    by_day = {day.number: day for day in days}
    inside = [p for p in menu.portions if p.day in by_day]
    served = helpings(inside, foods, flame=lit)
    parts = kitchens(walkers, kit, groups)
    pots_of = {w: pots for part in parts for w, pots in part.pots_of.items()}
    found = occasions(served, {str(i): part.walkers for i, part in enumerate(parts)}, pots_of)
    cooked = [_cooked(o, by_day[o.day], parts, used, rules) for o in found]
    water = waters(days, walkers, rules, cooked=list(zip(found, cooked, strict=True)))
    still = _stills(days, parts, used, rules, water) if lit else []
    meals = tuple(sorted([*cooked, *still], key=lambda m: m.day))
    fuel = fuel_plan(
        meals, used, days=list(by_day), windy=frozenset(d.number for d in days if d.windy),
        reserve_boil_g=_reserve(days, used, rules, len(parts)),
    )  # fmt: skip
    legs = carries(days, demands(days, rules, cooked, water), bottles_ml=sum(kit.bottles_ml))
    result = KitchenLedger(
        meals=meals, fuel=fuel, water=water, carries=legs,
        groups=tuple(tuple(g) for g in groups or ()),
        counts=count_lines(menu, foods, walkers, kit.bottles_ml),
        caffeine=caffeine_lines(menu, foods, walkers),
        keeping=keep_lines(menu, foods, days), wet_min=wet_by_day(days),
    )  # fmt: skip
    view = View(ledger=result, served=served, menu=menu, foods=foods, days=days,
                walkers=walkers, kit=used, rules=rules)  # fmt: skip
    return replace(result, flags=remarks(view))


def _meal_clock(meal: Meal, rules: Rules) -> float:
    return rules.meal_clock_min.get(meal, rules.meal_clock_min.get("dinner", 1110.0))


def _flame(day: Day, clock_min: float, kit: Kit, rules: Rules) -> Flame:
    return flame(conditions_at(day, clock_min, rules), kit.stove)


def _cooked(
    occasion: Occasion, day: Day, parts: Sequence[Kitchen], kit: Kit, rules: Rules
) -> MealLedger:
    part = next(p for p in parts if occasion.walkers[0] in p.walkers)
    priming = stove_row(kit.stove.kind).priming_g if kit.stove else 0.0
    at = _flame(day, _meal_clock(occasion.meal, rules), kit, rules)
    return cook(occasion, at, pots=part.pots, burners=part.burners, priming_g=priming)


def _reserve(days: Sequence[Day], kit: Kit, rules: Rules, kitchens_: int) -> float:
    """Half a litre boiled in each kitchen where it costs most [g]."""
    return kitchens_ * half_litre_g([_flame(day, 1110.0, kit, rules) for day in days])


def _stills(
    days: Sequence[Day], parts: Sequence[Kitchen], kit: Kit, rules: Rules,
    water: Mapping[str, Mapping[str, WaterDay]],
) -> list[MealLedger]:  # fmt: skip
    """Drinking water made in camp: of snow, or boiled where that is how the party treats it.

    In the evening for the night and for tomorrow's walk, on snow at least the bottles full, for
    there is nothing on the way. The first day's water comes from home.
    """
    out = []
    for i, day in enumerate(days[:-1]):
        at = conditions_of(day)
        if day.camp_m is None or not (at.snow or kit.treatment == "boil"):
            continue
        hold = boil_minutes(at.height_m) if kit.treatment == "boil" else 0.0
        tomorrow = str(days[i + 1].number)
        for part in parts:
            filled = sum(kit.bottles_ml) if at.snow else 0.0
            litres = sum(
                max(0.0, water[w][str(day.number)].camp_drinks_ml - _hot(water, w, day))
                + max(filled, water[w][tomorrow].walking_suggested_ml)
                for w in part.walkers
            )
            out.append(
                distil(day.number, part.walkers, flame(at, kit.stove), pots=part.pots,
                       water_ml=litres, hold_min=hold)
            )  # fmt: skip
    return out


def _hot(water: Mapping[str, Mapping[str, WaterDay]], walker: str, day: Day) -> float:
    return water[walker][str(day.number)].hot_drinks_ml


def waters(
    days: Sequence[Day], walkers: Sequence[Walker], rules: Rules, *,
    cooked: Sequence[tuple[Occasion, MealLedger]],
) -> dict[str, dict[str, WaterDay]]:  # fmt: skip
    """Walker -> day -> water."""
    cooking, drinks, washing = _shared(cooked)
    return {
        w.id: {
            str(day.number): water_day(
                day, w, rules,
                cooking_ml=cooking[w.id][day.number],
                washing_ml=washing[w.id][day.number],
                hot_drinks_ml=drinks[w.id][day.number],
            )
            for day in days
        }
        for w in walkers
    }  # fmt: skip


def _shared(
    cooked: Sequence[tuple[Occasion, MealLedger]],
) -> tuple[Shares, Shares, Shares]:
    """Cooking water and hot drinks of each walker, washing shared evenly."""
    tables: list[defaultdict[str, defaultdict[int, float]]] = [
        defaultdict(lambda: defaultdict(float)) for _ in range(3)
    ]
    for occasion, meal in cooked:
        for table, amounts in zip(tables, (occasion.water_ml, occasion.drinks_ml), strict=False):
            for walker, ml in amounts.items():
                table[walker][occasion.day] += ml
        for walker in occasion.walkers:
            tables[2][walker][occasion.day] += meal.wash_ml / len(occasion.walkers)
    return tables[0], tables[1], tables[2]


def demands(
    days: Sequence[Day], rules: Rules, cooked: Sequence[MealLedger],
    water: Mapping[str, Mapping[str, WaterDay]],
) -> list[Demand]:  # fmt: skip
    """What is used when, per walker: on the move, at each meal, and in camp."""
    by_number = {day.number: day for day in days}
    heads = max(1, len(water))
    out = [
        Demand(
            start=minute(day, s.start_min),
            end=minute(day, s.end_min),
            water_ml=rate_ml_h(day, rules) * s.minutes / 60.0,
        )
        for day in days
        for s in day.stretches
        if s.kind == "walk" and s.minutes > 0
    ]
    for meal in cooked:
        at = _in_camp(by_number[meal.day], meal.meal, rules)
        total = meal.boiled_ml + meal.cold_ml + meal.wash_ml
        out.append(Demand(start=at, end=at, water_ml=total / heads))
    for day in days:
        plain = [w[str(day.number)].camp_drinks_ml - w[str(day.number)].hot_drinks_ml
                 for w in water.values()]  # fmt: skip
        at = _in_camp(day, "dinner", rules)
        out.append(Demand(start=at, end=at, water_ml=sum(plain) / heads))
    return out


def _in_camp(day: Day, meal: Meal, rules: Rules) -> float:
    """Minute of a meal: breakfast before one leaves, dinner once one has arrived."""
    clock = _meal_clock(meal, rules)
    if meal == "breakfast":
        return minute(day, min(clock, departure_min(day)))
    if meal in ("dinner", "drinks"):
        return minute(day, max(clock, arrival_min(day) + 1.0))
    return minute(day, clock)


def with_work(
    book: KitchenLedger, menu: Menu, foods: Mapping[str, Food], *, days: Sequence[Day],
    walkers: Sequence[Walker], work: Shares,
) -> KitchenLedger:  # fmt: skip
    """The same ledger with sweat and salt from the flow's own work of walking, and their flags.

    `work`: walker -> day -> W per square metre while walking; see `work_of`.
    """
    by_number = {str(day.number): day for day in days}
    water = {
        w.id: {
            number: with_sweat(day, by_number[number], w, work.get(w.id, {}).get(int(number)))
            for number, day in book.water.get(w.id, {}).items()
        }
        for w in walkers
    }
    sweated = replace(book, water=water)
    return replace(sweated, flags=resweated(sweated, menu, foods))


def work_of(
    need: Mapping[str, Mapping[Any, DayNeed]], walkers: Sequence[Walker]
) -> dict[str, dict[int, float]]:
    """Walker -> day -> work of walking [W/m2], from the energy of the day's walking."""
    return {
        w.id: {
            int(day): work_w_m2(row.walking_kcal, row.walking_h, w)
            for day, row in need.get(w.id, {}).items()
        }
        for w in walkers
    }
