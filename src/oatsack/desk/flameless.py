"""A plan without a flame at the desk: what may be swapped in, from a larder, for whom."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from oatsack.kitchen.flamefree import Allowed, Twin, flame_free
from oatsack.kitchen.keeping import heats
from oatsack.larder.plausible import admitted
from oatsack.menu.allowed import suits_plate, touches_tools
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.values.walker import Walker


def twins(plan: Plan, larder: Iterable[Food]) -> tuple[Twin, ...]:
    """Every portion of the plan without a flame, with swaps from a larder its eater may eat."""
    foods, _ = admitted(list(larder))
    return flame_free(
        plan.menu, plan.foods, larder=foods, allowed=allowed_in(plan.trip.walkers),
        heat_c=heats(plan.days),
    )  # fmt: skip


def allowed_in(walkers: Iterable[Walker]) -> Allowed:
    """Whether a walker may eat a food in this party (C10, C11).

    Own diet and allergies; what anyone keeps out of the whole party; and what anyone keeps out of
    shared tools, for whatever is soaked or repacked.
    """
    party = {walker.id: walker for walker in walkers}
    strict = [replace(w, eats="anything", avoids=tuple(a for a in w.avoids if a.scope == "party"))
              for w in party.values()]  # fmt: skip
    tools = [replace(w, eats="anything", avoids=tuple(a for a in w.avoids if a.scope == "pot"))
             for w in party.values()]  # fmt: skip

    def allowed(walker: str, food: Food) -> bool:
        others = [*strict, *(tools if touches_tools(food) else [])]
        return suits_plate(party[walker], food) and all(suits_plate(w, food) for w in others)

    return allowed
