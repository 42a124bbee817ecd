"""The need of a walker as the trip asks for it: its model, its terms, the walker's own record.

The one door by which the flow and `why` come to `need`, so that both count by the same choices. A
walker's own record outranks any model here and nowhere else: `own_walking` multiplies what the
chosen model says of walking. What reads such records from trips that were walked writes that one
number; nothing else has to know.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from oatsack.walker.energy import model
from oatsack.walker.need import Need, need
from oatsack.walker.person import body_of
from oatsack.walker.stretches import of_days
from oatsack.walker.terms import terms_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from oatsack.values.route import Day
    from oatsack.values.trip import NeedSpec
    from oatsack.values.walker import Walker
    from oatsack.walker.stretches import Column


def need_of(
    walker: Walker,
    spec: NeedSpec,
    *,
    days: Sequence[Day],
    load_kg: Mapping[int, Sequence[float] | Column],
) -> Need:
    """The need over these days with so much on the back, by day number and stretch [kg].

    Raises UsageError for a model that no file describes.
    """
    return need(
        body_of(walker), of_days(days, load_kg), model=model(spec.model),
        terms=terms_of(spec, walker), scope=f"need/{walker.id}",
    )  # fmt: skip
