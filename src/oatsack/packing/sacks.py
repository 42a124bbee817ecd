"""What hangs on each back, day by day: the bags a walker carries, their wrappers, the fuel.

Mass counts until the wrapper leaves the sack, and that is at the leg's end (C13). A sack's
`start_g` is the gross mass of exactly the bags it lists; a bag that rides on into later legs
(spare food) is listed in each of them. Fuel and cans stand apart in `common_g`; pots, stove and
containers belong to the base weight. Does not decide who carries what (see `share`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from oatsack.values.pack import Bag, Sack

Legs = Mapping[int, tuple[int, int]]
"""Leg -> first and last day."""
Common = Mapping[int, Mapping[str, Mapping[str, float]]]
"""Leg -> walker -> what is carried for all, by name [g]."""


def net_left_g(bag: Bag, day: int) -> float:
    """Food left in a bag at waking on a day [g]; spare food (day 0) never leaves."""
    return sum(item.net_g for item in bag.items if item.day <= 0 or item.day >= day)


def at_waking_g(bag: Bag, day: int) -> float:
    """What a bag weighs at waking on a day, its own wrapping included [g]."""
    return net_left_g(bag, day) + bag.wrap_g


def emptied_wrap_g(bag: Bag, day: int) -> float:
    """Wrapping of a bag whose food has been eaten by the end of a day [g]: of a sealed lot its
    share by mass, of any other bag all of it once it is empty."""
    left = net_left_g(bag, day + 1)
    if bag.sealed and bag.net_g > 0:
        return bag.wrap_g * (1.0 - left / bag.net_g)
    return bag.wrap_g if left <= 1e-6 else 0.0


def bags_on_leg(bags: Iterable[Bag], leg: int, legs: Legs) -> list[Bag]:
    """Bags that are in the sacks at the start of a leg: its own, and earlier ones not yet empty."""
    first = legs[leg][0]
    return [b for b in bags if b.leg == leg or (b.leg < leg and b.empty_day >= first)]


def kg_days(bag: Bag, first: int, last: int) -> float:
    """Mass times days carried on a leg, from waking to waking [kg d]."""
    return sum(at_waking_g(bag, day) for day in range(first, last + 1)) / 1000.0


def order_in_sack(bags: Iterable[Bag]) -> tuple[Bag, ...]:
    """From the top down: what spoils or is opened first on top, spare food at the bottom."""

    def key(bag: Bag) -> tuple[bool, int, int, str]:
        last = bag.eat_by_day if bag.eat_by_day is not None else bag.empty_day
        return bag.label == "spare", min(last, bag.open_day), bag.empty_day, bag.id

    return tuple(sorted(bags, key=key))


def make_sacks(bags: Sequence[Bag], legs: Legs, walkers: Sequence[str],
               common: Common) -> tuple[Sack, ...]:  # fmt: skip
    """One sack per walker and leg, from bags that know their carriers."""
    out = []
    for leg in sorted(legs):
        here = bags_on_leg(bags, leg, legs)
        for walker in walkers:
            mine = order_in_sack(b for b in here if b.carrier == walker)
            out.append(_sack(walker, leg, mine, legs[leg], common.get(leg, {}).get(walker, {})))
    return tuple(out)


def _sack(walker: str, leg: int, bags: Sequence[Bag], span: tuple[int, int],
          common_g: Mapping[str, float]) -> Sack:  # fmt: skip
    days = range(span[0], span[1] + 1)
    return Sack(
        walker=walker, leg=leg, bags=tuple(b.id for b in bags),
        start_g=sum(at_waking_g(b, span[0]) for b in bags),
        by_day_g={str(d): sum(at_waking_g(b, d) for b in bags) for d in days},
        wrappers_by_day_g={str(d): sum(emptied_wrap_g(b, d - 1) for b in bags) for d in days},
        common_g=dict(common_g),
        kg_days=sum(kg_days(b, *span) for b in bags),
    )  # fmt: skip
