"""The shelf of walking-time rules, and a walker's own pace laid over any of them.

Every function takes `grade_pct` and gives a speed in m/s, for a float or an array. To add a rule,
write one file like its neighbours and name it here. Rests are not in these speeds.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from oatsack.errors import UsageError
from oatsack.route.pace import campbell_2019, campbell_2022, marquez_perez_2017, naismith, tobler
from oatsack.values.model import Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

MODELS: tuple[Model, ...] = (
    campbell_2022.MODEL, tobler.MODEL, naismith.MODEL, campbell_2019.MODEL,
    marquez_perez_2017.MODEL,
)  # fmt: skip
DEFAULT: Model = campbell_2022.MODEL


def model(name: str) -> Model:
    """The rule of this name. Raises UsageError, naming all, when there is none."""
    for one in MODELS:
        if one.name == name:
            return one
    names = ", ".join(one.name for one in MODELS)
    raise UsageError(f"no walking-time rule {name!r}; there are: {names}")


def multiplier(rule: Model, flat_ms: float | None) -> float:
    """How a walker's speed on the flat [m/s] compares with the rule's; 1 when not stated.

    Laying one factor over every slope is our choice (C7).
    """
    return 1.0 if flat_ms is None else flat_ms / float(rule.function(grade_pct=0.0))


def speed_ms(rule: Model, grade_pct: Numbers, *, flat_ms: float | None = None) -> Numbers:
    """Speed by the rule, scaled to the walker's own speed on the flat [m/s]."""
    speed: Numbers = multiplier(rule, flat_ms) * rule.function(grade_pct=grade_pct)
    return speed


def minutes(
    rule: Model, distance_m: Numbers, *, grade_pct: Numbers, flat_ms: float | None = None
) -> Numbers:
    """Moving time over stretches of this length and slope [min], rests not included."""
    return distance_m / (60.0 * speed_ms(rule, grade_pct, flat_ms=flat_ms))


__all__ = ["DEFAULT", "MODELS", "minutes", "model", "multiplier", "speed_ms"]
