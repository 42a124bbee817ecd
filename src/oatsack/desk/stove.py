"""The boil test at the desk: texts to boils, the answer to lines."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import cast, get_args

from oatsack import units
from oatsack.errors import UnitError, UsageError
from oatsack.kitchen.boiltest import Boil, boil_test
from oatsack.reports.words import say
from oatsack.values.kit import FuelKind


def told(boils: Sequence[str], *, fuel: str, water: str, start: str, end: str) -> tuple[str, ...]:
    """Lines for a person. Raises UsageError that says what to write."""
    if fuel not in get_args(FuelKind):
        raise UsageError(
            say("desk.no-fuel", fuel=repr(fuel), known=", ".join(get_args(FuelKind))))  # fmt: skip
    try:
        rows = [_boil(text, water, start, end) for text in boils]
    except UnitError as error:
        raise UsageError(str(error)) from None
    return tuple(_lines(rows, cast(FuelKind, fuel)))


def _boil(text: str, water: str, start: str, end: str) -> Boil:
    parts = [part.strip() for part in text.split(",")]
    if len(parts) not in (2, 3):
        raise UsageError(say("desk.boil", text=repr(text)))
    return Boil(
        water_ml=units.volume_ml(water), from_c=units.temperature_c(start),
        to_c=units.temperature_c(end), before_g=units.mass_g(parts[0]),
        after_g=units.mass_g(parts[1]), minutes=_minutes(parts[2]) if parts[2:] else None,
    )  # fmt: skip


def _minutes(text: str) -> float:
    """How long a boil took [min]: as a span, or as one reads a watch: "3 min 40", "3:40"."""
    read = re.fullmatch(r"(\d{1,2})(?: ?(?:min|m|') ?|:)([0-5]?\d)(?: ?(?:s|sec|\"))?", text)
    return int(read[1]) + int(read[2]) / 60.0 if read else units.minutes(text)


def _lines(boils: Sequence[Boil], fuel: FuelKind) -> Iterator[str]:
    found = boil_test(boils, fuel)
    yield say("stove.efficiency", share=f"{found.efficiency:.0%}", low=f"{found.low:.0%}",
              high=f"{found.high:.0%}")  # fmt: skip
    if found.power_w is not None:
        yield say("stove.power", power=units.show_power(round(found.power_w, -1)))
    if not found.enough:
        yield say("stove.more", boils=found.boils)
    yield say("stove.write", efficiency=f"{found.efficiency:.2f}")
