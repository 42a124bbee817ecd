"""What an explainer is: a pattern of addresses and a function from the question to its answer."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from oatsack.values.food import Food
from oatsack.values.frozen import dataclass
from oatsack.values.plan import Plan
from oatsack.why.explanation import Explanation, Input
from oatsack.why.tree import find


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The question: which number of which plan."""

    plan: Plan
    address: str
    words: tuple[str, ...]
    value: float
    larder: tuple[Food, ...] = ()
    """Foods besides the plan's own that might stand in a choice's place."""

    @property
    def home(self) -> str:
        """The address of what holds the number."""
        return "/".join(self.words[:-1])

    @property
    def last(self) -> str:
        """The number's own name."""
        return self.words[-1]

    def taken(self, address: str) -> Input:
        """What stands elsewhere in the plan, as an input."""
        return Input(value=find(self.plan, address), origin=address)

    def beside(self, name: str) -> Input:
        """A number of the same row, as an input."""
        return self.taken(f"{self.home}/{name}")

    def answer(self, formula: str, *, source: str = "ours", sure: str = "sum",
               **inputs: Input) -> Explanation:  # fmt: skip
        """The explanation, with its inputs by name."""
        return self.answered(formula, inputs, source=source, sure=sure)

    def answered(self, formula: str, inputs: Mapping[str, Input], *, source: str = "ours",
                 sure: str = "sum") -> Explanation:  # fmt: skip
        """The same with the inputs as a mapping."""
        return Explanation(address=self.address, value=self.value, formula=formula,
                           inputs=inputs, source=source, sure=sure)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Explainer:
    """A pattern (``need/*/*/energy_kcal``) and who explains it."""

    pattern: str
    explain: Callable[[Asked], Explanation]


def given(value: Any, origin: str) -> Input:
    """An input that stands nowhere else in the plan."""
    return Input(value=value, origin=origin)


def sums(names: str, *, source: str = "ours", sure: str = "sum") -> Callable[[Asked], Explanation]:
    """Explains a number by a formula over numbers of the same row, as ``burnt_g + reserve_g``."""
    import ast

    used = {node.id for node in ast.walk(ast.parse(names)) if isinstance(node, ast.Name)}
    called = {
        node.func.id for node in ast.walk(ast.parse(names))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }  # fmt: skip

    def explain(asked: Asked) -> Explanation:
        inputs = {name: asked.beside(name) for name in sorted(used - called)}
        return asked.answered(names, inputs, source=source, sure=sure)

    return explain
