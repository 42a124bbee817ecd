"""Who eats from one pot, and how the bags of a party are named.

Knows walkers and the kitchen's occasions. Where no kitchen says otherwise, a party above eight
splits into even cook groups of about six (common practice: best at six to eight, ten at most).
"""

from __future__ import annotations

import string
from collections.abc import Iterable, Sequence
from itertools import pairwise

from oatsack.values.kitchen import KitchenLedger

POT_MOST = 10
"""Above this an occasion of the kitchen is no one pot: it is split (common practice)."""
GROUP_MOST = 8
GROUP_BEST = 6


def cook_groups(walkers: Sequence[str], ledger: KitchenLedger) -> tuple[tuple[str, ...], ...]:
    """The cook groups of the party, in the order of its walkers; every walker is in one."""
    found: dict[tuple[str, ...], None] = {}
    taken: set[str] = set()
    for occasion in sorted(ledger.meals, key=lambda m: (-len(m.walkers), m.day)):
        members = tuple(w for w in walkers if w in occasion.walkers)
        if members and not taken & set(members):
            found[members] = None
            taken |= set(members)
    rest = [w for w in walkers if w not in taken]
    cooks = [part for g in found for part in ([g] if len(g) <= POT_MOST else split(g))]
    groups = [*cooks, *split(rest)]
    return tuple(sorted(groups, key=lambda g: walkers.index(g[0])))


def split(walkers: Sequence[str]) -> list[tuple[str, ...]]:
    """Even groups of about six, or one group up to eight."""
    if not walkers:
        return []
    count = 1 if len(walkers) <= GROUP_MOST else -(-len(walkers) // GROUP_BEST)
    edges = [round(i * len(walkers) / count) for i in range(count + 1)]
    return [tuple(walkers[a:b]) for a, b in pairwise(edges)]


def group_name(eaters: Iterable[str], groups: Sequence[tuple[str, ...]],
               walkers: Sequence[str]) -> str:  # fmt: skip
    """A short name for those who eat from a bag: ids, a letter, or a letter less a few ids."""
    who = set(eaters)
    if len(who) <= 3:
        return "+".join(w for w in walkers if w in who)
    for letter, group in zip(string.ascii_uppercase, groups, strict=False):
        if who <= set(group):
            missing = [w for w in group if w not in who]
            return "-".join([letter, *missing])
    return "all" if who == set(walkers) else "+".join(w for w in walkers if w in who)
