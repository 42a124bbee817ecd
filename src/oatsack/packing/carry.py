"""Gives every bag its carrier, leg by leg: the question that `share` answers, asked of a trip.

Knows the party: whose snack it is, who has the stove, where the cans ride. Fuel rides apart from
food, and cans are spread so that no single pack takes all of them along.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from oatsack.packing import loss
from oatsack.packing.sacks import Common, Legs, bags_on_leg, kg_days
from oatsack.packing.share import (
    NOBODY,
    Engine,
    Indices,
    Shared,
    Sharing,
    exact,
    fair_parts,
    spread,
)
from oatsack.values.food import Food
from oatsack.values.kitchen import FuelPlan
from oatsack.values.pack import Bag, Loss
from oatsack.values.problem import Work
from oatsack.values.walker import Walker

WORK = Work(nodes=500, seconds=2.0, gap_abs=0.005)
"""What an engine may spend on a leg; the bound that it proves is kept."""
OWN_LABELS = frozenset({"move", "small"})
"""What is wanted at hand on the way rides on its own eater's back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """How to share: proven by an engine, or near an earlier packing (bag -> its carrier)."""

    engine: Engine | None = None
    near: Mapping[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """Bags with their carriers, what is carried for all, who has heat, how fair it is."""

    bags: tuple[Bag, ...]
    common: Common
    heat: loss.Heat
    shared: Mapping[int, Shared]


def parts_of(walkers: Sequence[Walker]) -> Mapping[str, float]:
    """Fair part of each walker: capacity over the party's sum. Where all are alike, for nobody
    said otherwise, body mass stands in (ours)."""
    alike = len({w.capacity for w in walkers}) <= 1
    weights = {w.id: w.mass_kg if alike else w.capacity for w in walkers}
    fair = fair_parts(weights, [w.id for w in walkers])
    return dict(zip(weights, (float(f) for f in fair), strict=True))


def heat_of(walkers: Sequence[Walker], groups: Sequence[Sequence[str]], pots: int,
            cans: int) -> loss.Heat:  # fmt: skip
    """The strongest of each cook group has its stove and pot, if there is a pot for each; a first
    can rides with each stove, further ones with the next strongest."""
    part = parts_of(walkers)
    kits = groups if pots >= len(groups) else [tuple(part)]
    stoves = [max(group, key=lambda w: part[w]) for group in kits]
    others = sorted((w for w in part if w not in stoves), key=lambda w: -part[w])
    return loss.Heat(stoves=frozenset(stoves), fuel=frozenset([*stoves, *others][:cans]))


def common_loads(fuel: FuelPlan | None, heat: loss.Heat, legs: Legs) -> Common:
    """Fuel at the start of each leg and the cans it is in, by walker [g]. All fuel is taken from
    the start, and empty cans are carried to the end."""
    if fuel is None or not heat.fuel:
        return {}
    out = {}
    for leg, (first, _) in legs.items():
        burnt = sum(g for day, g in fuel.by_day_g.items() if int(day) < first)
        left = max(0.0, fuel.carried_g - burnt)
        empty = max(0.0, fuel.gross_g - fuel.carried_g)
        share = 1.0 / len(heat.fuel)
        out[leg] = {w: {"fuel": left * share, "cans": empty * share} for w in sorted(heat.fuel)}
    return out


def cans_in(fuel: FuelPlan | None) -> int:
    """How many cans or bottles of fuel go along."""
    if fuel is None or fuel.need_g <= 0:
        return 0
    return max(1, sum(count for _, count in fuel.cans))


def give_out(bags: Sequence[Bag], walkers: Sequence[Walker], foods: Mapping[str, Food],
             legs: Legs, heat: loss.Heat, *, common: Common,
             how: How | None = None) -> Carried:  # fmt: skip
    """Every bag with its carrier."""
    how = how or How()
    carrier: dict[str, str] = {}
    shared = {}
    for leg in sorted(legs):
        here = [b for b in bags if b.leg == leg]
        if here:
            ask = question(here, walkers, foods, legs[leg], heat, common=common.get(leg, {}))
            answer = _answer(ask, how.engine, _before(here, walkers, how.near))
            shared[leg] = answer
            carrier |= {b.id: walkers[int(w)].id for b, w in zip(here, answer.carrier, strict=True)}
    done = tuple(replace(b, carrier=carrier[b.id]) for b in bags)
    return Carried(bags=done, common=common, heat=heat, shared=shared)


def _answer(ask: Sharing, engine: Engine | None, before: Indices) -> Shared:
    """Each begins with their own food, and hands over only as much as makes it fair."""
    return spread(ask, before=before) if engine is None else exact(ask, engine, WORK)


def _before(bags: Sequence[Bag], walkers: Sequence[Walker],
            near: Mapping[str, str] | None) -> Indices:  # fmt: skip
    """On whose back each bag begins (an index of the party): where it was, else its eater's."""
    at = {w.id: i for i, w in enumerate(walkers)}
    where = near or {}
    return np.array([at.get(where.get(b.id, b.group), NOBODY) for b in bags], np.int64)


def question(bags: Sequence[Bag], walkers: Sequence[Walker], foods: Mapping[str, Food],
             span: tuple[int, int], heat: loss.Heat, *,
             common: Mapping[str, Mapping[str, float]]) -> Sharing:  # fmt: skip
    """One leg's sharing as numbers."""
    ids = [w.id for w in walkers]
    part = parts_of(walkers)
    days = span[1] - span[0] + 1
    return Sharing(
        kg_days=np.array([kg_days(b, *span) for b in bags]),
        fair=np.array([part[w] for w in ids]),
        already=np.array([sum(common.get(w, {}).values()) * days / 1000.0 for w in ids]),
        own=np.array([_own(b, ids) for b in bags], np.int64),
        limits=loss.limits(bags, walkers, foods, heat),
        names=tuple(b.id for b in bags),
    )  # fmt: skip


def _own(bag: Bag, ids: Sequence[str]) -> int:
    return ids.index(bag.group) if bag.label in OWN_LABELS and bag.group in ids else NOBODY


def losses_of(carried: Carried, walkers: Sequence[Walker], foods: Mapping[str, Food],
              legs: Legs) -> tuple[Loss, ...]:  # fmt: skip
    """The loss of each pack on each leg."""
    return tuple(
        found
        for leg in sorted(legs)
        for found in loss.losses(
            leg, bags_on_leg(carried.bags, leg, legs), walkers, foods, carried.heat
        )
    )
