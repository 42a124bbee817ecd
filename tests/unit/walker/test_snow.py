"""Snow underfoot, from the trip file to the need: its factor, its clamp, and what is said of it."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.errors import UnitError
from oatsack.files.trip import picks
from oatsack.walker.need import need
from oatsack.walker.stretches import columns
from oatsack.walker.terrain import HELD_FACTOR, needs_snowshoes, snow_factor
from support.each import each
from support.people import MAN


@each(
    ("text", "factor"),
    [("10 cm snow", 2.27527), ("20 cm of snow", 4.55205), ("0 cm snow", 1.2604)],
)
def test_the_trip_file_takes_snow_by_its_depth(text: str, factor: float) -> None:
    """Richmond2019, density 0.3."""
    assert picks.TERRAIN.read(text) == pytest.approx(factor, abs=5e-6)


def test_inches_are_read_too_and_packed_snow_stays_a_surface() -> None:
    assert picks.TERRAIN.read("4 in snow") == pytest.approx(float(snow_factor(10.16)))
    assert picks.TERRAIN.read("hard-snow") == 1.3


@each("text", ["snow", "deep snow", "10 snow", "-5 cm snow", "9 m snow"])
def test_snow_without_a_depth_that_can_be_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        picks.TERRAIN.read(text)


def test_the_factor_is_held_where_a_boot_sinks_20_cm() -> None:
    depths = np.arange(0.0, 300.0, 0.5)
    factors = snow_factor(depths)
    assert np.all(np.diff(factors) >= 0.0)
    assert float(factors.max()) == pytest.approx(HELD_FACTOR)
    held = factors >= HELD_FACTOR - 1e-9
    sinks = np.array([needs_snowshoes(float(depth)) for depth in depths])
    assert np.array_equal(held, sinks)


def keys(depth_cm: float) -> set[str]:
    s = columns(minutes=np.array([60.0]), speed_ms=0.8, load_kg=12.0,
                terrain=float(snow_factor(depth_cm)))  # fmt: skip
    return {flag.key for flag in need(MAN, s).flags}


def test_deep_snow_lies_outside_the_model_and_deeper_asks_for_snowshoes() -> None:
    assert "need.outside-terrain" not in keys(8.0)
    assert "need.outside-terrain" in keys(20.0)
    assert "need.snowshoes" not in keys(20.0)
    assert {"need.outside-terrain", "need.snowshoes"} <= keys(60.0)


def test_walking_in_snow_is_dearer_the_deeper_it_is_and_ends_at_the_clamp() -> None:
    def kcal(depth_cm: float) -> float:
        s = columns(minutes=np.array([60.0]), speed_ms=0.8, load_kg=12.0,
                    terrain=float(snow_factor(depth_cm)))  # fmt: skip
        return need(MAN, s).days[1].walking_kcal

    found = [kcal(depth) for depth in (0.0, 5.0, 10.0, 20.0, 60.0, 200.0)]
    assert found == sorted(found)
    assert found[-1] == pytest.approx(found[-2])


def levels(factor: float) -> dict[str, str]:
    s = columns(minutes=np.array([60.0]), speed_ms=0.8, load_kg=12.0, terrain=factor)
    return {flag.key: flag.level for flag in need(MAN, s).flags}


def test_snow_too_deep_for_the_model_is_a_caution_and_a_little_roughness_is_not() -> None:
    from oatsack.walker.energy import model

    assert levels(2.1) == {}
    assert levels(4.0) == {"need.outside-terrain": "caution"}
    s = columns(minutes=np.array([60.0]), speed_ms=0.8, load_kg=12.0, terrain=1.8)
    found = need(MAN, s, model=model("ludlow-weyand-2017")).flags
    assert {f.key: f.level for f in found} == {"need.outside-terrain": "quiet"}
