"""Format 2 -> 3: dogs and their own food, names of foods only spoken of, things without a price.

A plan of format 2 knew of no dog and kept no such name, so none is there. How many things bought
have no price is counted from its shopping list (`packed/buy`).
"""

from __future__ import annotations

from typing import Any

Tree = dict[str, Any]


def upgraded(tree: Tree) -> Tree:
    """A plan of format 3 from one of format 2; what does not fit is left for the reader to name."""
    totals, packed = tree.get("totals"), tree.get("packed")
    rows = packed.get("buy") if isinstance(packed, dict) else None
    if not isinstance(totals, dict) or not isinstance(rows, list):
        return tree
    return {**tree, "totals": {**totals, "unpriced": sum(_unpriced(row) for row in rows)}}


def _unpriced(row: Any) -> bool:
    packs = row.get("packs") if isinstance(row, dict) else None
    return isinstance(packs, int | float) and packs > 0 and row.get("price") is None
