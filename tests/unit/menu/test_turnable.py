"""What a trip file may turn: every setting and aim by its full name, and the turn arrives."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from oatsack.desk.planning import read_order, with_order
from oatsack.errors import TripFileError, UsageError
from oatsack.files.trip import parse_trip
from oatsack.files.trip.tables.rules import AIM_WORD
from oatsack.menu.aims import AIMS
from oatsack.menu.problem import build
from oatsack.menu.rules import RULES
from oatsack.menu.turnable import turnable
from oatsack.provision.asking import AIM_NAMES
from oatsack.values.trip import Rules
from support.menus import boiled, food, request

TRIP = """title = "t"
from = 2027-06-12T08:00
to = 2027-06-13T19:00
zone = "UTC"
[[walkers]]
mass = "70 kg"
[route]
usual_day = { distance = "14 km", up = "500 m" }
[rules.settings]
"""
FOODS = (
    food("bar", meals="lunch move", doses=1.0), food("rice", role="main", meals="dinner",
                                                     category="grain", prep=boiled()),
)  # fmt: skip


def settings_of(lines: str) -> Rules:
    return parse_trip(TRIP + lines, "t.toml").rules


def test_every_setting_and_every_aim_without_a_weight_of_its_own_has_one_name() -> None:
    names = turnable()
    assert [name for name, n in Counter(names).items() if n > 1] == []
    assert {f"{rule.name}.{s.name}" for rule in RULES for s in rule.settings} <= set(names)
    assert {"aim.mass", "aim.minutes", "aim.rubbish", "aim.left-over", "aim.steps"} <= set(names)
    turned = {aim.name: aim.turned_by for aim in AIMS}
    assert turned["kg-days"] == "rules.weights.load"
    assert turned["rubbish"] == 'rules.settings."aim.rubbish"'


def test_every_name_can_be_written_into_a_trip_and_arrives_as_it_was_written() -> None:
    lines = [f'"{name}" = {n + 0.5}' for n, name in enumerate(turnable())]
    read = settings_of("\n".join(lines)).settings
    assert dict(read) == {name: n + 0.5 for n, name in enumerate(turnable())}


@pytest.mark.parametrize(("line", "hint"), [
    ('"protein.g_per_kilo" = 1.4', 'did you mean "protein.g_per_kg"?'),
    ('"aim.load" = 2', ""), ('"nonsense" = 1', 'a name as "protein.g_per_kg"'),
])  # fmt: skip
def test_a_name_that_is_none_is_a_fault_with_its_line(line: str, hint: str) -> None:
    with pytest.raises(TripFileError) as caught:
        settings_of(line)
    (fault,) = caught.value.faults
    assert fault.line == len(TRIP.splitlines()) + 1
    assert hint in fault.instead


def test_a_weight_of_an_aim_turns_what_is_paid_for_it() -> None:
    rules = settings_of('"aim.rubbish" = 3')
    asked = request(FOODS)
    before, after = (build(one)[1] for one in (asked, replace(asked, settings=rules.settings)))
    more = (after.cost - before.cost)[list(after.columns).index("eat/anna/1/lunch/bar")]
    assert more == pytest.approx(3.0 * 5.0), "five grams of wrapping"


def test_aims_in_order_are_read_by_the_names_of_the_trip_file() -> None:
    own = {AIM_NAMES.get(name, name) for name in AIM_WORD.options()}
    assert own == {aim.name for aim in AIMS}
    assert read_order("price, load,price") == ("price", "load")
    trip = with_order(parse_trip(TRIP, "t.toml"), ("rubbish",))
    assert trip.rules.aims == ("rubbish",)
    assert "rules.order" not in trip.defaults
    with pytest.raises(UsageError, match=r"--order.*got 'cheap'.*price"):
        read_order("cheap")
