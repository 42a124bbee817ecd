"""The ribbon by the hour: sums that end where the plan ends, one row and one sentence per hour."""

from __future__ import annotations

import re

from oatsack.desk.whys import everyone
from oatsack.reports.choices import choices_picture, dot
from oatsack.reports.document import row, table
from oatsack.reports.formats.html_blocks import table_html
from oatsack.reports.ribbon import bare, places
from oatsack.reports.ribbon_reading import hours_table, readings, sentence, when
from oatsack.reports.telling import telling
from support.sample_plan import sample_plan


def test_the_last_hour_has_eaten_and_used_all_of_it() -> None:
    plan = sample_plan(walkers=2)
    last = readings(telling(plan))[-1]
    for walker, person in zip(plan.trip.walkers, last.people, strict=True):
        hours = plan.timeline[walker.id]
        assert abs(person.eaten_kcal - sum(h.eaten_kcal for h in hours)) < 1e-6
        assert abs(person.used_kcal - sum(h.need_kcal for h in hours)) < 1e-6
        assert person.low_kcal <= person.eaten_kcal - person.used_kcal <= person.high_kcal
        assert person.name == walker.name


def test_a_large_party_is_read_as_its_mean_and_opens_everyones_hour() -> None:
    plan = sample_plan(walkers=4)
    found = readings(telling(plan))
    assert {len(one.people) for one in found} == {1}
    first = next(iter(plan.timeline))
    for one in found:
        address = one.people[0].address
        assert address.startswith("timeline/*/")
        assert {len(everyone(plan, address)), address.replace("*", first) in everyone(plan, address)
                } == {4, True}  # fmt: skip
    mean = sum(sum(h.eaten_kcal for h in of) for of in plan.timeline.values()) / 4.0
    assert abs(found[-1].people[0].eaten_kcal - mean) < 1e-6


def test_every_hour_has_one_sentence_one_row_and_one_place() -> None:
    for units in ("metric", "us"):
        told = telling(sample_plan(units=units))
        found = readings(told)
        says = [sentence(told, one) for one in found]
        table = hours_table(told)
        assert len(table.rows) == len(found) == len(says)
        assert all("carries" in said and "between" in said for said in says)
        moments = [one.moment for one in found]
        assert len(places(told, moments, 832.0)) == len(places(told, moments, 350.0)) == len(found)
        metric = re.findall(r"\d (?:kg|km|m)\b", " ".join(says))
        assert bool(metric) is (units == "metric")


def test_after_midnight_the_next_date_is_named() -> None:
    plan = sample_plan(days=3)
    told = telling(plan)
    late = [one for one in readings(told) if one.moment[1] >= 1440.0 and one.day == 1]
    names = {when(told, one).rsplit(" ", 1)[0] for one in late}
    assert not late or names == {f"{plan.days[1].date:%a} {plan.days[1].date.day}"}


def test_used_energy_opens_its_hour() -> None:
    plan = sample_plan(walkers=1)
    told = telling(plan)
    html = table_html(hours_table(told))
    first = plan.timeline[plan.trip.walkers[0].id][0]
    where = f"{first.day}-{int(first.start_min // 60):02d}"
    assert f'data-why="timeline/{plan.trip.walkers[0].id}/{where}/need_kcal"' in html


def test_the_picture_of_choices_names_ones_own_menu() -> None:
    told = telling(sample_plan())
    dots = [dot(told, "yours", (5000.0, 60.0, 3.0)), dot(told, "lightest", (4000.0, 80.0, 2.0))]
    broad, narrow = choices_picture(told, dots)
    assert "yours" in broad and 'width="832' in broad and 'width="350' in narrow
    assert [d.own for d in dots] == [True, False]


def test_energy_bears_its_sign_and_nothing_bears_none() -> None:
    told = telling(sample_plan())
    said = [bare(told, kcal) for kcal in (-340.0, -24.0, -0.0, 0.0, 24.0, 340.0, 1240.0)]
    assert said == ["−350", "0", "0", "0", "0", "+350", "+1,200"]


def test_a_first_column_of_days_is_not_broken_and_one_of_names_is() -> None:
    days = table(["day", ">much"], [row("Sat 12", "1"), row("Sun 13", "2")])
    foods = table(["food", ">much"], [row("Sat 12", "1"), row("Freeze-dried stew", "2")])
    assert '<table class="firm">' in table_html(days)
    assert "firm" not in table_html(foods)
