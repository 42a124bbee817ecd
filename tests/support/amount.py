"""How much of a long check the everyday suite does; the whole suite does all of it.

`make fast` sets OATSACK_EXAMPLES=everyday. Then properties try a quarter of their examples and long
lists every fifth case, so that an hour of work is checked in a minute and CI still checks all.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from typing import TypeVar

EVERYDAY = os.environ.get("OATSACK_EXAMPLES", "whole") == "everyday"
Case = TypeVar("Case")


def examples(whole: int, everyday: int = 0) -> int:
    """How many examples a property tries where the whole suite tries so many: a quarter, or what
    is said where each of them is dear."""
    return everyday or max(3, whole // 4) if EVERYDAY else whole


def some(cases: Iterable[Case], step: int = 5) -> list[Case]:
    """Every fifth case, the first among them; all of them in the whole suite."""
    return list(cases)[:: step if EVERYDAY else 1]
