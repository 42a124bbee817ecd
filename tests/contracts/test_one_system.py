"""Metric and US units are never mixed in what is shown (C1)."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from oatsack import units
from oatsack.units import tables
from oatsack.units.tables import System
from support.each import each

SHOWN: list[tuple[Callable[[float, System], str], float, float]] = [
    (units.show_mass, 0.0, 150_000.0),
    (units.show_distance, 0.0, 300_000.0),
    (units.show_height, -400.0, 8000.0),
    (units.show_body_height, 60.0, 240.0),
    (units.show_volume, 0.0, 100_000.0),
    (units.show_room, 500.0, 60_000.0),
    (units.show_temperature, -40.0, 50.0),
    (units.show_difference, -40.0, 50.0),
    (units.show_speed, 0.2, 3.0),
]


def names_of(system: System) -> set[str]:
    """Spellings that only one system uses."""
    dimensions = (tables.MASS, tables.LENGTH, tables.VOLUME, tables.TEMPERATURE, tables.SPEED)
    return {
        name
        for dimension in dimensions
        for unit in dimension.units
        if unit.system == system
        for name in unit.names
    } | ({"in³"} if system == "us" else set())


def words_in(text: str) -> list[str]:
    return [word.strip() for word in re.findall(r"[^\d\s.,\u202f-][^\d.,\u202f-]*³?", text)]


@each("system", ["metric", "us"])
@each(("show", "low", "high"), SHOWN)
def test_only_units_of_the_own_system_are_shown(
    show: Callable[[float, System], str], low: float, high: float, system: System
) -> None:
    own, other = names_of(system), names_of("us" if system == "metric" else "metric")
    for step in range(400):
        text = show(low + (high - low) * step / 399, system)
        words = words_in(text)
        assert words, text
        assert set(words) <= own, text
        assert not set(words) & other, text


@pytest.mark.slow
@each("system", ["metric", "us"])
@each(("show", "low", "high"), SHOWN)
def test_larger_values_are_never_shown_as_smaller_ones(
    show: Callable[[float, System], str], low: float, high: float, system: System
) -> None:
    """Where a text changes its unit nothing jumps back."""
    readers = {
        units.show_mass: units.mass_g, units.show_distance: units.length_m,
        units.show_height: units.length_m, units.show_body_height: units.length_cm,
        units.show_volume: units.volume_ml, units.show_room: units.volume_ml,
        units.show_temperature: units.temperature_c, units.show_difference: units.difference_k,
        units.show_speed: units.speed_ms,
    }  # fmt: skip
    read = readers[show]
    values = [read(show(low + (high - low) * step / 1999, system)) for step in range(2000)]
    assert values == sorted(values)


@each("system", ["metric", "us"])
def test_texts_that_both_systems_share_hold_no_unit_of_one(system: System) -> None:
    own_only = names_of("metric") ^ names_of("us")
    for text in (units.show_energy(2200.0), units.show_power(1800.0), units.show_minutes(80.0),
                 units.show_share(0.5), units.show_money(5.0, "EUR")):  # fmt: skip
        assert not set(words_in(text)) & (own_only - {"h", "min"}), (system, text)


def test_no_shown_number_has_exactly_three_decimals() -> None:
    """Such a number would have two readings."""
    for show, low, high in SHOWN:
        for system in ("metric", "us"):
            for step in range(300):
                text = show(low + (high - low) * step / 299, system)  # type: ignore[arg-type]
                assert not re.search(r"[.,]\d{3}(?!\d)", text), text
