"""Check values of the walking-cost models, worked out apart from the package, to their last digit.

The keys name whose formula was evaluated. `walk` fills in the standard man of the checks: 75 kg
with 12 kg at 1.25 m/s (4.5 km/h) on a dirt path of factor 1.1.
"""

from __future__ import annotations

from typing import Any

import pytest

from oatsack.walker.energy import (
    MODELS,
    acsm,
    lcda_backpacking_2022,
    lcda_graded_2019,
    ludlow_weyand_2017,
    minetti_2002,
    model,
    pandolf_1977,
)
from oatsack.walker.joules import OXYGEN_W, kcal
from oatsack.walker.person import resting_w
from support.each import each
from support.people import MAN

REST = resting_w(MAN)


def walk(name: str, **changes: Any) -> float:
    """Power of the standard man by one model, with some arguments changed."""
    standard = {
        "mass_kg": 75.0, "load_kg": 12.0, "speed_ms": 1.25, "grade_pct": 0.0, "terrain": 1.1,
        "resting_w": REST,
    }  # fmt: skip
    return float(model(name).function(**{**standard, **changes}))


def test_the_standard_mans_resting_power_is_1_0928_watt_per_kg() -> None:
    assert pytest.approx(1.092812, abs=5e-7) == REST / 75.0  # Mifflin1990, 1692.5 kcal a day


@each("one", MODELS, ids=lambda m: m.name)
def test_every_model_meets_all_its_own_cases(one: Any) -> None:
    assert len(one.cases) >= 4
    assert [(dict(c.arguments), c.expected, got) for c, got, ok in one.check() if not ok] == []


# Pandolf1977: body, load, speed, slope, factor, watts, kcal per hour.
PANDOLF = [
    (70, 0, 0, 0, 1.0, 105.000, 90.3),
    (70, 20, 0, 0, 1.0, 119.694, 103.0),
    (75, 12, 1.25, 0, 1.1, 341.251, 293.6),
    (75, 12, 1.25, 10, 1.1, 759.939, 653.9),
    (75, 12, 1.25, 20, 1.1, 1178.626, 1014.1),
    (80, 27.2, 1.34, 0, 1.0, 433.517, 373.0),
    (80, 27.2, 1.34, 8.6, 1.1, 938.009, 807.1),
]


@each(("w", "load", "v", "g", "eta", "watt", "kcal_h"), PANDOLF)
def test_pandolf_on_the_level_and_uphill(
    w: float, load: float, v: float, g: float, eta: float, watt: float, kcal_h: float
) -> None:
    got = pandolf_1977.power_w(mass_kg=w, load_kg=load, speed_ms=v, grade_pct=g, terrain=eta)
    assert got == pytest.approx(watt, abs=0.0005)
    assert kcal(got, 60.0) == pytest.approx(kcal_h, abs=0.05)


# Santee2003 on Pandolf1977: body, load, speed, slope, factor, correction, watts.
SANTEE = [
    (75, 12, 1.25, -5, 1.1, -146.388, 278.295),
    (75, 12, 1.25, -10, 1.1, -336.420, 258.984),
    (75, 12, 1.25, -20, 1.1, -907.886, 411.762),
    (80, 13.6, 1.34, -8.6, 1.1, -322.178, 309.622),
    (80, 0, 1.34, -12, 1.0, -380.338, 265.570),
]


@each(("w", "load", "v", "g", "eta", "off", "watt"), SANTEE)
def test_santees_descent_correction(
    w: float, load: float, v: float, g: float, eta: float, off: float, watt: float
) -> None:
    at = {"speed_ms": v, "grade_pct": g, "terrain": eta}
    correction = pandolf_1977.descent_correction_w(w, load, **at)
    assert correction == pytest.approx(off, abs=0.0005)
    raw = pandolf_1977.level_power_w(w, load, **at)
    assert raw - correction == pytest.approx(watt, abs=0.0005)


def test_the_shelf_holds_santees_correction_at_minus_15_where_it_runs_away() -> None:
    unheld = 411.762  # at -20 %, above
    assert walk("pandolf-1977", grade_pct=-20.0) < unheld
    assert walk("pandolf-1977", grade_pct=-20.0) == walk("pandolf-1977", grade_pct=-15.0)


