"""Every value of a plan file, spoilt, is reported with its own path; all of them in one run."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import pytest

from oatsack.errors import PlanFileError
from oatsack.files.planfile import dump, load
from support.amount import some
from support.each import each
from support.typed import drawn_plan

Steps = tuple[str | int, ...]


def tree(seed: int) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(dump(drawn_plan(seed, texts=("anna", "ben", "trail-mix"))))
    return data


def leaves(value: Any, path: Steps = ()) -> Iterator[tuple[Steps, Any]]:
    """Every number, text, truth and null with its steps."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield from leaves(item, (*path, key))
    elif isinstance(value, list):
        for number, item in enumerate(value):
            yield from leaves(item, (*path, number))
    else:
        yield path, value


def said(path: Steps) -> str:
    """The path as a fault says it."""
    out = ""
    for step in path:
        out += f"[{step}]" if isinstance(step, int) else f".{step}" if out else step
    return out


def put(data: Any, path: Steps, value: Any) -> None:
    for step in path[:-1]:
        data = data[step]
    data[path[-1]] = value


def faults(data: dict[str, Any]) -> list[tuple[str, str, str]]:
    with pytest.raises(PlanFileError) as caught:
        load(json.dumps(data).encode())
    return [(fault.path, fault.wrong, fault.read) for fault in caught.value.faults]


@each("seed", some(range(3)))
def test_each_spoilt_value_is_found_alone(seed: int) -> None:
    data = tree(seed)
    every = [path for path, value in leaves(data) if path != ("format",) and value is not None]
    for path in every[:: max(1, len(every) // 60)]:
        spoilt = copy.deepcopy(data)
        put(spoilt, path, {"no": "value"})
        ((where, wrong, read),) = faults(spoilt)
        assert where == said(path)
        assert wrong
        assert read == '{"no": "value"}'


@each("seed", some(range(8)))
def test_all_spoilt_values_are_found_in_one_run(seed: int) -> None:
    data = tree(seed)
    every = [path for path, value in leaves(data) if path != ("format",) and value is not None]
    assert len(every) > 300
    for path in every:
        put(data, path, {"no": "value"})
    assert sorted(where for where, _, _ in faults(data)) == sorted(said(path) for path in every)


@each("seed", some(range(3)))
def test_a_number_written_as_a_text_is_refused(seed: int) -> None:
    data = tree(seed)
    numbers = [
        path
        for path, value in leaves(data)
        if isinstance(value, float) and "flags" not in path and path[0] != "assumptions"
    ]
    for path in numbers:
        put(data, path, "12.5")
    found = {where for where, _, _ in faults(data)}
    # values of flags and assumptions may be words, and spare food may be a word
    assert {said(path) for path in numbers} - found <= {"trip.rules.spare"}
    assert found <= {said(path) for path in numbers}


@each("seed", some(range(3)))
def test_true_is_no_number(seed: int) -> None:
    data = tree(seed)
    numbers = [
        path
        for path, value in leaves(data)
        if isinstance(value, int | float) and not isinstance(value, bool) and path != ("format",)
    ]
    for path in numbers:
        put(data, path, json.loads("true"))
    assert {where for where, _, _ in faults(data)} == {said(path) for path in numbers}


@pytest.mark.slow
@each(
    "path",
    [(), ("trip",), ("trip", "kit"), ("trip", "rules"), ("trip", "route"), ("trip", "walkers", 0),
     ("menu",), ("menu", "portions", 0), ("kitchen",), ("packed",), ("totals",), ("made",)],
    ids=said,
)  # fmt: skip
def test_an_unknown_key_is_found_in_every_part(path: Steps) -> None:
    data = tree(1)
    put(data, (*path, "surplus"), 1)
    assert faults(data) == [(said((*path, "surplus")), "unknown key", '"surplus"')]


@pytest.mark.slow
@each("key", ["trip", "foods", "days", "menu", "packed", "totals", "made"])
def test_a_missing_part_is_found(key: str) -> None:
    data = tree(1)
    del data[key]
    assert faults(data) == [(key, "is missing", "nothing")]


@each("cut", [1, 10, 100, 1000, -2])
def test_a_plan_cut_short_is_not_json(cut: int) -> None:
    data = dump(drawn_plan(1))[:cut]
    with pytest.raises(PlanFileError) as caught:
        load(data)
    (fault,) = caught.value.faults
    assert fault.wrong == "not JSON"
    assert fault.line >= 1
