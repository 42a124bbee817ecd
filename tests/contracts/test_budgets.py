"""Sizes that keep the code readable: functions, modules, arguments, annotations, tests.

Tests and source are compared by lines of code, without blank lines, comments and docstrings: the
source explains itself at length and the tests hardly do, so all lines together would flatter
neither side honestly.
"""

from __future__ import annotations

import ast
import statistics
from functools import cache
from pathlib import Path

import pytest

from support.source import ROOT, SOURCE, code_lines, modules, nodes, tree

ALLOWED_LONG_FUNCTIONS: dict[str, str] = {}
ALLOWED_LONG_MODULES: dict[str, str] = {}
ALLOWED_MANY_ARGUMENTS: dict[str, str] = {
    "cli/verbs/plan.py:plan": "each is an option of the command, and a walker knows them by name",
}


@cache
def functions() -> list[tuple[str, ast.FunctionDef | ast.AsyncFunctionDef, int]]:
    """Name with place, node, and code lines without the docstring."""
    out = []
    for path in modules():
        for node in nodes(path):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                assert node.end_lineno is not None
                doc = ast.get_docstring(node, clean=False)
                lines = node.end_lineno - node.lineno + 1
                lines -= doc.count("\n") + 1 if doc else 0
                out.append((f"{path.relative_to(SOURCE)}:{node.name}", node, lines))
    return out


@pytest.mark.slow
def test_no_function_is_above_60_lines() -> None:
    long = [(n, lines) for n, _, lines in functions() if lines > 60]
    assert [item for item in long if item[0] not in ALLOWED_LONG_FUNCTIONS] == []


def test_functions_have_a_median_of_at_most_8_lines_and_nine_in_ten_at_most_30() -> None:
    sizes = sorted(lines for _, _, lines in functions())
    assert statistics.median(sizes) <= 8
    assert sizes[int(0.9 * len(sizes))] <= 30


def test_no_module_is_above_400_lines() -> None:
    long = {
        str(path.relative_to(SOURCE)): path.read_text(encoding="utf-8").count("\n")
        for path in modules()
    }
    over = {name: n for name, n in long.items() if n > 400 and name not in ALLOWED_LONG_MODULES}
    assert over == {}


def test_at_most_seven_arguments() -> None:
    many = []
    for name, node, _ in functions():
        args = node.args.posonlyargs + node.args.args + node.args.kwonlyargs
        count = len([a for a in args if a.arg not in ("self", "cls")])
        if count > 7 and name not in ALLOWED_MANY_ARGUMENTS:
            many.append((name, count))
    assert many == []


def test_every_public_module_and_function_says_what_it_is() -> None:
    silent = [
        str(path.relative_to(SOURCE))
        for path in modules()
        if not ast.get_docstring(tree(path))
    ]
    assert silent == []


WANTED = 1.2
"""Code lines of tests over code lines of source."""


def share_of_tests() -> float:
    """Code lines of the tests over code lines of the source."""
    tests = sorted((ROOT / "tests").rglob("*.py"))
    return sum(map(code_lines, tests)) / sum(map(code_lines, modules()))


def test_only_lines_that_hold_code_are_counted(tmp_path: Path) -> None:
    text = '''"""A docstring
of two lines."""

# a comment
NUMBER = 1  # counted
"""What the number is."""
TEXT = """counted,
and here as well"""


def three() -> str:
    """Says it."""
    return (
        "three"
    )
'''
    (tmp_path / "some.py").write_text(text, encoding="utf-8")
    (tmp_path / "none.py").write_text("", encoding="utf-8")
    assert code_lines(tmp_path / "some.py") == 1 + 2 + 1 + 3
    assert code_lines(tmp_path / "none.py") == 0


@pytest.mark.slow
def test_there_are_at_least_1_2_lines_of_tests_for_each_of_source() -> None:
    assert share_of_tests() >= WANTED
