"""What a document shows is what the plan holds: every cell of every report, in both unit systems.

A cell bears its text, the number behind it and where that number is opened. The text is read back
by a reader of our tests' own, the address is followed in the plan, and all three must agree.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from oatsack.reports import document_of
from oatsack.reports.contents import CONTENTS
from oatsack.reports.document import APART, Cell, Document, Fold, Note, Para, tables_of
from oatsack.reports.measures import Measures
from oatsack.values.plan import Plan
from oatsack.why import why
from oatsack.why.tree import number
from support.amount import some
from support.each import each
from support.quantities import UNITS, all_shown, shown
from support.sample_plan import sample_plan

SYSTEMS = ("metric", "us")
SIZES = ((1, 3, 1), (2, 4, 2), (3, 3, 1), (6, 5, 2))
"""Walkers, days and legs."""
NAMES = [c.name for c in CONTENTS if c.name not in ("workbook",)]
METRIC = {"kg", "g", "l", "ml", "km", "m"}
AMERICAN = {"lb", "oz", "cup", "cups", "fl oz", "qt", "in³", "mi", "ft"}


@cache
def plan_of(size: tuple[int, int, int], units: Any) -> Plan:
    walkers, days, legs = size
    plan = sample_plan(walkers=walkers, days=days, legs=legs, units=units)
    wet = {str(day.number): 120.0 for day in plan.days}
    return replace(plan, kitchen=replace(plan.kitchen, wet_min=wet))


@cache
def written(name: str, size: tuple[int, int, int], units: str) -> Document:
    return document_of(plan_of(size, units), name)


def cells(document: Document) -> Iterator[Cell]:
    for table in tables_of(document.blocks):
        for row in table.rows:
            yield from row.cells


def counted(plan: Plan, address: str) -> float:
    """The number of an address, or the sum of several."""
    return sum(number(plan, one) for one in address.split(APART))


def every(name: str) -> Iterator[tuple[Plan, Cell, str]]:
    """Each cell that bears a number, of a report in all sizes and both systems."""
    for size in some(SIZES, 3):
        for units in SYSTEMS:
            for cell in cells(written(name, size, units)):
                if cell.value is not None and cell.text:
                    yield plan_of(size, units), cell, units


@pytest.mark.slow
@each("name", NAMES)
def test_every_cell_opens_the_number_it_shows(name: str) -> None:
    wrong = [
        (cell.text, cell.value, cell.address, counted(plan, cell.address))
        for plan, cell, _ in every(name)
        if cell.address and counted(plan, cell.address) != pytest.approx(cell.value)
    ]
    assert wrong == []


@pytest.mark.slow
@each("name", NAMES)
def test_every_cell_shows_the_number_behind_it(name: str) -> None:
    wrong = []
    for _, cell, units in every(name):
        assert cell.value is not None
        if not any(read.is_near(cell.value) for read in all_shown(cell.text)):
            wrong.append((units, cell.text, cell.value, cell.address))
    assert wrong == []


@each("name", NAMES)
def test_no_cell_speaks_the_other_system(name: str) -> None:
    for _, cell, units in every(name):
        read = shown(cell.text)
        other = AMERICAN if units == "metric" else METRIC
        assert read is None or read.unit not in other, (units, cell.text)


@each("size", SIZES[1:3])
@each("units", SYSTEMS)
def test_one_number_is_shown_in_one_way_within_a_document(
    size: tuple[int, int, int], units: str
) -> None:
    """A figure that stands twice reads the same both times, or once to a ten and once about."""
    for name in NAMES:
        texts: dict[str, set[str]] = defaultdict(set)
        for cell in cells(written(name, size, units)):
            if cell.address and cell.value is not None and cell.text:
                texts[cell.address].add(cell.text.split(" (")[0])
        for address, said in texts.items():
            read = [one for text in said if (one := shown(text))]
            steps = {(one.unit, one.half) for one in read}
            assert len(said) == len(steps) or len(said) == 1, (name, address, said)
            assert max(r.value - r.half for r in read) <= min(r.value + r.half for r in read)


@each("name", NAMES)
def test_what_a_sentence_opens_is_the_number_it_says(name: str) -> None:
    for size in some(SIZES, 3):
        for units in SYSTEMS:
            plan = plan_of(size, units)
            for text, opens in sentences(written(name, size, units).blocks):
                for said, address in opens:
                    read = shown(said)
                    assert said in text, (said, text)
                    assert read is not None and read.is_near(counted(plan, address)), (
                        said, address, counted(plan, address))  # fmt: skip


def sentences(blocks: Any) -> Iterator[tuple[str, Any]]:
    for block in blocks:
        if isinstance(block, Para | Note) and block.opens:
            yield block.text, block.opens
        elif isinstance(block, Fold):
            yield from sentences(block.blocks)


@each("units", SYSTEMS)
def test_the_facts_of_the_trip_are_its_totals(units: str) -> None:
    """By their own names, read back; nothing of the row is left out and nothing said twice."""
    plan = plan_of(SIZES[1], units)
    t = plan.totals
    wanted = {
        "Energy": t.energy_kcal, "Food per person-day": t.g_per_person_day,
        "On your backs at the start": t.start_kg, "Rubbish": t.rubbish_g,
        "Water boiled a day": t.boiled_ml_day, "Fuel burnt": t.fuel_g,
    }  # fmt: skip
    facts = {
        label: text for block in written("plan", SIZES[1], units).blocks
        for label, text in getattr(block, "pairs", ())
    }  # fmt: skip
    read = {label: shown(text) for label, text in facts.items()}
    values = [t.energy_kcal, t.kcal_per_100g, t.g_per_person_day, t.start_kg, t.sodium_mg_day,
              t.fibre_g_day, t.caffeine_mg_day, t.fat_share, t.cook_minutes_day, t.boiled_ml_day,
              t.fuel_g, t.rubbish_g, t.price or 0.0]  # fmt: skip
    lacking = [v for v in values if not any(r and r.is_near(v) for r in read.values())]
    assert lacking == []
    assert set(wanted) & set(facts) == {k for k in wanted if k in facts}
    for label, value in wanted.items():
        if label in facts:
            found = read[label]
            assert found is not None and found.is_near(value), (label, facts[label], value)


def amounts() -> list[float]:
    """From a crumb to a party's food, dense where a way of showing ends and another begins."""
    ends = (9.95 * UNITS["oz"], 16 * UNITS["oz"], 999.5, 9995.0, 0.2 * UNITS["cup"],
            8 * UNITS["cup"], 1000.0, 100.0)  # fmt: skip
    steps = [0.0, *(1.3**k * 0.11 for k in range(45))]
    return sorted({*steps, *(e * f for e in ends for f in (0.99, 0.9999, 1.0, 1.0001, 1.01))})


