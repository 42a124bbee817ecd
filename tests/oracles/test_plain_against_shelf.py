"""The vectorised shelf against the same equations as plain arithmetic, over a grid."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import numpy as np
import pytest

from oatsack.route import pace
from oatsack.walker.energy import model
from oatsack.walker.joules import OXYGEN_W
from support import plain_energy as plain
from support.each import each

GRADES = (-38.0, -20.0, -12.0, -6.0, -1.0, 0.0, 1.0, 6.0, 12.0, 20.0, 44.0)
SPEEDS = (0.1, 0.6, 1.0, 1.25, 1.9)
LOADS = (0.0, 7.0, 22.0, 45.0)
ETAS = (1.0, 1.3, 2.1)
GRID = list(itertools.product(GRADES, SPEEDS, LOADS, ETAS))
MASS, REST = 68.0, 78.0


def classic(load: float, v: float, g: float, eta: float) -> float:
    held = max(g, -15.0)
    off = plain.santee_correction(MASS, load, v, held, eta) if held < 0 else 0.0
    return plain.pandolf(MASS, load, v, held, eta) - off


def backpack(load: float, v: float, g: float, eta: float) -> float:
    return MASS * plain.backpacking(MASS, load, v, g, eta, REST / MASS)


def graded(load: float, v: float, g: float, eta: float) -> float:
    return (MASS + load) * plain.graded(v, g)


def mechanics(load: float, v: float, g: float, eta: float) -> float:
    walking = plain.ludlow_weyand(MASS, load, v, g) - 3.05
    return MASS * OXYGEN_W * (3.05 + eta * walking)


def metre(load: float, v: float, g: float, eta: float) -> float:
    return REST + eta * plain.minetti(g / 100.0) * v * (MASS + load)


def gym(load: float, v: float, g: float, eta: float) -> float:
    return (MASS + load) * OXYGEN_W * plain.acsm(v, max(g, 0.0))


PLAIN: dict[str, Callable[[float, float, float, float], float]] = {
    "lcda-backpacking-2022": backpack,
    "lcda-graded-2019": graded,
    "pandolf-1977": classic,
    "ludlow-weyand-2017": mechanics,
    "minetti-2002": metre,
    "acsm": gym,
}


@each("name", PLAIN)
def test_one_call_for_the_whole_grid_equals_plain_arithmetic_point_by_point(name: str) -> None:
    g, v, load, eta = (np.array(column) for column in zip(*GRID, strict=True))
    got = model(name).function(
        mass_kg=MASS, load_kg=load, speed_ms=v, grade_pct=g, terrain=eta, resting_w=REST
    )
    want = [PLAIN[name](load_, v_, g_, eta_) for g_, v_, load_, eta_ in GRID]
    assert got.shape == (len(GRID),)
    np.testing.assert_allclose(got, want, rtol=1e-12)


@each("name", PLAIN)
def test_single_numbers_give_single_numbers(name: str) -> None:
    got = model(name).function(
        mass_kg=MASS, load_kg=12.0, speed_ms=1.2, grade_pct=-4.0, terrain=1.1, resting_w=REST
    )
    assert np.ndim(got) == 0
    assert float(got) == pytest.approx(PLAIN[name](12.0, 1.2, -4.0, 1.1), rel=1e-12)


def test_tobler_equals_plain_arithmetic() -> None:
    grades = np.linspace(-60, 60, 121)
    got = pace.model("tobler").function(grade_pct=grades)
    want = [plain.tobler_kmh(g / 100) / 3.6 for g in grades]
    np.testing.assert_allclose(got, want, rtol=1e-12)


def test_campbell_equals_plain_arithmetic() -> None:
    grades = np.linspace(-57, 57, 115)
    got = pace.model("campbell-2022").function(grade_pct=grades)
    want = [plain.campbell_ms(float(np.degrees(np.arctan(g / 100)))) for g in grades]
    np.testing.assert_allclose(got, want, rtol=1e-12)
