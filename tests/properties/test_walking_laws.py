"""Laws of walking that every model must keep, and the few that some do not, by name."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.route import pace
from oatsack.values.model import Model
from oatsack.walker.energy import MODELS, model
from oatsack.walker.joules import kcal
from support.each import each

masses = st.floats(45.0, 120.0)
shares = st.floats(0.0, 0.6)
speeds = st.floats(0.1, 1.8)
grades = st.floats(-15.0, 25.0)
terrains = st.floats(1.0, 2.1)
CONTINUOUS = ("lcda-backpacking-2022", "lcda-graded-2019", "minetti-2002", "acsm")
JUMPS = ("pandolf-1977", "ludlow-weyand-2017")
each_model = pytest.mark.parametrize("one", MODELS, ids=lambda m: m.name)


def power(one: Model, mass: float, load: float, v: float, g: float, eta: float) -> float:
    return float(one.function(
        mass_kg=mass, load_kg=load, speed_ms=v, grade_pct=g, terrain=eta, resting_w=mass * 1.1
    ))  # fmt: skip


@each_model
@given(mass=masses, share=shares, v=speeds, g=grades, eta=terrains)
def test_power_is_positive_and_finite(
    one: Model, mass: float, share: float, v: float, g: float, eta: float
) -> None:
    assert 0.0 < power(one, mass, share * mass, v, g, eta) < 20_000.0


@each_model
@given(mass=masses, share=shares, more=st.floats(0.1, 20.0), v=speeds, g=grades, eta=terrains)
def test_a_heavier_load_never_costs_less_on_the_level_or_uphill(
    one: Model, mass: float, share: float, more: float, v: float, g: float, eta: float
) -> None:
    g = abs(g)
    loads = (share * mass, share * mass + more)
    light, heavy = (power(one, mass, load, v, g, eta) for load in loads)
    assert heavy >= light - 1e-9


@each("name", [m.name for m in MODELS if m.name != "pandolf-1977"])
@given(mass=masses, share=shares, more=st.floats(0.1, 20.0), v=speeds, g=grades)
def test_a_heavier_load_never_costs_less_downhill_either(
    name: str, mass: float, share: float, more: float, v: float, g: float
) -> None:
    g = -abs(g)
    light, heavy = (
        power(model(name), mass, load, v, g, 1.1) for load in (share * mass, share * mass + more)
    )
    assert heavy >= light - 1e-9


def test_pandolfs_descent_correction_breaks_that_law_on_slight_descents() -> None:
    """Named and kept: at a slow pace a heavier pack makes Santee's correction larger."""
    found = [
        power(model("pandolf-1977"), 75.0, 20.0, v, g, eta)
        - power(model("pandolf-1977"), 75.0, 10.0, v, g, eta)
        for v in (0.3, 0.8, 1.3)
        for g in (-1.0, -3.0, -6.0, -9.0, -14.0)
        for eta in (1.0, 1.5, 2.1)
    ]
    assert min(found) > -25.0
    assert max(found) > 0.0


@each_model
@given(mass=masses, more=st.floats(0.1, 30.0), v=speeds, eta=terrains)
def test_a_heavier_walker_never_costs_less_with_the_same_load_share(
    one: Model, mass: float, more: float, v: float, eta: float
) -> None:
    light = power(one, mass, 0.2 * mass, v, 3.0, eta)
    heavy = power(one, mass + more, 0.2 * (mass + more), v, 3.0, eta)
    assert heavy >= light - 1e-9


@each_model
@given(share=shares, v=speeds, g=grades, first=st.floats(1, 400), more=st.floats(0, 400))
def test_walking_longer_never_costs_less(
    one: Model, share: float, v: float, g: float, first: float, more: float
) -> None:
    watt = power(one, 75.0, share * 75.0, v, g, 1.1)
    assert kcal(watt, first + more) >= kcal(watt, first)


@each_model
@given(share=shares, v=speeds, g=st.floats(0.0, 25.0), steeper=st.floats(0.1, 10.0))
def test_a_steeper_climb_never_costs_less(
    one: Model, share: float, v: float, g: float, steeper: float
) -> None:
    low, high = (power(one, 75.0, share * 75.0, v, slope, 1.1) for slope in (g, g + steeper))
    assert high >= low - 1e-9


@each_model
@given(share=shares, v=st.floats(0.1, 1.7), faster=st.floats(0.01, 0.3), eta=terrains)
def test_walking_faster_on_the_level_never_takes_less_power(
    one: Model, share: float, v: float, faster: float, eta: float
) -> None:
    slow, fast = (power(one, 75.0, share * 75.0, x, 0.0, eta) for x in (v, v + faster))
    assert fast >= slow - 1e-9


