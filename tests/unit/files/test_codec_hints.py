"""Looking at type hints, and describing a type as a JSON Schema."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

import pytest
from jsonschema import Draft202012Validator

from oatsack.files.codec import Misfit, Misfits, decode, described, encode
from oatsack.files.codec.describing import field_texts
from oatsack.files.codec.hints import (
    args_of,
    hints_of,
    is_fields,
    is_literal,
    is_mapping,
    is_optional,
    is_union,
    members,
    needed_of,
)
from support.each import each


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part."""

    size_m: float
    """How long
    it is [m]."""
    name: str = "part"


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """A whole
    of parts.
    """

    parts: tuple[Part, ...]
    best: Part | None = None
    """The best of them."""
    sort: Literal["a", "b"] = "a"
    tags: frozenset[str] = frozenset()
    pairs: tuple[tuple[float, int], ...] = ()
    by_name: Mapping[str, Part] = field(default_factory=dict)
    day: dt.date | None = None
    worst: Part | None = None


SCHEMA = described(Whole, "A whole")
DEFINITION = SCHEMA["$defs"]["Whole"]["properties"]


@each(
    ("hint", "union", "optional", "count"),
    [
        (float, False, False, 0),
        (float | None, True, True, 1),
        (float | int | str, True, False, 3),
        (Literal["a"] | float | None, True, True, 2),
        (tuple[int, ...], False, False, 2),
    ],
)
def test_unions_and_what_may_be_absent(hint: Any, union: bool, optional: bool, count: int) -> None:
    assert (is_union(hint), is_optional(hint)) == (union, optional)
    if union:
        assert len(members(hint)) == count
        assert type(None) not in members(hint)


def test_whole_numbers_come_before_floats_which_would_take_them() -> None:
    assert members(float | int | str)[-1] is float
    assert decode(3, float | int) == 3
    assert isinstance(decode(3, float | int), int)
    assert isinstance(decode(3.0, float | int), float)


@each(
    ("hint", "literal", "mapping", "fields"),
    [
        (Literal["a", "b"], True, False, False),
        (Mapping[str, int], False, True, False),
        (dict[str, int], False, True, False),
        (Part, False, False, True),
        (Part(size_m=1.0), False, False, False),
        (str, False, False, False),
        (tuple[int, int], False, False, False),
    ],
)
def test_sorts_of_hints(hint: Any, literal: bool, mapping: bool, fields: bool) -> None:
    assert (is_literal(hint), is_mapping(hint), is_fields(hint)) == (literal, mapping, fields)


def test_hints_of_a_class_are_resolved_and_in_order() -> None:
    assert list(hints_of(Whole)) == [one.name for one in dataclasses.fields(Whole)]
    assert hints_of(Whole)["worst"] == Part | None
    assert args_of(hints_of(Whole)["parts"])[0] is Part


def test_needed_fields_have_no_default() -> None:
    assert needed_of(Whole) == {"parts"}
    assert needed_of(Part) == {"size_m"}


# ---------------------------------------------------------------------------------- the schema


def test_the_schema_is_one_and_names_its_draft() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"].endswith("2020-12/schema")
    assert (SCHEMA["title"], SCHEMA["$ref"]) == ("A whole", "#/$defs/Whole")
    assert list(SCHEMA["$defs"]) == ["Part", "Whole"]


def test_classes_and_fields_are_described_by_their_own_words() -> None:
    assert SCHEMA["$defs"]["Whole"]["description"] == "A whole\nof parts."
    assert SCHEMA["$defs"]["Part"]["properties"]["size_m"]["description"] == "How long it is [m]."
    assert DEFINITION["best"]["description"] == "The best of them."
    assert "description" not in DEFINITION["sort"]


