"""Every flag that the source can raise has a sentence, and the sentence's fields are given."""

from __future__ import annotations

import ast
import re
import string
from functools import cache
from typing import NamedTuple

import pytest

from oatsack.reports.words import sentences
from support.source import SOURCE, modules, nodes

ALWAYS_GIVEN = {"walker", "day", "scope"}
"""Taken from the scope of the flag when its values do not hold them."""


ADDED_LATER = {"way-out.": {"mass_g"}}
"""What a way out would weigh is known only once it has been tried."""


class Raised(NamedTuple):
    """A place that makes a Flag: where, its key (``*`` for a part made at run time), its fields."""

    where: str
    key: str
    fields: frozenset[str] | None


@cache
def raised() -> list[Raised]:
    out = []
    for path in modules():
        for node in nodes(path):
            if isinstance(node, ast.Call) and name_of(node.func) == "Flag":
                where = f"{path.relative_to(SOURCE)}:{node.lineno}"
                given = {k.arg: k.value for k in node.keywords if k.arg}
                out += [
                    Raised(where, key, fields_of(given.get("values")))
                    for key in keys_of(given.get("key"))
                ]
    return out


def name_of(node: ast.expr) -> str:
    return node.id if isinstance(node, ast.Name) else getattr(node, "attr", "")


def keys_of(node: ast.expr | None) -> list[str]:
    match node:
        case ast.Constant(value=str(text)):
            return [text]
        case ast.JoinedStr(values=parts):
            return ["".join(p.value if isinstance(p, ast.Constant) else "*" for p in parts)]
        case ast.IfExp(body=one, orelse=other):
            return [*keys_of(one), *keys_of(other)]
    return []


def fields_of(node: ast.expr | None) -> frozenset[str] | None:
    if node is None:
        return frozenset()
    if isinstance(node, ast.Dict) and all(isinstance(k, ast.Constant) for k in node.keys):
        return frozenset(k.value for k in node.keys if isinstance(k, ast.Constant))
    if isinstance(node, ast.Call) and name_of(node.func) == "dict" and not node.args:
        return frozenset(k.arg for k in node.keywords if k.arg)
    return None


def matching(key: str) -> list[str]:
    pattern = re.compile("flags\\." + ".+".join(re.escape(part) for part in key.split("*")))
    return [name for name in sentences() if pattern.fullmatch(name)]


@pytest.mark.slow
def test_every_flag_of_the_source_has_a_sentence() -> None:
    assert [(r.where, r.key) for r in raised() if not matching(r.key)] == []


@pytest.mark.slow
def test_every_field_of_a_flags_sentence_is_among_its_values() -> None:
    missing = []
    for place in raised():
        if place.fields is None or "*" in place.key:
            continue  # several sentences share one call: which field is whose shows at run time
        for name in matching(place.key):
            wanted = {f for _, f, _, _ in string.Formatter().parse(sentences()[name]) if f}
            later = {
                f for start, of in ADDED_LATER.items() if place.key.startswith(start) for f in of
            }
            lacking = wanted - place.fields - ALWAYS_GIVEN - later
            if lacking:
                missing.append((place.where, place.key, sorted(lacking)))
    assert missing == []


def test_the_checker_finds_flags_at_all() -> None:
    assert keys_of(ast.parse("f'kitchen.{x}'", mode="eval").body) == ["kitchen.*"]
    assert keys_of(ast.parse("'a' if y else 'b'", mode="eval").body) == ["a", "b"]
    assert len(raised()) >= 1
