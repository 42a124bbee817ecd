"""Terms laid over the sum of a day: height, cold, heat, the field. Each a labelled choice of ours.

Measurements agree on the direction and not on the size, so every term can be switched off and its
share of the need is shown apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from oatsack.walker.activity import CAMP_MET, REST_MET, SLEEP_MET

if TYPE_CHECKING:
    from oatsack.values.model import Numbers
    from oatsack.values.trip import NeedSpec
    from oatsack.values.walker import Walker

HEIGHT_M = (2500.0, 3000.0, 4000.0, 4300.0)
HEIGHT_SHARE = (0.0, 0.10, 0.10, 0.17)
COLD_C = (-10.0, 0.0, 5.0)
COLD_SHARE = (0.175, 0.10, 0.05, 0.0)
HEAT_C = (30.0, 40.0)
HEAT_SHARE = (0.025, 0.10)


def height_share(height_m: Numbers) -> Numbers:
    """What height adds to resting use, as a share: nothing below 2500 m, 10 % from 3000, 17 % high.

    Our choice between the figures quoted for the first days and the plateau. Source: ours, after
    Butterfield1992 (from memory).
    """
    return np.interp(height_m, HEIGHT_M, HEIGHT_SHARE)


def cold_share(air_c: Numbers) -> Numbers:
    """What cold air adds to walking and camp, as a share: 5 % below 5 degrees, 10 % below 0, 17.5 %
    below -10. Source: ours, after two rows of Herrmann2024 (21 % between mild and -10..0).
    """
    return np.asarray(COLD_SHARE)[np.searchsorted(COLD_C, air_c, side="right")]


def heat_share(air_c: Numbers) -> Numbers:
    """What heat adds to walking and camp, as a share: 2.5 % at 30 degrees rising to 10 % at 40.

    Source: ours, after ArmyNutrition2001.
    """
    rise = np.interp(air_c, HEAT_C, HEAT_SHARE)
    return np.where(np.less(air_c, HEAT_C[0]), 0.0, rise)


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Which terms count, and the two plain factors.

    `field_factor` multiplies walking: laboratory models tend to fall short of what was measured in
    the field, by how much is open (1.0 to 1.25). It is also the place where a walker's own record,
    after two trips or so, outranks any model. `thermic_share` is the heat of digesting, taken
    once over the whole day (Hall2011, parameter table).
    """

    height: bool = True
    cold: bool = True
    heat: bool = True
    field_factor: float = 1.0
    thermic_share: float = 0.10
    camp_met: float = CAMP_MET
    rest_met: float = REST_MET
    sleep_met: float = SLEEP_MET


def terms_of(spec: NeedSpec, walker: Walker) -> Terms:
    """What the trip switches on or off, and the walker's own record over the model."""
    return Terms(height=spec.height, cold=spec.cold, heat=spec.heat,
                 field_factor=walker.own_walking)  # fmt: skip
