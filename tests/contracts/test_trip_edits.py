"""Every key of a trip file can be set, added and removed by an edit, and nothing else changes."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from oatsack.files.trip import edit_trip, parse_trip
from oatsack.files.trip.toml import with_seconds
from support.each import each
from support.tripfiles import Entry, all_entries, full_file

KEYS = list(all_entries())
EACH_KEY = pytest.mark.parametrize("entry", KEYS, ids=lambda entry: entry.path)


def value_of(entry: Entry) -> Any:
    return tomllib.loads(entry.text(entry.source))[entry.key]


def file_with(entry: Entry) -> tuple[list[str], Entry]:
    for by_track in (True, False):
        lines, entries = full_file(by_track=by_track)
        for found in entries:
            if found.path == entry.path:
                return lines, found
    raise AssertionError(entry.path)


def other_value(value: Any) -> Any:
    """Something else of the same shape."""
    if isinstance(value, list):
        return [*value, *value]
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return value + "x"
    return {"rice": 2} if isinstance(value, dict) else value + 1


@EACH_KEY
def test_setting_a_key_changes_its_line_only(entry: Entry) -> None:
    lines, entry = file_with(entry)
    text = "\n".join(lines) + "\n"
    new = edit_trip(text, {entry.path: other_value(value_of(entry))}).split("\n")
    assert len(new) == len(lines) + 1
    changed = [n + 1 for n, (a, b) in enumerate(zip(lines, new, strict=False)) if a != b]
    assert changed == [entry.line]


@pytest.mark.slow
@EACH_KEY
def test_a_comment_behind_a_value_stays(entry: Entry) -> None:
    lines, entry = file_with(entry)
    lines[entry.line - 1] += "  # a note"
    new = edit_trip("\n".join(lines), {entry.path: other_value(value_of(entry))}).split("\n")
    assert new[entry.line - 1].endswith("  # a note")


@pytest.mark.slow
@EACH_KEY
def test_removing_a_key_and_setting_it_again_gives_the_same_data(entry: Entry) -> None:
    lines, entry = file_with(entry)
    text = "\n".join(lines) + "\n"
    without = edit_trip(text, {entry.path: None})
    assert len(without.split("\n")) == len(lines)
    again = edit_trip(without, {entry.path: value_of(entry)})
    assert tomllib.loads(with_seconds(again)) == tomllib.loads(with_seconds(text))
    assert len(again.split("\n")) == len(lines) + 1


@pytest.mark.slow
@EACH_KEY
def test_a_list_grows_and_shrinks_by_items(entry: Entry) -> None:
    if not entry.many:
        return
    lines, entry = file_with(entry)
    text = "\n".join(lines) + "\n"
    more = edit_trip(text, {f"{entry.path}[1]": value_of(entry)[0]})
    assert more.split("\n")[entry.line - 1] == entry.text(f"{entry.source}, {entry.source}")
    assert edit_trip(more, {f"{entry.path}[1]": None}) == text
    assert edit_trip(more, {f"{entry.path}[0]": None}) == text


FOUR = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
[route]
usual_day = { distance = "16 km" }
"""


@each(
    "entry",
    [e for e in KEYS if e.section in ("", "walkers[]", "kit", "rules", "larder", "walkers[].usual",
                                      "route.usual_day", "rules.times", "rules.weights",
                                      "kit.stove")
     and e.path not in ("walkers[0].name",)],
    ids=lambda entry: entry.path,
)  # fmt: skip
def test_any_key_can_be_added_to_a_file_of_four_answers(entry: Entry) -> None:
    value = value_of(entry)
    new = edit_trip(FOUR, {entry.path: value})
    trip = parse_trip(new, "trip.toml")
    assert entry.path in trip.origins
    for line in FOUR.split("\n"):
        assert line in new or "usual_day" in line
    assert edit_trip(new, {entry.path: value}) == new


def test_the_last_of_some_dotted_keys_takes_its_table_with_it() -> None:
    text = '[[walkers]]\nmass = "68 kg"  # dry\nliking.couscous = 5\n\n[route]\nsnow = true\n'
    made = edit_trip(text, {"walkers[0].liking.couscous": None})
    assert made == text.replace("liking.couscous = 5\n", "")
    kept = edit_trip(text, {"walkers[0].liking.oats": 3, "walkers[0].liking.couscous": None})
    assert "liking.oats = 3" in kept and "couscous" not in kept
