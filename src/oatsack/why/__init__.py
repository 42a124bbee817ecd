"""Opens the numbers of a plan: formula, inputs with where they came from, source, how sure.

`why(plan, address)` explains one number; `leaves(plan)` names them all. Explainers stand in
`explainers/`, one file per part of the plan, and are tried in the order of their list.
"""

from __future__ import annotations

from oatsack.why.explanation import Explanation, Input, evaluate
from oatsack.why.opening import why
from oatsack.why.tree import find, leaves

__all__ = ["Explanation", "Input", "evaluate", "find", "leaves", "why"]