def test_standing_on_a_slope_costs_what_standing_costs() -> None:
    """Santee2003 corrects walking; at a standstill it would take 25 W off for nothing."""
    still = walk("pandolf-1977", speed_ms=0.0, grade_pct=-6.0)
    assert still == walk("pandolf-1977", speed_ms=0.0, grade_pct=0.0)
    assert walk("pandolf-1977", speed_ms=0.005, grade_pct=-6.0) < still


@each(
    ("speed", "expected"),
    [(0.0, 1.4400), (0.5, 2.8950), (1.0, 3.6200), (1.25, 4.1613), (1.34, 4.4140), (1.5, 4.9645),
     (1.97, 7.6514)],
)  # fmt: skip
def test_lcda_walking_on_the_level_per_kg(speed: float, expected: float) -> None:
    got = lcda_graded_2019.power_w(mass_kg=1.0, load_kg=0.0, speed_ms=speed, grade_pct=0.0)
    assert got == pytest.approx(expected, abs=5e-5)  # Looney2019a


@each(
    ("s", "g", "expected", "term"),
    [(1.25, 10, 8.102865, 3.941558), (1.25, 20, 12.652581, 8.491274),
     (1.25, -10, 2.911102, -1.250205), (1.25, -20, 3.319162, -0.842145),
     (1.0, 40, 17.220000, 13.600000), (1.0, -40, 3.978644, 0.358644),
     (0.4768426667, 13.24968434, 4.952360, 2.089030)],
)  # fmt: skip
def test_lcda_graded_walking_per_kg(s: float, g: float, expected: float, term: float) -> None:
    assert lcda_graded_2019.grade_term(s, g) == pytest.approx(term, abs=5e-7)  # Looney2019b
    got = lcda_graded_2019.power_w(mass_kg=1.0, load_kg=0.0, speed_ms=s, grade_pct=g)
    assert got == pytest.approx(expected, abs=5e-7)


@each(
    ("g", "term"),
    [(-30, -0.10397), (-20, -0.67372), (-15, -0.91535), (-10, -1.00016), (-5, -0.75844),
     (5, 1.36028), (10, 3.15325), (15, 5.02757), (20, 6.79302), (30, 10.20000)],
)  # fmt: skip
def test_lcda_slope_term_at_a_metre_a_second(g: float, term: float) -> None:
    assert lcda_graded_2019.grade_term(1.0, g) == pytest.approx(term, abs=5e-6)  # Looney2019b


# Looney2022 with rest given: body, load, speed, rest per kg, load factor, watts per kg.
BACKPACKING_LEVEL = [
    (70, 0, 0.0, 1.20, 1.00000, 1.39000),
    (70, 35, 0.0, 1.20, 1.76358, 1.53508),
    (80, 20, 1.34, 1.20, 1.29748, 5.31280),
    (77, 50.8, 1.34, 1.20, 2.11328, 7.89875),
]


@each(("w", "load", "s", "rest", "factor", "per_kg"), BACKPACKING_LEVEL)
def test_lcda_backpacking_on_the_level(
    w: float, load: float, s: float, rest: float, factor: float, per_kg: float
) -> None:
    assert lcda_backpacking_2022.load_factor(w, load) == pytest.approx(factor, abs=5e-6)
    got = lcda_backpacking_2022.power_w(
        mass_kg=w, load_kg=load, speed_ms=s, grade_pct=0.0, resting_w=rest * w
    )
    assert got / w == pytest.approx(per_kg, abs=5e-6)


@each(
    ("w", "load", "s", "g", "eta", "rest", "per_kg", "watt"),
    [(60, 15, 1.0, 5, 1.2, 1.065572, 6.62181, 397.309),
     (90, 18, 1.1, -12, 1.1, 0.988023, 2.93936, 264.542),
     (75, 0, 0.0, 0, 1.1, REST / 75, 1.28281, 96.211),
     (75, 12, 0.0, 0, 1.1, REST / 75, 1.31362, 98.521)],
)  # fmt: skip
def test_the_default_form_on_slopes_and_standing(
    w: float, load: float, s: float, g: float, eta: float, rest: float, per_kg: float, watt: float
) -> None:
    got = lcda_backpacking_2022.power_w(
        mass_kg=w, load_kg=load, speed_ms=s, grade_pct=g, terrain=eta, resting_w=rest * w
    )
    assert got / w == pytest.approx(per_kg, abs=5e-6)
    assert got == pytest.approx(watt, abs=0.0006)


