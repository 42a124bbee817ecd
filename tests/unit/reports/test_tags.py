"""Sack tags: one for each sack, its bags from the top, and what it weighs at its start."""

from __future__ import annotations

import re
from dataclasses import replace

from oatsack.reports import document_of
from oatsack.reports.document import Card, Cards, Table
from oatsack.values.plan import Plan
from support.sample_plan import sample_plan


def tags(plan: Plan) -> tuple[Card, ...]:
    (block,) = document_of(plan, "tags").blocks
    assert isinstance(block, Cards)
    return block.cards


def lines(card: Card) -> Table:
    (found,) = [b for b in card.blocks if isinstance(b, Table)]
    return found


def test_each_sack_of_each_leg_has_a_tag_with_all_its_bags_in_its_order() -> None:
    plan = sample_plan(walkers=3, days=6, legs=2)
    bags = {b.id: b for b in plan.packed.bags}
    made = tags(plan)
    assert len(made) == len(plan.packed.sacks)
    for card, sack in zip(made, plan.packed.sacks, strict=True):
        gross = [r.cells[-1].value for r in lines(card).rows]
        assert gross == [bags[name].gross_g for name in sack.bags], card.title
        assert f"leg {sack.leg}" in card.title


def test_a_walk_of_one_leg_names_none() -> None:
    assert all("leg" not in card.title for card in tags(sample_plan()))


def test_the_mass_at_the_start_stands_in_the_corner() -> None:
    plan = sample_plan()
    for card, sack in zip(tags(plan), plan.packed.sacks, strict=True):
        (kg,) = re.findall(r"[\d.]+", card.mark)
        assert abs(float(kg) - sack.start_g / 1000.0) <= 0.051


def test_what_is_carried_as_bought_bears_no_number_and_spare_no_day() -> None:
    plan = sample_plan()
    first, *rest = plan.packed.bags
    packed = replace(plan.packed, bags=(replace(first, sealed=True), *rest))
    rows = [r for card in tags(replace(plan, packed=packed)) for r in lines(card).rows]
    assert sum(not r.cells[0].text for r in rows) == 1
    spare = [b for b in plan.packed.bags if b.label == "spare"]
    assert sum(r.cells[3].text == "spare" for r in rows) == len(spare)
