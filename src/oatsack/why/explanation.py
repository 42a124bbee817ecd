"""An explanation, and how its formula is worked out again from its inputs alone."""

from __future__ import annotations

import ast
import math
import operator
from collections.abc import Callable, Mapping
from dataclasses import field
from typing import Any

from oatsack.errors import OatsackError
from oatsack.values.flags import Flag
from oatsack.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One thing that goes into a formula, and where it came from.

    `origin` is an address of the plan, ``trip.toml:12``, a row of a larder, or a named default.
    """

    value: Any
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """How a number came about. `formula` is worked out over the names of `inputs`."""

    address: str
    value: float
    formula: str
    inputs: Mapping[str, Input]
    source: str = "ours"
    sure: str = "sum"
    """How sure it is, by key: ``given``, ``sum``, ``model``, ``choice``, ``prior``."""
    more: Mapping[str, str] = field(default_factory=dict)
    flags: tuple[Flag, ...] = ()
    """What must be said beside it: cautions, and where its model is asked beyond its range (C7)."""


OPERATORS: Mapping[type, Callable[[Any, Any], Any]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul,
    ast.Div: operator.truediv, ast.Pow: operator.pow,
}  # fmt: skip
PLAIN: Mapping[str, Callable[..., Any]] = {
    "sum": sum, "max": max, "min": min, "abs": abs, "sqrt": math.sqrt, "ceil": math.ceil,
    "count": len,
    "mean": lambda values: sum(values) / max(1, len(values)),
    "over": lambda part, whole: part / whole if whole > 0 else 0.0,
}  # fmt: skip


def evaluate(explanation: Explanation, functions: Mapping[str, Callable[..., Any]]) -> float:
    """The number that the formula gives over the inputs and nothing else.

    `functions` are models a formula may name. Raises OatsackError for anything a formula may not
    hold: it is a sum, a product, a comparison of sizes or a call by name, never a program.
    """
    names = {name: given.value for name, given in explanation.inputs.items()}
    try:
        tree = ast.parse(explanation.formula, mode="eval").body
    except SyntaxError:
        raise OatsackError(f"no formula of ours: {explanation.formula}") from None
    return float(_value(tree, names, {**PLAIN, **functions}))


def _value(node: ast.AST, names: Mapping[str, Any], functions: Mapping[str, Any]) -> Any:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float | str):
        return node.value
    if isinstance(node, ast.Name) and node.id in names:
        return names[node.id]
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -_value(node.operand, names, functions)
    if isinstance(node, ast.BinOp) and type(node.op) in OPERATORS:
        left, right = (_value(side, names, functions) for side in (node.left, node.right))
        return OPERATORS[type(node.op)](left, right)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and not node.keywords:
        given = [_value(argument, names, functions) for argument in node.args]
        return _known(node.func.id, functions)(*given)
    raise OatsackError(f"no formula of ours: {ast.unparse(node)}")


def _known(name: str, functions: Mapping[str, Callable[..., Any]]) -> Callable[..., Any]:
    if name not in functions:
        raise OatsackError(f"no formula of ours: {name} is no function it may name")
    return functions[name]