@each("name", ["lcda-backpacking-2022", "pandolf-1977", "ludlow-weyand-2017"])
@given(share=shares, v=speeds, g=st.floats(0.0, 25.0), rougher=st.floats(0.01, 1.0))
def test_rougher_ground_never_costs_less_on_the_level_or_uphill(
    name: str, share: float, v: float, g: float, rougher: float
) -> None:
    smooth, rough = (
        power(model(name), 75.0, share * 75.0, v, g, eta) for eta in (1.1, 1.1 + rougher)
    )
    assert rough >= smooth - 1e-9


@given(share=shares, v=speeds, g=st.floats(-40.0, 0.0), rougher=st.floats(0.01, 1.0))
def test_rougher_ground_never_enlarges_what_a_descent_saves(
    share: float, v: float, g: float, rougher: float
) -> None:
    one = model("lcda-backpacking-2022")
    smooth, rough = (power(one, 75.0, share * 75.0, v, g, eta) for eta in (1.0, 1.0 + rougher))
    assert rough >= smooth - 1e-9


@each("name", CONTINUOUS)
@given(share=shares, v=speeds, eta=terrains)
def test_these_models_are_continuous_at_zero_slope(
    name: str, share: float, v: float, eta: float
) -> None:
    below, level, above = (
        power(model(name), 75.0, share * 75.0, v, g, eta) for g in (-1e-7, 0.0, 1e-7)
    )
    assert math.isclose(below, level, rel_tol=1e-6)
    assert math.isclose(above, level, rel_tol=1e-6)


def test_pandolf_jumps_up_by_6_percent_where_a_descent_begins() -> None:
    """Santee2003 at zero slope: +20.2 W for the standard man."""
    level = power(model("pandolf-1977"), 75.0, 12.0, 1.25, 0.0, 1.1)
    below = power(model("pandolf-1977"), 75.0, 12.0, 1.25, -1e-9, 1.1)
    assert below - level == pytest.approx(20.2, abs=0.05)
    assert (below - level) / level == pytest.approx(0.059, abs=5e-4)


def test_ludlow_and_weyand_drop_by_27_percent_of_the_walking_part() -> None:
    one = model("ludlow-weyand-2017")
    level = power(one, 75.0, 12.0, 1.25, 0.0, 1.0)
    below = power(one, 75.0, 12.0, 1.25, -1e-9, 1.0)
    rest = 3.05 * 75.0 * 20.9 / 60.0
    assert (below - rest) / (level - rest) == pytest.approx(0.73)


def test_every_model_is_named_as_continuous_or_as_jumping() -> None:
    assert sorted(CONTINUOUS + JUMPS) == sorted(m.name for m in MODELS)
    for name in JUMPS:
        assert "ot continuous at zero slope" in model(name).notes


@each("name", ["lcda-backpacking-2022", "lcda-graded-2019", "minetti-2002"])
@given(v=speeds, g=st.floats(-500.0, 500.0))
def test_slopes_beyond_the_measured_ones_are_held_and_never_overflow(
    name: str, v: float, g: float
) -> None:
    got = power(model(name), 75.0, 12.0, v, g, 1.1)
    assert np.isfinite(got)
    assert got > 0.0


@each("rule", pace.MODELS, ids=lambda m: m.name)
@given(g=st.floats(-45.0, 45.0))
def test_every_walking_time_rule_gives_a_human_speed(rule: Model, g: float) -> None:
    assert 0.2 < float(rule.function(grade_pct=g)) < 2.2


@each("rule", pace.MODELS, ids=lambda m: m.name)
@given(g=st.floats(0.0, 40.0), steeper=st.floats(0.1, 10.0))
def test_a_steeper_climb_is_never_walked_faster(rule: Model, g: float, steeper: float) -> None:
    assert rule.function(grade_pct=g + steeper) <= rule.function(grade_pct=g) + 1e-12


@each("rule", pace.MODELS, ids=lambda m: m.name)
@given(flat=st.floats(0.5, 1.8), g=st.floats(-40.0, 40.0))
def test_a_walkers_own_flat_speed_is_met_on_the_flat_and_scales_the_slopes(
    rule: Model, flat: float, g: float
) -> None:
    assert float(pace.speed_ms(rule, 0.0, flat_ms=flat)) == pytest.approx(flat)
    double = pace.speed_ms(rule, g, flat_ms=2 * flat)
    assert double == pytest.approx(2.0 * float(pace.speed_ms(rule, g, flat_ms=flat)))
