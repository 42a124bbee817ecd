"""What holds a menu back and what the next best food would cost, against the engine and by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.beside import binding, measures, misses, next_best, others, weighed
from oatsack.menu.choose import choose
from oatsack.menu.legs import joined, shifted
from oatsack.menu.near import answer_of
from oatsack.menu.problem import build
from oatsack.menu.structure import completed
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.trip import Rules
from oatsack.values.walker import Count, Usual
from support.menus import boiled, food, request, retarget, tiny, walker

PIE = food("pie", role="main", meals="dinner", category="meal", dose_g=100.0, liking=3.0)
STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=110.0, kcal=410.0,
            liking=3.0)  # fmt: skip
HASH = food("hash", role="main", meals="dinner", category="meal", dose_g=300.0, kcal=150.0,
            liking=1.0)  # fmt: skip
BAR = food("bar", meals="lunch", dose_g=50.0)
CAKE = food("cake", meals="lunch", dose_g=50.0, price=9.0)


def one_day(*, budget: float | None = None, **more: object) -> MenuRequest:
    asked = request((PIE, STEW, HASH, BAR, CAKE), keep="lunch dinner", rules=Rules(budget=budget))
    return replace(retarget(asked, 680.0), **more)  # type: ignore[arg-type]


def portion_of(menu: Menu, meal: str) -> Portion:
    return next(p for p in menu.portions if p.meal == meal)


@pytest.mark.slow
def test_a_menu_is_weighed_by_arithmetic_as_the_engine_weighs_it() -> None:
    wrong = []
    for seed in range(40):
        asked = tiny(seed)
        frame, problem = build(asked)
        try:
            menu = choose(asked, solve)
        except Exception:  # noqa: BLE001  an impossible question has no menu to weigh
            continue
        x = answer_of(frame, problem, menu)
        done = completed(problem, solve, x)
        assert done is not None
        if not np.isclose(weighed(frame, problem, x), done[1], rtol=1e-5):
            wrong.append((seed, weighed(frame, problem, x), done[1]))
    assert wrong == []


def test_an_answer_that_breaks_a_rule_weighs_infinitely_much() -> None:
    frame, problem = build(one_day())
    assert weighed(frame, problem, problem.low.copy()) == float("inf"), "nothing to eat"


def test_the_next_best_is_the_other_that_costs_least_and_is_never_the_food_itself() -> None:
    asked = one_day()
    menu = choose(asked, solve)
    dinner = portion_of(menu, "dinner")
    found = {other.food: other for other in others(asked, menu, dinner)}
    assert dinner.food not in found
    assert set(found) == {"pie", "stew", "hash"} - {dinner.food}
    best = next_best(asked, menu, dinner)
    assert best is not None
    assert best.more_g == min(other.more_g for other in found.values())
    assert found["hash"].more_g > 30.0, "three times the mass, and disliked"
    assert found["hash"].mass_g == pytest.approx(301.0)


def test_what_the_next_best_costs_is_what_the_engine_finds_when_it_is_forced() -> None:
    asked = one_day()
    menu = choose(asked, solve)
    dinner = portion_of(menu, "dinner")
    best = next_best(asked, menu, dinner)
    assert best is not None
    swapped = replace(menu, portions=tuple(
        replace(p, food=best.food, doses=best.doses) if p == dinner else p for p in menu.portions
    ))  # fmt: skip
    frame, problem = build(asked)
    before, after = (
        completed(problem, solve, answer_of(frame, problem, m)) for m in (menu, swapped)
    )
    assert before is not None
    assert after is not None
    assert best.more_g == pytest.approx((after[1] - before[1]) / frame.mean_carry, abs=0.01)


def test_where_nothing_else_fits_there_is_no_next_best() -> None:
    asked = retarget(request((PIE, BAR), keep="lunch dinner"), 680.0)
    menu = choose(asked, solve)
    assert next_best(asked, menu, portion_of(menu, "dinner")) is None
    assert next_best(asked, menu, replace(portion_of(menu, "dinner"), food="elsewhere")) is None


def test_a_food_that_breaks_the_purse_is_no_other() -> None:
    """Bars are two a pack, cakes nine: the purse holds the pie and the bars only."""
    free, tight = one_day(), one_day(budget=5.0)
    menu = choose(tight, solve)
    lunch = portion_of(menu, "lunch")
    assert lunch.food == "bar"
    assert "cake" in {other.food for other in others(free, menu, lunch)}
    assert "cake" not in {other.food for other in others(tight, menu, lunch)}


def test_a_shared_dish_changes_for_everyone_who_shares_it() -> None:
    party = [walker(), walker("ben", 80.0)]
    asked = retarget(request((PIE, STEW, BAR), party, keep="lunch dinner"), 680.0)
    menu = choose(asked, solve)
    dinner = portion_of(menu, "dinner")
    best = next_best(asked, menu, dinner)
    assert best is not None
    assert {best.food, dinner.food} == {"pie", "stew"}


def test_measuring_columns_are_those_that_only_price_a_miss() -> None:
    _, problem = build(one_day())
    names = {problem.columns[i] for i in np.flatnonzero(measures(problem))}
    assert any(name.startswith("under/") for name in names)
    assert not any(name.startswith(("eat/", "use/")) for name in names)


def test_what_binds_is_what_is_missed_and_what_stands_at_its_limit() -> None:
    lean = [replace(f, per_100g=replace(f.per_100g, protein_g=1.0)) for f in (PIE, BAR)]
    menu = choose(retarget(request(lean, keep="lunch dinner"), 680.0), solve)
    assert "protein/anna" in menu.binds, "one per cent of protein is far below any wish"
    rich = [replace(f, per_100g=replace(f.per_100g, protein_g=60.0)) for f in (PIE, BAR)]
    menu = choose(retarget(request(rich, keep="lunch dinner"), 680.0), solve)
    assert "protein/anna" not in menu.binds


def test_a_purse_that_is_spent_binds_and_an_ample_one_does_not() -> None:
    spent = choose(one_day(budget=4.0), solve)
    assert "packs/budget" in spent.binds
    assert "packs/budget" not in choose(one_day(budget=80.0), solve).binds


def test_counts_at_their_natural_limit_are_not_told() -> None:
    """One dinner of a kind in four days is no hardship."""
    asked = retarget(request((PIE, STEW, HASH, BAR), keep="lunch dinner", count=3), 680.0)
    frame, problem = build(asked)
    menu = choose(asked, solve)
    told = binding(problem, answer_of(frame, problem, menu))
    assert not [name for name in told if name.startswith(("doses/", "mains/", "items/"))]


def test_a_leg_that_is_used_again_names_its_own_days() -> None:
    menu = Menu(portions=(), binds=("energy-day/anna/2", "fat/wish/anna", "container/1"))
    later = shifted(menu, 5)
    assert later.binds == ("energy-day/anna/7", "fat/wish/anna", "container/1")
    assert joined([menu, later], ()).binds == (
        "energy-day/anna/2", "fat/wish/anna", "container/1", "energy-day/anna/7",
    )  # fmt: skip


def test_what_is_counted_by_habit_is_not_drunk_twice_when_a_menu_is_read_back() -> None:
    """Counted coffee is a drink that could be chosen too: an edit starts from the counted ones."""
    coffee = food("coffee", role="drink", meals="drinks", category="drink", kcal=300.0, dose_g=2.0,
                  prep=boiled(), price=2.0)  # fmt: skip
    habit = Usual(counts=(Count(food="coffee", count=2.0, per="day"),))
    party = [walker(usual=habit)]
    asked = retarget(request((PIE, BAR, coffee), party, keep="dinner lunch drinks"), 680.0)
    frame, problem = build(asked)
    menu = choose(asked, solve)
    x = answer_of(frame, problem, menu)
    assert x[problem.columns.index("eat/anna/1/drinks/coffee")] == 0.0
    assert weighed(frame, problem, x) == pytest.approx(menu.aim, rel=1e-6)


def test_what_a_menu_misses_is_told_by_row_in_its_own_unit() -> None:
    """A bar of 50 g, 10 g of protein in 100 g, against 66 g wished for 60 kg on a whole day."""
    asked = retarget(request((BAR,), keep="lunch"), 225.0)
    menu = Menu(portions=(Portion(walker="anna", day=1, meal="lunch", food="bar", doses=1.0),))
    found = misses(asked, menu)
    assert found["protein/anna"] == pytest.approx(66.0 - 5.0)
    assert found["fibre/anna"] == pytest.approx(20.0 - 3.0)
    assert "fat/anna" not in found
    frame, problem = build(asked)
    done = completed(problem, solve, answer_of(frame, problem, menu))
    assert done is not None
    short = done[0][list(problem.columns).index("short/protein/anna")]
    assert found["protein/anna"] == pytest.approx(short), "as the engine fills it in"
