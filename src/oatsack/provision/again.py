"""What an edit takes over from the plan it stays close to: needs and targets, frozen (pure).

Whatever the edit leaves as it was keeps its target to the kilocalorie, so that nothing moves that
nobody touched. A walker whose own number changed gets a new target over the same frozen need.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from oatsack.menu.near import moved, place
from oatsack.provision.draft import Setting
from oatsack.provision.loads import Backs
from oatsack.provision.needs import Wanted, wanted
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu, Slot
from oatsack.values.plan import Plan
from oatsack.values.route import Day
from oatsack.values.trip import Trip
from oatsack.values.walker import Walker
from oatsack.version import VERSION
from oatsack.walker.target import Targets


def wanted_again(
    trip: Trip, days: Sequence[Day], slots: Sequence[Slot], near: Plan
) -> Wanted | None:
    """Needs and targets as the earlier plan froze them; None where the walk itself has changed."""
    before = {w.id: w for w in near.trip.walkers}
    same_walk = tuple(days) == near.days and _times(slots) == _times(near.slots)
    if not same_walk or [w.id for w in trip.walkers] != list(before):
        return None
    if any(_body(w) != _body(before[w.id]) for w in trip.walkers):
        return None
    fresh = wanted(trip, days, slots, _backs(near))
    targets = {
        w.id: _kept(fresh.targets[w.id], near, w.id)
        if w.target == before[w.id].target else fresh.targets[w.id]
        for w in trip.walkers
    }  # fmt: skip
    return Wanted(fresh.needs, targets)


def same_question(trip: Trip, near: Plan, setting: Setting) -> bool:
    """Whether the earlier plan answers just what is asked: trip, foods, seed and program are the
    same, and its search was not cut short. Then nothing has to move, and nothing should: a second
    search would only go on where the first one's work ended."""
    made = near.made
    asked = (trip, setting.hashes.get("larder"), setting.seed, VERSION)
    answered = (near.trip, made.larder_hash, made.seed, made.oatsack)
    return asked == answered and setting.work == 1 and near.menu.ended in ("work", "proved")


def moved_flag(menu: Menu, near: Menu) -> Flag:
    """What an edit did to the earlier menu: portions that differ, and portions that stay."""
    n, places = moved(near, menu.portions), {place(p) for p in (*near.portions, *menu.portions)}
    values = {"n": n, "stay": len(places) - n}
    if n == 0:
        return Flag(key="menu.none-moved", level="note", scope="menu", values=values)
    return Flag(key="menu.moved", level="note", scope="menu", values=values)


def _backs(near: Plan) -> Backs:
    """What was on the backs in the earlier plan."""
    load = {w: {int(n): np.array(kg, float) for n, kg in of.items()}
            for w, of in near.backs.items()}  # fmt: skip
    return Backs(load, {})


def _times(slots: Sequence[Slot]) -> list[tuple[str, int, str, float]]:
    """Who eats when; what is hot or how long it may take moves no target."""
    return [(s.walker, s.day, s.meal, s.clock_min) for s in slots]


def _body(walker: Walker) -> Walker:
    """A walker without what only the menu asks: wishes, likes and the number chosen."""
    blank = Walker(id=walker.id, name="", mass_kg=walker.mass_kg)
    return replace(
        walker, name="", target=blank.target, usual=blank.usual, liking={}, avoids=(),
        dislikes=blank.dislikes, eats=blank.eats, hot_drinks_day=0.0, caffeine_mg_day=None,
    )  # fmt: skip


def _kept(fresh: Targets, near: Plan, walker: str) -> Targets:
    """The target of the earlier plan in place of one that would differ by its round only."""
    chosen = near.chosen[walker]
    kcal = {int(n): kcal for n, kcal in near.target[walker].items()}
    return replace(fresh, kcal=kcal, base_kcal=chosen.base_kcal, how=chosen.how)
