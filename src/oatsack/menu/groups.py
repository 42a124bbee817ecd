"""Cook groups: who eats one dish from one pot.

Whoever has pots of their own is apart. Members whose hard limits agree share; small sets of members
are put together as long as enough dinners suit all of them, so that a vegetarian and a meat eater
share a meat-free base and add what is their own. A pot group is best at six to eight (common
practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.menu.allowed import suits_plate
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest
from oatsack.values.pots import parties
from oatsack.values.walker import Walker

MOST_IN_GROUP = 8
MERGE_UP_TO = 6
ENOUGH_DISHES = 4
"""So many dinners must suit all before unlike members are put together; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Walkers who share the dinner dish, by id, in the party's order."""

    name: str
    walkers: tuple[str, ...]


def cook_groups(request: MenuRequest) -> tuple[Group, ...]:
    """The cook groups of a party, each walker in exactly one."""
    if not request.rules.mains_shared:
        return tuple(Group(name=w.id, walkers=(w.id,)) for w in request.walkers)
    dishes = [f for f in request.foods if f.role == "main" and "dinner" in f.meals]
    by_id = {w.id: w for w in request.walkers}
    merged = [
        one
        for part in parties(request.kit.pots, list(by_id))
        for one in _merge(_alike([by_id[w] for w in part.walkers]), dishes)
    ]
    split = [part for one in merged for part in _split(one)]
    order = {w.id: i for i, w in enumerate(request.walkers)}
    split.sort(key=lambda part: order[part[0].id])
    return tuple(
        Group(name="+".join(w.id for w in part) if len(part) < 4 else f"group-{i + 1}",
              walkers=tuple(w.id for w in part))
        for i, part in enumerate(split)
    )  # fmt: skip


def _alike(walkers: Sequence[Walker]) -> list[list[Walker]]:
    """Walkers by equal hard limits, in order of first appearance."""
    out: dict[object, list[Walker]] = {}
    for walker in walkers:
        out.setdefault((walker.eats, frozenset(walker.avoids)), []).append(walker)
    return list(out.values())


def _merge(sets: list[list[Walker]], dishes: Sequence[Food]) -> list[list[Walker]]:
    """Puts the smallest sets together while enough dishes suit them all."""
    sets = [list(one) for one in sets]
    while True:
        pairs = [
            (len(a) + len(b), i, j)
            for i, a in enumerate(sets)
            for j, b in enumerate(sets)
            if i < j and len(a) + len(b) <= MERGE_UP_TO and _share(a + b, dishes)
        ]
        if not pairs:
            return sets
        _, i, j = min(pairs)
        sets[i] = sets[i] + sets[j]
        del sets[j]


def _share(walkers: Sequence[Walker], dishes: Sequence[Food]) -> bool:
    common = [d for d in dishes if all(suits_plate(w, d) for w in walkers)]
    return len(common) >= ENOUGH_DISHES


def _split(walkers: list[Walker]) -> list[list[Walker]]:
    """Parts of nearly equal size, none above the most one pot serves."""
    parts = -(-len(walkers) // MOST_IN_GROUP)
    size = -(-len(walkers) // parts)
    return [walkers[i : i + size] for i in range(0, len(walkers), size)]
