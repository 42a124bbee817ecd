"""The ribbon's numbers are the plan's numbers."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from oatsack.reports.ribbon import _curves, _day, _meals, ribbon_picture, ribbon_svg
from oatsack.reports.telling import telling
from support.sample_plan import sample_plan


def test_the_balance_ends_at_what_was_eaten_less_what_was_used() -> None:
    plan = sample_plan(walkers=2, days=3)
    balance = [curve for curve in _curves(telling(plan)) if curve.kind == "balance"]
    for walker, curve in zip(plan.trip.walkers, balance, strict=True):
        hours = plan.timeline[walker.id]
        eaten = sum(hour.eaten_kcal for hour in hours)
        assert curve.likely[0] == 0.0
        assert curve.likely[-1] == pytest.approx(eaten - sum(h.need_kcal for h in hours))
        assert curve.low[-1] == pytest.approx(eaten - sum(h.need_high_kcal for h in hours))
        assert all(a <= b <= c for a, b, c in zip(curve.low, curve.likely, curve.high, strict=True))


def test_the_sack_is_the_pack_without_its_base_weight() -> None:
    plan = sample_plan(walkers=2, days=3)
    sack = next(curve for curve in _curves(telling(plan)) if curve.kind == "sack")
    walker = plan.trip.walkers[0]
    first, last = plan.timeline[walker.id][0], plan.timeline[walker.id][-1]
    assert sack.likely[0] == pytest.approx(first.pack_kg - walker.base_weight_kg)
    assert sack.likely[-1] == pytest.approx(last.pack_kg - walker.base_weight_kg)


def test_a_larger_party_has_one_mean_curve_of_each_kind() -> None:
    plan = sample_plan(walkers=5, days=3)
    told = telling(plan)
    kinds = [curve.kind for curve in _curves(told)]
    assert kinds == ["sack", "balance"]
    ends = [sum(h.eaten_kcal - h.need_kcal for h in plan.timeline[w.id]) for w in plan.trip.walkers]
    assert _curves(told)[1].likely[-1] == pytest.approx(sum(ends) / 5)


def test_meals_and_the_move_add_up_to_what_each_eats() -> None:
    plan = sample_plan(walkers=2, days=3)
    told = telling(plan)
    for day in plan.days:
        drawn = _day(told, day)
        mean = sum(plan.eaten[w.id][str(day.number)].energy_kcal for w in plan.trip.walkers) / 2
        shown = drawn.move_kcal + sum(meal.kcal for meal in _meals(told, day))
        assert shown == pytest.approx(mean, rel=1e-6)


def test_both_drawings_and_the_table_behind_them_are_there() -> None:
    told = telling(sample_plan(walkers=2, days=3))
    picture = ribbon_picture(told)
    for svg in (picture.svg, picture.narrow):
        assert ElementTree.fromstring(svg).tag.endswith("svg")
    assert picture.svg != picture.narrow
    assert picture.table is not None
    assert len(picture.table.rows) == 3


def test_the_other_units_are_spoken_all_over() -> None:
    svg = ribbon_svg(sample_plan(walkers=1, days=2, units="us"))
    text = " ".join(node.text or "" for node in ElementTree.fromstring(svg).iter())
    assert " mi" in text
    assert " ft" in text
    assert " km" not in text
    assert " kg" not in text


def test_equal_plans_draw_equal_pictures() -> None:
    assert ribbon_svg(sample_plan()) == ribbon_svg(sample_plan())
