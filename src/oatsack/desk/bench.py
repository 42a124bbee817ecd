"""A trip on the bench: opened from a workspace, changed by one wish at a time, planned, kept.

Every change is written into the trip's own text, comments and order kept (C12), planned again near
the earlier plan, and saved as a revision. A wish that cannot be met is saved too, with what clashes
and the ways out, so that it can be undone or mended. It renders nothing.
"""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from oatsack.desk.export import write_file
from oatsack.errors import NoPlan, StaleHead, UnreadableInput, UsageError
from oatsack.files.planfile import dump, load
from oatsack.reports.words import say_flag
from oatsack.store.workspace import Revision, Workspace
from oatsack.values.food import Food
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan

if TYPE_CHECKING:
    from oatsack.desk.opening import Opened

NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
"""What a trip may be called: no path leads out of the folder by such a name."""
Place = tuple[str, int, str, str]
"""Walker, day, meal, food."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a trip stands: its revision, and its plan, or what clashes and what would help."""

    name: str
    revision: Revision
    plan: Plan | None
    clashes: tuple[str, ...] = ()
    ways: tuple[tuple[str, str], ...] = ()
    """Key and sentence of each way out."""


WAYS: Mapping[str, Mapping[str, object]] = {
    "way-out.cook-lunch": {"rules.cook_midday": True},
    "way-out.cook-breakfast": {"rules.hot_breakfast": True},
    "way-out.bans": {"rules.bans": None},
}
"""Ways out that one press writes into the trip; the others are said, for the walker to decide."""


class Bench:
    """The trips of one folder."""

    def __init__(self, folder: Path, today: Callable[[], dt.date]) -> None:
        self.folder, self.today = folder, today
        self.store = Workspace(folder)
        self._plans: dict[int, Plan] = {}

    def names(self) -> tuple[str, ...]:
        """Trip files of the folder and trips of the workspace, by name."""
        files = {p.stem for p in self.folder.glob("*.toml") if NAME.fullmatch(p.stem)}
        return tuple(sorted(files | set(self.store.trips())))

    def file(self, name: str) -> Path:
        """The trip's file. Raises UsageError for a name that could lead elsewhere."""
        if not NAME.fullmatch(name):
            raise UsageError("a trip is named by small letters, digits and hyphens")
        return self.folder / f"{name}.toml"

    def begin(self, name: str, text: str) -> Standing:
        """A new trip. Raises UsageError if there is one of this name."""
        if self.file(name).exists() or self.store.head(name):
            raise UsageError(f"there is a trip called {name} already")
        return self.put(name, text, head=None, note="begun")

    def standing(self, name: str) -> Standing:
        """The trip as it stands; a file changed outside becomes a revision first."""
        file, head = self.file(name), self.store.head(name)
        text = file.read_bytes().decode("utf-8", "replace") if file.is_file() else None
        if head is None and text is None:
            raise UsageError(f"there is no trip called {name}")
        if text is not None and (head is None or head.text != text):
            return self.put(name, text, head=head.id if head else None, note="read from its file")
        assert head is not None
        return self._stands(head)

    def put(self, name: str, text: str, *, head: int | None, note: str) -> Standing:
        """Plans a text and keeps it. Raises UnreadableInput with all faults, or StaleHead."""
        now = self.store.head(name)
        if (now.id if now else None) != head:  # before the work, and again when saving
            raise StaleHead(head=now.id if now else 0, theirs=now.text if now else "", mine=text)
        plan, refusal = self._planned(name, text, self.plan_of(now) if now else None)
        made = self.store.save(
            name, text, head=head, plan=dump(plan) if plan else None, refusal=refusal, note=note
        )
        write_file(self.file(name), text.encode("utf-8"))
        return self._stands(made)

    def change(self, name: str, changes: Mapping[str, object], *, head: int, note: str) -> Standing:
        """One wish written into the trip's text."""
        from oatsack.files.trip import edit_trip

        text = self.store.revision(head).text
        return self.put(name, edit_trip(text, changes), head=head, note=note)

    def undo(self, name: str, *, head: int) -> Standing:
        """One step back; raises UsageError at the first."""
        return self._moved(name, self.store.undo(name, head=head))

    def redo(self, name: str, *, head: int) -> Standing:
        """One step forward again."""
        return self._moved(name, self.store.redo(name, head=head))

    def _moved(self, name: str, to: Revision) -> Standing:
        write_file(self.file(name), to.text.encode("utf-8"))
        return self._stands(to)

    def opened(self, name: str, text: str) -> Opened:
        """A text read as the trip of this name would be, without keeping it."""
        from oatsack.desk.opening import open_trip

        return open_trip(self.file(name), text)

    def foods(self, standing: Standing) -> tuple[Food, ...]:
        """The foods this trip draws on."""
        return self.opened(standing.name, standing.revision.text).foods

    def _planned(self, name: str, text: str, near: Plan | None) -> tuple[Plan | None, str]:
        from oatsack.desk.planning import make_plan  # the chooser is heavy, the first page light

        opened = self.opened(name, text)
        try:
            return make_plan(opened, today=self.today(), near=near), ""
        except NoPlan as error:
            said = [(flag.key, say_flag(flag)) for flag in error.flags]
            return None, json.dumps(said or [("", reason) for reason in error.reasons])

    def plan_of(self, revision: Revision) -> Plan | None:
        """The plan kept with a revision; the last few stay read."""
        if revision.plan is None:
            return None
        if revision.id not in self._plans:
            while len(self._plans) >= 4:
                self._plans.pop(next(iter(self._plans)), None)
            self._plans[revision.id] = load(revision.plan)
        return self._plans.get(revision.id) or load(revision.plan)

    def _stands(self, revision: Revision) -> Standing:
        said = json.loads(revision.refusal) if revision.refusal else []
        return Standing(
            name=revision.trip, revision=revision, plan=self.plan_of(revision),
            clashes=tuple(text for key, text in said if not key.startswith("way-out")),
            ways=tuple((key, text) for key, text in said if key.startswith("way-out")),
        )  # fmt: skip

    def news(self, standing: Standing) -> frozenset[Place]:
        """What the last change brought onto the menu."""
        parent = standing.revision.parent
        before = self.plan_of(self.store.revision(parent)) if parent else None
        if before is None or standing.plan is None:
            return frozenset()
        old = {place(p): p.doses for p in before.menu.portions}
        return frozenset(
            place(p) for p in standing.plan.menu.portions if old.get(place(p)) != p.doses
        )


