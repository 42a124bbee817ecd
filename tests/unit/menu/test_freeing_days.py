"""Where an edit breaks more than its own day can mend, the fewest other days are freed and told."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from oatsack.menu.choose import choose
from oatsack.menu.frame import lay
from oatsack.menu.start import freed, wider
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.trip import Hold, Rules
from support.menu_checker import faults_of
from support.menus import START, food, request, retarget, walker

STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=100, price=4.0, doses=1.0,
            every_day_fine=True, liking=5.0)  # fmt: skip
PIE = food("pie", role="main", meals="dinner", category="meal", dose_g=100, price=8.0, doses=1.0,
           every_day_fine=True)  # fmt: skip
DEAR = food("dear", meals="lunch", dose_g=50, kcal=480, price=6.0, doses=1.0, liking=5.0,
            every_day_fine=True)  # fmt: skip
PLAIN = food("plain", meals="lunch", dose_g=50, kcal=480, price=2.0, doses=1.0, liking=1.0,
             every_day_fine=True)  # fmt: skip


def walk(budget: float | None, *holds: Hold, near: Menu | None = None) -> MenuRequest:
    rules = Rules(budget=budget, spare="none", holds=holds, weight_price=0.0)
    one = request((STEW, PIE, DEAR, PLAIN), keep="lunch dinner", count=3, rules=rules, near=near)
    return retarget(one, 690.0)


@pytest.fixture(autouse=True)
def _searched(monkeypatch: pytest.MonkeyPatch) -> None:
    """Problems this small would otherwise go to the engine whole."""
    monkeypatch.setattr("oatsack.menu.choose.SOLVED_WHOLE", 0)


def foods_on(menu: Menu, day: int) -> set[str]:
    return {p.food for p in menu.portions if p.day == day}


def no_stew(day: int) -> Hold:
    return Hold(food="stew", walker="anna", date=START.replace(day=START.day + day - 1), count=0)


def test_a_day_that_mends_itself_frees_no_other() -> None:
    old = choose(walk(90.0), solve)
    new = choose(walk(90.0, no_stew(2), near=old), solve)
    assert foods_on(old, 2) == {"stew", "dear"}
    assert foods_on(new, 2) == {"pie", "dear"}
    assert [f.key for f in new.flags] == []
    assert all(foods_on(new, day) == foods_on(old, day) for day in (1, 3))


def test_one_other_day_is_freed_where_the_purse_asks_it_and_is_named() -> None:
    """Three times stew and the dear lunch is 30. A pie is 4 more: a plain lunch saves 4, but on
    the second day the dear lunch is held, so that another day has to save it."""
    held = Hold(food="dear", walker="anna", date=START.replace(day=START.day + 1), meal="lunch",
                count=1)  # fmt: skip
    old = choose(walk(30.0, held), solve)
    assert [foods_on(old, day) for day in (1, 2, 3)] == [{"stew", "dear"}] * 3
    asked = walk(30.0, held, no_stew(2), near=old)
    new = choose(asked, solve)
    assert faults_of(asked, new) == []
    assert foods_on(new, 2) == {"pie", "dear"}
    changed = [day for day in (1, 3) if foods_on(new, day) != foods_on(old, day)]
    assert len(changed) == 1
    assert "plain" in foods_on(new, changed[0])
    (told,) = new.flags
    assert told.key == "menu.day-freed"
    assert told.values == {"walker": "anna", "day": changed[0]}


def test_days_are_widened_from_those_that_break_to_the_nearest_and_then_to_all() -> None:
    party = [walker("anna"), walker("ben")]
    frame = lay(request((STEW, DEAR), party, keep="lunch dinner", count=3))
    sets = list(wider(frame, [("anna", 2)]))
    assert sets[0] == [("anna", 2)]
    assert set(sets[1][1:]) | set(sets[2][1:]) == {("anna", 1), ("anna", 3)}
    assert sets[3] == [("anna", 2), ("ben", 2)]
    assert sorted(sets[-2]) == [("anna", 1), ("anna", 2), ("anna", 3)]
    assert sorted(sets[-1]) == sorted(frame.day_keys)
    assert all(len(s) <= len(t) for s, t in pairwise(sets))


def test_what_was_freed_is_told_by_name_or_by_number() -> None:
    named = [("anna", 2)]
    assert freed(named, named) == []
    (one,) = freed(named, [*named, ("ben", 3)])
    assert (one.key, one.values) == ("menu.day-freed", {"walker": "ben", "day": 3})
    (many,) = freed(named, [("anna", d) for d in range(1, 6)])
    assert (many.key, many.values) == ("menu.days-freed", {"days": 4})


def test_an_unchanged_question_frees_nothing() -> None:
    old = choose(walk(30.0), solve)
    same = choose(replace(walk(30.0), near=old), solve)
    assert same.portions == old.portions
    assert same.moved == 0
    assert same.flags == ()
