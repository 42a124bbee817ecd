"""A trip on the bench: opened from a workspace, changed by one wish at a time, planned, kept.

Every change is written into the trip's own text, comments and order kept (C12), planned again near
the earlier plan, and saved as a revision. A wish that cannot be met is saved too, with what clashes
and the ways out, so that it can be undone or mended; so is one whose planning was ended before
there was a menu. Where the solving is done (here, or in a process that can be left) is an argument.
It renders nothing.
"""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from oatsack.desk.export import replace_file, write_file
from oatsack.desk.solving import Asked, Hear, Here, Left, Planned, Works, deaf
from oatsack.errors import NotThere, StaleHead, UsageError
from oatsack.reports.words import say
from oatsack.store.workspace import Revision, Workspace

if TYPE_CHECKING:
    from oatsack.desk.choosing import Choice
    from oatsack.desk.drawn import Stamps
    from oatsack.desk.opening import Opened
    from oatsack.desk.turning import Turn
    from oatsack.values.food import Food
    from oatsack.values.menu import Portion
    from oatsack.values.plan import Plan

NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
"""What a trip may be called: no path leads out of the folder by such a name."""
Place = tuple[str, int, str, str]
"""Walker, day, meal, food."""
PLANS_KEPT = 12
DIALS_KEPT = 4
LARDERS_KEPT = 2
ANSWERS_KEPT = 24
UNPLANNED = "unplanned"
"""What is kept in the place of a refusal where planning was ended before there was a menu."""
MOST_STEPS_BACK = 50
"""So far back a plan is looked for to stay close to; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way out of a clash: its key, its sentence, and the values it would set."""

    key: str
    text: str
    values: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a trip stands: its revision, and its plan, or what clashes and what would help."""

    name: str
    revision: Revision
    plan: Plan | None
    clashes: tuple[str, ...] = ()
    ways: tuple[Way, ...] = ()
    unplanned: bool = False
    """Planning was ended before there was a menu; what was written is kept."""


class Bench:
    """The trips of one folder."""

    def __init__(
        self, folder: Path, today: Callable[[], dt.date], works: Works | None = None
    ) -> None:
        self.folder, self.today = folder, today
        self.works: Works = works or Here()
        self.store = Workspace(folder)
        self._plans: dict[int, Plan] = {}
        self._turns: dict[tuple[int, str], tuple[Turn, ...]] = {}
        self._choices: dict[int, tuple[Choice, ...]] = {}
        self._answers: dict[tuple[int, str], tuple[str, ...]] = {}
        self._foods: dict[Stamps, tuple[Food, ...]] = {}

    def names(self) -> tuple[str, ...]:
        """Trip files of the folder and trips of the workspace, by name."""
        files = {p.stem for p in self.folder.glob("*.toml") if NAME.fullmatch(p.stem)}
        return tuple(sorted(files | set(self.store.trips())))

    def file(self, name: str) -> Path:
        """The trip's file. Raises UsageError for a name that could lead elsewhere."""
        if not NAME.fullmatch(name):
            raise UsageError(say("desk.bad-name"))
        return self.folder / f"{name}.toml"

    def begin(self, name: str, text: str, *, hear: Hear = deaf) -> Standing:
        """A new trip. Raises UsageError if there is one of this name."""
        if self.file(name).exists() or self.store.head(name):
            raise UsageError(say("desk.name-taken", name=name))
        return self.put(name, text, head=None, note="begun", hear=hear)

    def unread(self, name: str) -> bool:
        """Whether the trip's file says something that is not planned yet."""
        file, head = self.file(name), self.store.head(name)
        if not file.is_file():
            return False
        return head is None or head.text != file.read_bytes().decode("utf-8", "replace")

    def standing(self, name: str, *, hear: Hear = deaf) -> Standing:
        """The trip as it stands; a file changed outside becomes a revision first."""
        file, head = self.file(name), self.store.head(name)
        text = file.read_bytes().decode("utf-8", "replace") if file.is_file() else None
        if head is None and text is None:
            raise NotThere(say("desk.no-trip", name=name))
        if text is not None and (head is None or head.text != text):
            return self.put(name, text, head=head.id if head else None,
                            note="file", hear=hear)  # fmt: skip
        assert head is not None
        return self._stands(head)

    def raw(self, name: str) -> Revision:
        """The trip's text as it lies there, whether it can be read or not, behind its head."""
        file, head = self.file(name), self.store.head(name)
        if head is None and not file.is_file():
            raise NotThere(say("desk.no-trip", name=name))
        text = file.read_bytes().decode("utf-8", "replace") if file.is_file() else ""
        return Revision(id=head.id if head else 0, trip=name, parent=head.id if head else None,
                        next=None, text=text or (head.text if head else ""))  # fmt: skip

    def as_it_was(self, revision: int) -> Standing:
        """The trip as it stood at a revision. Raises UsageError for one that never was."""
        return self._stands(self.store.revision(revision))

    def put(self, name: str, text: str, *, head: int | None, note: str, hear: Hear = deaf,
            prepared: bytes | None = None) -> Standing:  # fmt: skip
        """Plans a text and keeps it. Raises UnreadableInput with all faults, or StaleHead.

        `prepared` is a plan made ahead for this text; `hear` is told every better menu. Whoever
        leaves before there is one leaves the text without a plan.
        """
        now = self._fresh(name, head, text)
        near = None if prepared else self._near(now)
        return self._put(self._asked(name, text, near, prepared), name, head, note, hear)

    def again(self, name: str, *, head: int, hear: Hear = deaf) -> Standing:
        """Plans the same text once more: further than before where the search was stopped."""
        now = self._stands(self.store.revision(head))
        self._fresh(name, head, now.revision.text)
        near = None if now.plan and stopped(now.plan) else self._near(now.revision)
        asked = self._asked(name, now.revision.text, near, None)
        return self._put(asked, name, head, "again", hear)

    def _fresh(self, name: str, head: int | None, text: str) -> Revision | None:
        """The head, if it is the one a change begins from; looked at before the work, and again
        when saving."""
        now = self.store.head(name)
        if (now.id if now else None) != head:
            raise StaleHead(head=now.id if now else 0, theirs=now.text if now else "", mine=text)
        return now

    def _asked(self, name: str, text: str, near: bytes | None, prepared: bytes | None) -> Asked:
        from oatsack.desk.confining import confine  # reads trips; the first page shows none

        confine(self.folder, text, f"{name}.toml")
        return Asked(file=self.file(name), text=text, today=self.today(), prepared=prepared,
                     near=near)  # fmt: skip

    def _put(self, asked: Asked, name: str, head: int | None, note: str, hear: Hear) -> Standing:
        try:
            found = self.works.plan(asked, hear)
        except Left:
            self.opened(name, asked.text)  # a text that cannot be read is not kept
            found = Planned(refusal=((UNPLANNED, "", {}),))
        made = self.store.save(
            name, asked.text, head=head, plan=found.plan, refusal=_written(found), note=note
        )
        self._write(name, asked.text)
        return self._stands(made)

    def _near(self, now: Revision | None) -> bytes | None:
        """The plan to stay close to: the last there was."""
        for _ in range(MOST_STEPS_BACK):
            if now is None or now.planned or now.parent is None:
                break
            now = self.store.revision(now.parent)
        return now.plan if now else None

    def _write(self, name: str, text: str) -> None:
        """The trip's own file as its head has it. What stood there is copied only where no
        revision holds it (C12)."""
        file, data = self.file(name), text.encode("utf-8")
        old = file.read_bytes() if file.is_file() else None
        if old == data:
            return
        said = "" if old is None else old.decode("utf-8", "replace")
        known = old is None or (said.encode("utf-8") == old and self.store.holds(name, said))
        (replace_file if known else write_file)(file, data)

    def change(self, name: str, changes: Mapping[str, object], *, head: int, note: str,
               hear: Hear = deaf) -> Standing:  # fmt: skip
        """One wish written into the trip's text."""
        from oatsack.files.trip import edit_trip

        text = self.store.revision(head).text
        return self.put(name, edit_trip(text, changes), head=head, note=note, hear=hear)

    def undo(self, name: str, *, head: int) -> Standing:
        """One step back; raises UsageError at the first."""
        return self._moved(name, self.store.undo(name, head=head))

    def redo(self, name: str, *, head: int) -> Standing:
        """One step forward again."""
        return self._moved(name, self.store.redo(name, head=head))

    def _moved(self, name: str, to: Revision) -> Standing:
        self._write(name, to.text)
        return self._stands(to)

    def turns(self, standing: Standing, walker: str, *, hear: Hear = deaf) -> tuple[Turn, ...]:
        """The places of a walker's energy dial, least first, made ahead and kept a while."""
        from oatsack.desk.turning import Dial, places_of

        plan, key = standing.plan, (standing.revision.id, walker)
        if plan is None or walker not in plan.chosen:
            raise UsageError(say("desk.no-dial"))
        if key not in self._turns:
            asked = Dial(file=self.file(standing.name), text=standing.revision.text,
                         plan=standing.revision.plan or b"", places=places_of(walker))  # fmt: skip
            found: tuple[Turn, ...] = self.works.do("oatsack.desk.turning:turns", asked, hear)
            if len(found) < len(asked.places):
                raise Left("left")
            keep_few(self._turns, key, found, DIALS_KEPT)
        return self._turns.get(key, ())

    def turn(self, name: str, walker: str, step: int, *, head: int, hear: Hear = deaf) -> Standing:
        """Takes one place of a walker's dial."""
        standing = self.as_it_was(head)
        found = [t for t in self.turns(standing, walker, hear=hear) if t.step == step]
        if not found:
            raise UsageError(say("desk.no-place"))
        return self.put(name, found[0].text, head=head, note="dial", prepared=found[0].plan)

    def choices_known(self, standing: Standing) -> tuple[Choice, ...]:
        """Menus with other weights, if they have been worked out for this revision."""
        return self._choices.get(standing.revision.id, ())

    def choices(
        self, standing: Standing, *, hear: Hear = deaf, anew: bool = False
    ) -> tuple[Choice, ...]:
        """Menus with other weights, each a plan; worked out once per revision, or `anew`."""
        from oatsack.desk.choosing import Choosing

        revision = standing.revision
        if revision.plan is None:
            raise UsageError(say("desk.no-choices"))
        if anew or revision.id not in self._choices:
            asked = Choosing(file=self.file(standing.name), text=revision.text, plan=revision.plan)
            found = self.works.do("oatsack.desk.choosing:choices", asked, hear)
            keep_few(self._choices, revision.id, found, DIALS_KEPT)
        return self.choices_known(standing)

    def choose(self, name: str, choice: str, *, head: int) -> Standing:
        """Takes one of the menus that were worked out."""
        found = [c for c in self._choices.get(head, ()) if c.name == choice]
        if not found:
            raise UsageError(say("desk.old-choices"))
        return self.put(name, found[0].text, head=head, note="choice", prepared=found[0].plan)

    def why_not(self, standing: Standing, food: str, *, hear: Hear = deaf) -> tuple[str, ...]:
        """Why a food is not on the menu, in lines; worked out once per revision."""
        from oatsack.desk.why_not import Question

        revision = standing.revision
        asked = Question(file=self.file(standing.name), text=revision.text,
                         plan=revision.plan or b"", food=food)  # fmt: skip
        found: tuple[str, ...] = self.works.do("oatsack.desk.why_not:answer", asked, hear)
        keep_few(self._answers, (revision.id, food), found, ANSWERS_KEPT)
        return found

    def why_not_known(self, standing: Standing, food: str) -> tuple[str, ...]:
        """The same, if it has been worked out."""
        return self._answers.get((standing.revision.id, food), ())

    def opened(self, name: str, text: str) -> Opened:
        """A text read as the trip of this name would be, without keeping it."""
        from oatsack.desk.opening import open_trip

        return open_trip(self.file(name), text)

    def foods(self, standing: Standing) -> tuple[Food, ...]:
        """The foods this trip draws on, read again only where a file of theirs has changed."""
        from oatsack.desk.drawn import read_from

        file, text = self.file(standing.name), standing.revision.text
        key = read_from(file, text)
        if key not in self._foods:
            found = self.opened(standing.name, text).foods
            keep_few(self._foods, key, found, LARDERS_KEPT)
            return found
        return self._foods[key]

    def plan_of(self, revision: Revision) -> Plan | None:
        """The plan kept with a revision; the last few stay read."""
        from oatsack.files.planfile import load  # the first page shows no plan

        if not revision.planned:
            return None
        found = self._plans.get(revision.id)
        if found is None:
            found = load(revision.plan or b"")
            keep_few(self._plans, revision.id, found, PLANS_KEPT)
        return found

    def _stands(self, revision: Revision) -> Standing:
        said = json.loads(revision.refusal) if revision.refusal else []
        rows = [(str(row[0]), str(row[1]), row[2] if len(row) > 2 else {}) for row in said]
        return Standing(
            name=revision.trip, revision=revision, plan=self.plan_of(revision),
            unplanned=any(key == UNPLANNED for key, _, _ in rows),
            clashes=tuple(text for key, text, _ in rows
                          if text and not key.startswith("way-out")),
            ways=tuple(Way(key=key, text=text, values=values)
                       for key, text, values in rows if key.startswith("way-out")),
        )  # fmt: skip

    def news(self, standing: Standing, was: int | None) -> frozenset[Place]:
        """What is on the menu that was not, or not so much of it, at an earlier revision."""
        before = self._before(standing, was)
        if before is None or standing.plan is None:
            return frozenset()
        old, new = _doses(before), _doses(standing.plan)
        return frozenset(where for where, doses in new.items() if old.get(where) != doses)

    def gone(self, standing: Standing, was: int | None) -> frozenset[Place] | None:
        """What was on the menu at an earlier revision and is no more; None where that had none."""
        before = self._before(standing, was)
        if before is None or standing.plan is None:
            return None
        return frozenset(_doses(before).keys() - _doses(standing.plan).keys())

    def _before(self, standing: Standing, was: int | None) -> Plan | None:
        """The plan of an earlier revision of this trip."""
        try:
            before = self.plan_of(self.store.revision(was)) if was else None
        except UsageError:  # an old address of a workspace that began anew
            return None
        same = before and standing.plan and before.trip.title == standing.plan.trip.title
        return before if same else None


def stopped(plan: Plan) -> bool:
    """Whether it is the best that was found when its search was stopped; a menu that was changed by
    hand is not."""
    return plan.menu.ended == "stopped" and plan.menu.gap < 1.0


def _doses(plan: Plan) -> dict[Place, float]:
    """Doses by place; a food may stand at one meal twice, from a bag and by itself."""
    out: dict[Place, float] = {}
    for p in plan.menu.portions:
        out[place(p)] = round(out.get(place(p), 0.0) + p.doses, 6)
    return out


def keep_few(kept: dict[Any, Any], key: object, value: object, most: int) -> None:
    """Keeps a value, and lets the oldest go; threads may do so at once."""
    while len(kept) >= most:
        kept.pop(next(iter(kept)), None)
    kept[key] = value


def place(p: Portion) -> Place:
    """Where a portion stands on the menu."""
    return p.walker, p.day, p.meal, p.food


def _written(found: Planned) -> str:
    rows = [[key, text, dict(values)] for key, text, values in found.refusal]
    return json.dumps(rows) if rows else ""