def place(p: Portion) -> Place:
    """Where a portion stands on the menu."""
    return p.walker, p.day, p.meal, p.food


def held(text: str, where: Mapping[str, Any], count: float) -> dict[str, object]:
    """The change that keeps so many doses of a food somewhere, over an earlier hold there."""
    holds = _rules(text).get("holds", [])
    key = ("food", "walker", "date", "meal")
    for n, hold in enumerate(holds):
        if all(hold.get(k) == where.get(k) for k in key):
            return {f"rules.holds[{n}].count": count}
    return {f"rules.holds[{len(holds)}]": {**where, "count": count}}


def _rules(text: str) -> Mapping[str, Any]:
    from oatsack.files.trip.toml import read_toml

    found: Mapping[str, Any] = read_toml(text, "the trip file").data.get("rules", {})
    return found


def banned(text: str, where: Mapping[str, Any]) -> dict[str, object]:
    """The change that bans a food, somewhere or everywhere."""
    bans = _rules(text).get("bans", [])
    return {f"rules.bans[{len(bans)}]": dict(where)}


def turned(plan: Plan, step_kcal: float) -> dict[str, object]:
    """The dial: every walker's own number, so much more or less on a full day."""
    out: dict[str, object] = {}
    for n, walker in enumerate(plan.trip.walkers):
        wanted = max(500.0, plan.chosen[walker.id].base_kcal + step_kcal)
        out[f"walkers[{n}].target"] = f"{round(wanted / 10.0) * 10} kcal"
    return out


def mended(key: str) -> Mapping[str, object]:
    """The change of a way out. Raises UsageError for one that needs the walker's own words."""
    if key not in WAYS:
        raise UsageError("this way out is yours to write: open the trip's text")
    return WAYS[key]


__all__ = [
    "Bench", "Standing", "UnreadableInput", "banned", "held", "mended", "place", "turned",
]  # fmt: skip
