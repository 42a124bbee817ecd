"""A walk as equally long columns: one row per stretch, ready for one call of a model.

Only rows inside the walk are held (C4). Knows nothing of who walks.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

import numpy as np

from oatsack.values.route import Day

if TYPE_CHECKING:
    import numpy.typing as npt

    Column = npt.NDArray[np.float64]
    Whole = npt.NDArray[np.int64]
    Mask = npt.NDArray[np.bool_]

KINDS = ("walk", "rest", "camp", "sleep")
WALK, REST, CAMP, SLEEP = range(4)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretches:
    """The columns. `kind` holds places in `KINDS`, `day` the number of the waking day."""

    day: Whole
    kind: Whole
    start_min: Column
    minutes: Column
    speed_ms: Column
    grade_pct: Column
    terrain: Column
    height_m: Column
    load_kg: Column
    air_c: Column
    """Air temperature; where it is not known, something mild."""
    by_hand: Mask
    """Whether the day was typed, so that slopes are assumed."""

    def __len__(self) -> int:
        return int(self.minutes.size)

    def __post_init__(self) -> None:
        sizes = {getattr(self, column.name).size for column in fields(self)}
        if len(sizes) != 1:
            raise ValueError(f"columns of different lengths: {sorted(sizes)}")


def columns(
    *,
    minutes: Column,
    kind: Whole | int = WALK,
    speed_ms: Column | float = 0.0,
    grade_pct: Column | float = 0.0,
    load_kg: Column | float = 0.0,
    **others: Column | float | Whole | bool,
) -> Stretches:
    """Columns from arrays or single values; `others` are the remaining columns of `Stretches`.

    Without `start_min` the rows follow one another from midnight of day 1.
    """
    size = np.size(minutes)
    mild = {"terrain": 1.1, "height_m": 0.0, "air_c": 15.0, "day": 1, "by_hand": False}
    given = {
        **mild, "start_min": np.cumsum(minutes) - minutes, **others, "minutes": minutes,
        "kind": kind, "speed_ms": speed_ms, "grade_pct": grade_pct, "load_kg": load_kg,
    }  # fmt: skip
    types: dict[str, Any] = {"day": np.int64, "kind": np.int64, "by_hand": np.bool_}
    whole: dict[str, Any] = {
        name: np.broadcast_to(np.asarray(value, dtype=types.get(name, np.float64)), size)
        for name, value in given.items()
    }
    return Stretches(**whole)


def of_days(days: Sequence[Day], load_kg: Mapping[int, Sequence[float] | Column]) -> Stretches:
    """The columns of a route's days; `load_kg` holds the mass carried, by day number and stretch.

    Walking and rests have the day's warm air, camp the mean of warm and cold; a sleeper lies warm.
    """
    rows = [
        (
            day.number, KINDS.index(s.kind), s.start_min, s.minutes, s.speed_ms, s.grade_pct,
            s.terrain, s.height_m, _air_c(day, s.kind), day.by_hand,
        )
        for day in days
        for s in day.stretches
    ]  # fmt: skip
    table = np.array(rows, dtype=np.float64).reshape(-1, 10).T
    loads = [np.asarray(load_kg[day.number], dtype=np.float64) for day in days]
    return Stretches(
        day=table[0].astype(np.int64),
        kind=table[1].astype(np.int64),
        start_min=table[2],
        minutes=table[3],
        speed_ms=table[4],
        grade_pct=table[5],
        terrain=table[6],
        height_m=table[7],
        air_c=table[8],
        by_hand=table[9].astype(np.bool_),
        load_kg=np.concatenate(loads) if loads else np.zeros(0),
    )


def _air_c(day: Day, kind: str) -> float:
    if kind == "camp":
        return (day.warm_c + day.cold_c) / 2.0
    return 15.0 if kind == "sleep" else day.warm_c
