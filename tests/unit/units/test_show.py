"""What quantities look like to people, in either system."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from oatsack import units
from support.each import each


@each(
    ("shown", "metric", "us"),
    [
        (lambda s: units.show_mass(250.0, s), "250 g", "8.8 oz"),
        (lambda s: units.show_mass(3.4, s), "3.4 g", "0.1 oz"),
        (lambda s: units.show_mass(9.96, s), "10 g", "0.4 oz"),
        (lambda s: units.show_mass(999.6, s), "1.00 kg", "2 lb 3 oz"),
        (lambda s: units.show_mass(1474.2, s), "1.47 kg", "3 lb 4 oz"),
        (lambda s: units.show_mass(453.0, s), "453 g", "1 lb"),
        (lambda s: units.show_mass(68_000.0, s), "68.00 kg", "150 lb"),
        (lambda s: units.show_mass(-250.0, s), "-250 g", "-8.8 oz"),
        (lambda s: units.show_mass(-0.01, s), "0 g", "0 oz"),
        (lambda s: units.show_distance(850.0, s), "850 m", "0.53 mi"),
        (lambda s: units.show_distance(120.0, s), "120 m", "394 ft"),
        (lambda s: units.show_distance(12_400.0, s), "12.4 km", "7.7 mi"),
        (lambda s: units.show_height(850.0, s), "850 m", "2789 ft"),
        (lambda s: units.show_height(12_000.0, s), "12\u202f000 m", "39\u202f370 ft"),
        (lambda s: units.show_body_height(178.0, s), "178 cm", "5 ft 10 in"),
        (lambda s: units.show_body_height(182.6, s), "183 cm", "6 ft"),
        (lambda s: units.show_volume(475.0, s), "475 ml", "16 fl oz"),
        (lambda s: units.show_volume(1250.0, s), "1.25 l", "42 fl oz"),
        (lambda s: units.show_volume(14_000.0, s), "14.0 l", "14.8 qt"),
        (lambda s: units.show_room(10_000.0, s), "10.0 l", "610 in³"),
        (lambda s: units.show_temperature(18.0, s), "18 °C", "64 °F"),
        (lambda s: units.show_temperature(-0.2, s), "0 °C", "32 °F"),
        (lambda s: units.show_difference(10.0, s), "10 °C", "18 °F"),
        (lambda s: units.show_clock(450.0, s), "07:30", "7:30 am"),
        (lambda s: units.show_clock(0.0, s), "00:00", "12:00 am"),
        (lambda s: units.show_clock(1440.0 + 90.0, s), "01:30", "1:30 am"),
        (lambda s: units.show_clock(1110.0, s), "18:30", "6:30 pm"),
        (lambda s: units.show_speed(1.25, s), "4.5 km/h", "2.8 mph"),
    ],
)
def test_a_quantity_is_shown_in_the_walkers_own_system(shown, metric: str, us: str) -> None:
    assert (shown("metric"), shown("us")) == (metric, us)


@each(
    ("text", "expected"),
    [
        (units.show_energy(2700.0), "2700 kcal"),
        (units.show_energy(23_400.0), "23\u202f400 kcal"),
        (units.show_small_mass(200.0), "200 mg"),
        (units.show_power(1800.0), "1800 W"),
        (units.show_minutes(45.0), "45 min"),
        (units.show_minutes(80.0), "1 h 20 min"),
        (units.show_minutes(120.0), "2 h"),
        (units.show_minutes(-80.0), "-1 h 20 min"),
        (units.show_minutes(-0.2), "0 min"),
        (units.show_money(12.5, "EUR"), "12.50 EUR"),
        (units.show_share(0.85), "85 %"),
        (units.show_share(0.025), "2.5 %"),
    ],
)
def test_what_both_systems_write_alike(text: str, expected: str) -> None:
    assert text == expected


@each(
    ("likely", "low", "high", "expected"),
    [
        (3904.0, 3112.0, 4698.0, "about 3,900, between 3,100 and 4,700"),
        (3870.0, 3420.0, 4320.0, "about 3,850, between 3,400 and 4,350"),
        (0.224, 0.1, 0.41, "about 0.22, between 0.10 and 0.42"),
        (12.0, 9.2, 15.1, "about 12.0, between 9.0 and 15.5"),
        (50.0, 50.0, 50.0, "about 50, between 50 and 50"),
        (0.0, 0.0, 0.0, "about 0.0, between 0.0 and 0.0"),
        (-100.0, -300.0, 250.0, "about -100, between -300 and 250"),
    ],
)
def test_a_range_is_rounded_to_what_it_allows_with_its_ends_outward(
    likely: float, low: float, high: float, expected: str
) -> None:
    assert units.about(likely, low, high) == expected


def test_the_step_is_a_tenth_of_the_width_or_less() -> None:
    assert units.step_for(3100.0, 4700.0) == 100.0
    assert units.step_for(0.0, 1000.0) == 100.0
    assert units.step_for(10.0, 10.9) == pytest.approx(0.05)


@each(
    ("texts", "system"),
    [
        (["68 kg", "16 km"], "metric"),
        (["150 lb", "9.9 mi", "1 l"], "us"),
        (["2200 kcal", "85%", "2 oats a day"], "metric"),
        (["16 fl oz", "½ cup", "18 C"], "us"),
        ([], "metric"),
    ],
)
def test_the_system_is_the_one_most_quantities_are_written_in(
    texts: list[str], system: str
) -> None:
    assert units.written_in(texts) == system


@each(
    ("show", "value", "metric", "us"),
    [
        (units.show_mass, 9.94, "9.9 g", "0.4 oz"), (units.show_mass, 9.96, "10 g", "0.4 oz"),
        (units.show_mass, 999.4, "999 g", "2 lb 3 oz"),
        (units.show_mass, 999.6, "1.00 kg", "2 lb 3 oz"),
        (units.show_mass, 99_990.0, "99.99 kg", "220 lb"),
        (units.show_mass, 99_996.0, "100.0 kg", "220 lb"),
        (units.show_mass, 452.0, "452 g", "15.9 oz"), (units.show_mass, 452.5, "452 g", "1 lb"),
        (units.show_mass, 18_120.0, "18.12 kg", "39 lb 15 oz"),
        (units.show_mass, 18_130.0, "18.13 kg", "40 lb"),
        (units.show_mass, -0.2, "-0.2 g", "0 oz"), (units.show_mass, -100.0, "-100 g", "-3.5 oz"),
        (units.show_distance, 999.4, "999 m", "0.62 mi"),
        (units.show_distance, 999.6, "1.0 km", "0.62 mi"),
        (units.show_distance, 241.0, "241 m", "791 ft"),
        (units.show_distance, 242.0, "242 m", "0.15 mi"),
        (units.show_distance, 1601.0, "1.6 km", "0.99 mi"),
        (units.show_distance, 1602.0, "1.6 km", "1.0 mi"),
        (units.show_volume, 999.4, "999 ml", "34 fl oz"),
        (units.show_volume, 999.6, "1.00 l", "34 fl oz"),
        (units.show_volume, 9_994.0, "9.99 l", "10.6 qt"),
        (units.show_volume, 9_996.0, "10.0 l", "10.6 qt"),
        (units.show_volume, 294.0, "294 ml", "9.9 fl oz"),
        (units.show_volume, 294.5, "294 ml", "10 fl oz"),
        (units.show_volume, 1891.0, "1.89 l", "64 fl oz"),
        (units.show_volume, 1892.0, "1.89 l", "2.0 qt"),
        (units.show_body_height, 182.0, "182 cm", "6 ft"),
        (units.show_body_height, 181.0, "181 cm", "5 ft 11 in"),
        (units.show_height, 10_000.0, "10\u202f000 m", "32\u202f808 ft"),
        (units.show_temperature, -0.4, "0 °C", "31 °F"),
        (units.show_room, 9_949.0, "9.9 l", "607 in³"),
    ],
)  # fmt: skip
def test_a_unit_gives_way_to_the_next_where_its_rounding_would_reach_it(
    show: Callable[..., str], value: float, metric: str, us: str
) -> None:
    assert (show(value), show(value, "us")) == (metric, us)


@each(
    ("low", "high", "step"),
    [(0.0, 10.0, 1.0), (0.0, 9.99, 0.5), (0.0, 20.0, 2.0), (0.0, 19.9, 1.0), (0.0, 50.0, 5.0),
     (0.0, 49.9, 2.0), (3100.0, 4700.0, 100.0), (7.0, 7.0, 0.5), (0.0, 0.0, 0.1)],
)  # fmt: skip
def test_a_range_is_told_in_steps_of_one_two_or_five_that_are_at_most_its_tenth(
    low: float, high: float, step: float
) -> None:
    assert units.step_for(low, high) == pytest.approx(step)
