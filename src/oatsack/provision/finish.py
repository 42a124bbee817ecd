"""Makes the plan of a settled round: everything counted, everything flagged, every source named."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from oatsack import cite
from oatsack.kitchen.ledger import with_work, work_of
from oatsack.packing.late import late_plans
from oatsack.packing.yardsticks import yardsticks
from oatsack.provision.assume import assumptions
from oatsack.provision.chosen import chosen_of
from oatsack.provision.draft import Draft, Rounds, Setting
from oatsack.provision.even import even_signs
from oatsack.provision.moments import Falling, day_start, moments
from oatsack.provision.needs import cautions_of, eating
from oatsack.provision.quick import quick_first
from oatsack.provision.sums import eaten, totals
from oatsack.provision.town import town_moments
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import Portion, Slot
from oatsack.values.plan import FORMAT, Chosen, Consequence, Hour, Made, Plan
from oatsack.values.route import Day
from oatsack.values.trip import Trip
from oatsack.version import VERSION
from oatsack.walker.body import consequence
from oatsack.walker.energy import DEFAULT
from oatsack.walker.hours import hourly, with_eaten
from oatsack.walker.need import Need
from oatsack.walker.person import body_of

PLAN_SOURCES = ("Usda2015", "Mifflin1990", "Herrmann2024", "Forbes1987", "IapwsIF97")
"""Sources that every plan rests on, besides those of its models and flags."""


def finish(trip: Trip, days: Sequence[Day], slots: Sequence[Slot], rounds: Rounds, *,
           setting: Setting, flags: Sequence[Flag],
           names: Mapping[str, str] | None = None) -> Plan:  # fmt: skip
    """The plan; `names` are those of all foods of the larder."""
    draft = rounds.draft
    rows = {food.id: food for food in draft.asked.foods}
    foods = {food: rows[food] for food in _used(draft)}
    target = rounds.want.kcal
    work = work_of({w: found.days for w, found in rounds.after.items()}, trip.walkers)
    kitchen = with_work(
        draft.kitchen, draft.menu, foods, days=days, walkers=trip.walkers, work=work
    )
    eats = eaten(draft.menu, foods, target, draft.kitchen)
    heard = cautions_of(trip, slots, rounds.after, rounds.want.fed_kcal)
    even = even_signs(trip, slots, days, target, _legs_g(draft))
    asked = _picks_doubted(draft.menu.flags, flags)
    quick = quick_first(draft.menu, foods, days, draft.kitchen)
    told = (*flags, *heard, *asked, *kitchen.flags, *draft.packed.flags, *even, *quick)
    return Plan(
        format=FORMAT,
        trip=trip,
        foods=foods,
        days=tuple(days),
        slots=tuple(slots),
        need={w: {str(n): row for n, row in found.days.items()}
              for w, found in rounds.after.items()},
        target={w: {str(n): kcal for n, kcal in of.items()} for w, of in target.items()},
        chosen={w.id: _chosen(rounds, trip, slots, w.id) for w in trip.walkers},
        menu=draft.menu,
        prices=_prices(draft.asked.prices, foods),
        eaten=eats,
        kitchen=kitchen,
        packed=draft.packed,
        backs={w: {str(n): tuple(float(kg) for kg in of) for n, of in load.items()}
               for w, load in draft.backs.load_kg.items()},
        timeline={w.id: timeline(rounds.after[w.id], days, slots, draft.menu.portions, foods,
                                 town_moments(trip, rounds.want.targets[w.id].town_kcal))
                  for w in trip.walkers},
        totals=totals(trip, days, draft.menu, foods, draft.packed, draft.kitchen),
        yardsticks=yardsticks(slots, days, target, _packed_g(draft)),
        consequence=_consequences(trip, slots, rounds),
        late=late_plans(draft.menu, foods, target, draft.kitchen.fuel, days),
        assumptions=assumptions(trip, days, draft.backs),
        made=_made(rounds, setting),
        sources=_sources(told),
        flags=_once(told),
        names=_spoken_of(trip, told, {k: v for k, v in (names or {}).items() if k not in foods}),
    )  # fmt: skip


def _picks_doubted(asked: Iterable[Flag], flags: Iterable[Flag]) -> tuple[Flag, ...]:
    """Picks and holds that the menu could not find, for their label is doubted: said so (C2)."""
    doubted = {flag.values.get("food") for flag in flags if flag.key.startswith("larder.")}
    return tuple(
        replace(flag, values={**flag.values, "why": "doubted"})
        if flag.values.get("why") == "unknown" and flag.values.get("food") in doubted else flag
        for flag in asked
    )


def _spoken_of(trip: Trip, flags: Iterable[Flag], names: Mapping[str, str]) -> Mapping[str, str]:
    """The names of foods that flags, bans and holds speak of."""
    spoken = {str(flag.values.get("food", "")) for flag in flags}
    spoken |= {hold.food for hold in trip.rules.holds}
    return {food: names[food] for food in sorted(spoken & set(names))}


def _used(draft: Draft) -> list[str]:
    """Foods that the menu or the shopping list names, in order of their name."""
    eats = {p.food for p in (*draft.menu.portions, *draft.menu.spare)}
    return sorted(eats | {pool.food for pool in draft.menu.pools}
                  | {line.food for line in draft.packed.buy})  # fmt: skip


def _chosen(rounds: Rounds, trip: Trip, slots: Sequence[Slot], walker: str) -> Chosen:
    need_days = eating(rounds.want.needs[walker].days, slots, walker)
    return chosen_of(rounds.want.targets[walker], trip, slots, walker, need_days)


def _prices(prices: Mapping[tuple[str, int], DosePrice],
            foods: Mapping[str, Food]) -> dict[str, dict[str, DosePrice]]:  # fmt: skip
    out: dict[str, dict[str, DosePrice]] = {}
    for (food, day), price in prices.items():
        if food in foods:
            out.setdefault(food, {})[str(day)] = price
    return out


def timeline(found: Need, days: Sequence[Day], slots: Sequence[Slot],
             portions: Iterable[Portion],
             foods: Mapping[str, Food],
             town: Iterable[tuple[float, float]] = ()) -> tuple[Hour, ...]:  # fmt: skip
    """Hours of one walker with what is eaten in each; `found` says whose need it is, `town` when
    and how much is eaten there."""
    walker = found.scope.rsplit("/", 1)[-1]
    by_number = {day.number: day for day in days}
    clock = {s.meal: s.clock_min for s in slots if s.walker == walker}
    hours = hourly(found)
    steps = [
        (minute, share * p.doses * foods[p.food].dose_kcal)
        for p in portions
        if p.walker == walker
        for minute, share in moments(by_number[p.day], p.meal, clock.get(p.meal, 720.0))
    ]
    food = Falling([*steps, *town])
    start = np.array([day_start(h.day) + h.start_min for h in hours])
    left = food.left(np.concatenate([start[:1] - 1e6, start[1:], start[-1:] + 1e6]))
    return with_eaten(hours, left[:-1] - left[1:])


def _consequences(trip: Trip, slots: Sequence[Slot],
                  rounds: Rounds) -> Mapping[str, Consequence]:  # fmt: skip
    return {
        w.id: consequence(
            body_of(w), eating(rounds.after[w.id].days, slots, w.id), rounds.want.fed_kcal[w.id]
        )
        for w in trip.walkers
        if not body_of(w).fully_fed
    }


def _packed_g(draft: Draft) -> float:
    """Packed mass without spare food [g]."""
    return sum(_legs_g(draft).values())


def _legs_g(draft: Draft) -> dict[int, float]:
    """Leg -> packed mass without spare food [g]."""
    out: dict[int, float] = {}
    for bag in draft.packed.bags:
        if bag.label != "spare":
            out[bag.leg] = out.get(bag.leg, 0.0) + bag.gross_g
    return out


def _made(rounds: Rounds, setting: Setting) -> Made:
    menu, hashes = rounds.draft.menu, setting.hashes
    return Made(
        oatsack=VERSION, seed=setting.seed, rounds=rounds.rounds, residual_kcal=rounds.moved,
        ended=menu.ended, gap=menu.gap, trip_hash=hashes.get("trip", ""),
        larder_hash=hashes.get("larder", ""), near_hash=hashes.get("near", ""),
        today=setting.today.isoformat(),
    )  # fmt: skip


def _sources(flags: Iterable[Flag]) -> tuple[str, ...]:
    """Keys of every source the plan used, each once."""
    named = [*DEFAULT.sources, *PLAN_SOURCES, *(flag.source for flag in flags if flag.source)]
    keys = {cite.key_of(text) for text in named}
    return tuple(sorted(keys & set(cite.bibliography())))


def _once(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    """Equal remarks once, the loudest first."""
    loud = {"block": 0, "caution": 1, "quiet": 2, "note": 3}
    seen: dict[tuple[str, str, str], Flag] = {}
    for flag in flags:
        seen.setdefault((flag.key, flag.scope, str(sorted(flag.values.items()))), flag)
    return tuple(sorted(seen.values(), key=lambda flag: loud[flag.level]))
