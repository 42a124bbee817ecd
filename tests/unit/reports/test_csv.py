"""CSV out: sums equal the plan's, either decimal sign, and no formula gets through."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from oatsack.errors import UsageError
from oatsack.reports import render
from oatsack.reports.formats.csv import TABLES, shown
from support.each import each
from support.sample_plan import sample_plan


def without_a_price(plan):  # type: ignore[no-untyped-def]
    """The plan with one thing bought that has no price."""
    first = next(b for b in plan.packed.buy if b.packs > 0 and b.price)
    buy = tuple(replace(b, price=None) if b is first else b for b in plan.packed.buy)
    bare = replace(plan, packed=replace(plan.packed, buy=buy))
    totals = replace(plan.totals, price=plan.totals.price - first.price, unpriced=1)
    return replace(bare, totals=totals)


def test_every_surface_says_at_least_where_a_price_is_not_known() -> None:
    """C2: one story on the screen, in the whole plan, on the list, and in the table."""
    plan = without_a_price(sample_plan())
    for content in ("first", "plan", "shopping"):
        text = " ".join(render(plan, content, "text").decode().split())
        assert f"at least {plan.totals.price:.2f} EUR" in text, content
    assert "one thing has no known price" in render(plan, "shopping", "text").decode()
    blank = [row for row in rows("shopping", plan=plan) if not row["price"]]
    assert len(blank) == 1
    whole = render(sample_plan(), "first", "text").decode()
    assert "at least" not in whole


def test_a_list_of_unknown_prices_says_so_on_every_surface() -> None:
    plan = sample_plan()
    buy = tuple(replace(b, price=None) for b in plan.packed.buy)
    n = sum(b.packs > 0 for b in buy)
    plan = replace(plan, packed=replace(plan.packed, buy=buy),
                   totals=replace(plan.totals, price=None, unpriced=n))  # fmt: skip
    first, whole, shopping = (" ".join(render(plan, c, "text").decode().split())
                              for c in ("first", "plan", "shopping"))  # fmt: skip
    assert "at prices not known" in first
    assert "not known" in whole
    assert "nothing in it has a price" in shopping


def rows(content: str, decimal: str = ".", plan=None) -> list[dict[str, str]]:  # type: ignore[no-untyped-def]
    text = render(plan or sample_plan(), content, "csv", decimal=decimal).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text), delimiter=";" if decimal == "," else ","))


@each("content", sorted(TABLES))
@each("decimal", [".", ","])
def test_every_table_has_one_header_and_rows_of_its_width(content: str, decimal: str) -> None:
    found = rows(content, decimal)
    assert found
    assert all(None not in line and None not in line.values() for line in found)


def test_the_bags_add_up_to_the_plan() -> None:
    plan = sample_plan(walkers=3, days=6)
    total = sum(float(line["net_g"]) for line in rows("bags", plan=plan))
    assert total == pytest.approx(sum(b.net_g for b in plan.packed.bags), abs=0.01)


def test_the_shopping_list_costs_what_the_plan_says() -> None:
    plan = sample_plan()
    cost = sum(float(line["price"].replace(",", ".")) for line in rows("shopping", ","))
    assert cost == pytest.approx(plan.totals.price)


def test_the_menu_holds_the_energy_of_the_plan_and_the_spare_apart() -> None:
    plan = sample_plan()
    found = rows("menu")
    eaten = sum(float(r["energy_kcal"]) for r in found if r["meal"] != "spare")
    spare = sum(float(r["energy_kcal"]) for r in found if r["meal"] == "spare")
    assert eaten == pytest.approx(plan.totals.energy_kcal, abs=0.05)
    assert spare == pytest.approx(plan.totals.spare_kcal)


@each("name", ["=1+1", "+cmd", "-2", "@SUM(A1)", "\tx"])
def test_a_food_named_like_a_formula_is_written_as_text(name: str) -> None:
    plan = sample_plan()
    foods = dict(plan.foods) | {"bar": replace(plan.foods["bar"], name=name)}
    line = next(r for r in rows("shopping", plan=replace(plan, foods=foods)) if r["id"] == "bar")
    assert line["name"] == f"'{name}"


def test_an_unknown_price_is_blank_and_not_zero() -> None:
    plan = sample_plan()
    first, *rest = plan.packed.buy
    packed = replace(plan.packed, buy=(replace(first, price=None), *rest))
    assert rows("shopping", plan=replace(plan, packed=packed))[0]["price"] == ""


def test_numbers_are_plain() -> None:
    assert shown(1234.5) == "1234.5"
    assert shown(1234.5, ",") == "1234,5"
    assert shown(0.0) == "0"
    assert shown(-0.0001) == "0"
    assert shown(-3.25) == "-3.25"
    assert shown(None) == ""


def test_the_file_opens_with_a_mark_so_that_umlauts_survive() -> None:
    data = render(sample_plan(long_names=True), "shopping", "csv")
    assert data.startswith(b"\xef\xbb\xbf")
    assert "Hartkäsewürfel" in data.decode("utf-8-sig")


def test_a_content_without_a_table_is_refused_with_those_that_have_one() -> None:
    with pytest.raises(UsageError, match="shopping, bags"):
        render(sample_plan(), "first", "csv")
