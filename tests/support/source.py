"""The source as syntax trees, parsed once for every test that reads it; and lines that are code."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "oatsack"


@cache
def modules() -> tuple[Path, ...]:
    """Every module of the source."""
    return tuple(sorted(SOURCE.rglob("*.py")))


@cache
def tree(path: Path) -> ast.Module:
    """The syntax tree of a file; nobody changes it."""
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """Every node of a file's tree."""
    return tuple(ast.walk(tree(path)))


def code_lines(path: Path) -> int:
    """Lines that hold code: no blank line, no line of comment, no text that stands alone."""
    lines = path.read_text(encoding="utf-8").splitlines()
    held = {n for n, line in enumerate(lines, 1) if line.strip() and line.lstrip()[0] != "#"}
    for node in nodes(path):
        if isinstance(node, ast.Expr) and is_text(node.value):
            assert node.end_lineno is not None
            held -= set(range(node.lineno, node.end_lineno + 1))
    return len(held)


def is_text(node: ast.expr) -> bool:
    """Whether an expression is a text that stands alone."""
    return isinstance(node, ast.Constant) and isinstance(node.value, str)
