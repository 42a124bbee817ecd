"""Who eats from which pot, told by the kit: by the names at its pots, else a pot to a cook group.

The menu asks it whose allergies meet in a pot (C10), the kitchen which pots a dish may go into.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oatsack.values.kit import Pot


@dataclass(frozen=True, slots=True, kw_only=True)
class Party:
    """Walkers who eat from the same pots, and those pots by their place in the kit."""

    walkers: tuple[str, ...]
    pots: tuple[int, ...]


def parties(
    pots: Sequence[Pot], walkers: Sequence[str], groups: Sequence[Sequence[str]] = ()
) -> tuple[Party, ...]:
    """The party of walkers by the pots they eat from, each walker in exactly one part.

    A pot with names is theirs alone. Where no pot bears names, each cook group of `groups` has its
    own while there are enough, the larger group the larger pot; else all eat from all of them.
    """
    if any(pot.walkers for pot in pots):
        return _named(pots, walkers)
    dealt = [tuple(w for w in walkers if w in group) for group in groups]
    if 1 < len(dealt) <= len(pots) and sorted(w for g in dealt for w in g) == sorted(walkers):
        return _dealt(pots, dealt)
    return (Party(walkers=tuple(walkers), pots=tuple(range(len(pots)))),)


def _named(pots: Sequence[Pot], walkers: Sequence[str]) -> tuple[Party, ...]:
    """Walkers with the same pots together, in order; whom no pot names eats from the nameless."""
    free = tuple(i for i, pot in enumerate(pots) if not pot.walkers) or tuple(range(len(pots)))
    found: dict[tuple[int, ...], list[str]] = {}
    for walker in walkers:
        own = tuple(i for i, pot in enumerate(pots) if walker in pot.walkers)
        found.setdefault(own or free, []).append(walker)
    return tuple(Party(walkers=tuple(who), pots=which) for which, who in found.items())


def _dealt(pots: Sequence[Pot], groups: Sequence[tuple[str, ...]]) -> tuple[Party, ...]:
    """Pots dealt out by size, so that the largest group begins; the last of them to it as well."""
    large = sorted(range(len(pots)), key=lambda i: -pots[i].volume_ml)
    order = sorted(range(len(groups)), key=lambda i: -len(groups[i]))
    part = {i: tuple(sorted(large[turn :: len(groups)])) for turn, i in enumerate(order)}
    return tuple(Party(walkers=group, pots=part[i]) for i, group in enumerate(groups))


def pot_mates(
    pots: Sequence[Pot], walkers: Sequence[str], groups: Sequence[Sequence[str]] = ()
) -> Mapping[str, frozenset[str]]:
    """Walker -> everyone whose food meets theirs in a pot or at one dish, the walker included.

    A pot that two parts may use joins them.
    """
    split = parties(pots, walkers, groups)
    out = {w: frozenset(group) for group in groups for w in group}
    for walker in walkers:
        mine = next(p for p in split if walker in p.walkers)
        met = [p.walkers for p in split if set(p.pots) & set(mine.pots)]
        out[walker] = out.get(walker, frozenset()) | {w for who in met for w in who}
    return out
