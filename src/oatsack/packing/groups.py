"""Who eats from one pot, and how the bags of a party are named.

Knows walkers, the kitchen's occasions and who eats which dish. Where neither tells, a party above
eight splits into even cook groups of about six (common practice: six to eight, ten at most).
"""

from __future__ import annotations

import string
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from oatsack.values.kitchen import KitchenLedger

Dinners = Mapping[str, frozenset[tuple[int, str]]]
POT_MOST = 10
"""Above this an occasion of the kitchen is no one pot: it is split (common practice)."""
GROUP_MOST = 8
GROUP_BEST = 6


def cook_groups(walkers: Sequence[str], ledger: KitchenLedger,
                dinners: Dinners | None = None) -> tuple[tuple[str, ...], ...]:  # fmt: skip
    """The cook groups of the party, in the order of its walkers; every walker is in one.

    As the kitchen cooks; where it names no pots, or one for more than ten, by who eats the same
    dish on most evenings (`dinners`: walker -> pairs of day and dish).
    """
    found: dict[tuple[str, ...], None] = {}
    taken: set[str] = set()
    for occasion in sorted(ledger.meals, key=lambda m: (-len(m.walkers), m.day)):
        members = tuple(w for w in walkers if w in occasion.walkers)
        if members and not taken & set(members):
            found[members] = None
            taken |= set(members)
    rest = tuple(w for w in walkers if w not in taken)
    parts = [part for g in found for part in _pots(g, dinners or {}, POT_MOST)]
    parts += _pots(rest, dinners or {}, GROUP_MOST)
    return tuple(sorted(parts, key=lambda g: walkers.index(g[0])))


def _pots(group: tuple[str, ...], dinners: Dinners, most: int) -> list[tuple[str, ...]]:
    """A group that fits one pot as it is; a larger one by its dishes, each part of pot size."""
    if len(group) <= most:
        return [group] if group else []
    mates: list[list[str]] = []
    for walker in group:
        same = next((m for m in mates if _mates(dinners, m[0], walker)), None)
        if same is None:
            mates.append([walker])
        else:
            same.append(walker)
    if max(len(m) for m in mates) < 2:
        return split(group)
    return [part for m in mates for part in split(m)]


def _mates(dinners: Dinners, one: str, other: str) -> bool:
    """Whether two walkers eat the same dish on more than half of the evenings of either."""
    a, b = dinners.get(one, frozenset()), dinners.get(other, frozenset())
    return len(a & b) > 0.5 * max(len(a), len(b), 1)


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
