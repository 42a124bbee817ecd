"""Sums over the menu: each walker's day, the trip in one row. No choice is made here.

Energy and nutrients count when eaten; blanks count as nothing towards a floor and as the high
value of their class against a ceiling, in figures kept apart (C2, C13).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from oatsack.values.classes import high_of
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu, Portion
from oatsack.values.pack import Packed
from oatsack.values.plan import DayTotal, Totals
from oatsack.values.route import Day
from oatsack.values.trip import Trip

HALF_A_CENT = 0.005
SUMMED = ("energy_kcal", "protein_g", "fat_g", "carb_g", "fibre_g", "sodium_mg", "caffeine_mg")


def grams(portion: Portion, food: Food) -> float:
    """Net mass of a portion [g]."""
    return portion.doses * food.dose_g


def nutrient(portion: Portion, food: Food, name: str) -> float:
    """So much of a nutrient as is stated; a blank adds nothing."""
    return portion.doses * (food.per_dose(name) or 0.0)


def high(portion: Portion, food: Food, name: str) -> float:
    """The same with a blank read as the high value of its class."""
    stated = getattr(food.per_100g, name)
    return grams(portion, food) / 100.0 * (high_of(food, name) if stated is None else stated)


def day_total(portions: Iterable[Portion], foods: Mapping[str, Food], *, target_kcal: float,
              minutes: float) -> DayTotal:  # fmt: skip
    """One walker's day."""
    rows = [(p, foods[p.food]) for p in portions]
    sums = {name: sum(nutrient(p, f, name) for p, f in rows) for name in SUMMED}
    return DayTotal(
        target_kcal=target_kcal,
        mass_g=sum(grams(p, f) for p, f in rows),
        minutes=minutes,
        sodium_high_mg=sum(high(p, f, "sodium_mg") for p, f in rows),
        fat_high_g=sum(high(p, f, "fat_g") for p, f in rows),
        caffeine_high_mg=sum(high(p, f, "caffeine_mg") for p, f in rows),
        **sums,
    )


def eaten(menu: Menu, foods: Mapping[str, Food], target: Mapping[str, Mapping[int, float]],
          ledger: KitchenLedger) -> Mapping[str, Mapping[str, DayTotal]]:  # fmt: skip
    """Walker -> day -> what is eaten."""
    out: dict[str, dict[str, DayTotal]] = {}
    for walker, days in target.items():
        out[walker] = {}
        for day, kcal in days.items():
            mine = [p for p in menu.portions if p.walker == walker and p.day == day]
            minutes = sum(
                m.minutes for m in ledger.meals if m.day == day and walker in m.walkers
            )
            out[walker][str(day)] = day_total(mine, foods, target_kcal=kcal, minutes=minutes)
    return out


def person_days(days: Sequence[Day], walkers: int) -> float:
    """Full days of one eater: hours inside the walk over 24."""
    return walkers * sum(day.inside_min for day in days) / 1440.0


def priced(packed: Packed) -> float | None:
    """What everything bought costs, as far as prices are known: the least it comes to where some
    are not (`unpriced`). None when things are bought and no price is known."""
    bought = [line.price for line in packed.buy if line.packs > 0]
    known = [price for price in bought if price is not None]
    return sum(known) if known or not bought else None


def unpriced(packed: Packed) -> int:
    """How many things bought have no known price (C2)."""
    return sum(line.packs > 0 and line.price is None for line in packed.buy)


def totals(trip: Trip, days: Sequence[Day], menu: Menu, foods: Mapping[str, Food],
           packed: Packed, ledger: KitchenLedger) -> Totals:  # fmt: skip
    """The trip in one row."""
    rows = [(p, foods[p.food]) for p in menu.portions]
    spare = [(p, foods[p.food]) for p in menu.spare]
    count = person_days(days, len(trip.walkers))
    sums = {name: sum(nutrient(p, f, name) for p, f in rows) for name in SUMMED}
    net = sum(grams(p, f) for p, f in rows)
    gross = sum(bag.gross_g for bag in packed.bags)
    body = sum(w.mass_kg for w in trip.walkers) / max(1, len(trip.walkers))
    boiled = sum(m.boiled_ml for m in ledger.meals)
    return Totals(
        person_days=count,
        energy_kcal=sums["energy_kcal"],
        net_g=net,
        gross_g=gross,
        start_kg=sum(s.start_g for s in packed.sacks if s.leg == 1) / 1000.0,
        kcal_per_100g=_over(100.0 * sums["energy_kcal"], net),
        g_per_person_day=_over(net, count),
        protein_g_per_kg_day=_over(sums["protein_g"], count * body),
        sodium_mg_day=_over(sums["sodium_mg"], count),
        fibre_g_day=_over(sums["fibre_g"], count),
        caffeine_mg_day=_over(sums["caffeine_mg"], count),
        fat_share=_over(9.0 * sums["fat_g"], sums["energy_kcal"]),
        cook_minutes_day=_over(sum(m.minutes for m in ledger.meals), len(days)),
        boiled_ml_day=_over(boiled, len(days)),
        fuel_g=ledger.fuel.burnt_g if ledger.fuel else 0.0,
        rubbish_g=max((r.mass_g for r in packed.rubbish), default=0.0),
        volume_ml=sum(bag.volume_ml for bag in packed.bags),
        kg_days=sum(s.kg_days for s in packed.sacks),
        price=priced(packed),
        unpriced=unpriced(packed),
        spare_g=sum(grams(p, f) for p, f in spare),
        spare_kcal=sum(nutrient(p, f, "energy_kcal") for p, f in spare),
    )


def _over(part: float, whole: float) -> float:
    return part / whole if whole > 0 else 0.0


def over_budget(trip: Trip, packed: Packed) -> float:
    """How much more than the budget is spent, as far as prices are known; 0 where it is kept."""
    price, budget = priced(packed), trip.rules.budget
    over = 0.0 if price is None or budget is None else price - budget
    return over if over > HALF_A_CENT else 0.0


def budget_flag(trip: Trip, packed: Packed) -> tuple[Flag, ...]:
    """What is bought costs more than it may: said, never passed over."""
    over = over_budget(trip, packed)
    if over <= 0.0 or trip.rules.budget is None:
        return ()
    values = {"over_money": over, "limit_money": trip.rules.budget}
    return (Flag(key="packing.over-budget", level="caution", scope="totals/price",
                 values=values),)  # fmt: skip
