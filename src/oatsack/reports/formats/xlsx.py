"""The plan as a workbook: what was bought can be typed over, and sums follow.

Every formula carries the value it has, so that a phone's preview, which does not calculate, shows
it. Texts are written as texts, whatever they begin with. Times inside the file are fixed, so that
equal input gives equal bytes.
"""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from oatsack.errors import UsageError
from oatsack.reports.telling import Telling, outsiders, short_date, telling
from oatsack.values.plan import Plan

EPOCH = dt.datetime(2000, 1, 1)  # noqa: DTZ001  (the file format knows no zones)


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula and the value it has."""

    text: str
    value: float


Value = str | float | int | Formula | None
Row = Sequence[Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet: its name, titles with widths and number formats, rows, and a row of sums."""

    name: str
    heads: tuple[tuple[str, float, str], ...]
    rows: tuple[Row, ...]
    total: Row = ()


def render(plan: Plan, content: str) -> bytes:
    """The workbook; `content` is "workbook" or the name of one of its sheets."""
    told = telling(plan)
    wanted = [make for name, make in SHEETS if content in ("workbook", name)]
    if not wanted:
        names = ", ".join(name for name, _ in SHEETS)
        raise UsageError(f"{content!r} has no sheet; there are: workbook, {names}")
    return _write([make(told) for make in wanted], told)


def _write(sheets: Iterable[Sheet], told: Telling) -> bytes:
    import xlsxwriter

    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties({"title": told.plan.trip.title, "comments": told.foot(), "created": EPOCH})
    for sheet in sheets:
        _sheet(book, sheet)
    book.close()
    return out.getvalue()


def _sheet(book: Any, sheet: Sheet) -> None:
    page = book.add_worksheet(sheet.name)
    bold = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    for at, (title, width, shown) in enumerate(sheet.heads):
        page.set_column(at, at, width, book.add_format({"num_format": shown} if shown else {}))
        page.write_string(0, at, title, bold)
    for n, line in enumerate(sheet.rows, start=1):
        _line(page, n, line, None)
    if sheet.total:
        sums = [book.add_format({"bold": True, "top": 1, "num_format": s or "General"})
                for _, _, s in sheet.heads]  # fmt: skip
        _line(page, len(sheet.rows) + 1, sheet.total, sums)
    page.freeze_panes(1, 0)
    page.autofilter(0, 0, max(1, len(sheet.rows)), len(sheet.heads) - 1)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    page.repeat_rows(0)


def _line(page: Any, n: int, line: Row, looks: Sequence[Any] | None) -> None:
    for at, value in enumerate(line):
        look = looks[at] if looks else None
        if isinstance(value, Formula):
            page.write_formula(n, at, value.text, look, round(value.value, 6))
        elif isinstance(value, str):
            page.write_string(n, at, value, look)
        elif value is not None:
            page.write_number(n, at, value, look)


def _shopping(told: Telling) -> Sheet:
    rows: list[Row] = []
    for n, b in enumerate(told.plan.packed.buy, start=2):
        each = b.price / b.packs if b.price is not None and b.packs > 0 else None
        cost = None if each is None else Formula(f"=F{n}*H{n}", b.packs * each)
        left = Formula(f"=E{n}+F{n}*G{n}-D{n}", b.from_home_g + b.packs * b.pack_g - b.need_g)
        rows.append(
            (told.say(f"when.{b.when}"), told.say(f"shop.{b.shop}"), told.food(b.food).name,
             b.need_g, b.from_home_g, b.packs, b.pack_g, each, cost, left, None)
        )  # fmt: skip
    last = len(rows) + 1
    spent = sum(b.price or 0.0 for b in told.plan.packed.buy if b.packs > 0)
    summed = told.say("xlsx.sum_least" if told.plan.totals.unpriced else "xlsx.sum")
    total: Row = (summed, "", "", None, None,
             Formula(f"=SUM(F2:F{last})", sum(b.packs for b in told.plan.packed.buy)), None, None,
             Formula(f"=SUM(I2:I{last})", spent), None, None)  # fmt: skip
    return _made(told, "shopping", SHOPPING, rows, total)


def _bags(told: Telling) -> Sheet:
    rows: list[Row] = [
        (bag.number, told.say(f"meals.{bag.label}"), told.name(bag.carrier),
         told.name(item.walker) if item.walker else "", item.day or None,
         told.food(item.food).name, item.doses, item.net_g)
        for bag in told.plan.packed.bags for item in bag.items
    ]  # fmt: skip
    net = sum(i.net_g for b in told.plan.packed.bags for i in b.items)
    total: Row = (told.say("xlsx.sum"), "", "", "", None, "", None,
             Formula(f"=SUM(H2:H{len(rows) + 1})", net))  # fmt: skip
    return _made(told, "bags", BAGS, rows, total)


