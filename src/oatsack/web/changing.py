"""One wish about a trip: what a pressed button writes into it, planned anew and marked.

A button says its wish in one line, ``keep anna/2/dinner/lentil-pot``: the wish, and what it is
about. `WISHES` lists them. Without scripts the page waits; with them it hears how it goes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import edits, ways
from oatsack.desk.bench import Standing, place
from oatsack.desk.edits import Changes
from oatsack.desk.solving import Hear, Seen
from oatsack.errors import UsageError
from oatsack.reports.telling import Telling, telling
from oatsack.reports.words import say
from oatsack.values.food import Food
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan
from oatsack.web.door import Door, Form
from oatsack.web.live import answered


def change(door: Door, request: Request, form: Form) -> Response:
    """Does one wish and shows the trip, what changed marked."""
    name, head = request.path_params["name"], _head(form)
    wish, _, about = str(form.get("wish", "")).partition(" ")

    def work(hear: Hear) -> str:
        note = _done(door, name, head, (wish, about, form), hear)
        part = str(form.get("part", ""))
        at = f"/trip/{name}/days/{part}" if part.isdecimal() and part.isascii() else f"/trip/{name}"
        return f"{at}?was={head}{note}#changed"

    return answered(door, request, work, lambda seen: best_so_far(door, name, seen))


def best_so_far(door: Door, name: str, seen: Seen) -> str:
    """How far the work is, in the measures of the trip."""
    head = door.bench.store.head(name)
    plan = door.bench.plan_of(head) if head else None
    speak: Callable[..., str] = telling(plan).say if plan else say
    return speak("live.best", mass=seen.mass_g, price=seen.price, gap=seen.gap)


def _head(form: Form) -> int:
    try:
        return int(form.get("head", ""))
    except ValueError:
        raise UsageError(say("web.refused.head")) from None


def _done(door: Door, name: str, head: int, asked: tuple[str, str, Form], hear: Hear) -> str:
    """The wish done; what the page is to say of it besides what changed."""
    wish, about, form = asked
    if wish in ("undo", "redo"):
        getattr(door.bench, wish)(name, head=head)
        return f"&note={'undone' if wish == 'undo' else 'redone'}"
    if wish == "dial":
        walker, _, step = about.rpartition("/")
        door.bench.turn(name, walker, _step(step), head=head, hear=hear)
        return ""
    if wish == "choice":
        door.bench.choose(name, about, head=head)
        return ""
    if wish == "again":
        door.bench.again(name, head=head, hear=hear)
        return ""
    standing = door.bench.as_it_was(head)
    found = WISHES.get(wish)
    if found is None:
        raise UsageError(say("web.refused.wish"))
    text = found(About(door=door, standing=standing, about=about, form=form))
    door.bench.put(name, text, head=head, note=wish, hear=hear)
    return ""


def _step(text: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise UsageError(say("web.refused.place")) from None


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a wish is about: the trip as it stands, and the words of the button."""

    door: Door
    standing: Standing
    about: str
    form: Form

    @property
    def text(self) -> str:
        """The trip's text."""
        return self.standing.revision.text

    @property
    def plan(self) -> Plan:
        """The plan. Raises UsageError where wishes clash."""
        if self.standing.plan is None:
            raise UsageError(say("web.refused.clashing"))
        return self.standing.plan

    @property
    def portion(self) -> Portion:
        """The portion that is named first. Raises UsageError when it is gone."""
        return portion_at(self.plan, self.about.split(" ")[0])

    @property
    def together(self) -> list[Portion]:
        """That portion with those of whoever shares its pot: one pot, one dish."""
        p, plan = self.portion, self.plan
        dish = p.meal == "dinner" and plan.foods[p.food].role == "main"
        if not (dish and plan.trip.rules.mains_shared):
            return [p]
        return [q for q in plan.menu.portions
                if (q.day, q.meal, q.food) == (p.day, p.meal, p.food)]  # fmt: skip

    def written(self, change: Callable[[str, Portion], Changes]) -> str:
        """The trip's text with a change for each of these portions."""
        from oatsack.files.trip import edit_trip

        text = self.text
        for p in self.together:
            text = edit_trip(text, change(text, p))
        return text

    def with_changes(self, changes: Changes) -> str:
        """The trip's text with these changes."""
        from oatsack.files.trip import edit_trip

        return edit_trip(self.text, changes)

    def at(self, p: Portion) -> Mapping[str, Any]:
        """Where a portion stands, as the trip's file names places."""
        return where_of(self.plan, p)

    def food(self, name: str) -> Food:
        """A food this trip may draw on. Raises UsageError."""
        found = [f for f in self.door.bench.foods(self.standing) if f.id == name]
        if not found:
            raise UsageError(say("web.refused.food"))
        return found[0]


