"""The trip file's tables and the frozen values fit: every field has its key, and one default."""

from __future__ import annotations

import dataclasses
import re

from oatsack.files.trip import parse_trip
from oatsack.files.trip.faults import fields_of
from oatsack.files.trip.reference import sections, value_default
from oatsack.files.trip.tables import Table, TripTable
from oatsack.files.trip.tables.kit import CanTable
from oatsack.files.trip.tables.rules import RulesTable, WeightsTable
from oatsack.files.trip.tables.walker import UsualTable
from oatsack.values.dog import Dog
from oatsack.values.kit import FuelCan
from oatsack.values.pack import Place
from oatsack.values.trip import Hold, Rules, Trip
from oatsack.values.walker import Usual, Walker
from support.each import each
from support.tripfiles import Entry, full_file

TABLES = {table for _, table in sections()}

MADE_ELSEWHERE: dict[type, set[str]] = {
    Walker: {"id", "own_pace"},  # from the name; from a recorded track
    Dog: {"id"},  # from the name
    Place: {"day", "leg"},  # from the route
    Trip: {"larders", "stock", "defaults", "origins"},  # [larder], and what is read
    Rules: {"meal_clock_min", "currency", "weight_kgdays", "weight_liking", "weight_price"},
}
"""Fields that no key of their own table fills, with the reason."""


MAKERS = sorted((table for table in TABLES if table.MAKES), key=lambda table: table.__name__)


@each("table", MAKERS, ids=lambda table: table.__name__)
def test_every_field_of_a_value_has_its_key(table: type[Table]) -> None:
    assert table.MAKES is not None
    if table is WeightsTable:
        return  # a part of the rules
    fields = {field.name for field in dataclasses.fields(table.MAKES)}
    assert fields - set(table.model_fields) == MADE_ELSEWHERE.get(table.MAKES, set())


def test_every_other_table_fills_the_fields_it_should() -> None:
    assert set(CanTable.model_fields) == {f.name for f in dataclasses.fields(FuelCan)}
    assert set(UsualTable.model_fields) == {
        "breakfast", "lunch", "move", "dinner", "drinks", "bags", "counts",
    }  # fmt: skip
    assert {f.name for f in dataclasses.fields(Usual)} == {"meals", "bags", "counts"}
    assert {f.name for f in dataclasses.fields(Hold)} == {"food", "walker", "date", "meal", "count"}
    assert {"times", "weights", "bans"} <= set(RulesTable.model_fields)


def test_every_key_says_what_it_is_in_one_sentence() -> None:
    for path, table in sections():
        assert table.__doc__, path
        for key, info in fields_of(table).items():
            text = str(info.description)
            assert text.endswith("."), f"{path}.{key}"
            assert len(text) <= 100, f"{path}.{key}"


def test_keys_are_plain_words() -> None:
    for path, table in sections():
        for key in fields_of(table):
            assert re.fullmatch(r"[a-z]+(_[a-z]+)*", key), f"{path}.{key}"


def shown_defaults(*, by_track: bool) -> tuple[str, str]:
    """A full file with only what must be given, and the same with every shown default written."""
    lines, entries = full_file(by_track=by_track)
    plain, explicit = [*lines], [*lines]
    for entry in entries:
        source = _default_source(entry)
        plain[entry.line - 1] = lines[entry.line - 1] if _must_stay(entry) else ""
        explicit[entry.line - 1] = plain[entry.line - 1] or (entry.text(source) if source else "")
    return "\n".join(plain), "\n".join(explicit)


def _must_stay(entry: Entry) -> bool:
    return entry.needed or entry.path in {"route.track", "route.usual_day.distance",
                                          "route.days[0].distance"}  # fmt: skip


def _default_source(entry: Entry) -> str:
    table = dict(sections())[entry.section]
    value = value_default(table, entry.key)
    if value is None or value == "" or isinstance(value, tuple | frozenset) or entry.many:
        return ""
    return entry.kind.show(value) if isinstance(value, str | int | float) else ""


@each("by_track", [True, False], ids=["track", "hand"])
def test_writing_every_shown_default_changes_nothing(by_track: bool) -> None:
    """Defaults said in the reference and the hints are those that stand.

    `up` is left out: writing "0 m" is an answer, and down follows it either way.
    """
    plain, explicit = shown_defaults(by_track=by_track)
    assert explicit.count(" = ") > plain.count(" = ") + 25
    one, two = parse_trip(plain, "t.toml"), parse_trip(explicit, "t.toml")
    assert (
        dataclasses.replace(two, defaults=one.defaults, origins=one.origins, units=one.units) == one
    )
    assert len(two.defaults) < len(one.defaults)


def test_every_default_is_a_key_of_the_file() -> None:
    plain, _ = shown_defaults(by_track=False)
    known = {path.replace("[]", ""): table for path, table in sections()}
    for path in parse_trip(plain, "t.toml").defaults:
        table, _, key = re.sub(r"\[\d+\]", "", path).rpartition(".")
        assert table in known, path
        assert key in fields_of(known[table]), path


def test_defaults_and_origins_share_no_value() -> None:
    lines, _ = full_file(by_track=False)
    trip = parse_trip("\n".join(lines), "t.toml")
    assert trip.defaults.isdisjoint(trip.origins)
    assert all(file == "t.toml" and line > 0 for file, line in trip.origins.values())


def test_the_four_answers_are_all_that_must_be_given_at_the_top() -> None:
    must = {key for key, info in fields_of(TripTable).items() if info.is_required()}
    assert must == {"from", "to", "walkers", "route"}
