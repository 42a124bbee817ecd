"""Sizes that keep the code readable: functions, modules, arguments, annotations, tests."""

from __future__ import annotations

import ast
import statistics
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "oatsack"

ALLOWED_LONG_FUNCTIONS: dict[str, str] = {}
ALLOWED_LONG_MODULES: dict[str, str] = {}
ALLOWED_MANY_ARGUMENTS: dict[str, str] = {
    "cli/verbs/plan.py:plan": "each is an option of the command, and a walker knows them by name",
}


def functions() -> list[tuple[str, ast.FunctionDef | ast.AsyncFunctionDef, int]]:
    """Name with place, node, and code lines without the docstring."""
    out = []
    for path in sorted(SOURCE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                assert node.end_lineno is not None
                doc = ast.get_docstring(node, clean=False)
                lines = node.end_lineno - node.lineno + 1
                lines -= doc.count("\n") + 1 if doc else 0
                out.append((f"{path.relative_to(SOURCE)}:{node.name}", node, lines))
    return out


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
        for path in SOURCE.rglob("*.py")
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
        for path in sorted(SOURCE.rglob("*.py"))
        if not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert silent == []


WANTED, REACHED = 1.2, 0.85
"""Lines of tests over lines of source: what is wanted, and below which it must never fall again.
The wanted share is not reached yet; raise REACHED with the tests, never lower it."""


def share_of_tests() -> float:
    def count(folder: Path) -> int:
        return sum(p.read_text(encoding="utf-8").count("\n") for p in folder.rglob("*.py"))

    return count(ROOT / "tests") / count(SOURCE)


def test_the_share_of_tests_never_falls_below_what_was_reached() -> None:
    assert REACHED <= WANTED
    assert share_of_tests() >= REACHED
