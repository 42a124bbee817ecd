"""Food that cools while it stands."""

from __future__ import annotations

import pytest

from oatsack.kitchen.cosy import LUKEWARM_C, Bagged
from oatsack.kitchen.ledger import ledger
from oatsack.values.kit import Kit
from oatsack.values.trip import Rules
from support.kitchen import FOODS, days, simple_menu, walkers

COLD_CAMP = Bagged(water_g=450.0, water_c=89.98, food_g=130.0, food_c=10.0)


def test_water_and_food_share_their_heat() -> None:
    # evaluated apart from this code: 81.1 C at 3,000 m, 90.3 C at the sea
    assert COLD_CAMP.mixed_c == pytest.approx(81.1, abs=0.05)
    warm = Bagged(water_g=400.0, water_c=99.97, food_g=120.0, food_c=15.0)
    assert warm.mixed_c == pytest.approx(90.3, abs=0.05)


@pytest.mark.parametrize(
    ("minutes", "bare", "cosy"), [(10.0, 69.1, 77.2), (20.0, 59.1, 73.6), (30.0, 50.7, 70.2)]
)
def test_a_bare_bag_cools_fast_and_a_wrapped_one_slowly(
    minutes: float, bare: float, cosy: float
) -> None:
    # evaluated apart from this code: 5 C air, 2.12 kJ/K, 81 C at first
    assert COLD_CAMP.capacity_kj_k == pytest.approx(2.12, abs=0.005)
    assert COLD_CAMP.after_c(minutes, 5.0, cosy=False) == pytest.approx(bare, abs=0.2)
    assert COLD_CAMP.after_c(minutes, 5.0, cosy=True) == pytest.approx(cosy, abs=0.2)


def test_at_once_nothing_is_lost_and_in_the_end_all() -> None:
    assert COLD_CAMP.after_c(0.0, 5.0, cosy=False) == pytest.approx(COLD_CAMP.mixed_c)
    assert COLD_CAMP.after_c(10_000.0, 5.0, cosy=False) == pytest.approx(5.0, abs=0.01)


def test_a_sleeve_keeps_food_out_of_the_danger_zone_through_the_wait() -> None:
    # FSISDanger: above 60 C
    assert COLD_CAMP.after_c(15.0, 5.0, cosy=True) > 60.0


def told(*, cosy: bool, **fields) -> set[str]:
    people, stretch = walkers(1), days(3, **fields)
    book = ledger(simple_menu(people, stretch), FOODS, stretch, people, Kit(cosy=cosy), Rules())
    return {f.key for f in book.flags}


def test_only_a_cold_high_camp_without_a_cosy_is_told() -> None:
    cold = {"height_m": 4000.0, "cold_c": -12.0, "warm_c": 5.0}
    assert "kitchen.cosy" in told(cosy=False, **cold)
    assert "kitchen.cosy" not in told(cosy=True, **cold)
    assert "kitchen.cosy" not in told(cosy=False)
    assert 50.0 <= LUKEWARM_C <= 60.0
