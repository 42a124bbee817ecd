"""The workbook: formulas carry the value that a sheet program would give them."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import Any

import openpyxl
import pytest

from oatsack.errors import UsageError
from oatsack.reports import render
from oatsack.values.plan import Plan
from support.each import each
from support.sample_plan import sample_plan


def sheets(plan: Plan | None = None, *, values: bool = True) -> Any:
    data = render(plan or sample_plan(), "workbook", "xlsx")
    return openpyxl.load_workbook(io.BytesIO(data), data_only=values)


def column(sheet: Any, title: str) -> list[Any]:
    at = next(c.column for c in sheet[1] if c.value == title)
    return [sheet.cell(row=n, column=at).value for n in range(2, sheet.max_row + 1)]


def test_the_workbook_has_shopping_bags_menu_and_days() -> None:
    assert sheets().sheetnames == ["Shopping", "Bags", "Menu", "Days"]


def test_every_formula_has_a_value_that_a_preview_can_show() -> None:
    book, plain = sheets(values=False), sheets()
    formulas = 0
    for sheet in book:
        for line in sheet.iter_rows():
            for c in line:
                if isinstance(c.value, str) and c.value.startswith("="):
                    formulas += 1
                    assert isinstance(plain[sheet.title][c.coordinate].value, int | float)
    assert formulas > 50


def value_of(sheet: Any, text: str) -> float:
    """Works a product, difference or column sum out from the cells it names."""
    summed = re.fullmatch(r"=SUM\((\w)2:\w(\d+)\)", text)
    if summed:
        return sum(sheet[f"{summed[1]}{n}"].value or 0.0 for n in range(2, int(summed[2]) + 1))
    worked = re.sub(r"([A-Z])(\d+)", lambda m: str(sheet[m[0]].value or 0.0), text[1:])
    assert re.fullmatch(r"[\d.+*/e-]+", worked), worked
    return float(eval(worked))  # noqa: S307  (a checked sum of numbers)


@pytest.mark.slow
@each("name", ["Shopping", "Bags", "Menu"])
def test_the_value_of_each_formula_follows_from_its_cells(name: str) -> None:
    texts, plain = sheets(values=False)[name], sheets()[name]
    for line in texts.iter_rows():
        for c in line:
            if isinstance(c.value, str) and c.value.startswith("="):
                shown = plain[c.coordinate].value
                assert shown == pytest.approx(value_of(plain, c.value), abs=1e-5), c.coordinate


def test_the_days_sum_what_the_menu_holds() -> None:
    book = sheets()
    menu, days = book["Menu"], book["Days"]
    eats = column(menu, "kcal")
    for who, day, kcal in zip(column(days, "for"), column(days, "day"),
                              column(days, "eats, kcal"), strict=True):  # fmt: skip
        mine = [
            k for w, d, k in zip(column(menu, "for"), column(menu, "day"), eats, strict=True)
            if (w, d) == (who, day)
        ]  # fmt: skip
        assert kcal == pytest.approx(sum(mine), abs=0.01)


def test_sums_equal_the_plan() -> None:
    plan = sample_plan(walkers=3, days=6)
    book = sheets(plan)
    assert column(book["Shopping"], "cost")[-1] == pytest.approx(plan.totals.price)
    assert column(book["Menu"], "kcal")[-1] == pytest.approx(plan.totals.energy_kcal, abs=0.01)
    assert column(book["Bags"], "food, g")[-1] == pytest.approx(
        sum(b.net_g for b in plan.packed.bags), abs=0.01
    )


@each("name", ["=1+1", "+1", "-1", "@x", "http://example.invalid/x"])
def test_a_food_named_like_a_formula_or_a_link_is_text(name: str) -> None:
    plan = sample_plan()
    foods = dict(plan.foods) | {"bar": replace(plan.foods["bar"], name=name)}
    found = [
        c for line in sheets(replace(plan, foods=foods), values=False)["Shopping"].iter_rows()
        for c in line if c.value == name
    ]  # fmt: skip
    assert found and all(c.data_type == "s" and c.hyperlink is None for c in found)


def test_an_unknown_price_stays_blank() -> None:
    plan = sample_plan()
    first, *rest = plan.packed.buy
    packed = replace(plan.packed, buy=(replace(first, price=None), *rest))
    assert column(sheets(replace(plan, packed=packed))["Shopping"], "cost")[0] is None


def test_equal_input_gives_equal_bytes() -> None:
    assert render(sample_plan(), "workbook", "xlsx") == render(sample_plan(), "workbook", "xlsx")


def test_one_sheet_can_be_asked_for() -> None:
    data = render(sample_plan(), "shopping", "xlsx")
    assert openpyxl.load_workbook(io.BytesIO(data)).sheetnames == ["Shopping"]


def test_a_content_without_a_sheet_is_refused() -> None:
    with pytest.raises(UsageError, match="workbook"):
        render(sample_plan(), "labels", "xlsx")
