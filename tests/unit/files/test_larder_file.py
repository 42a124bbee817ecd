"""What a larder file means: bases, units, twins, defaults, and what is written back."""

from __future__ import annotations

import datetime as dt

import pytest

from oatsack.files.larder import plain, read_with_dialect, write_larder
from oatsack.files.larder_columns import COLUMNS
from oatsack.files.larder_headers import understand
from oatsack.values.food import Food, Nutrients, Origin, Stock
from support.each import each
from support.foods import faults, one, placeless, read, table


def row(header: str, cells: str) -> Food:
    """A food from a header and one row, apart by bars, always with a name."""
    return one(table(["name", *header.split("|")], [["Thing", *cells.split("|")]], delimiter=";"))


@each(
    ("header", "cells"),
    [
        ("pack_g|doses|per|kcal", "200|5|100 g|400"),
        ("pack_g|doses|per|kcal", "200|5|serving|160"),
        ("pack_g|doses|per|kcal", "200|5|pack|800"),
        ("pack_g|doses|per|kcal", "200|5|50 g|200"),
        ("pack_g|doses|kcal per 100 g", "200|5|400"),
        ("pack_g|doses|kcal per serving", "200|5|160"),
        ("pack_g|doses|Energy (kcal) per pack", "200|5|800"),
        ("pack_g|doses|kJ per 100 g", "200|5|1673.6"),
        ("pack_g|doses|per|kcal", "200|5|100 g|1673.6 kJ"),
        ("pack|dose|per|calories", "0.2 kg|40 g|Serving|160"),
        ("pack_g|doses|serving_g|per|kcal", "200|5|50|serving|200"),
    ],
)
def test_every_basis_and_unit_of_energy_means_the_same_food(header: str, cells: str) -> None:
    food = row(header, cells)
    assert food.per_100g.energy_kcal == pytest.approx(400.0)
    assert (food.pack_g, food.doses_per_pack, food.dose_g) == (200.0, 5.0, 40.0)


@each(
    ("header", "cells", "field", "value"),
    [
        ("sodium_mg", "480", "sodium_mg", 480.0),
        ("sodium_g", "0.48", "sodium_mg", 480.0),
        ("sodium", "0.48 g", "sodium_mg", 480.0),
        ("salt_g", "1.2", "sodium_mg", 480.0),
        ("salt", "1200 mg", "sodium_mg", 480.0),
        ("carb_g|fibre_g", "60|10", "carb_g", 60.0),
        ("carb_available_g|fibre_g", "50|10", "carb_g", 60.0),
        ("carb_available_g", "50", "carb_g", 50.0),
        ("fiber", "10", "fibre_g", 10.0),
        ("fat_oz", "1", "fat_g", 28.349523125),
        ("caffeine", "80", "caffeine_mg", 80.0),
    ],
)
def test_nutrients_are_brought_to_the_units_inside(
    header: str, cells: str, field: str, value: float
) -> None:
    food = row(f"pack_g|per|kcal|{header}", f"100|100 g|400|{cells}")
    assert getattr(food.per_100g, field) == pytest.approx(value)


def test_available_carbohydrate_without_fibre_is_marked_as_a_guess_of_the_total() -> None:
    header, cells = "pack_g|per|kcal|carb_available_g|fibre_g", "100|100 g|400|50|"
    assert row(header, cells).origin.invented == {"carb_g"}
    assert row(header, cells + "10").origin.invented == frozenset()


@each(
    ("cells", "grams"),
    [("3 oz", 85.05), ("0.5 lb", 226.8), ("1 lb 2 oz", 510.29), ("½ kg", 500.0), ("85 g", 85.0)],
)
def test_a_mass_may_bring_its_own_unit(cells: str, grams: float) -> None:
    assert row("pack|per|kcal", f"{cells}|100 g|400").pack_g == pytest.approx(grams, abs=0.01)


