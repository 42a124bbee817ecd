"""What is said of boxes and shops on the way: each remark where it holds, and nowhere else."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

from oatsack.packing.box_signs import box_signs, signs
from oatsack.values.food import Keep
from oatsack.values.pack import Bag, Box, Place
from support.each import each
from support.packs import BEGIN, LARDER, bag, days_of

ASKED = Place(leg=2, name="Otter Ford", checked="2026-05-01")
BOX = Box(
    leg=2, place="Otter Ford", arrive_day=3, bags=(), gross_g=0.0,
    post_from=dt.date(2026, 5, 18), post_until=dt.date(2026, 5, 27), post_on=dt.date(2026, 5, 22),
    open_chance=0.75, box_chance=1.0, wait_days=2,
)  # fmt: skip
SHUT = (dt.date(2026, 6, 6), dt.date(2026, 6, 7))
DAYS = days_of(6, (3, 3))
"""Six days from Monday the first of June; the second leg begins on day 4."""


def keys(box: Box, place: Place = ASKED) -> list[str]:
    return [flag.key.removeprefix("packing.box.") for flag in box_signs(box, place)]


@each(
    ("change", "place", "said"),
    [
        ({}, ASKED, []),
        # one day of posting is a window, the day before it is none
        ({"post_from": dt.date(2026, 5, 27)}, ASKED, []),
        ({"post_from": dt.date(2026, 5, 28)}, ASKED, ["no-window"]),
        ({"post_from": None, "post_until": None, "kind": "shop"}, ASKED, []),
        ({"post_from": None}, ASKED, []),
        ({"post_until": None}, ASKED, []),
        ({"shut": SHUT}, ASKED, ["shut"]),
        # opening that nobody asked about is no news; that nobody asked is
        ({"shut": SHUT}, replace(ASKED, checked=""), ["not-asked"]),
        ({}, replace(ASKED, checked=""), ["not-asked"]),
        ({"post_from": dt.date(2026, 6, 1), "shut": SHUT}, ASKED, ["no-window", "shut"]),
    ],
)
def test_a_place_is_remarked_on_for_what_is_wrong_with_it(
    change: dict[str, Any], place: Place, said: list[str]
) -> None:
    assert keys(replace(BOX, **change), place) == said


def test_remarks_name_the_place_with_its_own_chances() -> None:
    late = replace(BOX, post_from=dt.date(2026, 6, 1), shut=SHUT, box_chance=0.4)
    window, shut = box_signs(late, ASKED)
    assert (window.scope, window.level) == ("packed/boxes/2", "caution")
    assert window.values == {"leg": 2, "place": "Otter Ford", "chance": 0.4}
    assert shut.level == "quiet"
    assert shut.values == {"place": "Otter Ford", "days": 2, "chance": 0.75, "wait": 2}


def test_a_chance_that_nobody_knows_is_none_at_all() -> None:
    unknown = replace(BOX, post_from=dt.date(2026, 6, 1), shut=SHUT, box_chance=None,
                      open_chance=None)  # fmt: skip
    assert [f.values["chance"] for f in box_signs(unknown, ASKED)] == [0.0, 0.0]


def held(day: int, food: str = "cheese", leg: int = 2) -> Bag:
    return bag(f"{leg}-lunch-a-{food}-{day}", {food: 40.0}, day=day, leg=leg)


def told(bags: list[Bag], *, warm: float | None, post: dt.date | None = BEGIN,
         place: Place = ASKED, kind: str = "box") -> list[Any]:  # fmt: skip
    foods = {**LARDER, "cheese": replace(LARDER["cheese"], keep=Keep(warm_days=warm)),
             "bar": replace(LARDER["bar"], keep=Keep(warm_days=warm), shop="outdoor")}  # fmt: skip
    box = replace(BOX, post_on=post, kind=kind)  # type: ignore[arg-type]
    return list(signs([box], bags, foods, DAYS, [place]))


@each(
    ("warm", "day", "spoils"),
    [
        # posted on the first of June and eaten on the fifth: five days, that of posting among them
        (4.0, 5, True), (5.0, 5, False), (6.0, 5, False), (5.0, 6, True), (None, 6, False),
        (3.5, 4, True), (4.0, 4, False),
    ],
)  # fmt: skip
def test_what_does_not_keep_from_the_post_to_the_plate_is_named(
    warm: float | None, day: int, spoils: bool
) -> None:
    found = told([held(day)], warm=warm)
    assert [f.key for f in found] == ["packing.box.spoils"] * spoils
    assert all(f.values == {"place": "Otter Ford", "food": "cheese", "foods": 1} for f in found)


def test_the_last_day_on_which_a_food_is_eaten_counts() -> None:
    assert told([held(6), held(4)], warm=5.0) != []
    assert told([held(4), held(6)], warm=5.0) != []
    assert told([held(4)], warm=5.0) == []


def test_food_of_another_leg_spare_food_and_an_unposted_box_spoil_nothing() -> None:
    assert told([held(6, leg=1)], warm=1.0) == []
    assert told([held(0)], warm=1.0) == []
    assert told([held(6)], warm=1.0, post=None) == []


def test_several_foods_are_one_remark_that_names_the_first() -> None:
    (found,) = told([held(6), held(6, "bar")], warm=1.0)
    assert found.values == {"place": "Otter Ford", "food": "bar", "foods": 2}


def test_what_the_shop_on_the_way_lacks_is_named_and_nothing_spoils_there() -> None:
    shop = replace(ASKED, kind="shop", sells=frozenset({"supermarket"}))
    (found,) = told([held(6), held(6, "bar"), held(5, "bar")], warm=1.0, place=shop, kind="shop")
    assert found.key == "packing.box.not-sold" and found.level == "quiet"
    assert found.values == {"place": "Otter Ford", "food": "bar", "foods": 1}
    assert told([held(6)], warm=1.0, place=shop, kind="shop") == []
    everything = replace(shop, sells=frozenset())
    assert told([held(6, "bar")], warm=1.0, place=everything, kind="shop") == []
