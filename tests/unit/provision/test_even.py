"""The same every day, against an appetite that grows: too heavy first, short at the end."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.menu.slots import slots_of
from oatsack.provision.even import LEAST, even_by_leg, even_signs
from oatsack.provision.needs import shares_of
from oatsack.values.route import Day
from oatsack.values.trip import Trip
from oatsack.walker.target import ramp
from support.menus import days as menu_days
from support.menus import trip as menu_trip
from support.menus import walker

LENGTHS = (5, 6, 4, 6, 4)


def long_walk() -> tuple[Trip, list[Day]]:
    """Twenty-five days in five legs, out at noon."""
    walk = menu_trip([walker()], 25, begin=8, end=13)
    legs = [leg for leg, n in enumerate(LENGTHS, 1) for _ in range(n)]
    return walk, [replace(d, leg=leg) for d, leg in zip(menu_days(25), legs, strict=True)]


def targets(walk: Trip, days: list[Day], *, flat: bool) -> dict[str, dict[int, float]]:
    share = shares_of(walk, slots_of(walk, tuple(days)), "anna")
    grows = [1.0] * len(share) if flat else ramp(list(share.values()))
    return {"anna": {d: 3000.0 * a * s for a, (d, s) in zip(grows, share.items(), strict=True)}}


def test_even_portions_are_too_much_on_the_first_leg_and_short_on_the_last_two() -> None:
    """Common practice: flat 3.6 kg where 3.3 are eaten first, 0.5 to 0.8 kg short at the end."""
    walk, days = long_walk()
    slots = slots_of(walk, tuple(days))
    even = even_by_leg(walk, slots, days, targets(walk, days, flat=False))
    assert even[1] > 1.09
    assert even[4] < 0.95 and even[5] < 0.95
    kg = dict(zip(range(1, 6), (3300.0, 4700.0, 3700.0, 4800.0, 3000.0), strict=True))
    signs = even_signs(walk, slots, days, targets(walk, days, flat=False), kg)
    said = {(f.key.rsplit(".", 1)[1], f.values["leg"]) for f in signs}
    assert {("over", 1), ("short", 4), ("short", 5)} <= said
    grams = [{key: float(f.values[key]) for key in ("even_g", "leg_g", "off_g")} for f in signs]
    assert all(g["off_g"] == pytest.approx(abs(g["even_g"] - g["leg_g"])) for g in grams)


def test_the_whole_stays_the_same_whichever_way_it_is_shared_out() -> None:
    walk, days = long_walk()
    target = targets(walk, days, flat=False)
    even = even_by_leg(walk, slots_of(walk, tuple(days)), days, target)
    legs = {d.number: d.leg for d in days}
    planned = {leg: sum(k for d, k in target["anna"].items() if legs[d] == leg) for leg in even}
    assert sum(even[leg] * planned[leg] for leg in even) == pytest.approx(sum(planned.values()))


def test_who_eats_the_same_every_day_is_told_nothing() -> None:
    walk, days = long_walk()
    slots, flat = slots_of(walk, tuple(days)), targets(walk, days, flat=True)
    assert even_by_leg(walk, slots, days, flat) == pytest.approx(dict.fromkeys(range(1, 6), 1.0))
    assert even_signs(walk, slots, days, flat, dict.fromkeys(range(1, 6), 3000.0)) == ()


def test_a_walk_of_one_leg_and_a_leg_that_hardly_differs_are_not_worth_a_word() -> None:
    walk, days = long_walk()
    slots, grows = slots_of(walk, tuple(days)), targets(walk, days, flat=False)
    assert even_signs(walk, slots, days, grows, {1: 19_000.0}) == ()
    kg = dict.fromkeys(range(1, 6), 3000.0)
    told = {f.values["leg"] for f in even_signs(walk, slots, days, grows, kg)}
    near = {leg for leg, e in even_by_leg(walk, slots, days, grows).items() if abs(e - 1) <= LEAST}
    assert told == set(range(1, 6)) - near