@each(
    ("slope", "cost"),
    [(-0.45, 3.60507), (-0.40, 3.50416), (-0.35, 2.93644), (-0.30, 2.20751), (-0.20, 1.08672),
     (-0.10, 1.12712), (0.0, 2.50000), (0.10, 4.89914), (0.20, 7.87744), (0.30, 11.18354),
     (0.35, 13.01732), (0.40, 15.09840), (0.45, 17.60030)],
)  # fmt: skip
def test_minettis_polynomial(slope: float, cost: float) -> None:
    assert minetti_2002.metre_cost(slope) == pytest.approx(cost, abs=5e-6)  # Minetti2002


def test_minettis_polynomial_is_lowest_near_minus_15_percent() -> None:
    slopes = [i / 1000.0 for i in range(-450, 451)]
    costs = [float(minetti_2002.metre_cost(slope)) for slope in slopes]
    assert min(costs) == pytest.approx(0.93551, abs=5e-6)
    assert slopes[costs.index(min(costs))] == pytest.approx(-0.153, abs=1e-9)


@each(
    ("load", "g", "oxygen", "watt"),
    [(0, 0, 10.4862, None), (12, 0, 11.67605, 305.0), (12, 10, 24.5484, 641.3),
     (12, 20, 37.4208, 977.6), (12, -10, 9.3470, 244.2)],
)  # fmt: skip
def test_ludlow_and_weyands_oxygen(
    load: float, g: float, oxygen: float, watt: float | None
) -> None:
    got = walk("ludlow-weyand-2017", load_kg=float(load), grade_pct=float(g), terrain=1.0)
    assert got / 75.0 / OXYGEN_W == pytest.approx(oxygen, abs=5e-5)  # LudlowWeyand2017
    if watt is not None:
        assert got == pytest.approx(watt, abs=0.05)


@each(
    ("v", "height", "rest", "oxygen"), [(1.25, 1.78, 3.05, 12.14052), (1.0, 1.60, 3.05, 10.63125)]
)
def test_height_weight_speed_on_the_level(
    v: float, height: float, rest: float, oxygen: float
) -> None:
    got = ludlow_weyand_2017.level_oxygen(v, height, rest=rest)
    assert got == pytest.approx(oxygen, abs=5e-6)  # LudlowWeyand2016


@each(
    ("pace", "g", "oxygen"),
    [(80.0, 0.0, 11.5), (80.0, 5.0, 18.7), (75.0, 10.0, 24.5), (5000 / 60, 10.0, 26.8333)],
)
def test_acsm_oxygen(pace: float, g: float, oxygen: float) -> None:
    assert acsm.oxygen(pace / 60.0, g) == pytest.approx(oxygen, abs=5e-5)  # ACSM


def test_acsm_at_5_kmh_up_ten_percent_is_7_7_mets_and_563_kcal_an_hour_at_70_kg() -> None:
    power = acsm.power_w(mass_kg=70.0, load_kg=0.0, speed_ms=5 / 3.6, grade_pct=10.0)
    assert acsm.oxygen(5 / 3.6, 10.0) / 3.5 == pytest.approx(7.667, abs=5e-4)
    # 563.5 takes 5.0 kcal a litre; at 20.9 J/ml the same oxygen is 0.1 % less.
    assert kcal(power, 60.0) == pytest.approx(563.5, rel=0.0015)


# Watts of the standard man at 0, +10, +20, -10 and -20 percent.
SIDE_BY_SIDE = {
    "lcda-backpacking-2022": (355.96, 733.86, 1170.07, 246.99, 282.56),
    "lcda-graded-2019": (362.0, 704.9, 1100.8, 253.3, 288.8),
    "ludlow-weyand-2017": (327.6, 697.5, 1067.4, 260.6, 260.6),
    "minetti-2002": (381.0, 668.0, 1024.3, 216.8, 212.0),
}
PER_KM = {
    "lcda-backpacking-2022": (68.06, 140.32, 223.72, 47.23, 54.03),
    "lcda-graded-2019": (69.2, 134.8, 210.5, 48.4, 55.2),
    "ludlow-weyand-2017": (62.6, 133.4, 204.1, 49.8, 49.8),
    "minetti-2002": (72.9, 127.7, 195.9, 41.5, 40.5),
}
GRADES = (0.0, 10.0, 20.0, -10.0, -20.0)


