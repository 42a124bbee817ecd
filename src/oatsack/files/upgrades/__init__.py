"""Older plan files, lifted to today's format one step at a time (C18).

Each step is one file with one function: the tree of one format -> the tree of the next, as plain
JSON values. To change what a plan holds: raise `FORMAT` in values/plan.py, write the step from the
format before in a file here, and name it below; the shape of every format is kept beside the tests.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from oatsack.files.upgrades import from_1, from_2

LIFTED = "provision.older-format"
"""Flag of a plan that was lifted: its numbers were counted when it was made, `why` counts today."""
Upgrade = Callable[[dict[str, Any]], dict[str, Any]]
UPGRADES: Mapping[int, Upgrade] = {1: from_1.upgraded, 2: from_2.upgraded}
"""Number of a format -> what makes the next one of it."""


def lifted(tree: dict[str, Any], number: int) -> dict[str, Any]:
    """The tree of a format in today's, with a flag that says from which it comes."""
    flag = {"key": LIFTED, "level": "note", "scope": "made", "values": {"number": number}}
    for step in range(number, max(UPGRADES) + 1):
        tree = {**UPGRADES[step](tree), "format": step + 1}
    flags = tree.get("flags")
    return {**tree, "flags": [*flags, flag]} if isinstance(flags, list) else tree
