"""Kitchen: what a price, a camp of twelve and a long ledger cost; how the fast things judge.

Times are also given as a ratio to a bare evaluation of the same arithmetic in the same run, so that
they mean the same on any machine. Quality is measured against things computed another way.
"""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Callable
from itertools import combinations_with_replacement
from typing import Any

from oatsack.kitchen.cans import EACH_G, choose, gross_g
from oatsack.kitchen.cooking import cook
from oatsack.kitchen.fuels import fuel_of
from oatsack.kitchen.heat import boiling_c, heat_kj_kg
from oatsack.kitchen.ledger import ledger
from oatsack.kitchen.occasions import Dish, Occasion, Pour
from oatsack.kitchen.price import dose_price, flame
from oatsack.values.food import Food, Nutrients, Prep
from oatsack.values.kit import Kit, Pot, Stove
from oatsack.values.kitchen import Conditions
from oatsack.values.menu import Menu, Portion
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import Rules
from oatsack.values.walker import Walker

Row = dict[str, Any]
TWO_BURNERS = Kit(
    pots=(Pot(name="large", volume_ml=3000.0), Pot(name="small", volume_ml=2000.0)),
    stove=Stove(burners=2),
)


def run(full: bool = False) -> list[Row]:
    """All rows; `full` takes more rounds and longer walks."""
    rounds = 9 if full else 3
    return [
        *price_rows(rounds), *camp_rows(rounds), *ledger_rows(rounds, 24 if full else 8),
        *can_rows(2500 if full else 800),
    ]  # fmt: skip


def row(what: str, value: float, unit: str, *, most: float | None = None) -> Row:
    """One measured figure against its bar."""
    return {"subject": "kitchen", "what": what, "value": value, "unit": unit, "bar": most,
            "holds": most is None or value <= most}  # fmt: skip


def best_s(work: Callable[[], Any], rounds: int) -> float:
    """The quickest of several runs [s]."""
    times = []
    for _ in range(rounds):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def food(name: str, prep: Prep, role: Any = "main") -> Food:
    """A food of 100 g and 400 kcal."""
    return Food(id=name, name=name, category="meal", per_100g=Nutrients(energy_kcal=400.0),
                pack_g=100.0, doses_per_pack=1.0, dose_g=100.0, role=role, prep=prep)  # fmt: skip


FOODS = {
    f.id: f
    for f in (
        food("pouch", Prep(kind="boil", water_ml=475.0, wait_min=10.0, from_bag=True)),
        food("oats", Prep(kind="boil", water_ml=240.0, wait_min=2.0)),
        food("rice", Prep(kind="simmer", water_ml=250.0, simmer_min=12.0, needs_pot=True)),
        food("coffee", Prep(kind="boil", water_ml=250.0), role="drink"),
    )
}


def price_rows(rounds: int) -> list[Row]:
    """A menu's prices: 200 foods on 8 days, each price, and against the bare formula."""
    places = [Conditions(height_m=500.0 + 100.0 * n) for n in range(8)]
    kit, pouch = Kit(), FOODS["pouch"]

    def prices() -> None:
        for at in places:
            for _ in range(200):
                dose_price(pouch, at, kit)

    def bare() -> None:
        for at in places:
            for _ in range(200):
                kj = 0.475 * heat_kj_kg(at.water_c, boiling_c(at.height_m))
                (kj, kj / (45.73 * 0.55), kj * 1000.0 / (2000.0 * 0.55) / 60.0)

    took, plain = best_s(prices, rounds), best_s(bare, rounds)
    return [
        row("one price (20 on a quiet machine)", took / 1600 * 1e6, "µs", most=40.0),
        row("one price over the bare formula", took / plain, "times", most=25.0),
    ]


def camp_rows(rounds: int) -> list[Row]:
    """Twelve walkers at one camp: pouches, a pot dish and coffee, two pots, two burners."""
    occasion = Occasion(
        day=1, meal="dinner", walkers=tuple(f"w{n}" for n in range(12)),
        pours=(Pour(food="pouch", water_ml=5700.0, wait_min=10.0, portions=12),
               Pour(food="coffee", water_ml=3000.0, wait_min=0.0, portions=12, mug=True)),
        dishes=(Dish(food="rice", water_ml=3000.0, solids_g=1200.0, simmer_min=12.0, wait_min=0.0,
                     portions=12),),
    )  # fmt: skip
    at = flame(Conditions(height_m=1500.0), TWO_BURNERS.stove)

    def camp() -> Any:
        return cook(occasion, at, pots=TWO_BURNERS.pots, burners=2)

    return [
        row("a camp of twelve on the clock", best_s(camp, rounds), "s", most=0.1),
        row("its minutes to the last mug", camp().minutes, "min"),
    ]


def ledger_rows(rounds: int, days: int) -> list[Row]:
    """A whole walk of twelve, every meal on the clock."""
    people = [Walker(id=f"w{n:02d}", name="-", mass_kg=70.0) for n in range(12)]
    stretch = [day(n, n == days) for n in range(1, days + 1)]
    menu = Menu(
        portions=tuple(
            Portion(walker=w.id, day=d.number, meal=meal, food=name, doses=1.0)
            for w in people
            for d in stretch
            for meal, name in (("breakfast", "oats"), ("dinner", "rice"), ("drinks", "coffee"))
        )  # type: ignore[arg-type]
    )

    def whole() -> Any:
        return ledger(menu, FOODS, stretch, people, TWO_BURNERS, Rules())

    took = best_s(whole, rounds)
    return [row(f"ledger of twelve for {days} days", took, "s", most=0.1 * days)]


def day(number: int, last: bool) -> Day:
    """A plain day of 16 km."""
    return Day(
        number=number, date=dt.date(2026, 6, 1) + dt.timedelta(days=number - 1),
        stretches=(Stretch(kind="walk", start_min=510.0, end_min=930.0, distance_m=16_000.0,
                           height_m=900.0),),
        distance_m=16_000.0, ascent_m=600.0, descent_m=600.0, highest_m=1200.0,
        camp_m=None if last else 900.0,
    )  # fmt: skip


def can_rows(most_g: int) -> list[Row]:
    """Cans chosen against every set of up to eight: how often a better one was there."""
    sizes = fuel_of("gas").cans
    worse = tried = 0
    for need in range(40, most_g, 60):
        ours = sum(gross_g(c) + EACH_G for c in choose(float(need), sizes))
        sets = (s for n in range(1, 9) for s in combinations_with_replacement(sizes, n))
        best = min(
            sum(gross_g(c) + EACH_G for c in s) for s in sets if sum(c.fuel_g for c in s) >= need
        )
        worse += ours > best + 1e-9
        tried += 1
    return [row(f"sets of cans beaten by exhaustion, of {tried}", float(worse), "sets", most=0.0)]
