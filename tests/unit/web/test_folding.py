"""Parts of a long walk: every day in exactly one, legs never mixed, none longer than a week."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from oatsack.reports.telling import telling
from oatsack.web.folding import FEW, WEEK, WHOLE_DAYS, is_long, lines, parts_of
from support.sample_plan import sample_plan

DAY = sample_plan(days=2).days[0]


@given(legs=st.lists(st.integers(1, 40), min_size=1, max_size=6))
def test_parts_cover_every_day_once_and_mix_no_legs(legs: list[int]) -> None:
    days = [replace(DAY, leg=n) for n, count in enumerate(legs, 1) for _ in range(count)]
    parts = parts_of(days)
    assert [k for part in parts for k in part] == list(range(len(days)))
    most = WEEK if len(days) > WHOLE_DAYS else FEW
    for part in parts:
        assert 0 < len(part) <= most
        assert len({days[k].leg for k in part}) == 1


@given(count=st.integers(1, 200))
def test_parts_of_one_leg_differ_by_a_day_at_most(count: int) -> None:
    sizes = [len(part) for part in parts_of([DAY] * count)]
    assert max(sizes) - min(sizes) <= 1
    assert len(sizes) <= -(-count // FEW)


def test_ten_days_stand_whole_and_eleven_do_not() -> None:
    assert not is_long(telling(sample_plan(walkers=1, days=10)))
    assert is_long(telling(sample_plan(walkers=1, days=11)))


def test_the_line_of_a_part_tells_its_days_their_dinners_and_what_changed() -> None:
    plan = sample_plan(walkers=2, days=14)
    told = telling(plan)
    first, second = lines(told, {("anna", 9, "dinner", "x"), ("ben", 8, "lunch", "y")})
    assert (first.news, second.news) == (0, 2)
    assert first.title == "Thu 10 June to Wed 16 June"
    assert len(first.rows) == 7 and all(dinner for _, dinner in first.rows)
    assert first.says == "7 days, 105.0 km, 5,500 m up; about 2,400 kcal a day each"
    alone = lines(telling(sample_plan(walkers=1, days=14)), ())
    assert alone[0].says.endswith(" kcal a day")


def test_a_part_names_its_leg_only_where_there_are_several() -> None:
    one, two = (lines(telling(sample_plan(walkers=1, days=14, legs=legs)), ()) for legs in (1, 2))
    assert [part.title.startswith("Leg ") for part in (*one, *two)] == [False, False, True, True]
