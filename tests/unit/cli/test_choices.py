"""`choices`: the two tables, what is taken, and how it is stopped."""

from __future__ import annotations

import json
import os
import signal
from pathlib import Path

import pytest

from oatsack.cli.main import run
from oatsack.cli.screen import stoppable
from oatsack.desk import ten
from oatsack.desk.choosing import Choice, Choosing
from oatsack.desk.solving import ENOUGH, Hear, Seen
from oatsack.errors import UsageError
from oatsack.files.planfile import load
from oatsack.files.trip import parse_trip
from oatsack.menu.frontier import WEIGHTS
from oatsack.reports.choosing import Figures, document
from oatsack.reports.document import tables_of
from oatsack.reports.telling import telling
from oatsack.values.plan import Plan
from support.sample_plan import sample_plan


def figures(name: str, **more: float) -> Figures:
    usual = {
        "mass_g": 6100.0, "price": 140.5, "kg_days": 19.46, "liking": 4.07, "cook_min_day": 23.6,
        "rubbish_g": 512.0, "energy_kcal": 26000.0, "gap": 0.041,
    }  # fmt: skip
    return Figures(name=name, **(usual | more))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return sample_plan()


def test_every_menu_has_a_name_in_words_and_all_its_figures(plan: Plan) -> None:
    rows = [figures(name) for name, *_ in WEIGHTS]
    told = tables_of(document(telling(plan), rows, [figures("110%")]).blocks)
    assert len(told) == 2
    names = [line.cells[0].text for line in told[0].rows]
    assert len(set(names)) == 10 and not [n for n in names if "choice" in n or "_" in n]
    assert [c.value for c in told[0].rows[0].cells[1:]] == [
        6100.0, 140.5, 19.46, 4.07, 23.6, 512.0, 0.041,
    ]  # fmt: skip
    assert told[1].rows[0].cells[0].text == "110%"


def test_units_stand_in_the_heads_where_the_numbers_have_none(plan: Plan) -> None:
    [told] = tables_of(document(telling(plan), [figures("light")], []).blocks)
    heads = [column.title for column in told.columns]
    assert plan.trip.rules.currency in " ".join(heads) and "kg·days" in heads


def test_a_table_of_nothing_is_left_out(plan: Plan) -> None:
    assert tables_of(document(telling(plan), [], []).blocks) == []


CHOICES = tuple(Choice(name=name, mass_g=1.0, price=1.0, liking=3.0) for name, *_ in WEIGHTS)


def test_a_menu_is_taken_by_either_of_its_names_and_a_wrong_one_names_them_all() -> None:
    assert ten.named(CHOICES, "best liked").name == "best-loved"
    assert ten.named(CHOICES, "best-loved").name == "best-loved"
    with pytest.raises(UsageError, match=r"'dear'.*lightest.*best liked"):
        ten.named(CHOICES, "dear")


def test_the_lines_for_the_trip_file_are_read_as_the_weights_of_the_menu() -> None:
    trip = """
title = "a walk"
from = 2027-06-12T10:00
to = 2027-06-13T15:00
zone = "UTC"
[[walkers]]
name = "A"
mass = "70 kg"
[route]
usual_day = { distance = "12 km", up = "300 m" }
"""
    wrong = []
    for name, *weights in WEIGHTS:
        rules = parse_trip(f"{trip}\n{ten.lines_of(name)}\n", "walk.toml").rules
        if [rules.weight_kgdays, rules.weight_liking, rules.weight_price] != weights:
            wrong.append(name)
    assert wrong == []


def answering(count: int, hears: list[object]) -> object:
    def work(asked: Choosing, hear: Hear) -> tuple[Choice, ...]:
        for n in range(count):
            hears.append(hear(Seen(count=n, mass_g=1000.0, price=5.0, gap=0.1)))
            if hears[-1] == ENOUGH:
                break
        return CHOICES[:2]

    return work


def test_whoever_stops_the_ten_is_shown_those_and_waits_for_no_dial(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    heard: list[object] = []
    dialled: list[object] = []
    monkeypatch.setattr(ten, "ten", answering(5, heard))
    monkeypatch.setattr(ten, "along", answering(5, dialled))
    monkeypatch.setattr(ten, "load", lambda data: data)
    asked = Choosing(file=Path("walk.toml"), text="", plan=b"")
    told: list[str] = []

    def twice(text: str) -> bool:
        told.append(text)
        return len(told) < 2

    found = ten.worked_out(asked, twice)
    assert heard == [True, ENOUGH] and dialled == []
    assert found.ten == CHOICES[:2] and found.dial == ()
    assert told[0].startswith("1 of 15: 1.00 kg")


def test_the_first_interruption_asks_to_end_and_the_second_ends(
    capsys: pytest.CaptureFixture[str],
) -> None:
    before = signal.getsignal(signal.SIGINT)
    with pytest.raises(KeyboardInterrupt), stoppable() as going:
        assert going()
        os.kill(os.getpid(), signal.SIGINT)
        assert not going()
        os.kill(os.getpid(), signal.SIGINT)
    assert signal.getsignal(signal.SIGINT) is before
    assert "best so far is kept" in capsys.readouterr().err


def test_a_plan_without_its_trip_file_asks_for_it(tmp_path: Path) -> None:
    from oatsack.files.planfile import dump

    alone = tmp_path / "deep" / "er" / "plan.json"
    alone.parent.mkdir(parents=True)
    alone.write_bytes(dump(sample_plan()))
    assert run(["choices", str(alone)]) == 2


@pytest.mark.slow
def test_the_command_tells_ten_menus_and_the_dial_and_writes_the_one_that_is_taken(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    trip = tmp_path / "walk.toml"
    trip.write_text(
        'title = "Two days"\nfrom = 2027-06-12T10:00\nto = 2027-06-13T15:00\nzone = "UTC"\n'
        '[[walkers]]\nname = "A"\nmass = "70 kg"\ntarget = "2500 kcal"\n'
        '[route]\nusual_day = { distance = "12 km", up = "300 m" }\n', "utf-8",
    )  # fmt: skip
    assert run(["choices", str(trip), "--json", "--take", "best liked", "--out",
                str(tmp_path / "out")]) == 0  # fmt: skip
    told = capsys.readouterr()
    values = json.loads(told.out)
    assert [row["name"] for row in values["ten"]] == [name for name, *_ in WEIGHTS]
    assert [row["name"] for row in values["dial"]] == ["80%", "90%", "100%", "110%", "120%"]
    assert all(0.0 <= row["gap"] < 0.5 for row in values["ten"] + values["dial"])
    kept = load((tmp_path / "out" / "plan.json").read_bytes())
    assert kept.trip.rules.weight_liking == 8.0 and "liking = 8" in told.err
    eaten = next(row for row in values["ten"] if row["name"] == "best-loved")
    assert kept.totals.gross_g == pytest.approx(eaten["mass_g"])
