"""A flag: something about the plan a person should hear, as a key and values, never a sentence.

The sentence of each key stands in `reports/words/en.toml`. `level` says how loud it is:
``note`` folds away, ``quiet`` is one quiet line, ``caution`` is shown with the usual care, and
``block`` means that something hard is broken (a plan with one is never called valid).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.frozen import dataclass

Level = Literal["note", "quiet", "caution", "block"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """One thing to say. `scope` names what it is about as an address (``need/anna/2``)."""

    key: str
    level: Level
    scope: str = ""
    values: Mapping[str, float | int | str] = field(default_factory=dict)
    source: str = ""
