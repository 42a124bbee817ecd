"""The need before a menu: it holds together, says what load does, and hides energy availability."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from oatsack.desk.needing import as_json, need_of, people_of, told
from oatsack.desk.opening import opened
from oatsack.errors import UsageError
from oatsack.files.larder import bundled
from oatsack.files.trip import parse_trip
from oatsack.provision.flow import Needed
from oatsack.reports.document import tables_of
from oatsack.reports.formats.text import render
from support.plans import SHORT, plan_of

TODAY = dt.date(2026, 1, 5)


def found(text: str = SHORT) -> Needed:
    return need_of(opened(parse_trip(text, "trip.toml"), bundled(), text=text), today=TODAY)


def test_every_walker_has_a_row_a_day_and_one_for_the_trip() -> None:
    document = told(found())
    assert [len(table.rows) for table in tables_of(document.blocks)] == [4, 4]


def test_low_likely_and_high_stand_in_order_and_models_around_the_chosen() -> None:
    for one in people_of(found()):
        for number, day in one.days.items():
            assert day.low_kcal < day.energy_kcal < day.high_kcal
            walked = [by_day[number] for by_day in one.shelf_kcal.values()]
            assert len(walked) == 6
            assert 0 < min(walked) <= walked[0] <= max(walked)


def test_more_on_the_back_never_costs_less_and_the_effect_is_small() -> None:
    for one in people_of(found()):
        whole = sum(day.energy_kcal for day in one.days.values())
        assert 0 < one.more_kcal < 0.1 * whole


@pytest.mark.slow
def test_the_guess_of_the_load_is_near_what_a_plan_weighs() -> None:
    plan = plan_of(SHORT)
    for one in people_of(found()):
        for number, day in one.days.items():
            planned = plan.need[one.walker][str(number)]
            assert day.energy_kcal == pytest.approx(planned.energy_kcal, rel=0.03)
            assert day.walking_h == pytest.approx(planned.walking_h)


def test_what_is_chosen_is_the_number_that_was_typed() -> None:
    anna = people_of(found())[0]
    assert max(anna.eats_kcal.values()) <= 2100 * 1.2
    assert anna.eats_kcal[2] == pytest.approx(2100, rel=0.06)


def test_draws_are_the_same_in_every_run_and_agree_with_the_range() -> None:
    first, second = (people_of(found(), drawn=True) for _ in range(2))
    for one, other in zip(first, second, strict=True):
        assert one.drawn == other.drawn
        for number, (low, middle, high) in one.drawn.items():
            day = one.days[number]
            assert low == pytest.approx(day.low_kcal, rel=0.1)
            assert middle == pytest.approx(day.energy_kcal, rel=0.05)
            assert high == pytest.approx(day.high_kcal, rel=0.1)


def test_without_range_nothing_is_drawn() -> None:
    assert all(one.drawn == {} and one.drawn_walk is None for one in people_of(found()))


def test_energy_availability_is_not_shown() -> None:
    text = render(told(found(), drawn=True)).decode().lower()
    assert "availab" not in text
    assert "per kg" not in text


def test_eating_less_is_told_once_and_neutrally() -> None:
    text = " ".join(render(told(found())).decode().split())
    assert text.count("on the scales") == 2
    assert "water that comes back" in text


def test_american_units_reach_the_page() -> None:
    text = render(told(found(SHORT.replace('zone = "Eur', 'units = "us"\nzone = "Eur')))).decode()
    assert "lb" in text
    assert " kg" not in text


def test_the_json_parses_and_holds_the_same_figures() -> None:
    data = json.loads(as_json(found(), drawn=True))
    anna = people_of(found())[0]
    assert data["need"]["anna"]["days"]["2"]["energy_kcal"] == anna.days[2].energy_kcal
    assert len(data["need"]["ben"]["drawn_walk"]) == 3
    assert all(flag["key"] for flag in data["flags"])


def test_a_youth_gets_full_food_and_a_word() -> None:
    text = SHORT.replace("age = 34", "age = 15").replace('target = "2100 kcal"\n', "")
    anna = people_of(found(text))[0]
    assert sum(anna.eats_kcal.values()) >= 0.99 * sum(d.energy_kcal for d in anna.days.values())
    assert "professional" in render(told(found(text))).decode()


def test_a_trip_without_a_meal_is_refused() -> None:
    text = SHORT.replace("2026-07-05T15:00", "2026-07-03T10:30")
    with pytest.raises(UsageError, match="no meal"):
        found(text)


def test_a_day_at_home_stands_beside_for_comparison_and_nothing_is_added_to_it() -> None:
    """IOM2005 and NASEM2023, low active; below every full day of walking."""
    for one in people_of(found()):
        assert set(one.norm_kcal) == {"IOM 2005", "NASEM 2023"}
        assert max(one.norm_kcal.values()) < one.days[2].energy_kcal
    assert "a day without the walk by public norms" in " ".join(
        render(told(found())).decode().split()
    )


def test_the_newer_norm_is_not_asked_below_19_years() -> None:
    young = found(SHORT.replace("age = 34", "age = 17"))
    assert set(people_of(young)[0].norm_kcal) == {"IOM 2005"}


def test_terms_are_told_where_they_add_something_and_are_switched_off_in_the_file() -> None:
    cold = SHORT.replace("[route]", '[route]\nwarm = "-4 °C"\ncold = "-9 °C"')
    said = "a choice of ours"
    assert said in " ".join(render(told(found(cold))).decode().split())
    assert said not in " ".join(render(told(found())).decode().split())
    off = cold + "[need]\ncold = false\n"
    assert said not in " ".join(render(told(found(off))).decode().split())
    both = [sum(d.energy_kcal for d in people_of(found(t))[0].days.values()) for t in (cold, off)]
    assert both[0] > 1.02 * both[1]


def test_the_chosen_model_stands_first() -> None:
    other = found(SHORT + '[need]\nmodel = "pandolf-1977"\n')
    assert next(iter(people_of(other)[0].shelf_kcal)) == "pandolf-1977"


def test_what_lies_beyond_the_model_is_told_under_its_walker() -> None:
    heavy = SHORT.replace('mass = "84 kg"', 'mass = "84 kg"\nbase_weight = "58 kg"')
    text = " ".join(render(told(found(heavy))).decode().split())
    before, after = text.split("Ben", 1)
    assert "beyond what lcda-backpacking-2022 was measured with" in after
    assert "beyond what" not in before