def test_a_header_may_name_another_unit_for_its_column() -> None:
    food = row("pack_oz|wrap_oz|water_cups|per|kcal", "4|1|2|100 g|440")
    assert food.pack_g == pytest.approx(113.398, abs=1e-3)
    assert food.wrap_g == pytest.approx(28.35, abs=1e-2)
    assert food.prep.water_ml == pytest.approx(473.18, abs=1e-2)


@each(
    ("header", "text", "grams"),
    [
        ("pack_oz", "½", 14.17),
        ("pack_oz", "1 1/2", 42.52),
        ("pack_kg", "0.5", 500.0),
        ("pack_kg", "1,234.5", 1234500.0),
        ("pack_oz", "85 g", 85.0),
    ],
)
def test_a_headers_unit_counts_for_every_bare_number_and_for_no_other(
    header: str, text: str, grams: float
) -> None:
    assert row(f"{header}|kcal per 100 g", f"{text}|1.5").pack_g == pytest.approx(grams, abs=0.01)


def test_kilojoules_with_thousands_are_kilojoules() -> None:
    food = one("name;pack_g;kj per 100 g;price\nX;9;1.650;3,5\n")
    assert food.per_100g.energy_kcal == pytest.approx(1650 / 4.184)


def test_blank_is_absent_and_nought_is_nought() -> None:
    blank = row("pack_g|per|kcal|fat_g|price", "100|100 g|||")
    nought = row("pack_g|per|kcal|fat_g|price", "100|100 g|0|0|0")
    assert (blank.per_100g.energy_kcal, blank.per_100g.fat_g, blank.price) == (None, None, None)
    assert (nought.per_100g.energy_kcal, nought.per_100g.fat_g, nought.price) == (0.0, 0.0, 0.0)


def test_three_columns_are_enough_and_the_rest_has_defaults() -> None:
    food = one("name,pack_g,kcal per 100 g\nMüsli mit Nuss,500,410\n")
    assert food == Food(
        id="musli-mit-nuss",
        name="Müsli mit Nuss",
        category="other",
        per_100g=Nutrients(energy_kcal=410.0),
        pack_g=500.0,
        doses_per_pack=1.0,
        dose_g=500.0,
        origin=Origin(file="larder.csv", line=2),
    )


def test_unnamed_allergens_are_unknown_and_the_four_states_are_kept() -> None:
    food = row("pack_g|kcal per 100 g|contains|may_contain|free_of", "9|9|milk, egg|soy|wheat")
    states = [food.state(name) for name in ("milk", "egg", "soy", "wheat", "peanut")]
    assert states == ["contains", "contains", "may", "free", "unknown"]


def test_liking_can_be_everyones_and_one_walkers() -> None:
    food = row("pack_g|kcal per 100 g|liking|liking anna|Liking (Ben)", "9|9|3|5|1")
    assert (food.liked_by("anna"), food.liked_by("ben"), food.liked_by("cleo")) == (5.0, 1.0, 3.0)


@each("text", ["2027-03-31", "31.3.2027", "31.03.2027"])
def test_a_date_is_read_year_first_or_with_points(text: str) -> None:
    food = row("pack_g|kcal per 100 g|home_packs|best_before", f"9|9|2|{text}")
    assert food.stock == Stock(packs=2.0, best_before=dt.date(2027, 3, 31))


@each(
    ("cells", "doses", "dose_g"),
    [("170|6|", 6.0, 170 / 6), ("170||28", 6.0, 28.0), ("170||", 1.0, 170.0), ("170|5|30", 5, 30)],
)
def test_doses_follow_from_what_is_stated(cells: str, doses: float, dose_g: float) -> None:
    food = row("pack_g|doses|dose_g|kcal per 100 g", f"{cells}|480")
    assert (food.doses_per_pack, food.dose_g) == (doses, pytest.approx(dose_g))


