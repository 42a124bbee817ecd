"""What the benchmark asks is the same every time, and what it keeps is what it measured."""

from __future__ import annotations

import csv
import importlib
import importlib.util
import sys
import threading
import time
from collections import Counter
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

from oatsack.larder.plausible import admitted
from oatsack.values.menu import Menu, MenuRequest
from support.each import each
from support.source import ROOT


def loaded(name: str) -> ModuleType:
    """A module of the bench, which is no package of ours at test time."""
    spec = importlib.util.spec_from_file_location(f"bench_{name}", ROOT / "bench" / f"{name}.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # its dataclasses look for it there
    spec.loader.exec_module(module)
    return module


INSTANCES, RUNNER, WATCH = (loaded(name) for name in ("instances", "__main__", "watch"))


def asked(name: str) -> MenuRequest:
    request: MenuRequest = INSTANCES.instance(name).request
    return request


@each(
    ("name", "walkers", "days", "legs"),
    [("solo3-60-none-easy", 1, 3, 1), ("couple7-60-none-easy", 2, 7, 1),
     ("4x10-60-none-easy", 4, 10, 1), ("12x14-60-none-easy", 12, 14, 1)],
)  # fmt: skip
def test_a_name_says_how_many_walk_how_long_and_in_how_many_legs(
    name: str, walkers: int, days: int, legs: int
) -> None:
    request = asked(name)
    assert len(request.walkers) == walkers
    assert {slot.day for slot in request.slots} == set(range(1, days + 1))
    assert {slot.leg for slot in request.slots} == set(range(1, legs + 1))
    assert {w.id for w in request.walkers} == set(request.target_kcal)


def test_the_long_walk_has_twenty_five_legs_of_six_days() -> None:
    request = asked("150x25-60-none-easy")
    by_leg = {slot.leg: set() for slot in request.slots}  # type: dict[int, set[int]]
    for slot in request.slots:
        by_leg[slot.leg].add(slot.day)
    assert [len(days) for _, days in sorted(by_leg.items())] == [6] * 25


@each("size", [60, 150, 400])
def test_a_larder_has_its_size_its_kinds_and_no_food_twice(size: int) -> None:
    foods = INSTANCES.larder(size)
    assert len({food.id for food in foods}) == len(foods) == size
    assert foods == INSTANCES.larder(size)
    whole = Counter(food.role for food in INSTANCES.larder(150))
    for role, count in Counter(food.role for food in foods).items():
        assert count / size == pytest.approx(whole[role] / 150, abs=0.06), role


def test_foods_beyond_the_bundled_ones_are_like_them_and_still_plausible() -> None:
    foods = INSTANCES.larder(400)
    by_id = {food.id: food for food in foods}
    copies = [food for food in foods if food.id.rpartition("-")[2].isdigit()]
    assert len(copies) > 100
    for food in copies:
        like = by_id[food.id.rpartition("-")[0]]
        assert food.per_100g.energy_kcal == pytest.approx(like.per_100g.energy_kcal, rel=0.0501)
        assert 1.0 <= (food.liking or 3.0) <= 5.0
    assert len(admitted(copies)[0]) > 0.95 * len(copies)


@each(("usual", "meals"), [("none", set()), ("half", {"breakfast", "dinner"}),
                           ("full", {"breakfast", "lunch", "dinner"})])  # fmt: skip
def test_a_usual_is_of_foods_in_the_larder_that_the_walker_eats(
    usual: str, meals: set[str]
) -> None:
    request = asked(f"4x10-150-{usual}-easy")
    foods = {food.id: food for food in request.foods}
    for walker in request.walkers:
        assert set(walker.usual.meals) == meals
        for meal, choices in walker.usual.meals.items():
            for choice in choices:
                for pick in choice.picks:
                    food = foods[pick.food]
                    assert meal in food.meals and pick.count >= 1.0
                    assert walker.eats == "anything" or food.diet in ("vegan", "vegetarian")


@each(("tight", "budget"), [("easy", None), ("tight", 7 * 12.0), ("impossible", 7 * 2.0)])
def test_tightness_is_money_for_each_person_and_day(tight: str, budget: float | None) -> None:
    assert asked(f"solo7-60-none-{tight}").rules.budget == budget


def test_the_everyday_set_is_part_of_the_whole_one_but_for_one_variation() -> None:
    whole = INSTANCES.full_set()
    assert len(whole) == len(set(whole))
    outside = set(INSTANCES.SUBSET) - set(whole)
    assert outside == {"solo7-60-half-easy"}
    assert {name.split("-")[0] for name in whole} == set(INSTANCES.PARTIES)


# What is kept of a run


def rows(subject: str, *values: float, **more: Any) -> list[dict[str, Any]]:
    return [{"subject": subject, "what": f"{subject} {k}", "value": value, "unit": "s", **more}
            for k, value in enumerate(values)]  # fmt: skip


def test_a_run_keeps_the_rows_of_the_day_that_it_did_not_measure_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(RUNNER, "RUNS", tmp_path / "bench" / "runs")
    RUNNER.keep(rows("start", 0.1, 0.2, bar=0.2, holds=True), full=False)
    RUNNER.keep(rows("menu", 5.0, other="not kept"), full=False)
    RUNNER.keep(rows("start", 0.3), full=False)
    RUNNER.keep(rows("web", 1.0), full=True)
    (folder,) = (tmp_path / "bench" / "runs").iterdir()
    with (folder / "subset.csv").open(newline="", encoding="utf-8") as kept:
        found = list(csv.DictReader(kept))
    assert [(row["subject"], row["value"]) for row in found] == [("menu", "5.0"), ("start", "0.3")]
    assert set(found[0]) == set(RUNNER.COLUMNS)
    assert {path.name for path in folder.iterdir()} == {"subset.csv", "full.csv", "README.md"}
    noted = (folder / "README.md").read_text(encoding="utf-8").splitlines()
    assert noted[0].startswith("Python ") and noted[1] == ""
    assert [line.split(":")[0] for line in noted[2:]] == [
        "- menu in subset.csv", "- start in subset.csv", "- web in full.csv",
    ]  # fmt: skip
    assert capsys.readouterr().out.count("kept in") == 4


def test_what_was_noted_of_another_subject_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.getloadavg", lambda: (0.26, 0.0, 0.0))
    old = "Python 3.0.\n\n- menu in full.csv: beside other work\n- web in full.csv: load 9.9\n"
    assert RUNNER.noted(old, rows("web", 1.0, 2.0), "full.csv").splitlines()[2:] == [
        "- menu in full.csv: beside other work",
        "- web in full.csv: load 0.3 at the end of the run",
    ]


@each(
    ("row", "told"),
    [
        ({"what": "x", "value": 1.0}, []),
        ({"what": "x", "value": 1.0, "bar": 2.0, "holds": True}, ["bar 2"]),
        ({"what": "x", "value": 3.0, "bar": 2.0, "holds": False}, ["bar 2", "MISSED"]),
    ],
)
def test_a_bar_that_is_missed_is_said(row: dict[str, Any], told: list[str]) -> None:
    import contextlib
    import io

    with contextlib.redirect_stdout(io.StringIO()) as out:
        RUNNER.show(row)
    assert [word for word in ("bar 2", "MISSED") if word in out.getvalue()] == told


def test_a_run_with_a_bar_missed_ends_with_one(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    kept: list[list[dict[str, Any]]] = []
    monkeypatch.setattr(RUNNER, "keep", lambda rows, full: kept.append(rows))
    for holds, code in ((True, 0), (False, 1)):
        made = SimpleNamespace(run=lambda full, holds=holds: [
            {"what": "x", "value": 1.0, "holds": holds}, {"what": "y", "value": 2.0},
        ])  # fmt: skip
        monkeypatch.setattr(RUNNER.importlib, "import_module", lambda name, made=made: made)
        assert RUNNER.main(["start"]) == code
    assert [row["subject"] for row in kept[0]] == ["start", "start"]
    assert RUNNER.main(["--help"]) == 0
    assert len(kept) == 2  # help measures nothing
    told = capsys.readouterr().out
    assert all(name in told for name in RUNNER.SUBJECTS)


# The stopwatch of a search


def test_the_watch_keeps_the_first_plan_and_the_best_within_its_seconds() -> None:
    clock = iter([0.5, 0.5, 1.0, 1.0, 3.0, 3.0])
    watch = WATCH.Watch(2.0)
    watch.spent = lambda: next(clock)
    menus = [Menu(portions=(), aim=aim) for aim in (9.0, 7.0, 5.0)]
    assert [watch(menu) for menu in menus[:2]] == [True, True]
    # The first call asks the clock once, for whether to go on.
    assert watch.first is menus[0]
    assert watch.best is menus[1]
    watch.spent = lambda: 3.0
    assert watch(menus[2]) is False
    assert watch.best is menus[1]  # it came after the limit


def test_a_first_plan_after_the_limit_is_the_best_all_the_same() -> None:
    watch = WATCH.Watch(0.0)
    menu = Menu(portions=(), aim=1.0)
    watch.spent = lambda: 1.0
    assert watch(menu) is False
    assert (watch.first, watch.best) == (menu, menu)
    assert watch.first_s >= 0.0 and watch.first_cpu_s >= 0.0


def test_the_limit_is_over_once_both_clocks_say_so() -> None:
    """Beside other work the wall runs ahead; with two threads the processor does."""
    watch = WATCH.Watch(10.0)
    for wall, cpu, spent in ((12.0, 3.0, 3.0), (6.0, 11.0, 6.0)):
        watch.seconds, watch.cpu = (lambda wall=wall: wall), (lambda cpu=cpu: cpu)
        assert watch.spent() == spent


def test_waiting_for_quiet_ends_with_the_last_thread_or_the_patience() -> None:
    leave = threading.Event()
    thread = threading.Thread(target=leave.wait)
    before = threading.active_count()
    thread.start()
    begin = time.perf_counter()
    WATCH.all_quiet(0.2)
    assert time.perf_counter() - begin >= 0.2
    leave.set()
    thread.join()
    assert threading.active_count() == before


def test_every_question_that_can_be_answered_is_put_to_the_rivals_too(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.syspath_prepend(str(ROOT))
    rivals = importlib.import_module("bench.subjects.rivals")
    asked: list[str] = []
    monkeypatch.setattr(rivals, "instance", lambda name: SimpleNamespace(name=name))
    monkeypatch.setattr(rivals, "_rows", lambda one, full: asked.append(one.name) or [])
    rivals.run(full=True)
    assert asked == [n for n in INSTANCES.full_set() if not n.endswith("impossible")]
    parts = [set(some) for some in zip(*(name.split("-") for name in asked), strict=True)]
    assert parts == [set(INSTANCES.PARTIES), {"60", "150", "400"}, {"none", "half", "full"},
                     {"easy", "tight"}]  # fmt: skip
