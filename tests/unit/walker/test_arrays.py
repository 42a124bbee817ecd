"""The shelf as arrays: shapes, single numbers, whole numbers, and that nothing given is changed."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from oatsack.route import pace
from oatsack.values.model import Model
from oatsack.walker import terrain
from oatsack.walker.energy import MODELS
from oatsack.walker.joules import kcal, watts
from support.each import each

each_model = pytest.mark.parametrize("one", MODELS, ids=lambda m: m.name)
each_rule = pytest.mark.parametrize("rule", pace.MODELS, ids=lambda m: m.name)


def given(**changes: Any) -> dict[str, Any]:
    standard = {
        "mass_kg": 70.0, "load_kg": 10.0, "speed_ms": 1.2, "grade_pct": 4.0, "terrain": 1.1,
        "resting_w": 80.0,
    }  # fmt: skip
    return {**standard, **changes}


@each_model
def test_a_column_gives_a_column(one: Model) -> None:
    got = one.function(**given(grade_pct=np.linspace(-10, 10, 7)))
    assert got.shape == (7,)
    assert got.dtype == np.float64


@each_model
def test_walkers_by_stretches_give_a_table(one: Model) -> None:
    """Every walker on every stretch in one call."""
    masses = np.array([[50.0], [70.0], [90.0]])
    got = one.function(**given(mass_kg=masses, grade_pct=np.linspace(-10, 10, 5)))
    assert got.shape == (3, 5)
    alone = one.function(**given(mass_kg=70.0, grade_pct=np.linspace(-10, 10, 5)))
    np.testing.assert_allclose(got[1], alone)


@each_model
@each("name", ["load_kg", "speed_ms", "grade_pct"])
def test_one_column_among_single_numbers_is_enough(one: Model, name: str) -> None:
    column = np.array([0.5, 1.0, 1.5])
    got = one.function(**given(**{name: column}))
    want = [float(one.function(**given(**{name: float(x)}))) for x in column]
    np.testing.assert_allclose(got, want)


@each_model
def test_whole_numbers_are_numbers(one: Model) -> None:
    whole = {"mass_kg": 70, "load_kg": 10, "speed_ms": 1, "grade_pct": -4, "terrain": 1,
             "resting_w": 80}  # fmt: skip
    decimal = {name: float(value) for name, value in whole.items()}
    assert float(one.function(**whole)) == pytest.approx(float(one.function(**decimal)))
    column = one.function(**{**whole, "grade_pct": np.array([-4, 0, 4])})
    assert column[0] == pytest.approx(float(one.function(**decimal)))


@each_model
def test_an_empty_column_gives_an_empty_column(one: Model) -> None:
    assert one.function(**given(grade_pct=np.zeros(0), load_kg=np.zeros(0))).size == 0


@each_model
def test_what_is_given_is_left_alone(one: Model) -> None:
    columns = {
        "load_kg": np.linspace(0, 20, 9), "speed_ms": np.linspace(0.2, 1.8, 9),
        "grade_pct": np.linspace(-60, 60, 9), "terrain": np.full(9, 1.2),
    }  # fmt: skip
    before = {name: column.copy() for name, column in columns.items()}
    for column in columns.values():
        column.setflags(write=False)
    one.function(**given(**columns))
    for name, column in columns.items():
        assert np.array_equal(column, before[name])


@each_model
def test_equal_arguments_give_equal_bytes(one: Model) -> None:
    column = np.linspace(-20, 20, 101)
    first, second = (one.function(**given(grade_pct=column)) for _ in range(2))
    assert first.tobytes() == second.tobytes()


@each_model
def test_only_keywords_are_taken(one: Model) -> None:
    """Six bare numbers in a row would be swapped sooner or later."""
    with pytest.raises(TypeError):
        one.function(70.0, 10.0, 1.2, 4.0, 1.1, 80.0)


@each_rule
def test_speeds_come_in_the_shape_of_the_slopes(rule: Model) -> None:
    grades = np.linspace(-30, 30, 12).reshape(3, 4)
    assert rule.function(grade_pct=grades).shape == (3, 4)
    assert np.ndim(rule.function(grade_pct=5.0)) == 0


@each_rule
def test_minutes_add_up_over_a_cut_way(rule: Model) -> None:
    grades = np.array([0.0, 6.0, -11.0, 14.0])
    metres = np.array([500.0, 700.0, 900.0, 300.0])
    whole = np.sum(pace.minutes(rule, metres, grade_pct=grades, flat_ms=1.2))
    halves = np.sum(pace.minutes(rule, np.tile(metres / 2, 2), grade_pct=np.tile(grades, 2),
                                 flat_ms=1.2))  # fmt: skip
    assert whole == pytest.approx(halves)


@each_rule
def test_without_a_speed_of_ones_own_the_rule_stands_as_printed(rule: Model) -> None:
    assert pace.multiplier(rule, None) == 1.0
    assert pace.speed_ms(rule, 7.0) == rule.function(grade_pct=7.0)


def test_watts_and_kcal_are_each_others_inverse() -> None:
    assert kcal(watts(1800.0), 1440.0) == pytest.approx(1800.0)
    column = np.array([100.0, 250.0])
    np.testing.assert_allclose(watts(kcal(column, 1440.0)), column)


def test_snow_takes_columns_of_depth() -> None:
    depths = np.array([0.0, 10.0, 20.0, 80.0])
    factors = terrain.snow_factor(depths, 0.3)
    assert np.all(np.diff(factors) > 0)
    assert factors[0] == pytest.approx(1.2604)
    assert terrain.snow_factor(-3.0) == factors[0]


def test_denser_snow_is_easier() -> None:
    assert terrain.snow_factor(20.0, 0.4) < terrain.snow_factor(20.0, 0.2)