@each("units", SYSTEMS)
@each("kind", ["mass", "fine", "volume", "room", "distance", "height", "energy", "money", "about",
               "minutes", "percent"])  # fmt: skip
def test_whatever_is_shown_reads_back_within_half_of_its_last_step(units: Any, kind: str) -> None:
    """And what is more is never shown as less."""
    show = getattr(Measures(units=units), kind)
    last = -1.0
    for amount in amounts():
        value = amount / 1000.0 if kind == "percent" else amount
        text = show(value)
        read = shown(text.replace(" h ", "h")) if kind != "minutes" else None
        if kind == "minutes":
            hours, _, rest = text.removesuffix(" min").partition(" h ")
            back = float(hours) * 60 + float(rest) if rest else float(hours)
            assert abs(back - value) <= 0.5, (value, text)
        else:
            assert read is not None and read.is_near(value), (value, text)
            back = read.value
        assert back >= last - 1e-9, (value, text)
        last = back


@each("units", SYSTEMS)
def test_what_rounds_to_nothing_has_no_sign(units: Any) -> None:
    m = Measures(units=units)
    for show in (m.mass, m.heavy, m.body, m.energy, m.about, m.volume, m.room, m.distance, m.height,
                 m.money, m.percent, m.number):  # fmt: skip
        assert not show(-1e-9).startswith(("-", "−")), show(-1e-9)
        assert show(-1e-9) == show(0.0)


@pytest.mark.slow
def test_every_kind_of_figure_that_bears_an_address_is_explained() -> None:
    """One of each kind of address, over all documents: somebody explains it, and to this number."""
    plan = plan_of(SIZES[1], "metric")
    named = {w.id for w in plan.trip.walkers} | {b.id for b in plan.packed.bags}
    kinds: dict[str, tuple[str, float]] = {}
    for name in NAMES:
        for cell in cells(written(name, SIZES[1], "metric")):
            for one in cell.address.split(APART) if cell.address else ():
                words = ["*" if w in named or any(c.isdigit() for c in w) else w
                         for w in one.split("/")]  # fmt: skip
                kinds.setdefault("/".join(words), (one, number(plan, one)))
    assert len(kinds) > 30
    for address, value in kinds.values():
        assert why(plan, address).value == pytest.approx(value), address
