"""Foods, days, walkers and menus for the tests of the kitchen: all invented, all plain."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import Any

from oatsack.values.food import Food, Meal, Nutrients, Pouch, Prep
from oatsack.values.menu import Menu, Portion
from oatsack.values.route import Day, Stretch, WaterPlace
from oatsack.values.walker import Walker

MORNING, START, ARRIVE, BED, WAKE = 390.0, 510.0, 930.0, 1320.0, 1830.0


def food(id: str, *, kcal: float = 400.0, dose_g: float = 100.0, **rest: Any) -> Food:
    """A food of one dose per pack."""
    nutrients = rest.pop("per_100g", Nutrients(energy_kcal=kcal))
    return Food(
        id=id,
        name=id.replace("-", " "),
        category=rest.pop("category", "meal"),
        per_100g=nutrients,
        pack_g=rest.pop("pack_g", dose_g),
        doses_per_pack=rest.pop("doses_per_pack", 1.0),
        dose_g=dose_g,
        **rest,
    )


POUCH = food(
    "pouch", dose_g=120.0, role="main", carry="sealed", meals=frozenset({"dinner"}),
    prep=Prep(kind="boil", water_ml=475.0, wait_min=10.0, from_bag=True, cold_soak_min=60.0),
    pouch=Pouch(stands=True, closes=True, holds_ml=700.0),
)  # fmt: skip
OATS = food(
    "oats", dose_g=60.0, role="main", meals=frozenset({"breakfast"}),
    prep=Prep(kind="boil", water_ml=240.0, wait_min=2.0, cold_soak_min=120.0),
)  # fmt: skip
RICE = food(
    "rice", role="main", meals=frozenset({"dinner"}),
    prep=Prep(kind="simmer", water_ml=250.0, simmer_min=12.0, needs_pot=True),
)  # fmt: skip
STEW = food(
    "stew", role="main", meals=frozenset({"dinner"}),
    prep=Prep(kind="boil", water_ml=300.0, wait_min=8.0, needs_pot=True),
)  # fmt: skip
COFFEE = food(
    "coffee", kcal=200.0, dose_g=2.0, role="drink", meals=frozenset({"drinks"}),
    prep=Prep(kind="boil", water_ml=250.0),
    per_100g=Nutrients(energy_kcal=200.0, caffeine_mg=3142.0),
)  # fmt: skip
COUSCOUS = food(
    "couscous", role="main", meals=frozenset({"lunch", "dinner"}),
    prep=Prep(kind="soak", water_ml=150.0, wait_min=30.0),
)  # fmt: skip
BAR = food("bar", dose_g=50.0, role="snack", meals=frozenset({"lunch", "move"}))
FOODS = {f.id: f for f in (POUCH, OATS, RICE, STEW, COFFEE, COUSCOUS, BAR)}


def day(number: int = 1, *, last: bool = False, **rest: Any) -> Day:
    """A day of 16 km from 08:30 to 15:30, to a camp at 900 m; the last one ends at its arrival."""
    height = rest.pop("height_m", 900.0)
    pieces = [
        Stretch(kind="camp", start_min=MORNING, end_min=START, height_m=height),
        Stretch(kind="walk", start_min=START, end_min=ARRIVE, distance_m=16_000.0,
                height_m=height, grade_pct=2.0),
    ]  # fmt: skip
    if not last:
        pieces += [
            Stretch(kind="camp", start_min=ARRIVE, end_min=BED, height_m=height),
            Stretch(kind="sleep", start_min=BED, end_min=WAKE, height_m=height),
        ]
    fields: dict[str, Any] = {
        "number": number,
        "date": dt.date(2026, 6, number),
        "stretches": tuple(pieces[1:] if number == 1 else pieces),
        "distance_m": 16_000.0,
        "ascent_m": 600.0,
        "descent_m": 600.0,
        "highest_m": height + 300.0,
        "camp_m": None if last else height,
    }
    return Day(**(fields | rest))


def days(count: int = 3, **rest: Any) -> list[Day]:
    """So many days, the last one without a camp."""
    return [day(n, last=n == count, **rest) for n in range(1, count + 1)]


def place(name: str, at_min: float, distance_m: float, sure: str = "sure") -> WaterPlace:
    """A water place."""
    return WaterPlace(name=name, at_min=at_min, distance_m=distance_m, reliability=sure)  # type: ignore[arg-type]


def walker(id: str = "anna", **rest: Any) -> Walker:
    """A walker of 70 kg."""
    return Walker(id=id, name=id.title(), mass_kg=rest.pop("mass_kg", 70.0), **rest)


def walkers(count: int) -> list[Walker]:
    """So many walkers."""
    return [walker(f"w{n:02d}") for n in range(count)]


def portion(who: str, number: int, meal: Meal, food_id: str, doses: float = 1.0) -> Portion:
    """One portion."""
    return Portion(walker=who, day=number, meal=meal, food=food_id, doses=doses)


def simple_menu(
    people: Sequence[Walker], stretch: Sequence[Day], *, dinner: str = "pouch",
    breakfast: str = "oats", coffees: float = 2.0,
) -> Menu:  # fmt: skip
    """Dinner on every day with a camp, breakfast on every day but the first, coffee each day."""
    out: list[Portion] = []
    for who in people:
        for one in stretch:
            if one.number > 1:
                out.append(portion(who.id, one.number, "breakfast", breakfast))
            if one.camp_m is not None:
                out.append(portion(who.id, one.number, "dinner", dinner))
            if coffees:
                out.append(portion(who.id, one.number, "drinks", "coffee", coffees))
    return Menu(portions=tuple(out))


def menu_of(portions: Iterable[Portion]) -> Menu:
    """A menu of these portions."""
    return Menu(portions=tuple(portions))
