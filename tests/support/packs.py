"""Small foods, menus and trips for the tests of packing. All invented."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from oatsack.packing.pack import pack
from oatsack.values.food import ALLERGENS, Food, Nutrients, Prep
from oatsack.values.kit import Kit
from oatsack.values.kitchen import FuelPlan, KitchenLedger
from oatsack.values.menu import Menu, Pool, Portion
from oatsack.values.pack import Bag, Item, Packed
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import RouteSpec, Rules, Trip
from oatsack.values.walker import Walker
from support.trips import at

FREE = dict.fromkeys(ALLERGENS, "free")
BEGIN = dt.date(2026, 6, 1)
"""A Monday."""
HOT = Prep(kind="boil", water_ml=200.0, wait_min=8.0)


def food(id: str = "oats", kcal: float = 400.0, **more: Any) -> Food:
    """One food with safe defaults: free of all allergens, repacked, 10 doses of 50 g."""
    fields: dict[str, Any] = {
        "name": id, "category": "grain", "pack_g": 500.0, "doses_per_pack": 10.0, "dose_g": 50.0,
        "allergens": FREE, "diet": "vegan", "wrap_g": 10.0, "pack_ml": 1000.0, "price": 2.0,
    }  # fmt: skip
    return Food(id=id, per_100g=Nutrients(energy_kcal=kcal, sodium_mg=100.0), **fields | more)


OATS = food("oats", role="main", prep=HOT)
LENTILS = food("lentils", role="main", prep=HOT, category="grain")
SAUCE = food("sauce", role="side", prep=HOT, dose_g=20.0, pack_g=200.0)
OIL = food("oil", 880.0, role="topping", category="fat", dose_g=10.0, pack_g=250.0,
           doses_per_pack=25.0, pack_ml=275.0)  # fmt: skip
CHEESE = food("cheese", role="topping", category="dairy", dose_g=40.0, pack_g=200.0,
              doses_per_pack=5.0, pack_ml=190.0)  # fmt: skip
"""A block: denser than anything dry."""
BAR = food("bar", 450.0, role="snack", carry="sealed", dose_g=40.0, pack_g=240.0,
           doses_per_pack=6.0, wrap_g=12.0, pack_ml=360.0)  # fmt: skip
NUTS = food("nuts", 600.0, role="snack", carry="bag", dose_g=40.0, pack_g=200.0,
            doses_per_pack=5.0, wrap_g=6.0, pack_ml=330.0)  # fmt: skip
COFFEE = food("coffee", 300.0, role="drink", carry="sealed", dose_g=2.0, pack_g=20.0,
              prep=Prep(kind="boil", water_ml=250.0), wrap_g=5.0, pack_ml=50.0)  # fmt: skip
TABLET = food("tablet", 200.0, role="small", dose_g=4.0, pack_g=40.0, pack_ml=50.0)
LARDER: dict[str, Food] = {
    f.id: f for f in (OATS, LENTILS, SAUCE, OIL, CHEESE, BAR, NUTS, COFFEE, TABLET)
}


def eat(walker: str, day: int, meal: str, food_id: str, doses: float = 1.0,
        why: str = "chosen") -> Portion:  # fmt: skip
    """A portion."""
    return Portion(walker=walker, day=day, meal=meal, food=food_id, doses=doses, why=why)  # type: ignore[arg-type]


def usual_menu(walkers: Sequence[str], days: int) -> Menu:
    """The same day again and again: oats, cheese, bars and nuts, lentils with sauce and oil."""
    portions = []
    for w in walkers:
        for d in range(1, days + 1):
            portions += [
                eat(w, d, "breakfast", "oats", 1.0), eat(w, d, "lunch", "cheese", 1.0),
                eat(w, d, "move", "bar", 3.0), eat(w, d, "move", "tablet", 2.0),
                eat(w, d, "dinner", "lentils", 2.0), eat(w, d, "dinner", "sauce", 1.0),
                eat(w, d, "dinner", "oil", 2.0), eat(w, d, "drinks", "coffee", 2.0),
                eat(w, d, "move", "nuts", 200.0 / days / 40.0, "bag"),
            ]  # fmt: skip
    pools = tuple(
        Pool(walker=w, food="nuts", packs=1.0, open_day=1, last_day=days,
             by_day_g=dict.fromkeys(range(1, days + 1), 200.0 / days))
        for w in walkers
    )  # fmt: skip
    spare = tuple(eat(w, 0, "move", "bar", 2.0) for w in walkers)
    return Menu(portions=tuple(portions), pools=pools, spare=spare)


def days_of(count: int, legs: Sequence[int] = ()) -> tuple[Day, ...]:
    """So many days of six walking hours; `legs` gives the length of each leg."""
    ends = [sum(legs[: i + 1]) for i in range(len(legs))] or [count]
    walk = Stretch(kind="walk", start_min=540.0, end_min=900.0, distance_m=15_000.0)
    return tuple(
        Day(number=n, date=BEGIN + dt.timedelta(days=n - 1), stretches=(walk,), distance_m=15_000.0,
            ascent_m=500.0, descent_m=500.0, highest_m=900.0, camp_m=None if n == count else 500.0,
            camp_name=f"Camp {n}", leg=next(i for i, e in enumerate(ends, 1) if n <= e))
        for n in range(1, count + 1)
    )  # fmt: skip


def trip_for(walkers: Iterable[Walker], days: int, *, kit: Kit | None = None,
             rules: Rules | None = None) -> Trip:  # fmt: skip
    """A trip of those walkers over so many days."""
    end = BEGIN + dt.timedelta(days=days - 1)
    return Trip(
        title="a walk of the tests", begin=at("2026-06-01 09:00"), end=at(f"{end} 15:00"),
        zone="Europe/Vienna", walkers=tuple(walkers), route=RouteSpec(), kit=kit or Kit(),
        rules=rules or Rules(),
    )  # fmt: skip


def people(count: int, **more: Any) -> tuple[Walker, ...]:
    """Walkers a, b, c ... of 60 to 82 kg."""
    return tuple(
        Walker(id=chr(97 + i), name=f"Walker {chr(65 + i)}", mass_kg=60.0 + 2.0 * (i % 12), **more)
        for i in range(count)
    )


def gas(cans: int = 1) -> FuelPlan:
    """So many 230 g cans for a hundred grams burnt over five days."""
    return FuelPlan(
        kind="gas", by_day_g={str(d): 20.0 for d in range(1, 6)}, burnt_g=100.0, reserve_g=20.0,
        need_g=120.0, cans=((230.0, cans),), carried_g=230.0 * cans, gross_g=380.0 * cans,
        left_g=230.0 * cans - 100.0,
    )  # fmt: skip


def packed(walkers: Sequence[Walker], days: int, *, menu: Menu | None = None,
           foods: Mapping[str, Food] = LARDER, legs: Sequence[int] = (), kit: Kit | None = None,
           rules: Rules | None = None, cans: int = 1) -> Packed:  # fmt: skip
    """The whole of packing for the usual menu, or another."""
    chosen = menu or usual_menu([w.id for w in walkers], days)
    trip = trip_for(walkers, days, kit=kit, rules=rules)
    return pack(chosen, foods, days_of(days, legs), trip, KitchenLedger(fuel=gas(cans)))


def bag(id: str = "1-dinner-a", contents: Mapping[str, float] | None = None, **more: Any) -> Bag:
    """A bag with grams by food, all eaten by walker a on day 1 unless said otherwise."""
    day = more.pop("day", 1)
    items = tuple(
        Item(food=f, doses=g / LARDER[f].dose_g if f in LARDER else 1.0, net_g=g, walker="a",
             day=day, meal="dinner")
        for f, g in (contents or {"lentils": 100.0}).items()
    )  # fmt: skip
    fields: dict[str, Any] = {
        "label": "dinner", "number": 1, "of": 1, "items": items, "wrap_g": 5.0,
        "net_g": sum(i.net_g for i in items), "volume_ml": 200.0, "group": "a", "carrier": "a",
        "open_day": day, "empty_day": day,
    }  # fmt: skip
    return Bag(id=id, **fields | more)


def grams_of_menu(menu: Menu, foods: Mapping[str, Food]) -> float:
    """Net mass of everything that is taken along, summed apart from the program: portions that
    are no share of an open bag, whole packs of open bags, spare."""
    plain = sum(p.doses * foods[p.food].dose_g for p in menu.portions if p.why != "bag")
    packs = sum(p.packs * foods[p.food].pack_g for p in menu.pools)
    return plain + packs + sum(p.doses * foods[p.food].dose_g for p in menu.spare)
