"""What each walker's days use with what is on the back, and what they choose to eat of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from oatsack.menu.slots import day_shares
from oatsack.provision.loads import Backs
from oatsack.provision.town import credited, fed_kcal
from oatsack.values.flags import Flag
from oatsack.values.menu import Slot
from oatsack.values.plan import DayNeed
from oatsack.values.route import Day
from oatsack.values.trip import Trip
from oatsack.values.walker import Walker
from oatsack.walker.asked import need_of
from oatsack.walker.body import cautions
from oatsack.walker.need import Need
from oatsack.walker.person import body_of
from oatsack.walker.target import Targets, targets

Needs = Mapping[str, Need]


@dataclass(frozen=True, slots=True)
class Wanted:
    """Needs and targets of everyone, frozen for one round."""

    needs: Needs
    targets: Mapping[str, Targets]

    @property
    def kcal(self) -> Mapping[str, Mapping[int, float]]:
        """Walker -> day -> energy to eat."""
        return {walker: t.kcal for walker, t in self.targets.items()}

    @property
    def fed_kcal(self) -> Mapping[str, Mapping[int, float]]:
        """Walker -> day -> all that is eaten, in a town on the way too."""
        return {walker: fed_kcal(t.kcal, t.town_kcal) for walker, t in self.targets.items()}

    @property
    def walking_h(self) -> Mapping[str, Mapping[int, float]]:
        """Walker -> day -> hours walked."""
        return {
            walker: {day: row.walking_h for day, row in found.days.items()}
            for walker, found in self.needs.items()
        }


def needs_of(trip: Trip, days: Sequence[Day], backs: Backs) -> Needs:
    """The need of each walker under the load they really carry."""
    return {
        w.id: need_of(w, trip.need, days=days, load_kg=backs.load_kg[w.id])
        for w in trip.walkers
    }


def shares_of(trip: Trip, slots: Sequence[Slot], walker: str) -> Mapping[int, float]:
    """Day -> share of that day's meals inside the walk."""
    return day_shares(trip, tuple(s for s in slots if s.walker == walker))


def wanted(trip: Trip, days: Sequence[Day], slots: Sequence[Slot], backs: Backs) -> Wanted:
    """What everyone needs and chooses to eat (C15)."""
    needs = needs_of(trip, days, backs)
    return Wanted(
        needs,
        {
            w.id: targets_of(trip, w, slots, eating(needs[w.id].days, slots, w.id))
            for w in trip.walkers
        },
    )


def targets_of(trip: Trip, walker: Walker, slots: Sequence[Slot],
               need_days: Mapping[int, DayNeed]) -> Targets:  # fmt: skip
    """What one walker eats of their own food: as chosen, less what is eaten in town."""
    shares = shares_of(trip, slots, walker.id)
    return credited(trip, targets(walker, need_days, shares), shares)


def eating(need_days: Mapping[int, DayNeed], slots: Sequence[Slot],
           walker: str) -> Mapping[int, DayNeed]:  # fmt: skip
    """The need of days on which this walker has any meal; a need without a meal joins none."""
    with_meals = {slot.day for slot in slots if slot.walker == walker}
    return {day: row for day, row in need_days.items() if day in with_meals}


def cautions_of(trip: Trip, slots: Sequence[Slot], needs: Needs,
                kcal: Mapping[str, Mapping[int, float]]) -> Iterator[Flag]:  # fmt: skip
    """What to say of everyone's need, and of what they choose to eat of it."""
    for walker in trip.walkers:
        found = needs[walker.id]
        yield from found.flags
        yield from cautions(
            body_of(walker), eating(found.days, slots, walker.id), kcal[walker.id],
            scope=f"need/{walker.id}", shares=shares_of(trip, slots, walker.id),
        )  # fmt: skip


def moved_kcal(before: Needs, after: Needs) -> float:
    """The largest change of a day's likely need between two rounds [kcal]."""
    return max(
        (
            abs(after[walker].days[day].energy_kcal - row.energy_kcal)
            for walker, found in before.items()
            for day, row in found.days.items()
        ),
        default=0.0,
    )


def window_kcal(trip: Trip, target: Mapping[str, Mapping[int, float]]) -> float:
    """The narrowest energy window of any walker's day [kcal]."""
    days = [kcal for of in target.values() for kcal in of.values() if kcal > 0]
    return trip.rules.day_window * min(days, default=0.0)
