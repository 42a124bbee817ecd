"""What the walker chooses to eat: typed, a share, or nobody asked (C15)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.values.plan import DayNeed
from oatsack.values.walker import Target, Walker
from oatsack.walker.target import appetite, full_day_kcal, ramp, targets
from support.each import each


def used(kcal: float) -> DayNeed:
    """A day's need of so much."""
    return DayNeed(
        energy_kcal=kcal, low_kcal=0.8 * kcal, high_kcal=1.2 * kcal, walking_kcal=0, camp_kcal=0,
        rest_kcal=0, sleep_kcal=0, thermic_kcal=0,
    )  # fmt: skip


NEED = {1: used(1500.0), 2: used(3600.0), 3: used(3500.0), 4: used(2000.0)}
SHARES = {1: 0.4, 2: 1.0, 3: 1.0, 4: 0.6}


def walker(**changes: object) -> Walker:
    return Walker(id="anna", name="Anna", mass_kg=60.0, age_years=40.0, **changes)  # type: ignore[arg-type]


def test_a_full_days_need_is_all_energy_by_all_meal_shares() -> None:
    assert full_day_kcal(NEED, SHARES) == pytest.approx(10_600 / 3.0)


def test_a_typed_number_is_kept_and_has_no_ramp() -> None:
    got = targets(walker(target=Target(kcal=2800.0)), NEED, SHARES)
    assert got.how == "typed"
    assert got.kcal == pytest.approx({1: 1120.0, 2: 2800.0, 3: 2800.0, 4: 1680.0})


def test_a_share_of_the_need_comes_out_over_the_walk() -> None:
    got = targets(walker(target=Target(share=0.9)), NEED, SHARES)
    assert got.how == "share"
    assert sum(got.kcal.values()) == pytest.approx(0.9 * 10_600)


def test_nobody_asked_is_85_percent_up_to_a_week() -> None:
    got = targets(walker(), NEED, SHARES)
    assert got.how == "nobody-asked"
    assert sum(got.kcal.values()) == pytest.approx(0.85 * 10_600)


@each(("days", "share"), [(1, 0.85), (7, 0.85), (8, 1.0), (20, 1.0)])
def test_beyond_a_week_nobody_asked_is_the_whole_need(days: int, share: float) -> None:
    need = {n: used(3000.0) for n in range(1, days + 1)}
    got = targets(walker(), need, dict.fromkeys(need, 1.0))
    assert sum(got.kcal.values()) == pytest.approx(share * 3000.0 * days)


def test_appetite_scales_what_nobody_asked() -> None:
    hungry = targets(walker(appetite=1.1), NEED, SHARES)
    assert sum(hungry.kcal.values()) == pytest.approx(1.1 * 0.85 * 10_600)
    typed = targets(walker(appetite=1.1, target=Target(kcal=2800.0)), NEED, SHARES)
    assert typed.base_kcal == 2800.0


def test_appetite_is_small_at_first_and_grows_from_day_seven() -> None:
    got = [appetite(day) for day in (1, 2, 3, 6, 7, 8, 30)]
    assert got == pytest.approx([0.85, 0.95, 1.0, 1.0, 1.03, 1.06, 1.20])


def test_the_first_day_is_smaller_per_meal() -> None:
    got = targets(walker(), NEED, SHARES)
    assert got.kcal[1] / SHARES[1] < got.kcal[2] / SHARES[2] < got.kcal[3] / SHARES[3]


@given(st.lists(st.floats(0.1, 1.0), min_size=1, max_size=40))
def test_the_ramp_has_mean_one_over_the_walk(shares: list[float]) -> None:
    factors = ramp(shares)
    eaten = sum(f * s for f, s in zip(factors, shares, strict=True))
    assert eaten == pytest.approx(sum(shares))
    assert len(factors) == len(shares)


def test_a_walk_without_meals_has_a_flat_ramp() -> None:
    assert ramp([0.0, 0.0]) == (1.0, 1.0)


@each(
    "changes",
    [{"condition": "pregnant"}, {"condition": "nursing"}, {"condition": "ill"}],
)
def test_pregnant_nursing_or_ill_is_fed_in_full_whatever_was_asked(
    changes: dict[str, object],
) -> None:
    """C11."""
    got = targets(walker(target=Target(kcal=1500.0), **changes), NEED, SHARES)
    assert got.how == "full"
    assert sum(got.kcal.values()) == pytest.approx(10_600)
    assert [flag.key for flag in got.flags] == ["body.professional"]


def test_a_child_is_fed_in_full_and_may_have_more() -> None:
    child = Walker(id="ada", name="Ada", mass_kg=30.0, age_years=9.0)
    assert targets(child, NEED, SHARES).how == "full"
    more = Walker(id="ada", name="Ada", mass_kg=30.0, age_years=9.0, target=Target(kcal=9000.0))
    assert targets(more, NEED, SHARES).base_kcal == 9000.0


def test_an_unstated_age_is_an_adult() -> None:
    plain = Walker(id="bo", name="Bo", mass_kg=70.0)
    assert targets(plain, NEED, SHARES).flags == ()