def _menu(told: Telling) -> Sheet:
    rows: list[Row] = []
    for n, p in enumerate(told.plan.menu.portions, start=2):
        food = told.food(p.food)
        kcal = food.per_100g.energy_kcal
        grams = p.doses * food.dose_g
        energy = None if kcal is None else Formula(f"=H{n}*I{n}/100", grams * kcal / 100.0)
        rows.append(
            (p.day, short_date(told.day(p.day)), told.name(p.walker), told.say(f"meals.{p.meal}"),
             food.name, p.doses, food.dose_g, Formula(f"=F{n}*G{n}", grams), kcal, energy)
        )  # fmt: skip
    last, totals = len(rows) + 1, told.plan.totals
    total: Row = (told.say("xlsx.sum"), "", "", "", "", None, None,
             Formula(f"=SUM(H2:H{last})", totals.net_g), None,
             Formula(f"=SUM(J2:J{last})", totals.energy_kcal))  # fmt: skip
    return _made(told, "menu", MENU, rows, total)


def _days(told: Telling) -> Sheet:
    rows: list[Row] = []
    sheet = told.say("xlsx.sheet_menu")
    for walker in told.plan.trip.walkers:
        for day in told.plan.days:
            rows.append(_day(told, walker.id, day.number, sheet, len(rows) + 2))
    return _made(told, "days", DAYS, rows, ())


def _day(told: Telling, walker: str, day: int, sheet: str, n: int) -> Row:
    need = told.plan.need[walker][str(day)]
    eaten = told.plan.eaten[walker][str(day)]
    where = f"'{sheet}'!C:C,A{n},'{sheet}'!A:A,B{n}"
    share = eaten.energy_kcal / need.energy_kcal if need.energy_kcal else 0.0
    return (
        told.name(walker), day, short_date(told.day(day)), need.energy_kcal, need.low_kcal,
        need.high_kcal, told.plan.target[walker].get(str(day)),
        Formula(f"=SUMIFS('{sheet}'!J:J,{where})", eaten.energy_kcal),
        Formula(f"=IF(D{n}=0,0,H{n}/D{n})", share),
        Formula(f"=SUMIFS('{sheet}'!H:H,{where})", eaten.mass_g),
        told.say("xlsx.yes") if walker in outsiders(told.plan) else "",
    )  # fmt: skip


Heads = tuple[tuple[str, float, str], ...]
WHOLE, TENTH, MONEY, SHARE = "#,##0", "#,##0.0", "#,##0.00", "0%"
SHOPPING: Heads = (
    ("when", 14, ""), ("shop", 14, ""), ("thing", 38, ""), ("need", 9, WHOLE), ("home", 9, WHOLE),
    ("packs", 8, WHOLE), ("pack", 9, WHOLE), ("each", 9, MONEY), ("cost", 10, MONEY),
    ("left", 9, WHOLE), ("bought", 18, ""),
)  # fmt: skip
BAGS: Heads = (
    ("bag", 6, WHOLE), ("kind", 12, ""), ("carrier", 16, ""), ("who", 16, ""), ("day", 6, WHOLE),
    ("thing", 38, ""), ("doses", 8, TENTH), ("net", 9, TENTH),
)  # fmt: skip
MENU: Heads = (
    ("day", 6, WHOLE), ("date", 9, ""), ("who", 16, ""), ("meal", 12, ""), ("thing", 38, ""),
    ("doses", 8, TENTH), ("dose", 8, TENTH), ("grams", 9, TENTH), ("per_100", 9, WHOLE),
    ("kcal", 9, WHOLE),
)  # fmt: skip
DAYS: Heads = (
    ("who", 16, ""), ("day", 6, WHOLE), ("date", 9, ""), ("uses", 9, WHOLE), ("low", 9, WHOLE),
    ("high", 9, WHOLE), ("target", 9, WHOLE), ("eats", 9, WHOLE), ("share", 8, SHARE),
    ("grams", 9, WHOLE), ("outside", 18, ""),
)  # fmt: skip


def _made(told: Telling, name: str, heads: Heads, rows: list[Row], total: Row) -> Sheet:
    named = tuple((told.say(f"xlsx.{key}"), width, shown) for key, width, shown in heads)
    return Sheet(name=told.say(f"xlsx.sheet_{name}"), heads=named, rows=tuple(rows), total=total)


SHEETS: tuple[tuple[str, Callable[[Telling], Sheet]], ...] = (
    ("shopping", _shopping), ("bags", _bags), ("menu", _menu), ("need", _days),
)  # fmt: skip
