"""What is read out after a change: what is new, else what is gone, else that nothing moved."""

from __future__ import annotations

from dataclasses import replace

from oatsack.desk.edits import Word
from oatsack.reports.telling import telling
from oatsack.web.trip_page import _changed, _word
from support.sample_plan import sample_plan

HERE = ("ida", 1, "lunch", "bar")


def test_every_outcome_of_a_change_has_its_sentence() -> None:
    told = telling(sample_plan())
    cases = {
        "Changed: 1 portion": _changed(told, {HERE}, set(), 3, ""),
        "Gone from the menu: 1 portion": _changed(told, set(), {HERE}, 3, ""),
        "nothing on the menu had to change": _changed(told, set(), set(), 3, ""),
        "This is the plan": _changed(told, set(), None, 3, ""),
        "One step back": _changed(told, set(), set(), 3, "undone"),
        "One step back. Gone": _changed(told, set(), {HERE}, 3, "undone"),
    }
    assert {said: text for said, text in cases.items() if said not in text} == {}
    assert "nothing" not in cases["This is the plan"], "a clash before it had no menu to compare"
    assert _changed(told, set(), None, None, "") == "", "a page that is only looked at says nothing"


def test_a_stopped_search_is_told_with_it() -> None:
    plan = sample_plan()
    menu = replace(plan.menu, ended="stopped", bound=plan.menu.aim * 0.95)
    told = telling(replace(plan, menu=menu))
    assert "stopped" in _changed(told, {HERE}, set(), 3, "")
    assert "stopped" in _changed(told, set(), None, 3, "")


def test_a_banned_food_that_is_in_no_bag_goes_by_its_name() -> None:
    plan = sample_plan()
    told = telling(replace(plan, names={"hard-cheese-2": "Very hard cheese"}))
    ban = Word(kind="bans", place=0, where={"food": "hard-cheese-2"}, count=None)
    assert "Very hard cheese" in _word(told, ban)
    known = next(iter(plan.foods))
    here = replace(ban, where={"food": known})
    assert plan.foods[known].name in _word(told, here)
    assert "hard-cheese-2" in _word(None, ban), "without a plan it goes by its mark"
