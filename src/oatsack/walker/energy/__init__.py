"""The shelf of walking-cost models, side by side.

Every function takes the same six keyword arguments, `mass_kg`, `load_kg`, `speed_ms`, `grade_pct`,
`terrain` and `resting_w`, as floats or arrays, and gives the gross power in watts. To add a model,
write one file like its neighbours and name it here.
"""

from __future__ import annotations

from oatsack.errors import UsageError
from oatsack.values.model import Model
from oatsack.walker.energy import (
    acsm,
    lcda_backpacking_2022,
    lcda_graded_2019,
    ludlow_weyand_2017,
    minetti_2002,
    pandolf_1977,
)

MODELS: tuple[Model, ...] = (
    lcda_backpacking_2022.MODEL,
    lcda_graded_2019.MODEL,
    pandolf_1977.MODEL,
    ludlow_weyand_2017.MODEL,
    minetti_2002.MODEL,
    acsm.MODEL,
)
DEFAULT: Model = lcda_backpacking_2022.MODEL


def model(name: str) -> Model:
    """The model of this name. Raises UsageError, naming all, when there is none."""
    for one in MODELS:
        if one.name == name:
            return one
    names = ", ".join(one.name for one in MODELS)
    raise UsageError(f"no walking-cost model {name!r}; there are: {names}")


__all__ = ["DEFAULT", "MODELS", "model"]
