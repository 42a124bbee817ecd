"""The verbs that plan, with planning itself put aside: what they hand over, write and return."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest

from oatsack.cli.main import run
from oatsack.cli.verbs import VERBS
from oatsack.desk import opening, planning
from oatsack.desk.opening import Opened
from oatsack.errors import NoPlan
from oatsack.files.planfile import dump
from oatsack.store.workspace import Workspace
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu
from oatsack.values.plan import Plan
from oatsack.values.trip import HandDay
from oatsack.values.walker import Target
from support.each import each
from support.foods import by_id
from support.sample_plan import sample_plan
from support.trips import trip_of

PLAN = sample_plan()
BROKEN = replace(PLAN, flags=(*PLAN.flags, Flag(key="kitchen.fuel-short", level="block", values={
    "need_g": 2.0, "carried_g": 1.0, "burnt_g": 2.0})))  # fmt: skip
Typed = Callable[..., tuple[int, str, str]]


@dataclass
class Planner:
    """Stands in for the desk: gives a plan that is made already, and keeps what it was asked."""

    plan: Plan = PLAN
    asked: dict[str, Any] = field(default_factory=dict)
    opened: list[Path] = field(default_factory=list)

    def open(self, path: Path) -> Opened:
        """A trip of one typed day."""
        self.opened.append(path)
        trip = trip_of("2027-06-10 09:00", "2027-06-10 17:00",
                       hand_days=(HandDay(distance_m=9000.0),))  # fmt: skip
        return Opened(trip=trip, foods=tuple(by_id().values())[:3])

    def make(self, opened: Opened, **asked: Any) -> Plan:
        """The plan."""
        self.asked = asked
        return self.plan


@pytest.fixture
def desk(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Planner:
    """Commands are typed in an empty folder, and planning is put aside."""
    stand_in = Planner()
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(opening, "open_trip", stand_in.open)
    monkeypatch.setattr(planning, "make_plan", stand_in.make)
    return stand_in


@pytest.fixture
def typed(desk: Planner, capsys: pytest.CaptureFixture[str]) -> Typed:
    """Runs a command; gives its exit code, standard output and standard error."""

    def command(*words: str) -> tuple[int, str, str]:
        code = run(words)
        told = capsys.readouterr()
        return code, told.out, told.err

    return command


def test_a_plan_without_words_is_the_everyday_one_for_today(typed: Typed, desk: Planner) -> None:
    code, out, err = typed("plan", "t.toml")
    assert (code, err, desk.opened) == (0, "", [Path("t.toml")])
    assert out.startswith("Heron Tarns round\n")
    assert len(out.splitlines()) <= 30
    today = desk.asked.pop("today")
    assert abs((today - dt.datetime.now().astimezone().date()).days) <= 1
    going = desk.asked.pop("progress")
    assert going(Menu(portions=())) is True  # the work goes on while nobody stops it
    assert desk.asked == {"target": None, "near": None, "seed": 0, "work": 1}
    assert list(Path().iterdir()) == []  # nothing is written that nobody asked for


@each(
    ("words", "target"),
    [
        ("2200 kcal", Target(kcal=2200.0)), ("9204.8 kJ", Target(kcal=2200.0)),
        ("75%", Target(share=0.75)), ("3/4", Target(share=0.75)),
    ],
)  # fmt: skip
def test_a_target_is_an_energy_or_a_share(words: str, target: Target) -> None:
    found = planning.read_target(words)
    assert found.share == target.share
    assert found.kcal == (None if target.kcal is None else pytest.approx(target.kcal))


def test_what_was_typed_is_handed_over(typed: Typed, desk: Planner) -> None:
    Path("old.json").write_bytes(dump(PLAN))
    code, _, _ = typed("plan", "t.toml", "--target", "75%", "--near", "old.json", "--seed", "7",
                       "--work", "5")  # fmt: skip
    assert code == 0
    assert (desk.asked["seed"], desk.asked["work"]) == (7, 5)
    assert desk.asked["target"] == Target(share=0.75)
    assert desk.asked["near"].menu == PLAN.menu


def test_a_target_of_nothing_or_of_no_sense_never_plans(typed: Typed, desk: Planner) -> None:
    wrong = []
    for target in ("0 kcal", "0%", "-5 kcal", "2200", "much", "1,500 kcal"):
        code, out, err = typed("plan", "t.toml", "--target", target)
        if (code, out) != (2, "") or not err or "Traceback" in err:
            wrong.append((target, code, out, err))
    assert wrong == []
    assert desk.asked == {}


def test_json_on_standard_output_is_the_plan_file_and_nothing_else(typed: Typed) -> None:
    code, out, err = typed("plan", "t.toml", "--json")
    assert (code, err) == (0, "")
    assert out.encode("utf-8") == dump(PLAN)
    assert json.loads(out)["trip"]["title"] == PLAN.trip.title


def test_the_whole_plan_is_longer_than_its_first_screen_and_holds_the_shopping(
    typed: Typed,
) -> None:
    first, full = (typed("plan", "t.toml", *more)[1] for more in ((), ("--full",)))
    assert len(full.splitlines()) > 2 * len(first.splitlines())
    assert "Rye crackers" in full


def test_a_folder_gets_the_papers_and_each_is_named_beside_the_result(typed: Typed) -> None:
    code, out, err = typed("plan", "t.toml", "--out", "walk")
    assert code == 0
    written = [line.removeprefix("wrote ") for line in err.splitlines()]
    assert {Path(one).name for one in written} >= {"plan.json", "shopping.csv", "bags.csv",
                                                   "ribbon.svg"}  # fmt: skip
    assert {Path(one) for one in written} == set(Path("walk").iterdir())
    assert "wrote" not in out
    assert (Path("walk") / "plan.json").read_bytes() == dump(PLAN)


def test_a_plan_with_something_hard_broken_is_shown_and_ends_with_one(
    typed: Typed, desk: Planner
) -> None:
    desk.plan = BROKEN
    code, out, _ = typed("plan", "t.toml")
    assert code == 1
    assert out.startswith("Heron Tarns round\n")


def test_a_clash_is_said_in_words_with_the_walkers_names(
    typed: Typed, monkeypatch: pytest.MonkeyPatch
) -> None:
    def clash(opened: Opened, **asked: Any) -> Plan:
        error = NoPlan(["x"], [Flag(key="menu.no-food", level="block", values={})])
        error.walkers = {"ida": "Ida"}
        raise error

    monkeypatch.setattr(planning, "make_plan", clash)
    code, out, err = typed("plan", "t.toml")
    assert (code, out) == (1, "")
    assert err.startswith("This cannot be provisioned as asked:\n")


def test_the_need_is_shown_by_day_and_the_same_as_json(typed: Typed, desk: Planner) -> None:
    code, out, err = typed("need", "t.toml")
    assert (code, err, desk.asked) == (0, "", {})
    assert "Ida" in out
    found = json.loads(typed("need", "t.toml", "--json")[1])
    drawn = json.loads(typed("need", "t.toml", "--json", "--range")[1])
    assert found != drawn  # the draws stand in it only where one asked


def test_the_demo_is_copied_out_whole_and_planned_where_it_lies(
    typed: Typed, desk: Planner
) -> None:
    code, _, err = typed("demo", "here")
    assert code == 0
    assert desk.opened == [Path("here") / "trip.toml"]
    from importlib.resources import files

    source = files("oatsack") / "data" / "demo"
    for name in ("trip.toml", "track.gpx"):
        assert (Path("here") / name).read_bytes() == (source / name).read_bytes()
    assert (Path("here") / "plan.json").read_bytes() == dump(PLAN)
    assert err.startswith(f"the trip is in {Path('here') / 'trip.toml'}; change it and run: ")


def test_a_demo_copied_out_again_keeps_what_was_changed(typed: Typed) -> None:
    typed("demo")
    trip = Path("demo") / "trip.toml"
    ours, mine = trip.read_bytes(), b"# mine\n" + trip.read_bytes()
    trip.write_bytes(mine)
    typed("demo")
    kept = [path.read_bytes() for path in Path("demo").rglob("*") if path.is_file()]
    assert trip.read_bytes() == ours
    assert mine in kept  # nothing the user wrote is overwritten without a kept revision (C12)


def test_a_backup_is_named_and_whole(typed: Typed, tmp_path: Path) -> None:
    Workspace(tmp_path).save("walk", "one", head=None)
    code, out, err = typed("backup")
    assert (code, err) == (0, "")
    copy = Path(out.strip())
    assert copy.suffix == ".sqlite" and copy.is_file()
    (tmp_path / "there").mkdir()
    copy.rename(tmp_path / "there" / "oatsack.sqlite")
    assert Workspace(tmp_path / "there").trips() == ("walk",)


def test_the_overview_names_every_verb_with_its_words(typed: Typed) -> None:
    pages = [typed(*words)[1] for words in ((), ("--help",), ("-h",))]
    assert pages[0] == pages[1] == pages[2]
    for verb in VERBS:
        assert f"  {verb.name} " in pages[0] and verb.help in pages[0]