@each(
    ("bytes_", "encoding", "delimiter", "decimal"),
    [
        ("name,pack_g,kcal per 100 g\nMüsli,500,410.5\n".encode(), "utf-8", ",", "."),
        (
            "name;pack_g;kcal per 100 g\r\nMüsli;500;410,5\r\n".encode("cp1252"),
            "windows-1252", ";", ",",
        ),
        ("name\tpack_g\tkcal per 100 g\nMüsli\t500\t410,5\n".encode("utf-16"), "utf-16", "\t", ","),
        (
            "name;pack_g;kcal per 100 g\nMüsli;500;410,5\n".encode("utf-8-sig"),
            "utf-8 with mark", ";", ",",
        ),
    ],
)  # fmt: skip
def test_one_larder_as_four_sheet_programs_write_it(
    bytes_: bytes, encoding: str, delimiter: str, decimal: str
) -> None:
    reading = read_with_dialect(bytes_, "larder.csv")
    (food,) = reading.foods
    assert (food.name, food.pack_g, food.per_100g.energy_kcal) == ("Müsli", 500.0, 410.5)
    found = reading.dialect
    assert (found.encoding, found.delimiter, found.decimal) == (encoding, delimiter, decimal)


def test_the_foods_keep_the_files_order_and_know_their_lines() -> None:
    foods = read('name,pack_g,kcal per 100 g\nB,1,1\n"two\nlines",1,1\nA,1,1\n')
    assert [(food.id, food.origin.line) for food in foods] == [("b", 2), ("two-lines", 3), ("a", 5)]


def test_columns_stand_in_any_order() -> None:
    first = one("name,pack_g,per,kcal,doses\nX,100,serving,50,4\n")
    other = one("doses,kcal,per,pack_g,name\n4,50,serving,100,X\n")
    assert first == other


def test_no_column_means_two_things_and_every_column_is_understood() -> None:
    names = [column.name for column in COLUMNS]
    assert len(set(names)) == len(names)
    for name in names:
        head = understand(name)
        assert head is not None
        assert head.column.name == name


@each(
    ("text", "name", "basis", "unit"),
    [
        ("Fat (g) per 100 g", "fat_g", "100 g", ""),
        ("ENERGY kJ / serving", None, None, None),
        ("energy kJ per serving", "kj", "serving", ""),
        ("Salt per pack", "salt_g", "pack", ""),
        ("pack (oz)", "pack_g", None, "oz"),
        ("water [fl oz]", "water_ml", None, "fl oz"),
        ("price_oz", None, None, None),
    ],
)
def test_a_header_tells_column_basis_and_unit(
    text: str, name: str | None, basis: str | None, unit: str | None
) -> None:
    head = understand(text)
    if name is None:
        assert head is None
    else:
        assert head is not None
        assert (head.column.name, head.basis, head.unit) == (name, basis, unit)


@each("decimal", [".", ","])
def test_what_is_written_is_read_again_as_the_same_food(decimal: str) -> None:
    food = one(
        "name,pack_g,doses,per,kcal,fat_g,contains,liking,liking anna,home_packs,best_before,"
        "confirmed\n=SUM(A1),170.5,6,100 g,480.25,0.1,milk soy,3,4.5,1.5,2027-01-02,yes\n"
    )
    data = write_larder([food], decimal=decimal)  # type: ignore[arg-type]
    assert [placeless(f) for f in read(data)] == [placeless(food)]
    assert b"\n=SUM" not in data


@each(
    ("value", "text"),
    [(5.0, "5"), (0.1, "0.1"), (1e-7, "0.0000001"), (1.5e22, "15000000000000000000000")],
)
def test_numbers_are_written_without_exponents_and_read_back_exactly(
    value: float, text: str
) -> None:
    assert plain(value) == text
    assert float(plain(value)) == value


