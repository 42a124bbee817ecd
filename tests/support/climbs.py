"""What a row of heights climbs in all, by the climb so far that the profile keeps."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from oatsack.route.climb import running_climb_m

Heights = Sequence[float] | npt.NDArray[np.float64]


def climbed_m(heights: Heights, threshold_m: float) -> tuple[float, float]:
    """Ascent and descent between turning points, from first to last [m]."""
    up, down = running_climb_m(np.asarray(heights, dtype=float), threshold_m)
    return float(up[-1]), float(down[-1])