def portion_at(plan: Plan, spelled: str) -> Portion:
    """The portion at an address such as ``anna/2/dinner/lentil-pot``; where some of it is counted
    by habit, what was chosen beside. Raises UsageError."""
    parts = spelled.split("/")
    found = [p for p in plan.menu.portions if [str(part) for part in place(p)] == parts]
    if not found:
        raise UsageError(say("web.refused.gone"))
    return min(found, key=lambda p: p.why == "count")


def where_of(plan: Plan, p: Portion) -> Mapping[str, Any]:
    """Food, walker by name, date and meal of a portion."""
    name = next(w.name for w in plan.trip.walkers if w.id == p.walker)
    return {"food": p.food, "walker": name, "date": plan.days[p.day - 1].date, "meal": p.meal}


def _keep(about: About) -> str:
    return about.written(lambda text, p: edits.kept(text, about.at(p), p.doses))


def _free(about: About) -> str:
    return about.written(lambda text, p: edits.let_go(text, about.at(p)))


def _more(about: About) -> str:
    p = about.portion
    return about.with_changes(edits.kept(about.text, about.at(p), p.doses + 1.0))


def _less(about: About) -> str:
    p = about.portion
    if p.doses <= 1.0:
        return about.with_changes(edits.banned(about.text, about.at(p)))
    return about.with_changes(edits.kept(about.text, about.at(p), p.doses - 1.0))


def _out(about: About) -> str:
    return about.written(lambda text, p: edits.banned(text, about.at(p)))


def _never(about: About) -> str:
    here = about.at(about.portion)
    return about.with_changes(
        edits.banned(about.text, {"food": here["food"], "walker": here["walker"]})
    )


def _swap(about: About) -> str:
    new, old = about.food(about.about.partition(" ")[2]), about.plan.foods[about.portion.food]
    return about.written(lambda text, p: edits.swapped(
        text, about.at(p), new.id, edits.like_for_like(old, p.doses, new)
    ))  # fmt: skip


def _put(about: About) -> str:
    """``put anna/2/lunch/oat-bar``: a food where it does not stand yet, one dose of it."""
    parts = about.about.split("/")
    walkers = {w.id: w.name for w in about.plan.trip.walkers}
    days = {str(d.number): d.date for d in about.plan.days}
    if len(parts) != 4 or parts[0] not in walkers or parts[1] not in days:
        raise UsageError(say("web.refused.put"))
    where = {"food": about.food(parts[3]).id, "walker": walkers[parts[0]],
             "date": days[parts[1]], "meal": parts[2]}  # fmt: skip
    return about.with_changes(edits.kept(about.text, where, 1.0))


def _back(about: About) -> str:
    kind, _, n = about.about.partition("/")
    place_ = int(n) if n.isdecimal() and len(n) < 6 else -1
    return about.with_changes(edits.taken_back(about.text, kind, place_))


def _target(about: About) -> str:
    return about.with_changes(edits.numbered(about.plan, str(about.form.get("target", ""))))


def _way(about: About) -> str:
    found = [way for way in about.standing.ways if way.key == about.about]
    made = ways.mended(about.text, found[0].key, found[0].values) if found else None
    if made is None:
        raise UsageError(say("web.refused.way"))
    return about.with_changes(made)


WISHES: Mapping[str, Callable[[About], str]] = {
    "keep": _keep, "free": _free, "more": _more, "less": _less, "out": _out, "never": _never,
    "swap": _swap, "put": _put, "back": _back, "target": _target, "way": _way,
}  # fmt: skip


def spoken_step(told: Telling, kcal: float) -> str:
    """A change of energy with its sign."""
    sign = "+" if kcal > 0 else "−"
    return told.say("live.dial_step", sign=sign, kcal=abs(kcal))
