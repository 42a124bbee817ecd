"""Every numeric leaf of a plan can be opened, and its formula gives it back from its inputs."""

from __future__ import annotations

import dataclasses
import math

import pytest

from oatsack.cite import key_of
from oatsack.desk.whys import counted_again, told
from oatsack.errors import OatsackError, UnknownAddress
from oatsack.reports.words import sentences
from oatsack.values.plan import Plan
from oatsack.walker.energy import DEFAULT
from oatsack.why import Explanation, Input, evaluate, find, leaves, why
from oatsack.why.explainers.needs import MODEL
from oatsack.why.functions import Remembered
from support.each import each
from support.plans import plan_named, short_plan

GIVEN_SECTIONS = {
    "format", "trip", "foods", "days", "menu", "made", "flags", "chosen", "slots",
    "kitchen", "packed",
}  # fmt: skip
"""Where a number may stand for itself: what was read, decided, or recorded."""
ALONE = ("stated", "read", "recorded", "choice", "grams", "frozen_kcal", "flat", "share", "kcal")


def breaches(plan: Plan) -> list[str]:
    functions = Remembered().functions()
    wrong = []
    for address, value in leaves(plan):
        found = evaluate(why(plan, address), functions)
        if not math.isclose(found, value, rel_tol=1e-9, abs_tol=1e-9):
            wrong.append(f"{address}: {value} is counted again as {found}")
    return wrong


@pytest.mark.slow
def test_every_number_of_a_small_plan_is_counted_again() -> None:
    assert breaches(short_plan()) == []


@pytest.mark.slow
@each("name", ["saltback", "bramble_bowl", "otter_flats"])
def test_every_number_of_an_acceptance_plan_is_counted_again(name: str) -> None:
    assert breaches(plan_named(name)) == []


def test_addresses_are_all_different_and_lead_to_their_number() -> None:
    plan = short_plan()
    found = list(leaves(plan))
    assert len({address for address, _ in found}) == len(found)
    assert all(find(plan, address) == value for address, value in found)


@pytest.mark.slow
def test_a_number_stands_for_itself_only_where_it_was_given_or_decided() -> None:
    plan = short_plan()
    alone = {
        address.split("/")[0] for address, _ in leaves(plan) if why(plan, address).formula in ALONE
    }
    assert alone <= GIVEN_SECTIONS


def test_a_changed_sum_no_longer_agrees_with_its_inputs() -> None:
    plan = short_plan()
    energy = plan.totals.energy_kcal
    forged = dataclasses.replace(
        plan, totals=dataclasses.replace(plan.totals, energy_kcal=energy + 50.0)
    )
    again = counted_again(why(forged, "totals/energy_kcal"))
    assert again == pytest.approx(energy)


def test_a_forged_need_no_longer_agrees_with_its_stretches() -> None:
    plan = short_plan()
    day = plan.need["anna"]["2"]
    forged_day = dataclasses.replace(day, walking_kcal=day.walking_kcal * 1.1)
    need = {**plan.need, "anna": {**plan.need["anna"], "2": forged_day}}
    forged = dataclasses.replace(plan, need=need)
    assert counted_again(why(forged, "need/anna/2/walking_kcal")) == pytest.approx(day.walking_kcal)


def test_a_wrong_word_names_the_right_ones() -> None:
    with pytest.raises(UnknownAddress, match="need has no 'ana'; there is: anna"):
        why(short_plan(), "need/ana/2/energy_kcal")


def test_what_is_no_number_says_what_it_holds() -> None:
    with pytest.raises(UnknownAddress, match="need/anna/2 is no number; it holds: energy_kcal"):
        why(short_plan(), "need/anna/2")


def test_an_input_of_the_trip_file_names_its_line() -> None:
    assert "trip.toml:8" in "\n".join(told(short_plan(), "trip/walkers/anna/mass_kg"))


def test_a_bundled_row_names_its_line_and_what_is_invented() -> None:
    lines = "\n".join(told(short_plan(), "foods/fd-mac-cheese/pack_g"))
    assert "larder.csv:" in lines
    assert "invented" in lines


def test_the_named_model_is_the_default_of_the_shelf() -> None:
    assert key_of(MODEL) == key_of(DEFAULT.sources[0])


@pytest.mark.slow
def test_every_degree_of_sureness_has_its_words() -> None:
    plan = short_plan()
    sure = {why(plan, address).sure for address, _ in leaves(plan)}
    assert {f"why.sure-{word}" for word in sure} <= set(sentences())


@each(
    "formula", ["__import__('os')", "a.b", "[1][0]", "lambda: 1", "a if a else a", "open('x')"]
)
def test_a_formula_is_never_a_program(formula: str) -> None:
    bad = Explanation(
        address="x", value=1.0, formula=formula, inputs={"a": Input(value=1.0, origin="x")}
    )
    with pytest.raises(OatsackError):
        evaluate(bad, {})
