"""What stays outside the container goes by its number only where the bag bears one."""

from __future__ import annotations

from dataclasses import replace

from oatsack.reports.contents.bags import number, things_in
from oatsack.reports.contents.container import night_table
from oatsack.reports.telling import telling
from support.sample_plan import sample_plan


def test_a_thing_carried_as_bought_has_no_number_among_what_stays_outside() -> None:
    plan = sample_plan()
    first, *rest = plan.packed.nights
    bag = plan.packed.bags[0]
    for sealed in (False, True):
        bags = (replace(bag, sealed=sealed), *plan.packed.bags[1:])
        night = replace(first, outside=(bag.id,))
        told = telling(replace(plan, packed=replace(plan.packed, bags=bags, nights=(night, *rest))))
        said = night_table(told).rows[0].cells[-1].text
        assert things_in(told, bags[0]) in said
        assert bool(number(bags[0])) is (not sealed)
        assert any(letter.isdigit() for letter in said.split()[0]) is (not sealed), said
