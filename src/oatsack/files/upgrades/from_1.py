"""Format 1 -> 2: loads on the back, and all that a plan learnt to tell since.

Format 1 did not keep what was on a back in each stretch of a day, only at its start and end
(`need/*/*/pack_start_kg`, `pack_end_kg`); between these the load is drawn as a straight line over
the time walked, which is a guess of ours. Everything else that is new (places to take food on,
counts, groups, caffeine, the model of the need) was not asked then and stands at its default.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Tree = dict[str, Any]


def upgraded(tree: Tree) -> Tree:
    """A plan of format 2 from one of format 1; what does not fit is left for the reader to name."""
    need, days = tree.get("need"), tree.get("days")
    if "backs" in tree or not isinstance(need, dict) or not isinstance(days, list):
        return tree
    stretches = {str(d["number"]): d["stretches"] for d in days if _is_day(d)}
    return {**tree, "backs": {name: _backs(of, stretches) for name, of in need.items()}}


def _is_day(day: Any) -> bool:
    return isinstance(day, dict) and isinstance(day.get("stretches"), list) and "number" in day


def _backs(of: Any, stretches: Mapping[str, list[Tree]]) -> dict[str, list[float]]:
    """Kilograms on one back by day, at the middle of each stretch."""
    rows = of if isinstance(of, dict) else {}
    return {number: _loads(stretches[number], row) for number, row in rows.items()
            if number in stretches}  # fmt: skip


def _loads(stretches: list[Tree], row: Tree) -> list[float]:
    start, end = float(row.get("pack_start_kg", 0.0)), float(row.get("pack_end_kg", 0.0))
    spans = [float(s["end_min"]) - float(s["start_min"]) for s in stretches]
    walked = [n if s["kind"] == "walk" else 0.0 for s, n in zip(stretches, spans, strict=True)]
    whole, so_far, out = max(sum(walked), 1e-9), 0.0, []
    for minutes in walked:
        out.append(start + (end - start) * (so_far + minutes / 2.0) / whole)
        so_far += minutes
    return out
