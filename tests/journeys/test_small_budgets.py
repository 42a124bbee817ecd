"""Budgets from far too small to enough, on the bundled larder: what a refusal names is enough."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from oatsack.desk.opening import open_trip
from oatsack.desk.planning import make_plan
from oatsack.errors import NoPlan
from oatsack.values.flags import Flag
from oatsack.values.plan import Plan
from oatsack.values.walker import Target

TODAY = dt.date(2027, 6, 1)
TRIP = """
from = "2027-07-02 09:00"
to = "2027-07-05 15:00"

[[walkers]]
mass = "68 kg"

[route]
usual_day = { distance = "15 km", up = "700 m" }

[rules]
budget = "BUDGET EUR"
"""


def planned(folder: Path, budget: float, spare: str = "meal") -> Plan:
    path = folder / "trip.toml"
    path.write_text(TRIP.replace("BUDGET", f"{budget:g}") + f'spare = "{spare}"\n', "utf-8")
    return make_plan(open_trip(path), today=TODAY)


def refused(folder: Path, budget: float) -> tuple[Flag, ...]:
    with pytest.raises(NoPlan) as caught:
        planned(folder, budget)
    return caught.value.flags


@pytest.mark.slow
def test_what_a_small_budget_is_told_to_need_is_enough_and_so_is_any_more(tmp_path: Path) -> None:
    """Seen once: 17 was named as enough for 10, and 25 was refused."""
    way = next(f for f in refused(tmp_path, 10.0) if f.key == "way-out.budget")
    enough = float(way.values["budget_money"])
    assert enough < 30.0
    for budget in (enough, enough + 2.0, enough + 7.0):
        assert (planned(tmp_path, budget).totals.price or 0.0) <= budget + 1e-6, budget


@pytest.mark.slow
def test_spare_food_is_paid_from_the_same_purse(tmp_path: Path) -> None:
    plan = planned(tmp_path, 40.0, spare="day")
    assert plan.totals.spare_g > 200.0
    assert (plan.totals.price or 0.0) <= 40.0 + 1e-6


@pytest.mark.slow
def test_every_refusal_of_a_budget_has_a_way_out(tmp_path: Path) -> None:
    for budget in (1.0, 15.0):
        ways = [f.key for f in refused(tmp_path, budget) if f.key.startswith("way-out")]
        assert ways, budget


@pytest.mark.slow
def test_absurd_amounts_are_answered_with_an_amount_that_fits(tmp_path: Path) -> None:
    """9,000 kcal a day for 25 EUR, and a twentieth of the need."""
    for budget, target in ((25.0, Target(kcal=9000.0)), (500.0, Target(share=0.05))):
        path = tmp_path / "trip.toml"
        path.write_text(TRIP.replace("BUDGET", f"{budget:g}"), "utf-8")
        with pytest.raises(NoPlan) as caught:
            make_plan(open_trip(path), today=TODAY, target=target)
        assert "way-out.eat" in {f.key for f in caught.value.flags}, target
