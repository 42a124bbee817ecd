"""Laws of the larder: what is written is read again; order and dialect change nothing."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.errors import LarderError
from oatsack.files.larder import bundled, read_larder, write_larder
from oatsack.files.sheet import read_sheet, write_sheet
from oatsack.larder.energy import possible_energy
from oatsack.larder.labels import us_rounded
from oatsack.larder.stock import Lot, draw
from oatsack.values.classes import CATEGORIES
from oatsack.values.food import (
    ALLERGENS,
    MEALS,
    Food,
    Keep,
    Nutrients,
    Origin,
    Pouch,
    Prep,
    Stock,
)  # fmt: skip
from support.amount import examples
from support.foods import placeless

AMOUNT = st.none() | st.floats(0.0, 1e5, allow_subnormal=False)
POSITIVE = st.floats(1e-3, 1e5)
PRINTED = st.characters(codec="utf-8", exclude_categories=("C", "Z"))
TEXT = st.text(PRINTED | st.sampled_from(list("=+-@'\",;")), min_size=1, max_size=12)
DATES = st.dates(dt.date(1900, 1, 1))
IDS = st.from_regex(r"[a-z0-9]{1,6}(-[a-z0-9]{1,6}){0,2}", fullmatch=True)
FIELDS = (
    "energy_kcal", "protein_g", "fat_g", "carb_g", "sugars_g", "fibre_g", "polyols_g",
    "sodium_mg", "potassium_mg", "caffeine_mg",
)  # fmt: skip


@st.composite
def foods(draw: st.DrawFn) -> Food:
    """Any food that a file can hold."""
    pack_g, doses = draw(POSITIVE), draw(st.integers(1, 40))
    pouch = st.builds(Pouch, stands=st.booleans(), closes=st.booleans(), holds_ml=AMOUNT)
    return Food(
        id=draw(IDS),
        name=draw(TEXT),
        category=draw(st.sampled_from(CATEGORIES)),
        per_100g=Nutrients(**{name: draw(AMOUNT) for name in FIELDS}),
        pack_g=pack_g,
        doses_per_pack=float(doses),
        dose_g=pack_g / doses,
        dose_name=draw(TEXT),
        role=draw(st.sampled_from(["main", "side", "topping", "snack", "drink", "small"])),
        meals=draw(st.frozensets(st.sampled_from(MEALS))),
        prep=Prep(kind="boil", water_ml=draw(POSITIVE), cold_soak_min=draw(AMOUNT)),
        keep=draw(st.builds(Keep, opened_days=AMOUNT, melts=st.booleans())),
        pouch=draw(st.none() | pouch),
        wrap_g=draw(AMOUNT),
        price=draw(AMOUNT),
        stock=Stock(packs=draw(POSITIVE), best_before=draw(st.none() | DATES)),
        allergens=draw(st.dictionaries(st.sampled_from(ALLERGENS),
                                       st.sampled_from(["contains", "may", "free"]))),
        liking=draw(st.none() | st.floats(1.0, 5.0)),
        liking_by=draw(st.dictionaries(st.sampled_from(["anna", "ben"]), st.floats(1.0, 5.0))),
        confirmed=draw(st.booleans()),
        origin=Origin(source=draw(st.just("") | TEXT), source_id="08120"),
    )  # fmt: skip


LARDERS = st.lists(foods(), min_size=1, max_size=5, unique_by=lambda food: food.id)


@pytest.mark.slow
@given(LARDERS, st.sampled_from([".", ","]))
def test_what_is_written_is_read_again(larder: list[Food], decimal: str) -> None:
    data = write_larder(larder, decimal=decimal)  # type: ignore[arg-type]
    assert [placeless(food) for food in read_larder(data, "x")] == larder


@pytest.mark.slow
@given(LARDERS, st.sampled_from(["utf-8-sig", "utf-16"]))
def test_the_encoding_changes_nothing(larder: list[Food], codec: str) -> None:
    data = write_larder(larder)
    assert read_larder(data.decode().encode(codec), "x") == read_larder(data, "x")


@given(st.lists(st.lists(TEXT | st.just(""), min_size=3, max_size=3).filter(any), max_size=6))
def test_any_table_comes_back_and_every_cell_is_found_at_its_place(rows: list[list[str]]) -> None:
    header = ["name", "pack", "per"]
    sheet = read_sheet(write_sheet(header, rows, "."), "x")
    assert [list(row.cells) for row in sheet.rows] == rows
    for row in sheet.rows:
        for index, cell in enumerate(row.cells):
            line, column = sheet.place(row, index)
            rest = sheet.lines[line - 1][column - 1 :]
            assert rest.lstrip("\"'")[:1] == cell.lstrip("\"'")[:1] or not cell.lstrip("\"'")


@settings(max_examples=examples(60))
@given(st.permutations(range(8)))
def test_the_order_of_rows_is_kept_and_changes_no_food(order: list[int]) -> None:
    larder = bundled()[:8]
    data = write_larder([larder[i] for i in order])
    assert [placeless(f) for f in read_larder(data, "x")] == [placeless(larder[i]) for i in order]


@settings(max_examples=examples(200))
@given(st.binary(max_size=400))
def test_no_bytes_raise_anything_but_a_larder_error(data: bytes) -> None:
    try:
        read_larder(data, "x")
    except LarderError as error:
        assert error.faults


@settings(max_examples=examples(150))
@given(st.integers(0, 2_000), st.characters(codec="utf-8"))
def test_a_larder_with_one_character_changed_is_read_or_refused_with_places(
    at: int, mark: str
) -> None:
    text = write_larder(bundled()[:3]).decode()
    at %= len(text)
    try:
        read_larder((text[:at] + mark + text[at + 1 :]).encode(), "x")
    except LarderError as error:
        assert all(fault.wrong and fault.instead for fault in error.faults)
        assert all(fault.line >= 0 and fault.column >= 0 for fault in error.faults)


@given(st.floats(0.0, 2000.0), st.sampled_from(["energy_kcal", "fat_g", "sodium_mg", "carb_g"]))
def test_a_rounded_label_is_never_far_from_the_value(value: float, nutrient: str) -> None:
    step = {"energy_kcal": 10.0, "fat_g": 1.0, "sodium_mg": 10.0, "carb_g": 1.0}[nutrient]
    for shown in us_rounded(nutrient, value):
        if isinstance(shown, float):
            assert abs(shown - value) <= step / 2 + 1e-6 or (shown == 0.0 and value < 5.0)


@given(st.floats(0, 100), st.floats(0, 100), st.floats(0, 100), st.floats(0, 50))
def test_what_energy_is_possible_is_a_range_that_macros_widen(
    protein: float, fat: float, carb: float, fibre: float
) -> None:
    per = Nutrients(protein_g=protein, fat_g=fat, carb_g=carb, fibre_g=fibre)
    span = possible_energy(per, fibre_high_g=10.0)
    assert span is not None
    assert 0.0 <= span[0] <= span[1]
    blank = possible_energy(replace(per, fibre_g=None), fibre_high_g=fibre)
    assert blank is not None
    assert blank[0] == pytest.approx(span[0])


LOTS = st.builds(
    Lot,
    food=st.just("x"),
    packs=st.floats(0.01, 20.0),
    best_before=st.none() | st.dates(dt.date(2026, 1, 1), dt.date(2028, 1, 1)),
)


@given(st.lists(LOTS, max_size=5), st.floats(0.0, 30.0))
def test_home_and_shop_together_cover_what_is_asked_and_no_pack_more(
    lots: list[Lot], packs: float
) -> None:
    eaten = dt.date(2027, 1, 1)
    drawn = draw(lots, packs, eaten)
    home = sum(lot.packs for lot in drawn.home)
    assert home + drawn.buy - drawn.over == pytest.approx(packs, abs=1e-6)
    assert 0.0 <= drawn.over < 1.0
    assert all(lot.best_before is None or lot.best_before >= eaten for lot in drawn.home)
