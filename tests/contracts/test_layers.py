"""Imports point down only, subjects never import each other, and nothing goes in a circle."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest

from support.source import SOURCE, modules, nodes

GROUND = {"values", "units", "errors", "cite", "version"}
SUBJECTS = {"route", "walker", "larder", "kitchen", "menu", "packing", "trail"}
FLOW = {"provision", "replan", "why"}
ADAPTERS = {"solve", "files", "store", "charts", "reports"}
LEVEL = (
    dict.fromkeys(GROUND, 0)
    | dict.fromkeys(SUBJECTS, 1)
    | dict.fromkeys(FLOW, 2)
    | dict.fromkeys(ADAPTERS, 3)
    | {"desk": 4, "web": 5, "cli": 5, "__main__": 6, "__init__": 6}
)
PURE_MAY_IMPORT = {"numpy"}
ADAPTER_PAIRS = {("reports", "charts")}
DOOR_PAIRS = {("cli", "web")}
"""`oatsack serve` opens the other door; nothing else of the command line knows it."""
FLOW_PAIRS = {("why", "provision"), ("replan", "provision")}
"""Opening a number counts it again, and re-planning provisions again."""


def part_of(path: Path) -> str:
    first = path.relative_to(SOURCE).parts[0]
    return first.removesuffix(".py")


@cache
def imports_of(path: Path) -> list[tuple[int, str]]:
    """Every imported module with its line, also inside functions and under TYPE_CHECKING."""
    found: list[tuple[int, str]] = []
    for node in nodes(path):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno}: relative import"
            module = node.module or ""
            for alias in node.names:
                inner = f"{module}.{alias.name}"
                found.append((node.lineno, inner if is_module(inner) else module))
    return found


@cache
def is_module(name: str) -> bool:
    """Whether a dotted name is a module of ours, not something inside one."""
    parts = name.split(".")
    if parts[0] != "oatsack" or len(parts) < 2:
        return False
    stem = SOURCE.joinpath(*parts[1:])
    return stem.with_suffix(".py").is_file() or (stem / "__init__.py").is_file()


def breaches(path: Path) -> list[str]:
    here = part_of(path)
    out = []
    for line, name in imports_of(path):
        parts = name.split(".")
        if parts[0] != "oatsack" or len(parts) < 2 or parts[1] not in LEVEL:
            continue
        there = parts[1]
        if there == here or (here, there) in ADAPTER_PAIRS | FLOW_PAIRS | DOOR_PAIRS:
            continue
        if LEVEL[there] >= LEVEL[here] and not (here in GROUND and there in GROUND):
            out.append(f"{path.relative_to(SOURCE)}:{line}: {here} imports {there}")
    return out


@pytest.mark.slow
def test_imports_point_down_only() -> None:
    wrong = [text for path in modules() for text in breaches(path)]
    assert wrong == []


def test_every_part_has_a_level() -> None:
    parts = {part_of(path) for path in modules()}
    assert parts - set(LEVEL) == set()


def test_ground_subjects_and_flow_import_only_the_standard_library_and_numpy() -> None:
    import sys

    wrong = []
    for path in modules():
        if part_of(path) in GROUND | SUBJECTS | FLOW:
            for line, name in imports_of(path):
                top = name.split(".")[0]
                if top not in sys.stdlib_module_names | PURE_MAY_IMPORT | {"oatsack"}:
                    wrong.append(f"{path.relative_to(SOURCE)}:{line}: {name}")
    assert wrong == []


def test_no_import_cycle() -> None:
    names = {module_name(path): path for path in modules()}
    graph = {name: {n for _, n in imports_of(path) if n in names} for name, path in names.items()}
    done: set[str] = set()

    def visit(name: str, trail: tuple[str, ...]) -> None:
        assert name not in trail, " -> ".join((*trail[trail.index(name) :], name))
        if name not in done:
            for other in sorted(graph[name]):
                visit(other, (*trail, name))
            done.add(name)

    for name in graph:
        visit(name, ())


def module_name(path: Path) -> str:
    parts = ("oatsack", *path.relative_to(SOURCE).with_suffix("").parts)
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@pytest.mark.parametrize("banned", ["random", "time"])
def test_the_core_asks_no_clock_and_no_dice(banned: str) -> None:
    wrong = [
        f"{path.relative_to(SOURCE)}:{line}"
        for path in modules()
        if part_of(path) in SUBJECTS | FLOW
        for line, name in imports_of(path)
        if name == banned
    ]
    assert wrong == []


def test_the_checker_itself_sees_an_upward_import(tmp_path: Path) -> None:
    text = "from oatsack.desk import open_trip\n"
    target = SOURCE / "kitchen" / "price.py"
    tree = ast.parse(text)
    assert isinstance(tree.body[0], ast.ImportFrom)
    assert LEVEL["desk"] > LEVEL[part_of(target)]
