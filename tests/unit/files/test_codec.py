"""Typed values to JSON and back: what is written, and what is refused with its path."""

from __future__ import annotations

import datetime as dt
import json
import random
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import pytest
from jsonschema import Draft202012Validator

from oatsack.files.codec import Misfits, decode, described, encode
from support.each import each
from support.typed import draw


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A small value."""

    name: str
    size_g: float = 1.0
    """How heavy [g]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """A value with every kind of field."""

    number: float
    whole: int
    flag: bool
    text: str
    sort: Literal["a", "b"]
    date: dt.date
    moment: dt.datetime
    maybe: float | None
    mixed: float | int | str
    spare: Literal["none", "meal"] | float | None
    pair: tuple[str, int]
    leaves: tuple[Leaf, ...]
    names: frozenset[str]
    by_name: Mapping[str, Leaf]
    by_day: Mapping[int, float]
    by_pair: Mapping[tuple[str, int], float]
    by_sort: Mapping[Literal["x", "y"], float]
    left: Leaf = field(default=Leaf(name="default"))


def tree(**changes: object) -> Tree:
    fields: dict[str, object] = {
        "number": 1.5, "whole": 3, "flag": True, "text": "t", "sort": "a",
        "date": dt.date(2026, 7, 2),
        "moment": dt.datetime(2026, 7, 2, 9, tzinfo=dt.timezone(dt.timedelta(hours=2))),
        "maybe": None, "mixed": 3, "spare": "meal", "pair": ("p", 1), "leaves": (Leaf(name="l"),),
        "names": frozenset({"b", "a"}), "by_name": {"k": Leaf(name="v")}, "by_day": {1: 1.0},
        "by_pair": {("oats", 2): 2.0}, "by_sort": {"x": 1.0},
    }  # fmt: skip
    return Tree(**(fields | changes))  # type: ignore[arg-type]


def as_json(value: Tree) -> str:
    return json.dumps(encode(value, Tree))


def misfits(changes: Mapping[str, object]) -> list[tuple[str, str]]:
    data = json.loads(as_json(tree())) | dict(changes)
    with pytest.raises(Misfits) as caught:
        decode(data, Tree)
    return [(one.path, one.wrong) for one in caught.value.found]


def test_each_kind_of_field_comes_back_as_it_was() -> None:
    value = tree()
    assert decode(json.loads(as_json(value)), Tree) == value


@each("seed", range(30))
def test_random_values_come_back_as_they_were(seed: int) -> None:
    value = draw(Tree, random.Random(seed))
    assert decode(json.loads(as_json(value)), Tree) == value


def test_equal_values_give_equal_json() -> None:
    one = tree(by_day={1: 1.0, 10: 2.0, 2: 3.0}, number=2, names=frozenset(["x", "y"]))
    two = tree(by_day={10: 2, 2: 3, 1: 1}, number=2.0, names=frozenset(["y", "x"]))
    assert one == two
    assert as_json(one) == as_json(two)


def test_nought_has_no_sign() -> None:
    assert as_json(tree(number=-0.0)) == as_json(tree(number=0.0))


def test_day_numbers_are_in_order_of_size() -> None:
    keys = list(encode(tree(by_day={10: 1.0, 2: 1.0, 1: 1.0}), Tree)["by_day"])
    assert keys == ["1", "2", "10"]


def test_a_whole_number_stays_whole_where_both_are_allowed() -> None:
    assert encode(tree(mixed=3), Tree)["mixed"] == 3
    assert isinstance(encode(tree(mixed=3), Tree)["mixed"], int)
    assert isinstance(encode(tree(mixed=3.0), Tree)["mixed"], float)


def test_a_tuple_key_is_joined_and_split_again() -> None:
    value = tree(by_pair={("a/b", 2): 1.0})
    assert list(encode(value, Tree)["by_pair"]) == ["a/b/2"]
    assert decode(encode(value, Tree), Tree) == value


@each("bad", [float("nan"), float("inf")])
def test_no_number_is_not_written(bad: float) -> None:
    with pytest.raises(ValueError, match="no number"):
        encode(tree(number=bad), Tree)


@each(
    ("name", "data", "wrong"),
    [
        ("number", True, "not a number"),
        ("number", "1.5", "not a number"),
        ("number", None, "not a number"),
        ("whole", 1.5, "not a whole number"),
        ("whole", True, "not a whole number"),
        ("flag", 1, "neither true nor false"),
        ("text", 5, "not a text"),
        ("sort", "c", "none of a, b"),
        ("date", "2026-02-30", "not a date"),
        ("moment", "noon", "not a date with a time"),
        ("maybe", "x", "not a number"),
        ("pair", ["p"], "not 2 items"),
        ("pair", "p", "not a list"),
        ("leaves", {}, "not a list"),
        ("by_name", [], "not an object"),
        ("by_day", {"one": 1.0}, "a key that is no whole number"),
        ("by_pair", {"oats": 1.0}, "not 2 parts"),
    ],
)
def test_a_value_of_another_kind_is_refused(name: str, data: object, wrong: str) -> None:
    found = misfits({name: data})
    assert [text for _, text in found] == [wrong]
    assert found[0][0].startswith(name)


def test_all_misfits_are_found_with_their_paths() -> None:
    found = misfits(
        {
            "number": "x",
            "leaves": [{"name": "a"}, {"name": 4, "size_g": "b"}, {"weight": 1}],
            "by_name": {"k": {"name": None}},
            "extra": 1,
        }
    )
    assert sorted(found) == [
        ("by_name.k.name", "not a text"),
        ("extra", "unknown key"),
        ("leaves[1].name", "not a text"),
        ("leaves[1].size_g", "not a number"),
        ("leaves[2].name", "is missing"),
        ("leaves[2].weight", "unknown key"),
        ("number", "not a number"),
    ]


def test_a_key_left_out_takes_its_default() -> None:
    data = json.loads(as_json(tree()))
    del data["left"]
    assert decode(data, Tree).left == Leaf(name="default")


def test_the_schema_takes_what_is_written_and_says_what_fields_are() -> None:
    schema = described(Tree, "A tree")
    Draft202012Validator.check_schema(schema)
    checker = Draft202012Validator(schema)
    checker.validate(json.loads(as_json(tree())))
    assert schema["$defs"]["Leaf"]["properties"]["size_g"]["description"] == "How heavy [g]."
    assert not checker.is_valid(json.loads(as_json(tree())) | {"whole": "3"})
    assert not checker.is_valid(json.loads(as_json(tree())) | {"more": 3})


def test_a_type_without_a_codec_is_a_programming_error() -> None:
    with pytest.raises(TypeError, match="no codec"):
        encode({1}, set[int])
