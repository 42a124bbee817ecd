"""Laws of reading and showing: what is shown is read back, to the digits shown."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack import units
from oatsack.errors import UnitError
from oatsack.units.tables import System
from support.each import each

SYSTEMS: list[System] = ["metric", "us"]

ROUND = [
    (units.show_mass, units.mass_g, -1e5, 2e5, 0.06),
    (units.show_distance, units.length_m, 0.0, 3e5, 0.07),
    (units.show_height, units.length_m, -500.0, 9e4, 0.01),
    (units.show_body_height, units.length_cm, 50.0, 250.0, 0.03),
    (units.show_volume, units.volume_ml, 0.0, 2e5, 0.06),
    (units.show_room, units.volume_ml, 0.0, 2e5, 50.0),
    (units.show_temperature, units.temperature_c, -60.0, 60.0, 0.6),
    (units.show_difference, units.difference_k, -60.0, 60.0, 0.6),
    (units.show_speed, units.speed_ms, 0.1, 3.0, 0.03),
    (units.show_clock, units.clock_min, 0.0, 1439.4, 0.5),
]
"""Show, read, the values tried, and the coarsest that a shown digit may be, relative below 1."""
PLAIN = [
    (units.show_energy, units.energy_kcal, 0.0, 1e5),
    (units.show_small_mass, units.mass_mg, 0.0, 1e5),
    (units.show_power, units.power_w, 0.0, 2e4),
    (units.show_minutes, units.minutes, -3000.0, 3000.0),
    (units.show_share, units.share, -2.0, 2.0),
]


@each("system", SYSTEMS)
@each(("show", "read", "low", "high", "coarse"), ROUND)
@given(part=st.floats(0.0, 1.0))
def test_a_shown_quantity_is_read_back_and_shown_the_same(
    show: Callable[[float, System], str], read: Callable[[str], float], low: float, high: float,
    coarse: float, system: System, part: float,
) -> None:  # fmt: skip
    value = low + part * (high - low)
    text = show(value, system)
    again = read(text)
    assert show(again, system) == text
    assert again == pytest.approx(value, rel=coarse if coarse < 1 else 0.0, abs=max(1.5, coarse))


@each(("show", "read", "low", "high"), PLAIN)
@given(part=st.floats(0.0, 1.0))
def test_what_both_systems_share_is_read_back_too(
    show: Callable[[float], str], read: Callable[[str], float], low: float, high: float, part: float
) -> None:
    value = low + part * (high - low)
    text = show(value)
    assert show(read(text)) == text
    assert read(text) == pytest.approx(value, abs=0.51)


@given(st.floats(0.0, 1e6), st.sampled_from(["EUR", "USD", "CHF"]))
def test_money_is_read_back(amount: float, currency: str) -> None:
    text = units.show_money(amount, currency)
    again, sort = units.money(text)
    assert sort == currency
    assert units.show_money(again, sort) == text


@given(st.integers(0, 10**7))
def test_point_and_comma_say_the_same(thousandths: int) -> None:
    whole, rest = divmod(thousandths, 100)
    assert units.number(f"{whole}.{rest:02d}") == units.number(f"{whole},{rest:02d}")


@given(st.integers(1000, 10**9))
def test_thousands_may_be_set_apart_by_any_space(number: int) -> None:
    for space in (" ", "\u2009", "\u202f", "\u00a0"):
        assert units.number(f"{number:,}".replace(",", space)) == number


@given(st.integers(0, 50), st.integers(0, 15))
def test_pounds_and_ounces_add_up(pounds: int, ounces: int) -> None:
    total = units.mass_g(f"{pounds} lb {ounces} oz")
    parts = units.mass_g(f"{pounds} lb") + units.mass_g(f"{ounces} oz")
    assert total == pytest.approx(parts, rel=1e-9)


@given(st.text(max_size=12))
def test_no_text_makes_a_reader_fail_in_another_way(text: str) -> None:
    for reader in (units.mass_g, units.length_m, units.volume_ml, units.energy_kcal, units.minutes,
                   units.clock_min, units.speed_ms, units.money, units.share, units.number,
                   units.temperature_c):  # fmt: skip
        try:
            reader(text)
        except UnitError as error:
            assert error.wrong


@given(st.floats(0.0, 1e5), st.floats(0.0, 1e4), st.floats(0.0, 1e4))
def test_a_range_holds_its_ends(likely: float, below: float, above: float) -> None:
    text = units.about(likely, likely - below, likely + above)
    low, high = text.partition("between ")[2].replace(",", "").split(" and ")
    slack = 1e-6 * max(1.0, likely)
    assert float(low) <= likely - below + slack
    assert float(high) >= likely + above - slack
