"""The standard walkers of the energy checks, all invented."""

from __future__ import annotations

from oatsack.walker.person import Body

MAN = Body(mass_kg=75.0, height_cm=178.0, age_years=35.0, sex="male")
"""Carries 12 kg at 4.5 km/h on a dirt path in most check values."""
WOMAN = Body(mass_kg=62.0, height_cm=165.0, age_years=30.0, sex="female")
UNKNOWN = Body(mass_kg=70.0, guessed=("age_years", "height_cm", "sex"))
CHILD = Body(mass_kg=30.0, height_cm=135.0, age_years=9.0, sex="female")
