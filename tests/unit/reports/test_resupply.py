"""Boxes and shops on the way as they are told: when to post, how likely, what is eaten in town."""

from __future__ import annotations

from dataclasses import replace

from oatsack.reports import document_of, render
from oatsack.reports.contents.boxes import date_text
from oatsack.reports.contents.town import town_text
from oatsack.reports.document import tables_of
from oatsack.reports.telling import telling
from oatsack.values.pack import Box, Place
from oatsack.values.plan import Plan
from support.sample_plan import sample_plan


def plan_with(**changes: object) -> Plan:
    """A plan of two legs with one box, changed."""
    plan = sample_plan(days=6, legs=2)
    (box,) = plan.packed.boxes
    return replace(plan, packed=replace(plan.packed, boxes=(replace(box, **changes),)))


def said(plan: Plan, content: str = "boxes") -> str:
    return " ".join(render(plan, content, "text", width=200).decode().split())


def only_box(plan: Plan) -> Box:
    (box,) = plan.packed.boxes
    return box


def test_whoever_sends_boxes_has_a_line_for_each_with_dates_and_chances() -> None:
    plan = plan_with()
    box = only_box(plan)
    first, *_ = tables_of(document_of(plan, "boxes").blocks)
    (line,) = first.rows
    texts = [c.text for c in line.cells]
    assert texts[1] == "Fern Ford 2, box 1 of 1"
    for date in (box.post_from, box.post_until, box.post_on):
        assert date is not None and date_text(date) in texts[2]
    assert date_text(box.early) in texts[3] and date_text(box.late) in texts[3]
    assert [c.value for c in line.cells[4:]] == [1.0, 0.75, box.gross_g]
    assert texts[4:6] == ["100 %", "75 %"]


def test_chances_are_labelled_as_ours_and_say_what_they_rest_on() -> None:
    text = said(plan_with())
    assert "Chances are ours" in text
    assert "not on public holidays" in text


def test_a_page_of_a_box_says_what_is_written_on_it_and_what_it_covers() -> None:
    text = said(plan_with())
    assert "on the outside Anna, Ben. Hold for walkers" in text
    assert "3 to 6 days; ask that it is held for 15 days" in text
    assert "75 % on the day we come, at worst 2 days to wait" in text
    assert "Nobody has asked" in text


def test_a_place_that_was_asked_says_when() -> None:
    plan = plan_with()
    place = Place(name="Fern Ford 2", leg=2, day=3, checked="2027-05-04", hold_days=30)
    asked = said(replace(plan, trip=replace(plan.trip, places=(place,))))
    assert "Asked on 2027-05-04." in asked
    assert "held for 30 days" in asked


def test_a_box_that_no_day_suits_names_the_best_one() -> None:
    box = only_box(plan_with())
    text = said(plan_with(post_from=box.post_until, post_until=box.post_from, box_chance=0.4))
    assert "no day suits all" in text
    assert "40 %" in text


def test_a_shop_is_not_posted_to() -> None:
    text = said(plan_with(kind="shop", post_from=None, post_until=None, post_on=None,
                          box_chance=None))  # fmt: skip
    assert "Fern Ford 2 (bought there)" in text
    assert "nothing: bought there" in text
    assert "on the outside" not in text
    assert "Eat first, then shop." in text


def in_town(plan: Plan) -> Plan:
    """The same plan with dinner of day 3 in a town, 800 kcal for each."""
    place = Place(name="Mill Town", leg=2, day=3, town_meals=frozenset({"dinner"}))
    chosen = {w: replace(c, town={"3": 800.0}) for w, c in plan.chosen.items()}
    return replace(plan, trip=replace(plan.trip, places=(place,)), chosen=chosen)


def test_a_meal_in_town_stands_at_its_day_on_every_sheet() -> None:
    plan = in_town(sample_plan(days=6, legs=2))
    grid, *_ = tables_of(document_of(plan, "sheet").blocks)
    assert grid.rows[2].cells[0].text.endswith("\ndinner in Mill Town, about 800 kcal")
    for content in ("menu", "cards"):
        assert said(plan, content).count("dinner in Mill Town, about 800 kcal") == 1, content
    assert "eaten there dinner: about 800 kcal each, which no sack holds" in said(plan)
    told = telling(plan)
    assert town_text(told, plan.days[2]) != ""
    assert [town_text(told, d) for d in plan.days if d.number != 3] == [""] * 5


def test_an_energy_eaten_in_town_needs_no_meal() -> None:
    plan = in_town(sample_plan(days=6, legs=2))
    bare = replace(plan.trip.places[0], town_meals=frozenset())
    plan = replace(plan, trip=replace(plan.trip, places=(bare,)))
    assert "a meal in Mill Town, about 800 kcal" in said(plan, "menu")


def test_what_is_left_of_packs_is_told_with_its_use() -> None:
    plan = sample_plan()
    text = said(plan, "shopping")
    left = [b for b in plan.packed.buy if b.left_g >= 1]
    assert left
    tail = text.partition("What is left of these packs")[2]
    for line in left:
        assert plan.foods[line.food].name in tail, line.food


def test_rubbish_bags_are_counted_and_pouches_named_where_they_take_some() -> None:
    plan = sample_plan()

    def line(bags: int, inside: float) -> str:
        rows = tuple(replace(r, bags=bags, in_pouches_ml=inside) for r in plan.packed.rubbish)
        return said(replace(plan, packed=replace(plan.packed, rubbish=rows)), "first")

    assert "take 2 strong bags, all of it home" in line(2, 0.0)
    assert "take 1 strong bag, all of it home" in line(0, 0.0)
    assert "into emptied pouches; all of it home" in line(0, 900.0)
    assert "into emptied pouches and 3 strong bags" in line(3, 900.0)
