"""The reference of the trip file: complete, readable, and right about defaults."""

from __future__ import annotations

import re
import tomllib

from oatsack.files.trip import parse_trip
from oatsack.files.trip.faults import fields_of
from oatsack.files.trip.reference import default_text, reference, sections, value_default
from oatsack.files.trip.tables import (
    DayTable,
    KitTable,
    PotTable,
    RouteTable,
    RulesTable,
    TripTable,
    WalkerTable,
    WeightsTable,
)
from oatsack.files.trip.tables.fields import Table
from support.each import each

PAGE = reference()


def rows_under(heading: str) -> dict[str, list[str]]:
    """Key -> cells of the table under a heading."""
    part = PAGE.split(f"\n## {heading}\n")[1].split("\n## ")[0]
    rows = [line for line in part.split("\n") if line.startswith("| `")]
    cells = [re.split(r"(?<!\\) \| ", row.strip("| ")) for row in rows]
    return {row[0].strip("`"): row for row in cells}


def test_every_section_and_key_is_on_the_page() -> None:
    for path, table in sections():
        rows = rows_under(f"`{path}`" if path else "At the top")
        assert list(rows) == list(fields_of(table))
        assert all(len(cells) == 4 for cells in rows.values())


def test_sections_stand_in_the_order_of_the_file() -> None:
    paths = [path for path, _ in sections()]
    assert paths[0] == ""
    assert paths.index("walkers[]") < paths.index("route") < paths.index("kit")
    assert "walkers[].usual" in paths
    assert "route.days[].stretches[]" in paths
    assert "rules.holds[]" in paths


def test_the_example_at_the_top_is_a_trip() -> None:
    example = PAGE.split("```toml\n")[1].split("```")[0]
    assert parse_trip(example, "example.toml").day_count == 4


def test_every_example_in_a_cell_is_toml() -> None:
    for path, _ in sections():
        for key, cells in rows_under(f"`{path}`" if path else "At the top").items():
            for source in re.findall(r"`([^`]+)`", cells[2]):
                assert tomllib.loads(f"x = {source}"), f"{path}.{key}"


@each(
    ("heading", "key", "cell"),
    [
        ("At the top", "from", "**must be given**"),
        ("At the top", "title", "from its dates"),
        ("At the top", "kit", "as below"),
        ("`walkers[]`", "mass", "**must be given**"),
        ("`walkers[]`", "base_weight", '`"8 kg"`'),
        ("`walkers[]`", "hot_drinks", "`2`"),
        ("`walkers[]`", "avoids", "none"),
        ("`walkers[].avoids[]`", "scope", '`"plate"`'),
        ("`walkers[].avoids[]`", "traces", "`false`"),
        ("`walkers[].usual`", "dinner", "proposed"),
        ("`route`", "walk_from", '`"08:30"`'),
        ("`route`", "warm", '`"18 °C"`'),
        ("`kit`", "mug", '`"300 ml"`'),
        ("`kit.pots[]`", "volume", '`"900 ml"`'),
        ("`rules`", "day_window", '`"12 %"`'),
        ("`rules`", "hot_breakfast", "`true`"),
        ("`rules.times`", "lunch", '"12:30"'),
        ("`rules.weights`", "load", "`1`"),
    ],
)
def test_what_stands_if_a_key_is_left_out(heading: str, key: str, cell: str) -> None:
    """Against the defaults of the acceptance page, read by eye."""
    assert rows_under(heading)[key][3].strip() == cell


@each(
    ("table", "key", "value"),
    [
        (WalkerTable, "base_weight", 8.0),
        (WalkerTable, "age", None),
        (RouteTable, "start_height", 500.0),
        (KitTable, "mug", 300.0),
        (PotTable, "material", "titanium"),
        (RulesTable, "dinner_apart", 2),
        (WeightsTable, "price", 1.0),
        (TripTable, "from", None),
        (DayTable, "up", 0.0),
    ],
)
def test_a_default_is_that_of_the_value(table: type[Table], key: str, value: object) -> None:
    assert value_default(table, key) == value


@each(
    ("table", "key", "sample", "says"),
    [
        (WalkerTable, "base_weight", '"8 kg"', "Everything carried but food, fuel and water."),
        (WalkerTable, "age", "40", "Age in years. If left out: 40, with a wider range."),
        (KitTable, "mug", '"300 ml"', "Volume of a mug."),
        (RulesTable, "no_flame", "false", "A fire ban, or no stove wanted: nothing is heated."),
    ],
)  # fmt: skip
def test_a_hint_has_a_sample_and_says_what_it_is(
    table: type[Table], key: str, sample: str, says: str
) -> None:
    assert default_text(table, key) == (sample, says)


def test_the_page_is_plain_markdown() -> None:
    assert PAGE.startswith("# The trip file\n")
    assert "\t" not in PAGE
    assert not re.search(r"0x[0-9a-f]{6}|object at|<function", PAGE)
