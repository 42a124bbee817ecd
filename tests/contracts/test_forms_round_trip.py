"""A file with every key, shown as forms and sent back: nothing changes, or one value and no other.

The files are made from the tables themselves (`support.tripfiles`), so that a key added there is
tried here too. Nothing is planned; what is tried is the way from file to field and back.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator
from typing import Any

import pytest

from oatsack.desk import filling
from oatsack.errors import Fault
from oatsack.files.trip import edit_trip
from oatsack.files.trip.toml import with_seconds
from oatsack.web import form_specs, form_view
from oatsack.web.form_view import Field, Filled, Group
from support.amount import some
from support.tripfiles import full_file

PARTS = {
    "walkers/0": form_specs.walker(0), "form/kit": form_specs.kit(),
    "form/rules": form_specs.rules(), "form/days": form_specs.days(1, track=True),
}  # fmt: skip


def texts() -> Iterator[str]:
    """Both files with every key that may stand together, with comments at each line."""
    for by_track in (True, False):
        lines, _ = full_file(by_track=by_track)
        yield "\n".join(f"{line}  # note {n}" if line else "" for n, line in enumerate(lines))


def data_of(text: str) -> dict[str, Any]:
    return tomllib.loads(with_seconds(text))


def fields_of(groups: Iterable[Group]) -> list[Field]:
    return [one for g in groups for one in (*g.fields, *(f for r in g.rows for f in r.fields))]


def sent_of(groups: Iterable[Group]) -> dict[str, str]:
    """What a browser sends of a form that nobody touched."""
    return {one.name: one.value for one in fields_of(groups)}


def test_every_form_of_a_full_file_comes_back_without_a_change() -> None:
    wrong = []
    for text in texts():
        for name, parts in PARTS.items():
            sent = sent_of(form_view.groups(parts, Filled(data=data_of(text))))
            if found := filling.changes(data_of(text), sent):
                wrong.append((name, found))
    assert wrong == []


@pytest.mark.slow
def test_each_field_alone_is_changed_and_every_comment_elsewhere_stays() -> None:
    wrong = []
    for text in texts():
        data = data_of(text)
        for parts in PARTS.values():
            sent = sent_of(form_view.groups(parts, Filled(data=data)))
            for name in some(name for name, value in sent.items() if value):
                made = edit_trip(text, filling.changes(data, sent | {name: "changed"}))
                before, after = text.splitlines(), made.splitlines()
                other = [a for a, b in zip(before, after, strict=False) if a != b]
                if len(after) != len(before) or len(other) != 1 or "changed" not in made:
                    wrong.append((name, other))
    assert wrong == []


@pytest.mark.slow
def test_each_field_alone_is_taken_away_and_nothing_else() -> None:
    wrong = []
    for text in texts():
        data = data_of(text)
        for parts in PARTS.values():
            sent = sent_of(form_view.groups(parts, Filled(data=data)))
            for name in some(name for name, value in sent.items() if value):
                changes = filling.changes(data, sent | {name: ""})
                made = data_of(edit_trip(text, changes))
                if flat(made) != without(flat(data), name):
                    wrong.append((name, changes))
    assert wrong == []


def without(values: dict[str, Any], name: str) -> dict[str, Any]:
    """The values but those at a path, or below it."""
    gone = (f"{name}[", f"{name}.")
    return {k: v for k, v in values.items() if k != name and not k.startswith(gone)}


def flat(value: Any, path: str = "") -> dict[str, Any]:
    """Every plain value by its path; empty tables and lists are nothing."""
    if isinstance(value, dict):
        return {k: v for key, one in value.items()
                for k, v in flat(one, f"{path}.{key}" if path else key).items()}  # fmt: skip
    if isinstance(value, list):
        return {k: v for n, one in enumerate(value) for k, v in flat(one, f"{path}[{n}]").items()}
    return {path: value}


def test_every_field_has_a_label_of_its_own_and_says_what_it_is() -> None:
    bare, twice = [], []
    for text in texts():
        for name, parts in PARTS.items():
            groups = form_view.groups(parts, Filled(data=data_of(text)))
            fields = fields_of(groups)
            bare += [f.name for f in fields if not f.label or "_" in f.label]
            first = [f for g in groups for f in (*g.fields, *(r.fields for r in g.rows[:1]))]
            bare += [f.name for f in first if isinstance(f, Field) and not f.hint]
            ids = [f.id for f in fields]
            twice += [(name, one) for one in ids if ids.count(one) > 1]
    assert bare == [] and twice == []


def test_labels_within_one_group_differ() -> None:
    same = []
    for text in texts():
        for parts in PARTS.values():
            for g in form_view.groups(parts, Filled(data=data_of(text))):
                for row in [g.fields, *(r.fields for r in g.rows)]:
                    labels = [f.label for f in row]
                    same += [(g.title, one) for one in labels if labels.count(one) > 1]
    assert same == []


def fault(path: str) -> Fault:
    return Fault(file="t", path=path, wrong="is wrong", read='"x"', instead="write y")


def test_a_fault_of_any_field_or_of_what_is_in_it_stands_beside_it_alone() -> None:
    wrong = []
    for text in texts():
        data = data_of(text)
        for parts in PARTS.values():
            names = list(sent_of(form_view.groups(parts, Filled(data=data))))
            for inner in ("", "[0]", "[3].deep"):
                filled = Filled(data=data, faults=[fault(f"{name}{inner}") for name in names])
                shown = form_view.groups(parts, filled)
                beside = {one.name: len(one.faults) for one in form_view.faulty(shown)}
                if beside != dict.fromkeys(names, 1) or form_view.unplaced(shown, filled):
                    wrong.append((inner, beside))
    assert wrong == []


def test_a_fault_that_no_field_shows_is_told_above() -> None:
    filled = Filled(data=data_of(next(texts())), faults=[fault("walkers[0].mass")])
    shown = form_view.groups(form_specs.kit(), filled)
    assert form_view.faulty(shown) == ()
    assert form_view.unplaced(shown, filled) == (
        "walkers[0].mass: Is wrong; read: x. Write y",
    )


def test_a_fault_of_a_whole_row_stands_beside_the_first_of_it() -> None:
    data = {"kit": {"pots": ["900 ml", "x"]}}
    filled = Filled(data=data, faults=[fault("kit.pots[1]")])
    shown = form_view.groups(form_specs.kit(), filled)
    assert [one.name for one in form_view.faulty(shown)] == ["kit.pots[1].name"]


def test_what_was_sent_stands_over_what_the_file_says() -> None:
    sent = {"kit.mug": "odd", "kit.pots[4].volume": "2 l", "kit.bottles": "1 l\n2 l"}
    shown = form_view.groups(form_specs.kit(), Filled(data={"kit": {"mug": "1 l"}}, sent=sent))
    values = sent_of(shown)
    assert [values[name] for name in sent] == list(sent.values())


def test_a_bare_text_is_shown_in_the_field_that_it_stands_for() -> None:
    data = {"kit": {"stove": "gas-open", "pots": "900 ml"}, "walkers": [{"avoids": "milk"}],
            "rules": {"bans": ["oats", {"food": "granola"}]}}  # fmt: skip
    values: dict[str, str] = {}
    for parts in PARTS.values():
        values |= sent_of(form_view.groups(parts, Filled(data=data)))
    wanted = {"kit.stove.kind": "gas-open", "kit.pots[0].volume": "900 ml",
              "walkers[0].avoids[0].allergen": "milk", "rules.bans[0].food": "oats",
              "rules.bans[1].food": "granola"}  # fmt: skip
    assert {name: values[name] for name in wanted} == wanted


def test_a_choice_offers_every_word_the_blank_and_what_stands_there() -> None:
    data = {"kit": {"stove": {"kind": "home-made"}, "treatment": "boil"}}
    fields = {f.name: f for f in fields_of(form_view.groups(form_specs.kit(), Filled(data=data)))}
    words = [word for word, _ in fields["kit.stove.kind"].options]
    assert words[0] == "" and "gas-open" in words and words[-1] == "home-made"
    assert "none" in words
    ticked = {f.name: f for f in fields_of(form_view.groups(
        form_specs.days(1, track=False), Filled(data={"places": [{"sells": ["kiosk"]}]})))}
    assert ticked["places[0].sells"].sort == "checks"
    assert ticked["places[0].sells"].value == "kiosk"


def test_walkers_and_foods_are_offered_by_name_where_one_is_asked_for() -> None:
    filled = Filled(data={}, walkers=("Ida",), offers={"": (("oats", "Rolled oats"),),
                                                       "lunch": (("bread", "Bread"),)})  # fmt: skip
    rules = {f.name: f for f in fields_of(form_view.groups(form_specs.rules(), filled))}
    assert ("Ida", "Ida") in rules["rules.bans[0].walker"].options
    assert rules["rules.bans[0].food"].sort == "listed"
    assert filled.foods == ("Rolled oats",)
    walker = {f.name: f for f in fields_of(form_view.groups(form_specs.walker(0), filled))}
    assert walker["walkers[0].usual.lunch"].offers == (("bread", "Bread"),)
    assert walker["walkers[0].usual.dinner"].offers == ()


def test_days_bear_their_numbers_and_rows_their_names() -> None:
    data = {"route": {"days": [{"distance": "3 km"}]},
            "kit": {"pots": [{"name": "kettle"}, "1 l"]}}  # fmt: skip
    rows = [row.title for g in form_view.groups(form_specs.days(2, track=False), Filled(data=data))
            if g.when == "days" for row in g.rows]  # fmt: skip
    assert rows == ["Day 1", "Day 2", "Day 3"]
    pots = form_view.groups(form_specs.kit(), Filled(data=data))[0]
    assert [row.title for row in pots.rows] == ["kettle", "No. 2", "One more"]
    assert [bool(row.gone) for row in pots.rows] == [True, True, False]


def test_the_way_is_told_from_the_file_and_the_others_go() -> None:
    cases = {"usual": {"usual_day": {}}, "days": {"days": []}, "track": {"track": "a", "cuts": []}}
    assert {way: form_specs.way_of(route) for way, route in cases.items()} == dict(
        zip(cases, cases, strict=True))
    assert form_specs.way_of({}) == form_specs.way_of("x") == "usual"
    route = {"track": "a", "camps": [], "days": [], "usual_day": {}, "speed": "x"}
    assert set(form_specs.others("days", route)) == {
        "route.track", "route.camps", "route.usual_day"}
    assert list(form_specs.others("track", {"track": "a"})) == []
