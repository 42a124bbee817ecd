"""Which fuel containers to take: few and light ones that hold the need, opened ones by weight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, product
from math import ceil

from oatsack.values.kit import FuelCan

Take = tuple[FuelCan, ...]


EACH_G = 100.0
"""One more can to buy, find room for and carry home weighs like this much. Ours."""


def gross_g(can: FuelCan) -> float:
    """What a can weighs now [g]."""
    return can.fuel_g + can.empty_g


def choose(need_g: float, cans: Sequence[FuelCan]) -> Take:
    """The lightest set of cans that holds `need_g`, each further can charged `EACH_G`.

    A can with a weighed gross mass is one opened can; any other is a size of which there are as
    many as one likes. Where opened cans alone are too little, all of them are taken.
    """
    if need_g <= 0:
        return ()
    found = list(_sets(need_g, cans))
    return min(found, key=_worth) if found else tuple(c for c in cans if c.gross_now_g is not None)


def _worth(take: Take) -> tuple[float, int, float]:
    weight = sum(gross_g(c) + EACH_G for c in take)
    return (round(weight, 6), len(take), -sum(c.fuel_g for c in take))


def _sets(need_g: float, cans: Sequence[FuelCan]) -> Iterator[Take]:
    """Every set worth looking at: some opened cans, topped up with full ones."""
    opened = [c for c in cans if c.gross_now_g is not None and c.fuel_g > 0]
    sizes = sorted((c for c in cans if c.gross_now_g is None), key=lambda c: -c.net_g)
    for count in range(len(opened) + 1):
        for some in combinations(opened, count):
            rest = need_g - sum(c.fuel_g for c in some)
            yield from (some + full for full in _fill(rest, sizes))


def _fill(rest_g: float, sizes: Sequence[FuelCan]) -> Iterator[Take]:
    """Sets of full cans that hold the rest, the smallest size making up what is missing."""
    if rest_g <= 1e-9:
        yield ()
        return
    if not sizes:
        return
    *large, small = sizes
    tops = [range(min(20, ceil(rest_g / can.net_g)) + 1) for can in large]
    for counts in product(*tops):
        held = sum(n * can.net_g for n, can in zip(counts, large, strict=True))
        more = max(0, ceil((rest_g - held) / small.net_g - 1e-9))
        full = [can for n, can in zip(counts, large, strict=True) for _ in range(n)]
        yield (*full, *[small] * more)


def grouped(take: Take) -> tuple[tuple[float, int], ...]:
    """Pairs of a can's fuel [g] and how many of them, the fullest first."""
    amounts = [round(can.fuel_g, 3) for can in take]
    return tuple((amount, amounts.count(amount)) for amount in sorted(set(amounts), reverse=True))
