"""Laws of the body model, of tissue and of what one chooses to eat."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.values.plan import DayNeed
from oatsack.values.walker import Target, Walker
from oatsack.walker import hall_2011, norms, tissue
from oatsack.walker.person import Body, body_of, resting_kcal_day
from oatsack.walker.target import targets
from support.amount import examples

bodies = st.builds(
    Body,
    mass_kg=st.floats(50.0, 110.0),
    height_cm=st.floats(155.0, 195.0),
    age_years=st.floats(20.0, 70.0),
    sex=st.sampled_from(["female", "male", None]),
)
quick = settings(max_examples=examples(25))


@given(body=bodies)
@quick
def test_the_body_starts_as_heavy_as_it_is_and_in_balance(body: Body) -> None:
    begin = hall_2011.start(body)
    mass = (
        begin.fat_kg + begin.lean_kg + begin.water_l
        + hall_2011.GLYCOGEN_MASS * hall_2011.GLYCOGEN_KG
    )  # fmt: skip
    assert mass == pytest.approx(body.mass_kg)
    state = np.array([begin.fat_kg, begin.lean_kg, 0.5, begin.water_l, 0.0])
    assert hall_2011._rates(state, begin, begin.intake_kcal) == pytest.approx(np.zeros(5), abs=1e-9)


@given(body=bodies, cut=st.floats(-1200.0, -50.0), more=st.floats(-400.0, -20.0))
@quick
def test_eating_less_weighs_less(body: Body, cut: float, more: float) -> None:
    little = hall_2011.mass_change_kg(body, cut, days=10)
    much = hall_2011.mass_change_kg(body, cut + more, days=10)
    assert much < little < 0.0


@given(body=bodies, cut=st.floats(-1200.0, -100.0))
@quick
def test_no_step_of_the_course_gains_while_eating_less(body: Body, cut: float) -> None:
    rows = hall_2011.course(body, cut, days=21)
    mass = rows @ np.array([1.0, 1.0, hall_2011.GLYCOGEN_MASS, 1.0])
    assert np.all(np.diff(mass) < 0.0)
    assert rows.shape == (22, 4)
    assert np.all(rows > 0.0)


@given(body=bodies, cut=st.floats(-1200.0, -300.0))
@quick
def test_the_first_week_shows_more_on_the_scales_than_tissue_explains(
    body: Body, cut: float
) -> None:
    by_tissue = 7 * cut / tissue.energy_kcal_per_kg(tissue.fat_kg(body))
    assert hall_2011.mass_change_kg(body, cut, days=7) < by_tissue


@given(body=bodies)
def test_usual_fat_is_a_part_of_the_body(body: Body) -> None:
    assert 0.05 * body.mass_kg <= tissue.fat_kg(body) <= 0.60 * body.mass_kg


@given(deficit=st.floats(-5000.0, 50_000.0), more=st.floats(0.0, 5000.0))
def test_the_water_allowance_never_shrinks_with_the_shortfall(deficit: float, more: float) -> None:
    low, high = tissue.water_kg(deficit)
    low_more, high_more = tissue.water_kg(deficit + more)
    assert 0.0 <= low <= high <= 1.0
    assert (low_more, high_more) >= (low, high)


@given(body=bodies, kilos=st.floats(0.5, 20.0))
def test_more_body_rests_dearer_and_needs_more(body: Body, kilos: float) -> None:
    heavier = Body(
        mass_kg=body.mass_kg + kilos, height_cm=body.height_cm, age_years=body.age_years,
        sex=body.sex,
    )  # fmt: skip
    assert resting_kcal_day(heavier) > resting_kcal_day(body)


@given(body=bodies, rank=st.integers(0, 2))
def test_a_livelier_day_has_the_higher_norm(body: Body, rank: int) -> None:
    for norm in (norms.iom_2005, norms.nasem_2023):
        quiet, lively = (
            norm(body.mass_kg, body.height_cm, age_years=body.age_years, sex=body.sex, level=level)
            for level in norms.LEVELS[rank : rank + 2]
        )
        assert lively > quiet > 0.9 * resting_kcal_day(body)


days_of_need = st.lists(st.floats(1200.0, 5200.0), min_size=1, max_size=20)


def used(kcal: list[float]) -> dict[int, DayNeed]:
    return {
        n: DayNeed(
            energy_kcal=k, low_kcal=0.8 * k, high_kcal=1.2 * k, walking_kcal=0, camp_kcal=0,
            rest_kcal=0, sleep_kcal=0, thermic_kcal=0,
        )
        for n, k in enumerate(kcal, start=1)
    }  # fmt: skip


@given(kcal=days_of_need, share=st.floats(0.4, 1.2), first=st.floats(0.1, 1.0),
       last=st.floats(0.1, 1.0))  # fmt: skip
def test_a_share_of_the_need_is_met_over_the_walk_whatever_the_part_days(
    kcal: list[float], share: float, first: float, last: float
) -> None:
    """C15: the ramp has mean 1 over the trip, so that no energy is hidden in it (C16)."""
    need = used(kcal)
    shares = dict.fromkeys(need, 1.0) | {1: first, len(kcal): last}
    got = targets(Walker(id="a", name="A", mass_kg=70.0, target=Target(share=share)), need, shares)
    assert sum(got.kcal.values()) == pytest.approx(share * sum(kcal))
    assert all(value > 0.0 for value in got.kcal.values())


@given(kcal=days_of_need, number=st.floats(500.0, 6000.0))
def test_a_typed_number_is_never_touched(kcal: list[float], number: float) -> None:
    need = used(kcal)
    walker = Walker(id="a", name="A", mass_kg=70.0, target=Target(kcal=number), appetite=1.3)
    got = targets(walker, need, dict.fromkeys(need, 1.0))
    assert set(got.kcal.values()) == {number}


@given(kcal=days_of_need, number=st.floats(500.0, 6000.0),
       condition=st.sampled_from(["pregnant", "nursing", "ill"]))  # fmt: skip
def test_whoever_must_eat_in_full_never_gets_less_than_the_need(
    kcal: list[float], number: float, condition: str
) -> None:
    """C11."""
    need = used(kcal)
    walker = Walker(
        id="a", name="A", mass_kg=70.0, target=Target(kcal=number), condition=condition
    )  # type: ignore[arg-type]
    got = targets(walker, need, dict.fromkeys(need, 1.0))
    assert sum(got.kcal.values()) >= sum(kcal) * (1.0 - 1e-12)
    assert body_of(walker).fully_fed
