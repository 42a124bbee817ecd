"""Laws of the need and of its consequence, for any walk that hypothesis can think of."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.values.plan import DayNeed
from oatsack.walker import tissue
from oatsack.walker.body import cautions, consequence
from oatsack.walker.need import Need, need
from oatsack.walker.person import Body
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, Stretches, columns

bodies = st.builds(
    Body,
    mass_kg=st.floats(45.0, 115.0),
    height_cm=st.floats(150.0, 198.0),
    age_years=st.floats(18.0, 75.0),
    sex=st.sampled_from(["female", "male", None]),
)
hours = st.floats(0.5, 10.0)
slopes = st.floats(-15.0, 20.0)
loads = st.floats(0.0, 30.0)


def day(walked_h: float, grade: float, load: float, **changes: float) -> Stretches:
    """A whole day: so long walking, three hours of camp, eight of sleep, the rest at rest."""
    rest = 1440.0 - 660.0 - walked_h * 60.0
    return columns(
        minutes=np.array([walked_h * 60.0, 180.0, rest, 480.0]),
        kind=np.array([WALK, CAMP, REST, SLEEP]), speed_ms=np.array([1.1, 0.0, 0.0, 0.0]),
        grade_pct=np.array([grade, 0.0, 0.0, 0.0]), load_kg=load, **changes,
    )  # fmt: skip


def likely(body: Body, s: Stretches) -> float:
    return need(body, s).days[1].energy_kcal


@given(body=bodies, h=hours, g=slopes, load=loads)
def test_low_likely_and_high_stand_in_order_and_are_positive(
    body: Body, h: float, g: float, load: float
) -> None:
    row = need(body, day(h, g, load)).days[1]
    assert 0.0 < row.low_kcal < row.energy_kcal < row.high_kcal


@given(body=bodies, h=hours, g=slopes, load=loads, more=st.floats(0.5, 15.0))
def test_more_on_the_back_never_needs_less(
    body: Body, h: float, g: float, load: float, more: float
) -> None:
    assert likely(body, day(h, g, load + more)) >= likely(body, day(h, g, load))


@given(body=bodies, h=st.floats(0.5, 8.0), g=slopes, load=loads, more=st.floats(0.1, 4.0))
def test_an_hour_more_on_the_move_never_needs_less(
    body: Body, h: float, g: float, load: float, more: float
) -> None:
    assert likely(body, day(h + more, g, load)) >= likely(body, day(h, g, load)) - 1e-6


@given(body=bodies, h=hours, load=loads, g=st.floats(0.0, 15.0), steeper=st.floats(0.1, 8.0))
def test_a_steeper_climb_never_needs_less(
    body: Body, h: float, load: float, g: float, steeper: float
) -> None:
    assert likely(body, day(h, g + steeper, load)) >= likely(body, day(h, g, load))


@given(body=bodies, h=hours, g=slopes, air=st.floats(-25.0, 15.0), colder=st.floats(0.1, 15.0))
def test_colder_air_never_needs_less(
    body: Body, h: float, g: float, air: float, colder: float
) -> None:
    mild, cold = day(h, g, 10.0, air_c=air), day(h, g, 10.0, air_c=air - colder)
    assert likely(body, cold) >= likely(body, mild)


@given(body=bodies, h=hours, g=slopes, low=st.floats(0, 4000), more=st.floats(1, 2000))
def test_higher_ground_never_needs_less(
    body: Body, h: float, g: float, low: float, more: float
) -> None:
    valley, ridge = day(h, g, 10.0, height_m=low), day(h, g, 10.0, height_m=low + more)
    assert likely(body, ridge) >= likely(body, valley)


@given(body=bodies, h=hours, g=slopes, load=loads)
def test_knowing_less_of_the_walker_never_narrows_the_range(
    body: Body, h: float, g: float, load: float
) -> None:
    known = need(body, day(h, g, load)).days[1]
    unknown = need(replace(body, guessed=("sex",)), day(h, g, load)).days[1]
    assert unknown.low_kcal <= known.low_kcal
    assert unknown.high_kcal >= known.high_kcal


@given(body=bodies, h=st.floats(1.0, 8.0), g=slopes, load=loads, parts=st.integers(2, 9))
def test_cutting_a_walk_into_pieces_changes_nothing(
    body: Body, h: float, g: float, load: float, parts: int
) -> None:
    whole = columns(minutes=np.array([h * 60.0]), speed_ms=1.1, grade_pct=g, load_kg=load)
    cut = columns(
        minutes=np.full(parts, h * 60.0 / parts), speed_ms=1.1, grade_pct=g, load_kg=load
    )
    assert likely(body, cut) == pytest.approx(likely(body, whole))


@given(body=bodies, kcal=st.lists(st.floats(1500.0, 5500.0), min_size=1, max_size=14),
       eaten=st.floats(800.0, 4000.0), less=st.floats(10.0, 500.0))  # fmt: skip
def test_eating_less_never_costs_less_tissue(
    body: Body, kcal: list[float], eaten: float, less: float
) -> None:
    need_days = {n: row(k) for n, k in enumerate(kcal, start=1)}
    much = consequence(body, need_days, dict.fromkeys(need_days, eaten))
    little = consequence(body, need_days, dict.fromkeys(need_days, eaten - less))
    assert little.tissue_kg >= much.tissue_kg
    assert little.share_of_mass >= much.share_of_mass
    for found in (much, little):
        assert 0.0 <= found.tissue_low_kg <= found.tissue_kg <= found.tissue_high_kg
        assert found.water_low_kg <= found.water_high_kg <= 1.0


@given(body=bodies, kcal=st.floats(1500.0, 5500.0), days=st.integers(1, 30),
       eaten=st.floats(300.0, 6000.0))  # fmt: skip
def test_there_is_one_neutral_line_at_most_and_each_caution_once(
    body: Body, kcal: float, days: int, eaten: float
) -> None:
    need_days = {n: row(kcal) for n in range(1, days + 1)}
    keys = [flag.key for flag in cautions(body, need_days, dict.fromkeys(need_days, eaten))]
    assert len(keys) == len(set(keys))
    if eaten >= kcal and eaten >= 2300.0:
        assert keys == []


def row(kcal: float) -> DayNeed:
    """A day of so much, with a fifth to either side."""
    return DayNeed(
        energy_kcal=kcal, low_kcal=0.8 * kcal, high_kcal=1.2 * kcal, walking_kcal=0.0,
        camp_kcal=0.0, rest_kcal=0.0, sleep_kcal=0.0, thermic_kcal=0.0,
    )  # fmt: skip


@given(fat=st.floats(2.0, 80.0), loss=st.floats(0.01, 1.5))
def test_losing_takes_fat_and_lean_together(fat: float, loss: float) -> None:
    left = tissue.fat_after(fat, -loss)
    assert fat - loss < left < fat


@given(fat=st.floats(1.0, 80.0), more=st.floats(0.1, 20.0))
def test_a_kilogram_holds_more_energy_the_more_fat_there_is(fat: float, more: float) -> None:
    low, high = tissue.energy_kcal_per_kg(fat), tissue.energy_kcal_per_kg(fat + more)
    assert tissue.LEAN_KCAL_KG < low < high < tissue.FAT_KCAL_KG


@given(body=bodies, h=hours, g=slopes)
def test_the_stretches_of_a_need_add_up_whatever_the_walk(body: Body, h: float, g: float) -> None:
    found: Need = need(body, day(h, g, 12.0))
    assert float(found.likely_kcal.sum()) == pytest.approx(found.days[1].energy_kcal)
    assert float(found.low_kcal.sum()) == pytest.approx(found.days[1].low_kcal)
