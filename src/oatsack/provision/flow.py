"""The flow of the whole job, in the order in which a walker would do it (pure).

Need depends on load, and load on food: round 0 guesses the load, every further round weighs the
sacks that were packed. The menu is solved again only while some need moves by more than a quarter
of its window; then it is frozen and the residual is stated.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from oatsack.errors import NoPlan, UsageError
from oatsack.kitchen.ledger import ledger
from oatsack.larder.plausible import admitted
from oatsack.menu.choose import choose
from oatsack.menu.groups import cook_groups
from oatsack.menu.near import EDIT
from oatsack.menu.price import Engine
from oatsack.menu.slots import slots_of
from oatsack.packing.pack import pack
from oatsack.provision.again import moved_flag, same_question, wanted_again
from oatsack.provision.asking import kitchen_prices, request
from oatsack.provision.draft import Draft, Progress, Rounds, Setting
from oatsack.provision.finish import finish
from oatsack.provision.loads import ROUND_0_KCAL_PER_G, Backs, guess, heavier, weigh
from oatsack.provision.needs import (
    Needs,
    Wanted,
    cautions_of,
    moved_kcal,
    needs_of,
    wanted,
    window_kcal,
)
from oatsack.provision.sums import budget_flag, over_budget
from oatsack.route.days import days_of
from oatsack.route.flags import flags_of
from oatsack.route.stops import with_stops
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu, MenuRequest, Slot
from oatsack.values.plan import Plan
from oatsack.values.route import Day
from oatsack.values.trip import Trip

MOST_ROUNDS = 3


def provision(trip: Trip, larder: Sequence[Food], engine: Engine, *, setting: Setting,
              near: Plan | None = None, progress: Progress | None = None) -> Plan:  # fmt: skip
    """A plan for the trip from the foods of the larder.

    `engine` solves the menu's problems; `near` is an earlier plan to stay close to (its need is
    kept frozen); `progress` is shown every better menu and stops the work by answering False.
    Raises NoPlan, explained, when the trip cannot be provisioned as asked; UsageError for a trip
    without a meal.
    """
    days = days_of(trip, setting.track, daylight=setting.daylight)
    trip = with_stops(trip, days)
    foods, doubtful = admitted(larder)
    slots = slots_of(trip, days)
    if not slots:
        raise UsageError("no meal lies inside the walk; check its times (from, to)")
    asks = _Asks(trip, days, slots, foods, engine, setting)
    kept = wanted_again(trip, days, slots, near) if near else None
    want = kept or _first_need(trip, days, slots)
    if near:
        rounds = _frozen(asks, want, near, progress, kept=kept is not None)
    else:
        rounds = _settled(asks, want, progress)
    told = (*_water_flag(rounds.draft.kitchen), *_now_flag(trip))
    told = (*told, *budget_flag(trip, rounds.draft.packed))
    told = (*told, moved_flag(rounds.draft.menu, near.menu)) if near else told
    flags = (*flags_of(days, trip), *doubtful, *told)
    return finish(trip, days, slots, rounds, setting=setting, flags=flags,
                  names={food.id: food.name for food in larder})  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Asks:
    """What does not change between rounds."""

    trip: Trip
    days: tuple[Day, ...]
    slots: tuple[Slot, ...]
    foods: tuple[Food, ...]
    engine: Engine
    setting: Setting
    edit: float = 1.0
    """0 between rounds of one plan, which may move more than an edit."""

    def draft(self, want: Wanted, near: Menu | None, progress: Progress | None) -> Draft:
        """Menu, kitchen, bags and loads for a frozen need. Where what is bought breaks the budget,
        one more menu is asked for with so much less."""
        asked = self.question(want, near)
        made = self.drafted(asked, choose(asked, self.engine, progress=progress))
        over = over_budget(self.trip, made.packed)
        if over > 0.0:
            with suppress(NoPlan):
                less = replace(asked.rules, budget=(asked.rules.budget or 0.0) - over)
                menu = choose(replace(asked, rules=less), self.engine, progress=progress)
                tight = self.drafted(asked, menu)
                return tight if over_budget(self.trip, tight.packed) < over else made
        return made

    def question(self, want: Wanted, near: Menu | None) -> MenuRequest:
        """What the chooser is asked."""
        prices = kitchen_prices(self.foods, self.days, self.trip.kit)
        asked = request(
            self.trip, self.days, self.slots, self.foods,
            target=want.kcal, prices=prices, walking_h=want.walking_h,
        )  # fmt: skip
        return replace(asked, near=near, seed=self.setting.seed, budget_work=self.setting.work,
                       settings={**asked.settings, EDIT: self.edit})  # fmt: skip

    def drafted(self, asked: MenuRequest, menu: Menu) -> Draft:
        """The kitchen, the bags and the loads of a menu."""
        rows = {food.id: food for food in self.foods}
        kitchen = ledger(
            menu, rows, self.days, self.trip.walkers, self.trip.kit, self.trip.rules,
            groups=[group.walkers for group in cook_groups(asked)],
        )  # fmt: skip
        packed = pack(menu, rows, self.days, self.trip, kitchen, places=self.setting.places)
        backs = weigh(self.trip.walkers, self.days, self.slots, packed, kitchen)
        return Draft(asked=asked, menu=menu, kitchen=kitchen, packed=packed, backs=backs)


def _first_need(trip: Trip, days: Sequence[Day], slots: Sequence[Slot]) -> Wanted:
    """Round 0: no menu yet."""
    return wanted(trip, days, slots, _guessed(trip, days, slots))


def _guessed(trip: Trip, days: Sequence[Day], slots: Sequence[Slot]) -> Backs:
    """Loads of round 0. The guess is repeated once with the target it led to."""
    base = {w.id: w.target.kcal or 30.0 * w.mass_kg for w in trip.walkers}
    target = {w.id: {d.number: base[w.id] for d in days} for w in trip.walkers}
    first = wanted(trip, days, slots, guess(trip.walkers, days, slots, target))
    return guess(trip.walkers, days, slots, first.kcal)


def _settled(asks: _Asks, want: Wanted, progress: Progress | None) -> Rounds:
    """Solves again only while a need moved by more than a quarter of its window."""
    asks = replace(asks, edit=0.0)
    draft = asks.draft(want, None, progress)
    typed = all(w.target.kcal is not None for w in asks.trip.walkers)
    for count in range(1, MOST_ROUNDS + 1):
        after = wanted(asks.trip, asks.days, asks.slots, draft.backs)
        moved = moved_kcal(want.needs, after.needs)
        settled = moved <= 0.25 * window_kcal(asks.trip, want.kcal)
        settled = settled or draft.menu.ended == "stopped"  # who has seen enough waits no longer
        if typed or settled or count == MOST_ROUNDS:
            draft = replace(draft, menu=replace(draft.menu, moved=None))  # there is no earlier plan
            return Rounds(draft=draft, want=want, after=after.needs, rounds=count, moved=moved)
        want = after
        draft = asks.draft(want, draft.menu, progress)
    raise AssertionError("unreachable")


def _frozen(
    asks: _Asks, want: Wanted, near: Plan, progress: Progress | None, *, kept: bool
) -> Rounds:  # fmt: skip
    """An edit: the need of the earlier plan where it has one; the residual is reported. What asks
    nothing new is answered by the earlier menu as it stands."""
    if kept and same_question(asks.trip, near, asks.setting):
        draft = asks.drafted(asks.question(want, near.menu), replace(near.menu, moved=0))
    else:
        draft = asks.draft(want, near.menu, progress)
    after = wanted(asks.trip, asks.days, asks.slots, draft.backs)
    moved = moved_kcal(want.needs, after.needs)
    return Rounds(draft=draft, want=want, after=after.needs, rounds=1, moved=moved)


def _water_flag(kitchen: KitchenLedger) -> tuple[Flag, ...]:
    """Until water places are known, the water on the back is a stated mean."""
    if kitchen.carries:
        return ()
    return (Flag(key="provision.mean-water", level="note", scope="need", values={"litres": 1.0}),)


def _now_flag(trip: Trip) -> tuple[Flag, ...]:
    """Where the walk stands is kept for planning the rest again; this plan is of the whole walk."""
    if trip.now is None:
        return ()
    values = {"day": trip.now.day}
    return (Flag(key="provision.whole-walk", level="quiet", scope="trip/now", values=values),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """A first idea of the food before there is a menu: a full day of each walker, and all of it."""

    kcal_day: tuple[float, ...]
    food_g: float
    days: int
    nights: int
    meals: Mapping[str, int]
    """How often there is each meal, by its kind."""


def sized(trip: Trip, *, setting: Setting) -> Sized:
    """What the chosen targets come to, from the guessed loads of round 0."""
    days = days_of(trip, setting.track, daylight=setting.daylight)
    trip = with_stops(trip, days)
    slots = slots_of(trip, days)
    want = _first_need(trip, days, slots)
    kcal = sum(sum(of.values()) for of in want.kcal.values())
    return Sized(
        kcal_day=tuple(want.targets[w.id].base_kcal for w in trip.walkers),
        food_g=kcal / ROUND_0_KCAL_PER_G, days=len(days),
        nights=sum(day.camp_m is not None for day in days),
        meals=Counter(meal for _, meal in {(slot.day, slot.meal) for slot in slots}),
    )  # fmt: skip


EXTRA_KG = 3.0
"""How much heavier the loads are made to show what the load does to the need."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """What a trip uses before there is a menu: its loads are a guess, and `heavier` says how much
    that matters."""

    trip: Trip
    days: tuple[Day, ...]
    want: Wanted
    heavier: Needs
    """The same walk with `EXTRA_KG` more on every back."""
    flags: tuple[Flag, ...]


def needed(trip: Trip, *, setting: Setting) -> Needed:
    """Needs, targets and cautions of everyone from the guessed loads of round 0; no menu is made.

    Raises UsageError for a trip without a meal.
    """
    days = days_of(trip, setting.track, daylight=setting.daylight)
    trip = with_stops(trip, days)
    slots = slots_of(trip, days)
    if not slots:
        raise UsageError("no meal lies inside the walk; check its times (from, to)")
    backs = _guessed(trip, days, slots)
    want = wanted(trip, days, slots, backs)
    told = (*flags_of(days, trip), *cautions_of(trip, slots, want.needs, want.fed_kcal))
    more = needs_of(trip, days, heavier(backs, EXTRA_KG))
    return Needed(trip=trip, days=days, want=want, heavier=more, flags=told)
