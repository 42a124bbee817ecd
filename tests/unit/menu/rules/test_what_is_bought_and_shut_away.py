"""Rules of packs, money, what is at home, and the container on the first night."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from oatsack.menu.problem import build
from oatsack.values.food import Stock
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Rules
from support.menus import START, food, request, walker
from support.ruled import allowed

BAR = food("bar", meals="lunch", dose_g=40.0, doses=4.0, price=3.0)
"""Four doses a pack, three of the currency a pack."""
NUTS = food("nuts", meals="move", category="nut", carry="bag", dose_g=30.0, doses=4.0, price=5.0)


def with_budget(budget: float | None, *foods, count: int = 3, **more) -> MenuRequest:
    """Lunches (and nibbles) of some days within a budget."""
    return request(foods or (BAR,), [walker()], count=count, keep="lunch move",
                   rules=Rules(budget=budget, spare="none"), **more)  # fmt: skip


def lunches(*doses: float) -> dict[str, float]:
    """So many bars at the lunch of each day."""
    return {f"anna/{day}/lunch/bar": n for day, n in enumerate(doses, start=1)}


class TestWholePacks:
    """A budget pays for whole packs, opened or not."""

    @pytest.mark.parametrize(("doses", "packs"), [
        ((1,), 1), ((2, 2), 1), ((2, 2, 1), 2), ((2, 2, 2), 2),
    ])  # fmt: skip
    def test_what_is_eaten_is_bought_in_whole_packs(
        self, doses: tuple[int, ...], packs: int
    ) -> None:
        assert allowed(with_budget(3.0 * packs), lunches(*doses), "packs")
        assert not allowed(with_budget(3.0 * packs - 0.01), lunches(*doses), "packs")

    def test_without_a_budget_nobody_counts_money(self) -> None:
        assert allowed(with_budget(None), lunches(2, 2, 2), "packs")

    def test_an_open_bag_is_a_whole_pack(self) -> None:
        bag = {"anna/1-2/nuts": 1.0}
        assert allowed(with_budget(5.0, NUTS), bag, "packs")
        assert not allowed(with_budget(4.99, NUTS), bag, "packs")

    def test_a_price_that_nobody_stated_counts_as_a_high_one(self) -> None:
        unpriced = replace(BAR, price=None)
        assert not allowed(with_budget(3.0, unpriced), lunches(1), "packs")

    def test_two_walkers_share_a_pack(self) -> None:
        asked = request((BAR,), [walker(), walker("ben")], keep="lunch",
                        rules=Rules(budget=3.0, spare="none"))  # fmt: skip
        both = {"anna/1/lunch/bar": 2.0, "ben/1/lunch/bar": 2.0}
        assert allowed(asked, both, "packs")


class TestSpareFood:
    """What is spare is bought as well (C16), and shares packs with what is eaten."""

    def spare(self, kcal: float, budget: float) -> MenuRequest:
        asked = with_budget(budget, count=2)
        return replace(asked, rules=Rules(budget=budget), spare_kcal={"anna": kcal})

    def test_spare_food_fits_into_what_is_left_of_an_opened_pack(self) -> None:
        asked = self.spare(2 * BAR.dose_kcal, 3.0)
        assert allowed(asked, lunches(1, 1), "packs")
        assert not allowed(asked, lunches(2, 1), "packs"), "three eaten and two spare are two packs"

    def test_spare_food_alone_takes_a_pack(self) -> None:
        asked = self.spare(BAR.dose_kcal, 2.99)
        assert not allowed(asked, lunches(0, 0), "packs")
        assert allowed(self.spare(BAR.dose_kcal, 3.0), lunches(0, 0), "packs")

    def test_no_spare_food_takes_no_pack(self) -> None:
        assert allowed(self.spare(0.0, 0.0), lunches(0, 0), "packs")


class TestWhatIsAtHome:
    """Stock costs nothing, and is only good up to its date."""

    def test_a_pack_at_home_needs_no_money(self) -> None:
        home = replace(BAR, stock=Stock(packs=1.0))
        assert allowed(with_budget(0.0, home), lunches(2, 2), "packs")
        assert not allowed(with_budget(0.0, home), lunches(2, 2, 1), "packs")

    def test_half_a_pack_at_home_is_half_a_pack(self) -> None:
        home = replace(BAR, stock=Stock(packs=0.5))
        assert allowed(with_budget(0.0, home), lunches(2), "packs")
        assert not allowed(with_budget(0.0, home), lunches(2, 1), "packs")

    def test_what_spoils_after_the_first_day_is_eaten_on_it(self) -> None:
        home = replace(BAR, stock=Stock(packs=1.0, best_before=START))
        assert allowed(with_budget(0.0, home), lunches(2), "packs")
        assert not allowed(with_budget(0.0, home), lunches(0, 2), "packs")

    def test_what_keeps_a_day_longer_serves_a_day_longer(self) -> None:
        home = replace(BAR, stock=Stock(packs=1.0, best_before=START + dt.timedelta(days=1)))
        assert allowed(with_budget(0.0, home), lunches(0, 2), "packs")
        assert not allowed(with_budget(0.0, home), lunches(0, 0, 2), "packs")


SEALED_FILLS = 0.7
"""A sealed thing fills so much of the room it takes (common practice)."""


def test_packs_are_counted_whole_where_price_is_an_aim_of_its_own() -> None:
    plain = request((BAR,), count=2, keep="lunch")
    ordered = replace(plain, aims=("kg-days", "price"))
    assert "packs/bar" not in build(plain)[1].rows
    _, problem = build(ordered)
    assert "packs/bar" in problem.rows
    assert problem.integer[problem.columns.index("buy/bar")]


class TestContainer:
    """What is left after the first day closes in the container; nothing bends that."""

    bare = replace(BAR, wrap_g=0.0)

    def asked(self, room_ml: float) -> MenuRequest:
        """Three lunches of bars that take 80 ml a dose and leave no wrapper."""
        return request((self.bare,), count=3, keep="lunch", container_ml=room_ml)

    def test_the_first_days_food_is_eaten_before_night(self) -> None:
        assert allowed(self.asked(0.0), lunches(2), "container")

    def test_later_days_take_room(self) -> None:
        needed = 4 * (BAR.pack_ml or 0.0) / BAR.doses_per_pack / SEALED_FILLS
        assert allowed(self.asked(needed + 0.1), lunches(2, 2, 2), "container")
        assert not allowed(self.asked(needed - 0.1), lunches(2, 2, 2), "container")

    def test_each_leg_has_a_first_night_of_its_own(self) -> None:
        asked = request((self.bare,), count=4, keep="lunch", legs=(1, 1, 2, 2), container_ml=240.0)
        assert allowed(asked, lunches(2, 2, 2, 2), "container")
        assert not allowed(asked, lunches(2, 3, 2, 2), "container")

    def test_a_soft_bag_takes_less_room_than_a_sealed_thing_of_the_same_volume(self) -> None:
        soft = replace(self.bare, carry="repack")
        asked = request((soft,), count=3, keep="lunch", container_ml=400.0)
        assert allowed(asked, lunches(2, 2, 2), "container")
        assert not allowed(self.asked(400.0), lunches(2, 2, 2), "container")

    def test_the_spare_food_lies_in_it_too(self) -> None:
        """320 ml over 0.7 are 457 ml; 100 kcal of spare food take another 50 ml."""
        asked = replace(self.asked(500.0), spare_kcal={"anna": 100.0})
        assert allowed(self.asked(500.0), lunches(2, 2, 2), "container")
        assert not allowed(asked, lunches(2, 2, 2), "container")

    def test_the_wrappers_of_the_first_day_lie_in_it_crushed(self) -> None:
        """Two bars of the first day leave 4 g, 40 ml; common practice: 0.1 g/ml."""
        wrapped = replace(BAR, wrap_g=2.0 * BAR.doses_per_pack)
        asked = request((wrapped,), count=3, keep="lunch", container_ml=480.0)
        assert allowed(self.asked(480.0), lunches(2, 2, 2), "container")
        assert allowed(asked, lunches(0, 2, 2), "container")
        assert not allowed(asked, lunches(2, 2, 2), "container")

    def test_without_a_container_nothing_is_asked(self) -> None:
        asked = request((BAR,), count=3, keep="lunch")
        assert allowed(asked, lunches(2, 2, 2), "container")
