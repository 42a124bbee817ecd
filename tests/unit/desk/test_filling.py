"""Forms filled in: only what differs is changed, where it stands, with comments and order kept."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.desk.filling import SHORT, changes, renamed, shown, tidy
from oatsack.errors import UsageError
from oatsack.files.trip import edit_trip
from oatsack.files.trip.faults import fields_of, inner_table
from oatsack.files.trip.tables import TripTable
from support.each import each

TEXT = """# Two of us
from = 2027-06-12T09:00:00
to = "2027-06-15 15:00"  # before the last bus

[[walkers]]
mass = "68 kg"
avoids = "peanut"

[[walkers]]
name = "Bo"
mass = "70 kg"  # with boots off
age = 40

[walkers.usual]
breakfast = ["oats", # liked
    "granola"]

[route]
usual_day = { distance = "16 km", up = "700 m" }

[kit]
pots = ["900 ml", { volume = "2 l" }]
stove = "gas-open"

[rules]
holds = [{ food = "oats", walker = "Bo" }, { food = "granola" }]
"""
DATA = tomllib.loads(TEXT)


def written(sent: dict[str, str], text: str = TEXT) -> str:
    return edit_trip(text, changes(tomllib.loads(text), sent))


def read(sent: dict[str, str], text: str = TEXT) -> dict:
    return tomllib.loads(written(sent, text))


def test_what_stands_there_already_changes_nothing() -> None:
    same = {
        "from": "2027-06-12T09:00", "to": "2027-06-15 15:00", "walkers[0].mass": " 68 kg ",
        "walkers[0].avoids[0].allergen": "peanut", "walkers[0].avoids[0].scope": "",
        "walkers[0].avoids[1].allergen": "", "walkers[1].age": "40", "walkers[1].sex": "",
        "walkers[1].usual.breakfast": "oats\r\n\r\ngranola\r\n", "kit.pots[0].volume": "900 ml",
        "kit.pots[0].name": "", "kit.stove.kind": "gas-open", "rules.hot_breakfast": "",
        "route.usual_day.up": "700 m", "rules.times.dinner": "", "route.days[0].distance": "",
    }  # fmt: skip
    assert changes(DATA, same) == {}


def test_a_value_is_changed_where_it_stands_and_its_comment_stays() -> None:
    made = written({"walkers[1].mass": "71 kg", "to": "2027-06-15T16:00"})
    assert 'mass = "71 kg"  # with boots off' in made
    assert 'to = "2027-06-15 16:00"  # before the last bus' in made
    assert made.startswith("# Two of us\n")
    assert len(made.splitlines()) == len(TEXT.splitlines())


def test_numbers_and_yes_or_no_become_what_the_file_needs() -> None:
    made = read({"walkers[1].age": "41", "walkers[0].appetite": "1,2", "rules.hot_breakfast": "no",
                 "route.terrain": "dirt", "rules.dinner_apart": "3"})  # fmt: skip
    assert made["walkers"][1]["age"] == 41 and isinstance(made["walkers"][1]["age"], int)
    assert made["walkers"][0]["appetite"] == 1.2
    assert made["rules"]["hot_breakfast"] is False
    assert made["route"]["terrain"] == "dirt" and made["rules"]["dinner_apart"] == 3


def test_a_number_that_is_none_stays_a_text_to_be_complained_of() -> None:
    assert changes(DATA, {"walkers[1].age": "4o"}) == {"walkers[1].age": "4o"}
    assert changes(DATA, {"rules.no_flame": "perhaps"}) == {"rules.no_flame": "perhaps"}


def test_a_blank_takes_the_key_away() -> None:
    made = read({"walkers[1].age": "", "route.usual_day.up": " "})
    assert "age" not in made["walkers"][1]
    assert made["route"]["usual_day"] == {"distance": "16 km"}


def test_a_text_that_stands_for_a_table_becomes_one_only_when_more_is_said() -> None:
    assert read({"kit.stove.kind": "gas-canister"})["kit"]["stove"] == "gas-canister"
    assert read({"kit.stove.kind": "gas-open", "kit.stove.power": "1 kW"})["kit"]["stove"] == {
        "kind": "gas-open", "power": "1 kW"}  # fmt: skip
    assert read({"kit.pots[0].volume": "900 ml", "kit.pots[0].name": "big"})["kit"]["pots"] == [
        {"volume": "900 ml", "name": "big"}, {"volume": "2 l"}]  # fmt: skip


def test_a_lone_text_becomes_a_list_when_a_second_comes() -> None:
    sent = {"walkers[0].avoids[0].allergen": "peanut", "walkers[0].avoids[1].allergen": "milk",
            "walkers[0].avoids[1].scope": "pot"}  # fmt: skip
    assert read(sent)["walkers"][0]["avoids"] == ["peanut", {"allergen": "milk", "scope": "pot"}]


def test_rows_are_changed_added_and_taken_away_in_one_go() -> None:
    made = read({"kit.pots[0].gone": "yes", "kit.pots[0].volume": "900 ml",
                 "kit.pots[1].volume": "3 l", "kit.pots[2].volume": "5 l"})  # fmt: skip
    assert made["kit"]["pots"] == [{"volume": "3 l"}, "5 l"]


def test_a_row_left_blank_goes() -> None:
    assert read({"rules.holds[0].food": "", "rules.holds[0].walker": ""})["rules"]["holds"] == [
        {"food": "granola"}]  # fmt: skip


def test_a_row_behind_tables_with_headings_is_a_table_too() -> None:
    text = TEXT.replace('pots = ["900 ml", { volume = "2 l" }]\n', "") + (
        '\n[[kit.pots]]\nvolume = "1 l"\n')  # fmt: skip
    made = written({"kit.pots[0].volume": "1 l", "kit.pots[1].volume": "2 l"}, text)
    assert made.count("[[kit.pots]]") == 2
    assert tomllib.loads(made)["kit"]["pots"] == [{"volume": "1 l"}, {"volume": "2 l"}]


def test_a_new_walker_comes_whole() -> None:
    made = read({
        "walkers[2].name": "Cy", "walkers[2].mass": "60 kg", "walkers[2].age": "",
        "walkers[2].usual.lunch": "bread\ncheese", "walkers[2].avoids[0].allergen": "egg",
        "walkers[2].avoids[1].allergen": "", "walkers[2].hot_drinks": "2",
    })  # fmt: skip
    assert made["walkers"][2] == {
        "name": "Cy", "mass": "60 kg", "usual": {"lunch": ["bread", "cheese"]},
        "avoids": ["egg"], "hot_drinks": 2,
    }  # fmt: skip


def test_lines_keep_their_comments_when_one_changes_or_comes_behind() -> None:
    made = written({"walkers[1].usual.breakfast": "oats\nmuesli\nbread"})
    assert "# liked" in made
    assert tomllib.loads(made)["walkers"][1]["usual"]["breakfast"] == ["oats", "muesli", "bread"]


@given(
    before=st.lists(st.sampled_from("abcdef"), max_size=5),
    after=st.lists(st.sampled_from("abcdef"), max_size=6),
)
def test_any_lines_become_any_other_lines(before: list[str], after: list[str]) -> None:
    text = "[kit]\n" + (f"bottles = {before!r}\n".replace("'", '"') if before else "x = 1\n")
    made = tomllib.loads(edit_trip(text, changes(tomllib.loads(text), {
        "kit.bottles": "\n".join(after)})))  # fmt: skip
    assert made["kit"].get("bottles", []) == after


@given(
    gone=st.sets(st.integers(0, 3)), new=st.lists(st.sampled_from(["1 l", "2 l"]), max_size=2),
    first=st.sampled_from(["", "300 ml", "900 ml"]),
)  # fmt: skip
def test_any_rows_may_go_come_and_change_together(
    gone: set[int], new: list[str], first: str
) -> None:
    text = 'kit.pots = ["900 ml", {volume = "1 l", name = "b"}, "2 l", {volume = "3 l"}]\n'
    sent = {"kit.pots[0].volume": first, "kit.pots[1].name": "b", "kit.pots[1].volume": "1 l",
            "kit.pots[2].volume": "2 l", "kit.pots[3].volume": "3 l"}  # fmt: skip
    sent |= {f"kit.pots[{4 + n}].volume": volume for n, volume in enumerate(new)}
    sent |= {f"kit.pots[{n}].gone": "yes" for n in gone}
    rows = [first or None, {"volume": "1 l", "name": "b"}, "2 l", {"volume": "3 l"}]
    wanted = [row for n, row in enumerate(rows) if n not in gone and row] + new
    made = tomllib.loads(edit_trip(text, changes(tomllib.loads(text), sent)))
    assert made["kit"]["pots"] == wanted


@each("name", [
    "walkers", "walkers[0]", "walkers[0].nothing", "nothing", "route.usual_day", "from.x",
    "kit.pots.volume", "kit.pots[0].name.x", "kit.pots[0][1]", "__class__", "..", "",
])  # fmt: skip
def test_a_name_that_is_no_field_of_a_trip_is_refused(name: str) -> None:
    with pytest.raises(UsageError):
        changes(DATA, {name: "x"})


def test_the_short_forms_are_those_that_the_tables_take() -> None:
    wrong = []
    for table in [TripTable, *_inner_tables(TripTable)]:
        for key, info in fields_of(table).items():
            inner = inner_table(info.annotation)
            if inner is None:
                continue
            takes = any("short_for" in repr(part) for part in _parts(info))
            if takes != (key in SHORT):
                wrong.append(f"{table.__name__}.{key}")
            if takes and SHORT[key] not in fields_of(inner):
                wrong.append(f"{key} -> {SHORT[key]}")
    assert wrong == []


def _inner_tables(table) -> list:
    found = []
    for info in fields_of(table).values():
        inner = inner_table(info.annotation)
        if inner is not None:
            found += [inner, *_inner_tables(inner)]
    return found


def _parts(info):
    yield from info.metadata
    stack = [info.annotation]
    while stack:
        part = stack.pop()
        yield from getattr(part, "__metadata__", ())
        stack += getattr(part, "__args__", ())


def test_who_is_named_elsewhere_is_renamed_and_goes_with_the_walker() -> None:
    data = tomllib.loads(TEXT) | {"kit": {"containers": [{"carrier": "bo"}, {"name": "x"}]}}
    assert renamed(data, "Bo", "Beo") == {
        "rules.holds[0].walker": "Beo", "kit.containers[0].carrier": "Beo"}  # fmt: skip
    assert renamed(data, "Bo", None) == {
        "rules.holds[0]": None, "kit.containers[0].carrier": None}  # fmt: skip
    assert renamed(data, "Nobody", "X") == {}


def test_values_are_shown_as_they_are_typed() -> None:
    values = (DATA["from"], DATA["walkers"] != [], 1.5, 2, None)
    assert [shown(value) for value in values] == ["2027-06-12 09:00", "yes", "1.5", "2", ""]
    assert tidy(" 2027-06-12T09:00:00 ") == "2027-06-12 09:00"
    assert tidy("T-bone") == "T-bone"
