"""The quickest dinner first, where the first night is cold: told, not imposed.

After the first day in frost or snow one is tired and slow and everything takes longer (common
practice). The menu is left as the walker's wishes and the search made it: which dinner is ready
soonest is named, and which day to swap with. What the swap itself moves is told by `oatsack swap`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu
from oatsack.values.route import Day

ALIKE_MIN = 5.0
"""Dinners that differ by less than this take equally long; ours."""
FROST_C = 0.0


def quick_first(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day],
                ledger: KitchenLedger) -> tuple[Flag, ...]:  # fmt: skip
    """What is to be said of the first dinner on a walk whose first night is one of frost or snow;
    nothing with fewer than two cooked dinners, or where no main dish is known."""
    took = dinner_min(ledger)
    number = {day.number: day for day in days}
    if len(took) < 2 or not _is_cold(number[min(took)]):
        return ()
    first, quickest = min(took), min(took, key=lambda day: (took[day], day))
    late = took[first] - took[quickest] >= ALIKE_MIN
    dish = _dish(menu, foods, quickest if late else first)
    if not dish:
        return ()
    values: dict[str, float | int | str] = {
        "food": dish, "day": quickest if late else first,
        "took_min": took[quickest if late else first], "more_min": took[first] - took[quickest],
    }  # fmt: skip
    if late:
        return (Flag(key="kitchen.quick-later", level="quiet", scope="menu", values=values),)
    return (Flag(key="kitchen.quick-first", level="note", scope="menu", values=values),)


def dinner_min(ledger: KitchenLedger) -> Mapping[int, float]:
    """Day -> minutes of its dinner, of the slowest cook group."""
    out: dict[int, float] = {}
    for meal in ledger.meals:
        if meal.meal == "dinner" and meal.minutes > 0.0:
            out[meal.day] = max(out.get(meal.day, 0.0), meal.minutes)
    return out


def _is_cold(day: Day) -> bool:
    return bool(day.snow) or day.cold_c < FROST_C


def _dish(menu: Menu, foods: Mapping[str, Food], day: int) -> str:
    """The main dish of a day's dinner, of whoever is named first."""
    return next(
        (p.food for p in menu.portions
         if (p.day, p.meal) == (day, "dinner") and foods[p.food].role == "main"), "",
    )  # fmt: skip
