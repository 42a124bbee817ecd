"""The table of the need: which walking-cost model, and which labelled terms are laid over it."""

from __future__ import annotations

from typing import Annotated

from oatsack.files.trip.kinds import word
from oatsack.files.trip.tables.fields import FLAG, Table, key
from oatsack.values.trip import NeedSpec


def costs() -> tuple[str, ...]:
    """The names of the shelf."""
    from oatsack.walker.energy import MODELS

    return tuple(model.name for model in MODELS)


class NeedTable(Table):
    """How the need is worked out. All of it may be left out."""

    MAKES = NeedSpec
    model: Annotated[
        str, word("a walking-cost model", costs, example="lcda-backpacking-2022")
    ] | None = key("model", "The published model of what walking costs.")  # fmt: skip
    cold: FLAG | None = key("cold", "Whether cold air adds to walking and camp; a choice of ours.")
    heat: FLAG | None = key("heat", "Whether heat adds to walking and camp; a choice of ours.")
    height: FLAG | None = key("height", "Whether great height adds to rest; a choice of ours.")
