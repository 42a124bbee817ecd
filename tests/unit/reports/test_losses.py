"""The loss of any one pack is always told, with the worst of each leg in a sentence."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.reports import render
from oatsack.reports.contents.losses import loss_blocks, worst_line
from oatsack.reports.document import Para, Table, tables_of
from oatsack.reports.telling import telling
from oatsack.values.pack import Loss
from oatsack.values.plan import Plan
from support.sample_plan import sample_plan

WORST = Loss(leg=1, walker="ben", energy_share=0.48, flameless_share=0.31, heat=False,
             safe_share={"anna": 0.72}, worst=True)  # fmt: skip
OTHER = Loss(leg=1, walker="anna", energy_share=0.52, flameless_share=0.4, heat=True,
             safe_share={"anna": 0.28})  # fmt: skip


def plan_with(*losses: Loss) -> Plan:
    plan = sample_plan()
    return replace(plan, packed=replace(plan.packed, losses=losses))


def said(plan: Plan, content: str) -> str:
    return " ".join(render(plan, content, "text", width=200).decode().split())


@pytest.mark.parametrize("content", ["carriers", "plan"])
def test_the_worst_loss_is_told_where_bags_are_given_out_and_in_the_whole_plan(
    content: str,
) -> None:
    text = said(plan_with(OTHER, WORST), content)
    assert "The worst to lose is the pack of Ben: 48 % of the food is left" in text
    assert "without a stove; 31 % can be eaten cold." in text


def test_each_pack_has_a_line_with_energy_cold_food_heat_and_safe_food() -> None:
    (found,) = tables_of(tuple(loss_blocks(telling(plan_with(OTHER, WORST)))))
    assert [[c.text for c in r.cells] for r in found.rows] == [
        ["Anna", "52 %", "40 %", "left", "Anna 28 %"],
        ["Ben", "48 %", "31 %", "lost too", "Anna 72 %"],
    ]  # fmt: skip


def test_more_safe_food_than_a_plan_needs_is_enough_and_no_hundreds_of_percent() -> None:
    said_of = {0.28: "Anna 28 %", 0.994: "Anna 99 %", 0.996: "Anna: all of it",
               5.85: "Anna: all of it"}  # fmt: skip
    for share, text in said_of.items():
        lost = replace(OTHER, safe_share={"anna": share})
        (found,) = tables_of(tuple(loss_blocks(telling(plan_with(lost)))))
        assert found.columns[-1].title == "safe food left, of their plan"
        assert (found.rows[0].cells[-1].text, found.rows[0].cells[-1].address) == (
            text, "packed/losses/1-anna/safe_share/anna")  # fmt: skip


def test_without_allergies_no_column_is_empty() -> None:
    plain = (replace(OTHER, safe_share={}), replace(WORST, safe_share={}))
    (found,) = tables_of(tuple(loss_blocks(telling(plan_with(*plain)))))
    assert len(found.columns) == 4
    assert all(len(r.cells) == 4 for r in found.rows)


def test_legs_are_named_where_there_are_several() -> None:
    plan = plan_with(WORST, replace(WORST, leg=2, walker="anna", heat=True))
    blocks = loss_blocks(telling(plan))
    texts = [b.text for b in blocks if isinstance(b, Para)]
    assert [t[:6] for t in texts] == ["Leg 1:", "Leg 2:"]
    assert "and something to heat it with" in texts[1]
    (found,) = [b for b in blocks if isinstance(b, Table)]
    assert [r.cells[0].text for r in found.rows] == ["1", "2"]
    assert worst_line(telling(plan), WORST).startswith("The worst")


def test_one_walker_has_nothing_to_hear() -> None:
    assert loss_blocks(telling(plan_with())) == []