@each(
    ("text", "decimal", "kcal"),
    [
        ('name,pack_g,kcal per 100 g\nX,100,"410,5"\n', ",", 410.5),  # quoted
        ("name,pack_g,kcal per 100 g\nX,100,410.5\n", ".", 410.5),
        ("name,pack_g,kcal per 100 g\nX,100,410\n", ".", 410.0),
        ("name;pack_g;kcal per 100 g\nX;100;410,5\n", ",", 410.5),
        ("name;pack_g;kcal per 100 g\nX, or Y;100;410.5\n", ".", 410.5),  # words do not vote
        ("name;source;pack_g;kcal per 100 g\nX;1,5;100;410.5\n", ".", 410.5),
        ("name;pack_g;kcal per 100 g\nX;100;410\n", ".", 410.0),
    ],
)
def test_the_decimal_mark_is_told_by_the_columns_of_numbers(
    text: str, decimal: str, kcal: float
) -> None:
    reading = read_with_dialect(text.encode(), "larder.csv")
    assert reading.dialect.decimal == decimal
    assert reading.foods[0].per_100g.energy_kcal == kcal


@each(
    ("kcal", "kj", "agree"),
    [
        (100.0, 100.0 * 4.184, True),
        (100.0, 103.0 * 4.184, True),
        (100.0, 103.2 * 4.184, False),  # beyond 3 % of the larger
        (10.0, 12.0 * 4.184, True),  # within 2 kcal, which rounding can make
        (10.0, 12.1 * 4.184, False),
        (0.0, 2.0 * 4.184, True),
    ],
)
def test_two_statements_of_one_energy_agree_within_rounding(
    kcal: float, kj: float, agree: bool
) -> None:
    text = f"name,pack_g,kcal per 100 g,kj per 100 g\nX,100,{kcal},{kj:.3f}\n"
    if agree:
        assert one(text).per_100g.energy_kcal == kcal  # the first of the two holds
    else:
        (fault,) = faults(text)
        assert fault.path == "X: kj"
        assert "contradicts kcal" in fault.wrong


@each(("dose", "fits"), [("103", True), ("103.1", False)])
def test_a_dose_may_be_as_large_as_its_pack_and_three_percent(dose: str, fits: bool) -> None:
    text = f"name,pack_g,dose_g,kcal per 100 g\nX,100,{dose},400\n"
    if fits:
        assert one(text).doses_per_pack == 1.0
    else:
        (fault,) = faults(text)
        assert (fault.path, fault.read) == ("X: dose_g", f"'{dose}'")


@each(
    ("text", "paths"),
    [
        ("", ["larder"]),
        ("name\nX\n", ["pack_g", "kcal"]),
        ("name,pack_g\nX,1\n", ["kcal"]),
        ("name,pack_g,kcal\nX,1,1\n", ["per"]),
        ("name,pack_g,kcal per 100 g,fat_g\nX,1,1,1\n", ["per"]),
        ("nmae,pack_g,kcal per 100 g\nX,1,1\n", ["column 1", "name"]),
        ("foo,bar\n1,2\n", ["column 1", "column 2"]),  # no larder at all: nothing else is told
    ],
)
def test_what_a_header_lacks_is_told_once(text: str, paths: list[str]) -> None:
    assert [fault.path for fault in faults(text)] == paths


def test_rows_at_fault_name_their_food_by_its_id_or_else_its_name() -> None:
    text = "id,name,pack_g,kcal per 100 g\nx-1,X,-1,1\n,Y,-1,1\n,,-1,1\n"
    assert [fault.path for fault in faults(text)] == [
        "x-1: pack_g", "Y: pack_g", "name", "pack_g",
    ]  # fmt: skip


@each(
    ("value", "text"),
    [(1.0, "1"), (0.1, "0.1"), (1e-7, "0.0000001"), (1e22, "10000000000000000000000"),
     (1234567.875, "1234567.875"), (100.0, "100"), (0.0, "0")],
)  # fmt: skip
def test_a_number_is_written_as_sheets_read_it(value: float, text: str) -> None:
    assert plain(value) == text
    assert float(plain(value)) == value
