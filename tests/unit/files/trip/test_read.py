"""Trip files that are fine: what four answers make, and what every table fills."""

from __future__ import annotations

from oatsack.files.trip import parse_trip
from oatsack.values.kit import Kit
from oatsack.values.trip import Rules

FOUR_ANSWERS = """
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
target = "2200 kcal"
[route]
usual_day = { distance = "16 km", up = "700 m" }
"""


def test_four_answers_make_a_trip() -> None:
    trip = parse_trip(FOUR_ANSWERS, "trip.toml")
    (walker,) = trip.walkers
    assert (walker.mass_kg, walker.target.kcal) == (68.0, 2200.0)
    assert trip.day_count == 4
    assert trip.route.usual_day is not None
    assert trip.route.usual_day.distance_m == 16_000.0
    assert (trip.kit, trip.rules) == (Kit(), Rules())
