"""Pots in a trip file: who eats from them, and what folds into them."""

from __future__ import annotations

import pytest

from oatsack.errors import TripFileError
from oatsack.files.trip import parse_trip

TRIP = """
title = "Pots"
from = 2026-07-03T10:00
to = 2026-07-05T15:00
zone = "Europe/Vienna"
[[walkers]]
name = "Ana Lind"
mass = "62 kg"
[[walkers]]
name = "Bo"
mass = "80 kg"
[route]
usual_day = {{ distance = "15 km", up = "650 m" }}
[kit]
{kit}
"""


def test_a_pot_names_its_eaters_and_keeps_their_ids() -> None:
    kit = 'pots = ["1.5 l", { name = "red", volume = "1 l", for = "ana lind" }]'
    pots = parse_trip(TRIP.format(kit=kit), "trip.toml").kit.pots
    assert [(p.name, p.walkers) for p in pots] == [("pot", ()), ("red", ("ana-lind",))]
    both = 'pots = [{ volume = "1 l", for = ["Bo", "Ana Lind"] }]'
    assert parse_trip(TRIP.format(kit=both), "trip.toml").kit.pots[0].walkers == ("bo", "ana-lind")


def test_a_name_that_nobody_bears_is_a_fault_at_its_place() -> None:
    kit = 'pots = [{ volume = "1 l", for = ["Bo", "Anna Lind"] }]'
    with pytest.raises(TripFileError, match='did you mean "Ana Lind"'):
        parse_trip(TRIP.format(kit=kit), "trip.toml")


def test_the_sizes_of_stove_and_can_are_read() -> None:
    kit = (
        'stove = { kind = "gas-open", diameter = "33 mm", length = "85 mm" }\n'
        'cans = [{ net = "100 g", diameter = "9 cm", height = "65 mm" }]'
    )
    made = parse_trip(TRIP.format(kit=kit), "trip.toml").kit
    assert made.stove is not None
    assert (made.stove.diameter_mm, made.stove.length_mm) == (33.0, 85.0)
    assert (made.cans[0].diameter_mm, made.cans[0].height_mm) == (90.0, 65.0)