@each(
    ("name", "expected"),
    [
        ("parts", {"type": "array", "items": {"$ref": "#/$defs/Part"}}),
        ("sort", {"enum": ["a", "b"]}),
        ("tags", {"type": "array", "items": {"type": "string"}, "uniqueItems": True}),
        ("by_name", {"type": "object", "additionalProperties": {"$ref": "#/$defs/Part"}}),
        ("day", {"anyOf": [{"type": "string", "format": "date"}, {"type": "null"}]}),
        ("worst", {"anyOf": [{"$ref": "#/$defs/Part"}, {"type": "null"}]}),
    ],
)
def test_each_kind_of_field_is_described(name: str, expected: dict[str, Any]) -> None:
    assert DEFINITION[name] == expected


def test_a_pair_has_its_two_items_and_no_more() -> None:
    pair = DEFINITION["pairs"]["items"]
    assert pair["prefixItems"] == [{"type": "number"}, {"type": "integer"}]
    assert pair["items"] is False
    assert pair["minItems"] == 2


def test_only_fields_without_default_are_required() -> None:
    assert SCHEMA["$defs"]["Whole"]["required"] == ["parts"]
    assert SCHEMA["$defs"]["Whole"]["additionalProperties"] is False


@each(
    ("data", "fits"),
    [
        ({"parts": []}, True),
        ({"parts": [{"size_m": 1}]}, True),
        ({"parts": [{"size_m": 1.5, "name": "x"}], "worst": {"size_m": 2}}, True),
        ({"parts": [{"size_m": "1"}]}, False),
        ({"parts": [{"name": "x"}]}, False),
        ({}, False),
        ({"parts": [], "more": 1}, False),
        ({"parts": [], "sort": "c"}, False),
        ({"parts": [], "tags": ["a", 1]}, False),
        ({"parts": [], "pairs": [[1.5, 2]]}, True),
        ({"parts": [], "pairs": [[1.5]]}, False),
        ({"parts": [], "pairs": [[1.5, 2, 3]]}, False),
        ({"parts": [], "pairs": [[1.5, 2.5]]}, False),
        ({"parts": [], "by_name": {"k": {"size_m": 1}}}, True),
        ({"parts": [], "by_name": {"k": 1}}, False),
        ({"parts": [], "best": None}, True),
        ({"parts": [], "best": 3}, False),
        ({"parts": [], "worst": {"size_m": None}}, False),
    ],
)
def test_the_schema_and_the_reader_agree(data: dict[str, Any], fits: bool) -> None:
    """Two ways of saying what fits: the description, and the code that reads."""
    assert Draft202012Validator(SCHEMA).is_valid(data) is fits
    if fits:
        value = decode(data, Whole)
        assert decode(json.loads(json.dumps(encode(value, Whole))), Whole) == value
    else:
        with pytest.raises(Misfits):
            decode(data, Whole)


def test_texts_under_fields_are_found_in_the_source() -> None:
    assert field_texts(Part) == {"size_m": "How long it is [m]."}


# ------------------------------------------------------------------------------------ misfits


@each(
    ("path", "step", "expected"),
    [
        ("", "a", "a"),
        ("b", "a", "a.b"),
        ("[0]", "a", "a[0]"),
        ("b", "[3]", "[3].b"),
        ("[1].b", "[3]", "[3][1].b"),
    ],
)
def test_a_misfit_is_seen_from_one_level_above(path: str, step: str, expected: str) -> None:
    assert Misfit("wrong", 1, path).below(step).path == expected


def test_misfits_say_what_they_found() -> None:
    with pytest.raises(Misfits) as caught:
        decode({"parts": [{"size_m": "x"}, {"size_m": True}]}, Whole)
    assert str(caught.value) == (
        "parts[0].size_m: not a number, got 'x'; parts[1].size_m: not a number, got True"
    )


@each("data", [3, "x", None, [], True])
def test_what_is_no_object_is_one_misfit(data: Any) -> None:
    with pytest.raises(Misfits) as caught:
        decode(data, Whole)
    assert [(one.path, one.wrong) for one in caught.value.found] == [("", "not an object")]


@each("hint", [list[int], set[str], bytes, complex])
def test_hints_without_a_codec_are_refused(hint: Any) -> None:
    for use in (lambda: encode(None, hint), lambda: decode(None, hint)):
        with pytest.raises((TypeError, AttributeError)):
            use()
