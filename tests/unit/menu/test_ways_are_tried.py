"""Which ways out are tried, and how: what is spared must change no answer."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.errors import NoPlan
from oatsack.menu import no_plan
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.menu.refuse import Clash, Give, clash, menu_giving
from oatsack.menu.ways_out import ways
from oatsack.solve.highs import solve
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Rules
from support.menu_checker import faults_of
from support.menus import boiled, food, request, retarget, walker

STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=100, kcal=450,
            prep=boiled(), price=4.0, doses=1.0)  # fmt: skip
BAR = food("bar", meals="lunch", dose_g=50, kcal=450, price=2.0, doses=1.0)
CHIPS = food("chips", meals="lunch", dose_g=50, kcal=500, price=2.0, doses=1.0, taste="salty")


def asking(budget: float | None = 5.0, kcal: float = 900.0) -> MenuRequest:
    rules = Rules(budget=budget, spare="none")
    return retarget(request((STEW, BAR, CHIPS), keep="lunch dinner", rules=rules), kcal)


def of_two(**kcal: float) -> MenuRequest:
    """Two walkers, each with a target of their own."""
    party = tuple(walker(name) for name in kcal)
    one = request((STEW, BAR, CHIPS), keep="lunch dinner", walkers=party, rules=Rules(spare="none"))
    target = {w: dict.fromkeys(days, kcal[w]) for w, days in one.target_kcal.items()}
    return replace(one, target_kcal=target)


def shares(asked: MenuRequest, *gives: Give) -> list[float]:
    found = [way.flag for way in ways(asked, gives) if way.flag.key.startswith("way-out.eat")]
    return [float(flag.values["share"]) for flag in found]


def short(walker: str, by: float) -> Give:
    return Give(row=f"energy-day/{walker}/1", short=by, low=1000.0, high=1200.0)


def over(walker: str, by: float) -> Give:
    return Give(row=f"energy-day/{walker}/1", over=by, low=1000.0, high=1200.0)


def test_another_budget_alone_asks_for_no_new_matrix_and_gives_the_same() -> None:
    asked = asking(5.0)
    frame, problem = build(asked)
    tried = no_plan._Ways(frame, problem, solve, Clash())
    more = replace(asked, rules=replace(asked.rules, budget=11.0))
    kept, found = tried._built(more)
    assert kept is frame
    _, anew = build(more)
    assert found.rows == anew.rows and found.columns == anew.columns
    assert found.row_high.tolist() == anew.row_high.tolist()
    assert found.value.tolist() == anew.value.tolist()


@pytest.mark.parametrize("other", ["kcal", "window", "none"])
def test_any_other_change_is_built_anew(other: str) -> None:
    asked = asking(5.0)
    frame, problem = build(asked)
    changed = {
        "kcal": retarget(asked, 800.0),
        "window": replace(asked, rules=replace(asked.rules, budget=9.0, day_window=0.3)),
        "none": replace(asked, rules=replace(asked.rules, budget=None)),
    }[other]
    kept, found = no_plan._Ways(frame, problem, solve, Clash())._built(changed)
    assert kept is not frame
    anew = build(changed)[1]
    assert found.rows == anew.rows and found.row_high.tolist() == anew.row_high.tolist()


def test_all_eat_less_as_far_as_the_one_who_can_eat_least() -> None:
    asked = of_two(anna=1200.0, ben=1200.0)
    assert max(shares(asked, short("anna", 300.0), short("ben", 100.0))) <= 0.7


def test_all_eat_more_as_far_as_the_one_who_must_eat_most() -> None:
    """One needs a tenth more and the other half as much again: less than that helps only one."""
    asked = of_two(anna=1200.0, ben=1200.0)
    assert min(shares(asked, over("anna", 120.0), over("ben", 600.0))) >= 1.5


def test_eating_less_is_no_answer_to_a_container_of_less_than_half() -> None:
    asked = replace(asking(None), container_ml=1000.0)
    half = Give(row="container/1", over=900.0, low=-np.inf, high=1000.0)
    less = replace(half, over=1100.0)
    assert shares(asked, half)
    assert shares(asked, less) == []


def test_eating_less_stays_an_answer_to_a_budget_of_less_than_half() -> None:
    give = Give(row="packs/budget", over=8.0, low=-np.inf, high=5.0)
    assert shares(asking(5.0, kcal=1800.0), give)


def test_a_menu_in_which_only_named_rows_give_breaks_nothing_else() -> None:
    asked = asking(5.0)
    frame, problem = build(asked)
    row = problem.rows.index("packs/budget")
    menu = menu_giving(frame, problem, solve, [row])
    assert menu is not None
    x = menu[: len(problem.columns)]
    a = np.zeros(len(problem.rows))
    np.add.at(a, np.repeat(np.arange(len(problem.rows)), np.diff(problem.start)),
              problem.value * x[problem.index])  # fmt: skip
    broken = [name for name, v, low, high in
              zip(problem.rows, a, problem.row_low, problem.row_high, strict=True)
              if v < low - 1e-5 or v > high + 1e-5]  # fmt: skip
    assert broken == ["packs/budget"]


def test_where_the_named_row_is_not_enough_there_is_no_such_menu() -> None:
    """Four times the energy does not fit what a meal may hold, whatever it may cost."""
    frame, problem = build(asking(5.0, kcal=9000.0))
    row = problem.rows.index("packs/budget")
    assert menu_giving(frame, problem, solve, [row]) is None


def test_money_is_named_alone_where_the_rest_fits_and_with_the_rest_where_not() -> None:
    for kcal, rules in ((900.0, {"packs"}), (9000.0, {"energy-day", "energy-trip"})):
        frame, problem = build(asking(3.0, kcal=kcal))
        found = {give.row.split("/")[0] for give in clash(frame, problem, solve).gives}
        assert found and found <= rules | {"packs"} and (found & rules), (kcal, found)


def test_who_is_short_is_named_and_nobody_else() -> None:
    """Of two who share nothing only one asks too much: the other's energy never gives."""
    with pytest.raises(NoPlan) as refused:
        choose(of_two(anna=900.0, ben=9000.0), solve)
    named = {flag.values.get("walker") for flag in refused.value.flags
             if flag.key.startswith("no-plan.energy")}  # fmt: skip
    assert named == {"ben"}


def test_a_budget_that_is_named_as_a_way_out_feeds_everyone() -> None:
    asked = asking(5.0)
    with pytest.raises(NoPlan) as refused:
        choose(asked, solve)
    way = next(f for f in refused.value.flags if f.key == "way-out.budget")
    more = replace(asked, rules=replace(asked.rules, budget=float(way.values["budget_money"])))
    assert faults_of(more, choose(more, solve)) == []


def test_who_has_no_dinner_in_the_larder_is_told_what_to_add_and_eats_once_it_is_there() -> None:
    roast = replace(STEW, id="roast", diet="meat")
    rules = Rules(day_window=0.2, trip_window=0.15, spare="none")
    vegan = (walker("anna", eats="vegan"),)
    asked = retarget(request((roast, BAR, CHIPS), vegan, keep="lunch dinner", rules=rules), 900.0)
    with pytest.raises(NoPlan) as refused:
        choose(asked, solve)
    told = {flag.key: flag.values for flag in refused.value.flags}
    assert "way-out.add-dinner" in told and float(told["way-out.add-dinner"]["mass_g"]) > 0
    beans = replace(STEW, id="beans", dose_g=110.0)
    more = replace(asked, foods=(*asked.foods, beans))
    assert faults_of(more, choose(more, solve)) == []
