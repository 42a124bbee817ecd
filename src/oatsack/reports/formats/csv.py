"""Tables for sheet programs: one header, one row per thing, plain numbers in fixed units.

`decimal=","` writes commas and separates by semicolons, as sheet programs do where the comma is
the decimal sign. A text that a sheet program would take for a formula gets an apostrophe before
it (C18, DESIGN section 8). UTF-8 with a mark, so that umlauts survive a double click.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Mapping
from typing import Literal

from oatsack.errors import UsageError
from oatsack.reports.telling import outsiders
from oatsack.values.plan import Plan

Value = str | float | int | None
Rows = Iterable[tuple[Value, ...]]
DANGEROUS = ("=", "+", "-", "@", "\t", "\r")


def render(plan: Plan, content: str, *, decimal: Literal[".", ","] = ".") -> bytes:
    """The table of a content as CSV."""
    if content not in TABLES:
        raise UsageError(f"{content!r} has no table; there are: {', '.join(TABLES)}")
    head, rows = TABLES[content]
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";" if decimal == "," else ",", lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([shown(value, decimal) for value in line] for line in rows(plan))
    return out.getvalue().encode("utf-8-sig")


def shown(value: Value, decimal: str = ".") -> str:
    """A value as a sheet program reads it back: blank for None, never a formula."""
    if value is None:
        return ""
    if isinstance(value, str):
        return f"'{value}" if value.startswith(DANGEROUS) else value
    text = f"{float(value):.3f}".rstrip("0").rstrip(".")
    return ("0" if text in ("", "-0") else text).replace(".", decimal)


def _shopping(plan: Plan) -> Rows:
    for line in plan.packed.buy:
        food = plan.foods[line.food]
        yield (line.leg, line.when, line.shop, food.id, food.name, line.packs, line.pack_g,
               line.need_g, line.from_home_g, line.left_g, line.price,
               plan.trip.rules.currency)  # fmt: skip


def _bags(plan: Plan) -> Rows:
    for bag in plan.packed.bags:
        for item in bag.items:
            food = plan.foods[item.food]
            yield (bag.number, bag.of, "yes" if bag.sealed else "no", bag.label, bag.leg,
                   bag.carrier, item.walker, item.day or None, item.meal, food.id, food.name,
                   item.doses, food.dose_name, item.net_g, bag.net_g, bag.gross_g)  # fmt: skip
    for one in plan.packed.dogs:
        yield (None, None, "no", "dog", one.leg, one.carrier or one.dog, one.dog, None, "", "", "",
               None, "", one.net_g, one.net_g, one.gross_g)  # fmt: skip


def _menu(plan: Plan) -> Rows:
    dates = {day.number: day.date.isoformat() for day in plan.days}
    for p in (*plan.menu.portions, *plan.menu.spare):
        food = plan.foods[p.food]
        yield (p.day or None, dates.get(p.day, ""), p.walker, p.meal if p.day else "spare", food.id,
               food.name, p.doses, food.dose_name, p.doses * food.dose_g,
               None if food.per_100g.energy_kcal is None else p.doses * food.dose_kcal,
               p.why)  # fmt: skip


def _need(plan: Plan) -> Rows:
    outside = outsiders(plan)
    for walker, days in plan.need.items():
        for day, n in days.items():
            total = plan.eaten[walker][day]
            yield (walker, int(day), plan.days[int(day) - 1].date.isoformat(), n.energy_kcal,
                   n.low_kcal, n.high_kcal, n.walking_kcal, plan.target[walker].get(day),
                   total.energy_kcal, total.mass_g, total.protein_g, total.sodium_mg,
                   n.pack_start_kg, "yes" if walker in outside else "no")  # fmt: skip


TABLES: Mapping[str, tuple[tuple[str, ...], Callable[[Plan], Rows]]] = {
    "shopping": (
        ("leg", "when", "shop", "id", "name", "packs", "pack_g", "need_g", "from_home_g", "left_g",
         "price", "currency"), _shopping),
    "bags": (
        ("bag", "of", "sealed", "kind", "leg", "carrier", "walker", "day", "meal", "id", "name",
         "doses", "dose", "net_g", "bag_net_g", "bag_gross_g"), _bags),
    "menu": (
        ("day", "date", "walker", "meal", "id", "name", "doses", "dose", "net_g", "energy_kcal",
         "why"), _menu),
    "need": (
        ("walker", "day", "date", "need_kcal", "low_kcal", "high_kcal", "walking_kcal",
         "target_kcal", "eaten_kcal", "food_g", "protein_g", "sodium_mg", "pack_start_kg",
         "outside_model"), _need),
}  # fmt: skip
