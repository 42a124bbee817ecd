"""Edits stay close, the dial leaves dinners alone, and why not is answered."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.menu.choose import choose
from oatsack.menu.dial import dial
from oatsack.menu.frame import lay
from oatsack.menu.near import (
    DINNER_FACTOR,
    EDIT,
    MOVE_GRAMS,
    answer_of,
    days_to_free,
    move_grams,
    moved,
)
from oatsack.menu.problem import build
from oatsack.menu.refuse import Give
from oatsack.menu.structure import completed
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.trip import Hold, Rules
from support.each import each
from support.menu_checker import faults_of
from support.menus import boiled, eaten_kcal, food, request, walker

pytestmark = pytest.mark.slow

DINNERS = [
    food(f"dinner-{i}", role="main", meals="dinner", category="meal", dose_g=90 + 10 * i,
         kcal=440 + 5 * i, prep=boiled())
    for i in range(4)
]  # fmt: skip
BREAKFASTS = [
    food(f"breakfast-{i}", role="main", meals="breakfast", category="breakfast", dose_g=75 + 5 * i)
    for i in range(3)
]  # fmt: skip
BARS = [
    food(f"bar-{i}", meals="lunch move", dose_g=40 + 5 * i, kcal=430 + 15 * i,
         taste="salty" if i % 2 else "sweet")
    for i in range(6)
]  # fmt: skip
LARDER = (*DINNERS, *BREAKFASTS, *BARS)


@pytest.fixture(scope="module")
def asked() -> MenuRequest:
    return request(LARDER, count=4, need=2000.0, hot_drinks={})


@pytest.fixture(scope="module")
def menu(asked: MenuRequest) -> Menu:
    found = choose(asked, solve)
    assert faults_of(asked, found) == []
    return found


def test_nothing_moves_when_nothing_is_asked(asked: MenuRequest, menu: Menu) -> None:
    again = choose(replace(asked, near=menu), solve)
    assert again.moved is not None
    assert again.moved <= 3
    assert {(p.day, p.food) for p in again.portions if p.meal == "dinner"} == {
        (p.day, p.food) for p in menu.portions if p.meal == "dinner"
    }


@each("day", [1, 2, 3, 4])
def test_banning_one_dinner_moves_that_dinner_and_little_else(
    asked: MenuRequest, menu: Menu, day: int
) -> None:
    one = next(p for p in menu.portions if p.meal == "dinner" and p.day == day)
    slot = next(s for s in asked.slots if s.meal == "dinner" and s.day == day)
    ban = Hold(food=one.food, walker="anna", date=slot.date, meal="dinner", count=0)
    after = replace(asked, near=menu, rules=replace(asked.rules, holds=(ban,)))
    edited = choose(after, solve)
    assert faults_of(after, edited) == []
    assert one.food not in {p.food for p in edited.portions if (p.meal, p.day) == ("dinner", day)}
    days = {p.day for p in set(edited.portions) ^ set(menu.portions)}
    assert days == {day} or (edited.moved is not None and edited.moved <= 6)


def test_a_held_swap_stands_and_the_rest_stays(asked: MenuRequest, menu: Menu) -> None:
    slot = next(s for s in asked.slots if s.meal == "breakfast" and s.day == 2)
    had = next(p.food for p in menu.portions if p.meal == "breakfast" and p.day == 2)
    other = next(f.id for f in BREAKFASTS if f.id != had)
    hold = Hold(food=other, walker="anna", date=slot.date, meal="breakfast", count=1)
    after = replace(asked, near=menu, rules=replace(asked.rules, holds=(hold,)))
    edited = choose(after, solve)
    there = [(p.food, p.why) for p in edited.portions if (p.meal, p.day) == ("breakfast", 2)]
    assert (other, "held") in there
    assert moved(menu, edited.portions) == edited.moved
    assert edited.moved is not None
    assert edited.moved <= 6


def test_an_earlier_menu_is_an_answer_of_the_same_question(asked: MenuRequest, menu: Menu) -> None:
    frame, problem = build(asked)
    x = answer_of(frame, problem, menu)
    taken = sum(x[o.eat] for options in frame.options.values() for o in options)
    assert taken == pytest.approx(sum(p.doses for p in menu.portions if p.why == "chosen"))


def test_broken_rows_name_the_days_to_free(asked: MenuRequest) -> None:
    frame = lay(asked)
    assert days_to_free(frame, [Give(row="energy-day/anna/2", short=1.0)]) == [("anna", 2)]
    assert days_to_free(frame, [Give(row="minutes/anna/3/dinner", over=1.0)]) == [("anna", 3)]
    assert len(days_to_free(frame, [Give(row="energy-trip/anna", short=1.0)])) == 4
    assert len(days_to_free(frame, [Give(row="packs/budget", over=1.0)])) == 4


@each("meal", ["breakfast", "lunch", "dinner"])
def test_other_doses_are_a_portion_moved_and_cost_so(asked: MenuRequest, meal: str) -> None:
    """Half as many again costs what another food would; a dinner six times that."""
    small = [replace(f, dose_g=f.dose_g / 5.0, doses_per_pack=25.0) for f in LARDER]
    name = next(f.id for f in LARDER if meal in f.meals)
    for had in (1.0, 2.0, 4.0, 5.0):
        part = Portion(walker="anna", day=2, meal=meal, food=name, doses=had)  # type: ignore[arg-type]
        near = Menu(portions=(part,))
        frame, problem = build(replace(asked, foods=tuple(small), near=near))
        (option,) = (o for o in frame.options["anna", 2, meal] if o.food.id == name)  # type: ignore[index]
        had = min(max(had, option.least), option.most)
        where = f"anna/2/{meal}/{name}"
        (i,) = (n for n, row in enumerate(problem.rows) if row.startswith("near/"))
        span = slice(problem.start[i], problem.start[i + 1])
        names = [problem.columns[c] for c in problem.index[span]]
        assert problem.rows[i] == f"near/{where}"
        assert dict(zip(names, problem.value[span].tolist(), strict=True)) == {
            f"eat/{where}": 1.0, f"use/{where}": -had,
            f"near-more/{where}": -1.0, f"near-less/{where}": 1.0,
        }  # fmt: skip
        assert problem.row_low[i] == problem.row_high[i] == 0.0
        price = move_grams(frame) * (DINNER_FACTOR if meal == "dinner" else 1.0)
        for way in ("more", "less"):
            cost = problem.cost[problem.columns.index(f"near-{way}/{where}")]
            assert cost == pytest.approx(price / max(1.0, had / 2.0)), (had, way)


def test_between_rounds_doses_may_change_for_nothing(asked: MenuRequest, menu: Menu) -> None:
    edit, again = (build(replace(asked, near=menu, settings={EDIT: on}))[1] for on in (1.0, 0.0))
    dear, cheap = (move_grams(lay(replace(asked, settings={EDIT: on}))) for on in (1.0, 0.0))
    assert dear == pytest.approx(2.5 * cheap) and cheap == pytest.approx(MOVE_GRAMS * 2.5)
    assert any(row.startswith("near/") for row in edit.rows)
    assert not any(row.startswith("near/") for row in again.rows)


def test_an_open_bag_that_moves_costs_as_many_portions_as_it_has_days(asked: MenuRequest) -> None:
    nuts = food("nuts", carry="bag", dose_g=30, kcal=600.0, doses=5.0)
    bagged = replace(asked, foods=(*LARDER, nuts))
    empty = Menu(portions=())
    before, after = (build(replace(bagged, near=near))[1] for near in (None, empty))
    frame = lay(bagged)
    bags = [b for b in frame.bags["anna"] if not b.fixed]
    assert {len(b.bag.days) for b in bags} >= {2}
    for b in bags:
        name = before.columns[b.column]
        more = after.cost[after.columns.index(name)] - before.cost[b.column]
        assert more == pytest.approx(move_grams(frame) * len(b.bag.days)), name


def test_a_day_of_another_number_leaves_the_other_days_alone(
    asked: MenuRequest, menu: Menu
) -> None:
    """Doses on days that nobody touched are no better paid than other foods there."""
    target = {"anna": dict(asked.target_kcal["anna"])}
    target["anna"][2] *= 1.15
    edited = choose(replace(asked, near=menu, target_kcal=target), solve)
    gone = {(p.day, p.meal, p.food, p.doses) for p in menu.portions}
    come = {(p.day, p.meal, p.food, p.doses) for p in edited.portions}
    assert {day for day, *_ in gone ^ come} <= {2}


def test_an_earlier_menu_that_stays_costs_what_it_costs_alone(
    asked: MenuRequest, menu: Menu
) -> None:
    """Nothing moved, nothing paid: the price of leaving out is in the sum from the start."""
    aims = []
    for near in (menu, None):
        frame, problem = build(replace(asked, near=near))
        done = completed(problem, solve, answer_of(frame, problem, menu))
        assert done is not None
        aims.append(done[1])
    assert aims[0] == pytest.approx(aims[1])


def test_a_row_over_the_whole_trip_frees_the_days_of_its_walker_alone() -> None:
    frame = lay(request(LARDER, [walker("anna"), walker("ben")], count=2, hot_drinks={}))
    found = days_to_free(frame, [Give(row="energy-trip/anna", short=1.0)])
    assert found == [("anna", 1), ("anna", 2)]


def test_moved_counts_portions_by_walker_day_meal_and_food(menu: Menu) -> None:
    assert moved(menu, menu.portions) == 0
    assert moved(menu, menu.portions[1:]) == 1
    changed = (replace(menu.portions[0], doses=menu.portions[0].doses + 1), *menu.portions[1:])
    assert moved(menu, changed) == 1
    swapped = (replace(menu.portions[0], food="other"), *menu.portions[1:])
    assert moved(menu, swapped) == 2


@each("kcal", [-400.0, -200.0, 200.0, 300.0, 500.0])
def test_the_dial_turns_whole_things_of_the_own_list_and_no_dinner(
    asked: MenuRequest, menu: Menu, kcal: float
) -> None:
    turned = dial(asked, menu, "anna", kcal)
    dinners = [p for p in menu.portions if p.meal == "dinner"]
    assert [p for p in turned.portions if p.meal == "dinner"] == dinners
    before, after = eaten_kcal(asked, menu.portions), eaten_kcal(asked, turned.portions)
    for key, had in before.items():
        assert after[key] - had == pytest.approx(kcal, abs=130.0)
    assert all(p.doses == int(p.doses) and p.doses > 0 for p in turned.portions)
    own = {p.food for p in menu.portions}
    changed = set(turned.portions) ^ set(menu.portions)
    assert {p.food for p in changed} <= own
    assert len({p.food for p in changed}) <= 3


def test_the_dial_at_zero_moves_nothing(asked: MenuRequest, menu: Menu) -> None:
    assert dial(asked, menu, "anna", 0.0).portions == menu.portions


def test_progress_shows_menus_that_get_better_and_can_stop(asked: MenuRequest) -> None:
    calm = {"tidy.grams": 0.0}
    long = request(LARDER, count=6, need=2000.0, hot_drinks={}, settings=calm)
    seen: list[Menu] = []

    def watch(found: Menu) -> bool:
        seen.append(found)
        return len(seen) < 2

    last = choose(long, solve, progress=watch)
    aims = [m.aim for m in seen]
    assert aims == sorted(aims, reverse=True)
    assert last.aim == aims[-1]
    assert all(m.bound <= m.aim for m in seen)
    assert faults_of(long, last) == []
    assert len(seen) <= 2
    del asked


@pytest.mark.slow
def test_equal_work_and_seed_give_equal_menus() -> None:
    long = request(LARDER, count=5, need=2000.0, hot_drinks={}, rules=Rules())
    assert choose(long, solve) == choose(long, solve)