@each("name", SIDE_BY_SIDE)
def test_the_models_side_by_side_in_watts(name: str) -> None:
    digit = 0.005 if name == "lcda-backpacking-2022" else 0.05
    got = [walk(name, grade_pct=g) for g in GRADES]
    assert got == pytest.approx(SIDE_BY_SIDE[name], abs=digit * 1.001)


@each("name", PER_KM)
def test_the_models_side_by_side_in_kcal_per_km(name: str) -> None:
    digit = 0.005 if name == "lcda-backpacking-2022" else 0.05
    got = [float(kcal(walk(name, grade_pct=g), 1000 / 1.25 / 60)) for g in GRADES]
    assert got == pytest.approx(PER_KM[name], abs=digit * 1.001)


def test_acsm_side_by_side_on_the_level_and_up() -> None:
    got = [walk("acsm", grade_pct=g) for g in (0.0, 10.0, 20.0)]
    assert got == pytest.approx((333.4, 742.5, 1151.6), abs=0.05)


@each(
    ("name", "watts"),
    [("pandolf-1977", (288.3, 314.7, 348.7, 392.2)),
     ("lcda-backpacking-2022", (297.6, 324.9, 367.6, 419.2)),
     ("lcda-graded-2019", (312.1, 353.7, 395.3, 436.9)),
     ("ludlow-weyand-2017", (274.0, 299.9, 325.8, 351.7))],
)  # fmt: skip
def test_what_0_10_20_and_30_kg_cost_on_the_level(name: str, watts: tuple[float, ...]) -> None:
    got = [walk(name, load_kg=load, terrain=1.0) for load in (0.0, 10.0, 20.0, 30.0)]
    assert got == pytest.approx(watts, abs=0.06)


@each(
    ("name", "kcal_100m"),
    [("lcda-backpacking-2022", 65.7), ("pandolf-1977", 72.8), ("ludlow-weyand-2017", 59.8),
     ("minetti-2002", 49.9)],
)  # fmt: skip
def test_what_a_hundred_metres_of_climb_cost(name: str, kcal_100m: float) -> None:
    level = walk(name, speed_ms=1.0, terrain=1.0)
    climb = walk(name, speed_ms=1.0, terrain=1.0, grade_pct=10.0)
    assert kcal(climb - level, 1000 / 60) == pytest.approx(kcal_100m, abs=0.06)


def test_a_kilometre_up_and_one_down_shows_what_the_open_terrain_point_is_worth() -> None:
    def there_and_back(name: str = "lcda-backpacking-2022") -> float:
        legs = [walk(name, speed_ms=1.0, grade_pct=g) for g in (10.0, -10.0)]
        return float(kcal(sum(legs), 1000 / 60))

    assert there_and_back() == pytest.approx(192.47, abs=0.006)
    on_everything, on_speed_only = 190.38, 185.90  # the two other readings of Looney2022
    assert there_and_back() / on_speed_only - 1 < 0.0355
    assert there_and_back() > on_everything > on_speed_only


def test_seven_mets_are_a_steady_climb_of_seven_percent() -> None:
    """So the compendium's rows for backpacking must not price every walking hour."""
    assert kcal(walk("lcda-backpacking-2022", grade_pct=7.2), 60) == pytest.approx(525, rel=0.005)
    assert kcal(walk("lcda-backpacking-2022", grade_pct=8.8), 60) == pytest.approx(585, rel=0.005)


def test_unloaded_2022_and_2019_agree_within_a_percent() -> None:
    new = walk("lcda-backpacking-2022", load_kg=0.0, speed_ms=1.34, terrain=1.0, resting_w=90.0)
    assert new / 75.0 == pytest.approx(4.3698, abs=5e-5)
    assert new / walk("lcda-graded-2019", load_kg=0.0, speed_ms=1.34) == pytest.approx(
        4.3698 / 4.4140, rel=1e-4
    )
