"""Laws of the bench over random wishes: undo is the way back, redo the way forth, nothing is lost.

A small history kept beside it (a list of texts and a place in it) says where the trip must stand.
No menu is solved: what the laws speak of is the walker's own text, its file and its revisions.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from random import Random

import pytest

from oatsack.desk import edits
from oatsack.desk.bench import Bench, Standing, stopped
from oatsack.desk.solving import Asked, Hear, Planned
from oatsack.errors import NotThere, StaleHead, UsageError
from oatsack.files.planfile import dump, load
from oatsack.files.trip import parse_trip
from support.amount import some
from support.each import each
from support.sample_plan import sample_plan

TODAY = dt.date(2027, 6, 1)
TRIP = """# our walk
title = "Two nights"   # over the pass
from = 2027-06-12T09:00
to = 2027-06-14T15:00

[[walkers]]
name = "Anna"
mass = "62 kg"  # weighed
[[walkers]]
name = "Ben"
mass = "80 kg"
[route]
usual_day = { distance = "15 km", up = "600 m" }
# the end
"""
FOODS = ("rolled-oats", "muesli", "couscous", "trail-mix")
MEALS = ("breakfast", "dinner", None)


class NoMenu:
    """Reads the text and plans nothing; keeps what it was asked."""

    def __init__(self) -> None:
        self.asked: list[Asked] = []

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        parse_trip(asked.text, "trip.toml")
        self.asked.append(asked)
        return Planned(plan=asked.prepared, refusal=() if asked.prepared else (("x", "no", {}),))

    def do(self, task: str, asked: object, hear: Hear) -> object:
        raise AssertionError(task)

    def warm(self) -> None:
        """Nothing to get ready."""


@dataclass
class History:
    """Where the trip must stand: every text on the way here, and what redo would bring."""

    behind: list[str] = field(default_factory=list)
    ahead: list[str] = field(default_factory=list)
    ever: set[str] = field(default_factory=set)

    def put(self, text: str) -> None:
        self.behind.append(text)
        self.ever.add(text)
        self.ahead.clear()

    @property
    def now(self) -> str:
        return self.behind[-1]


def where(dice: Random) -> dict[str, object]:
    place: dict[str, object] = {"food": dice.choice(FOODS), "walker": dice.choice(["Anna", "Ben"])}
    meal = dice.choice(MEALS)
    if meal:
        place |= {"meal": meal, "date": dt.date(2027, 6, 12) + dt.timedelta(dice.randint(1, 2))}
    return place


def a_wish(text: str, dice: Random) -> edits.Changes:
    """One of the changes that a page or a command can ask for."""
    wishes: list[Callable[[], edits.Changes]] = [
        lambda: edits.kept(text, where(dice), float(dice.randint(1, 4))),
        lambda: edits.banned(text, where(dice)),
        lambda: edits.let_go(text, where(dice)),
        lambda: edits.taken_back(text, dice.choice(["holds", "bans"]), dice.randint(0, 2)),
        lambda: edits.swapped(text, where(dice), dice.choice(FOODS), 2.0),
        lambda: edits.weighed(text, dice.choice([0.5, 2.0]), 1.0, 1.0),
        lambda: {f"walkers[{dice.randint(0, 1)}].target": f"{dice.randint(18, 40)}00 kcal"},
        lambda: {"rules.budget": f"{dice.randint(40, 90)} EUR"},
    ]
    return dice.choice(wishes)()


def bench_in(folder: Path) -> tuple[Bench, Standing, History]:
    bench = Bench(folder, lambda: TODAY, NoMenu())  # type: ignore[arg-type]
    standing, history = bench.begin("walk", TRIP), History()
    history.put(TRIP)
    return bench, standing, history


def step(bench: Bench, standing: Standing, history: History, dice: Random) -> Standing:
    """A wish, a step back or a step forth; what may not be done raises and changes nothing."""
    what, head = dice.choice(["wish", "wish", "wish", "undo", "redo"]), standing.revision.id
    try:
        if what == "undo":
            found = bench.undo("walk", head=head)
            history.ahead.append(history.behind.pop())
        elif what == "redo":
            found = bench.redo("walk", head=head)
            history.behind.append(history.ahead.pop())
        else:
            found = bench.change("walk", a_wish(history.now, dice), head=head, note="wish")
            history.put(found.revision.text)
    except UsageError:
        assert what == "wish" or not (history.behind[1:] if what == "undo" else history.ahead)
        return standing
    return found


def walked(folder: Path, seed: int, steps: int = 12) -> tuple[Bench, Standing, History]:
    bench, standing, history = bench_in(folder)
    dice = Random(seed)
    for _ in range(steps):
        standing = step(bench, standing, history, dice)
        assert standing.revision.text == history.now
        assert bench.file("walk").read_text(encoding="utf-8") == history.now
    return bench, standing, history


@each("seed", some(range(10), 8))
def test_after_any_wishes_the_trip_stands_where_its_history_says(
    tmp_path: Path, seed: int
) -> None:
    bench, standing, history = walked(folder_of(tmp_path, seed), seed)
    assert bench.standing("walk").revision == standing.revision
    assert all(bench.store.holds("walk", text) for text in history.ever), "nothing is lost"
    assert not bench.store.holds("walk", "never written")
    text = standing.revision.text
    assert text.startswith("# our walk\n") and "# over the pass" in text and "# the end" in text
    assert parse_trip(text, "t").walkers[0].name == "Anna"


@each("seed", some(range(10, 20), 8))
def test_undo_to_the_first_and_redo_to_the_last_is_there_and_back(
    tmp_path: Path, seed: int
) -> None:
    bench, standing, history = walked(folder_of(tmp_path, seed), seed)
    way = [standing.revision]
    while way[-1].parent is not None:
        way.append(bench.undo("walk", head=way[-1].id).revision)
    assert way[-1].text == TRIP
    assert [r.text for r in way] == history.behind[::-1]
    with pytest.raises(UsageError, match="nothing left to undo"):
        bench.undo("walk", head=way[-1].id)
    back = [bench.redo("walk", head=r.id).revision for r in way[:0:-1]]
    assert [r.text for r in back] == history.behind[1:]
    assert bench.file("walk").read_text(encoding="utf-8") == history.now


@each("seed", some(range(4), 4))
def test_an_old_window_changes_nothing_and_is_shown_both_texts(tmp_path: Path, seed: int) -> None:
    bench, standing, _ = walked(folder_of(tmp_path, seed), seed, steps=5)
    change = {"rules.budget": "123 EUR"}
    newer = bench.change("walk", change, head=standing.revision.id, note="other window")
    for attempt in (
        lambda: bench.change("walk", {"title": "mine"}, head=standing.revision.id, note="late"),
        lambda: bench.undo("walk", head=standing.revision.id),
        lambda: bench.redo("walk", head=standing.revision.id),
        lambda: bench.again("walk", head=standing.revision.id),
    ):
        with pytest.raises(StaleHead) as told:
            attempt()
        assert told.value.theirs == newer.revision.text
        assert told.value.head == newer.revision.id
        assert bench.standing("walk").revision == newer.revision


def test_a_wish_after_a_step_back_ends_what_could_be_done_again(tmp_path: Path) -> None:
    bench, first, _ = bench_in(tmp_path)
    second = bench.change("walk", {"rules.budget": "50 EUR"}, head=first.revision.id, note="a")
    back = bench.undo("walk", head=second.revision.id)
    other = bench.change("walk", {"rules.budget": "60 EUR"}, head=back.revision.id, note="b")
    with pytest.raises(UsageError, match="nothing to do again"):
        bench.redo("walk", head=other.revision.id)
    assert bench.as_it_was(second.revision.id).revision.text == second.revision.text


def test_a_file_changed_outside_becomes_a_revision_that_can_be_undone(tmp_path: Path) -> None:
    bench, first, _ = bench_in(tmp_path)
    edited = TRIP.replace("62 kg", "64 kg")
    bench.file("walk").write_text(edited, encoding="utf-8")
    found = bench.standing("walk")
    assert (found.revision.text, found.revision.note) == (edited, "file")
    assert found.revision.parent == first.revision.id
    assert bench.undo("walk", head=found.revision.id).revision.text == TRIP
    assert bench.file("walk").read_text(encoding="utf-8") == TRIP


def test_a_file_changed_outside_and_overwritten_by_a_save_is_kept_beside_it(
    tmp_path: Path,
) -> None:
    """C12: nobody saw that text as a revision, so it may not vanish."""
    bench, first, _ = bench_in(tmp_path)
    strange = TRIP + "# a line that no window knows\n"
    bench.file("walk").write_text(strange, encoding="utf-8")
    bench.change("walk", {"rules.budget": "50 EUR"}, head=first.revision.id, note="page")
    kept = list((tmp_path / "earlier").iterdir())
    assert [p.read_text(encoding="utf-8") for p in kept] == [strange]
    assert kept[0].name.startswith("walk-") and kept[0].suffix == ".toml"


def test_an_edit_stays_near_the_last_plan_there_was_even_over_a_refusal(tmp_path: Path) -> None:
    """A clash leaves no plan; the plan before it is still what a mended trip stays close to."""
    bench, _, _ = bench_in(tmp_path)
    works: NoMenu = bench.works  # type: ignore[assignment]
    plan = dump(sample_plan(days=2))
    data = plan if isinstance(plan, bytes) else plan.encode()
    head = bench.standing("walk").revision.id
    planned = bench.put("walk", TRIP + "#\n", head=head, note="dial", prepared=data)
    assert planned.plan is not None and not planned.clashes
    clash = bench.change("walk", {"rules.budget": "1 EUR"}, head=planned.revision.id, note="x")
    assert clash.plan is None and clash.clashes == ("no",)
    bench.change("walk", {"rules.budget": "90 EUR"}, head=clash.revision.id, note="y")
    assert [a.near for a in works.asked[-2:]] == [data, data]


def test_names_that_lead_out_of_the_folder_are_no_trips(tmp_path: Path) -> None:
    bench, _, _ = bench_in(tmp_path)
    for name in ("../walk", "a/b", "", "Walk", "walk.toml", ".walk", "-walk", "x" * 41, "walk\0"):
        with pytest.raises(UsageError, match="name"):
            bench.file(name)
    for name in ("a", "walk-2", "x" * 40, "2nd_walk"):
        assert bench.file(name).parent == tmp_path
    with pytest.raises(UsageError, match="walk"):
        bench.begin("walk", TRIP)
    with pytest.raises(NotThere):
        bench.standing("other")
    with pytest.raises(NotThere):
        bench.raw("other")


def test_what_differs_from_an_earlier_revision_is_what_is_new(tmp_path: Path) -> None:
    bench, _, _ = bench_in(tmp_path)

    def saved(plan: object, text: str) -> Standing:
        made = dump(plan)  # type: ignore[arg-type]
        data = made if isinstance(made, bytes) else made.encode()
        head = bench.store.head("walk")
        return bench.put("walk", text, head=head.id if head else None, note="x", prepared=data)

    plan = sample_plan(days=2)
    first, *rest = plan.menu.portions
    more = replace(first, doses=first.doses + 1.0)
    one = saved(plan, TRIP + "#1\n")
    two = saved(replace(plan, menu=replace(plan.menu, portions=(more, *rest))), TRIP + "#2\n")
    assert bench.news(two, one.revision.id) == {(first.walker, first.day, first.meal, first.food)}
    assert bench.news(two, two.revision.id) == frozenset()
    assert bench.news(two, None) == bench.news(two, 99_999) == frozenset()
    gone = saved(replace(plan, menu=replace(plan.menu, portions=tuple(rest))), TRIP + "#3\n")
    assert bench.news(gone, one.revision.id) == frozenset(), "what is taken away is not new"
    assert bench.gone(gone, one.revision.id) == {(first.walker, first.day, first.meal, first.food)}
    assert bench.gone(two, one.revision.id) == bench.gone(two, two.revision.id) == frozenset()
    assert bench.gone(two, None) is bench.gone(two, 99_999) is None
    other = replace(plan, trip=replace(plan.trip, title="another walk"))
    assert bench.news(saved(other, TRIP + "#4\n"), one.revision.id) == frozenset()


def test_a_search_that_was_stopped_goes_on_and_one_by_hand_does_not() -> None:
    plan = load(dump(sample_plan(days=2)))
    for ended, bound, goes_on in (("stopped", 0.9, True), ("stopped", 0.0, False),
                                  ("proved", 0.9, False), ("work", 0.9, False)):  # fmt: skip
        menu = replace(plan.menu, ended=ended, aim=1.0, bound=bound)  # type: ignore[arg-type]
        assert stopped(replace(plan, menu=menu)) is goes_on, (ended, bound)


def folder_of(tmp_path: Path, seed: int) -> Path:
    folder = tmp_path / str(seed)
    folder.mkdir()
    return folder
