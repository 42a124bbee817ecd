"""What of boxes and shops on the way a person should hear, as flags: keys and values."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from oatsack.packing.buy import sold
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.pack import Bag, Box, Place
from oatsack.values.route import Day


def signs(boxes: Iterable[Box], bags: Sequence[Bag], foods: Mapping[str, Food],
          days: Sequence[Day], places: Iterable[Place]) -> Iterator[Flag]:  # fmt: skip
    """Everything to be said of each place: posting, opening, what spoils on the way or is not sold,
    and whether anybody asked there."""
    place_of = {place.leg: place for place in places}
    for box in boxes:
        held = [bag for bag in bags if bag.leg == box.leg]
        yield from box_signs(box, place_of[box.leg])
        if box.kind == "box":
            yield from _spoils(box, held, foods, days)
        else:
            yield from _not_sold(box, held, foods, place_of[box.leg])


def box_signs(box: Box, place: Place) -> Iterator[Flag]:
    """A box that no day of posting suits; a door that may be shut; a place that nobody has asked,
    whose opening, post and hold are then assumed."""
    scope = f"packed/boxes/{box.leg}"
    if box.post_from and box.post_until and box.post_from > box.post_until:
        yield Flag(key="packing.box.no-window", level="caution", scope=scope,
                   values={"leg": box.leg, "place": box.place,
                           "chance": box.box_chance or 0.0})  # fmt: skip
    if box.shut and place.checked:
        yield Flag(key="packing.box.shut", level="quiet", scope=scope,
                   values={"place": box.place, "days": len(box.shut),
                           "chance": box.open_chance or 0.0, "wait": box.wait_days})  # fmt: skip
    if not place.checked:
        yield Flag(key="packing.box.not-asked", level="note", scope=scope,
                   values={"leg": box.leg, "place": box.place})  # fmt: skip


def _spoils(box: Box, bags: Iterable[Bag], foods: Mapping[str, Food],
            days: Sequence[Day]) -> Iterator[Flag]:  # fmt: skip
    """Food that does not keep from the day of posting to the day it is eaten."""
    dates = {day.number: day.date for day in days}
    last: dict[str, int] = {}
    for item in (i for bag in bags for i in bag.items):
        last[item.food] = max(last.get(item.food, 0), item.day)
    eaten = {food: dates[day] for food, day in last.items() if day > 0}
    bad = sorted(
        food for food, date in eaten.items()
        if box.post_on is not None and (warm := foods[food].keep.warm_days) is not None
        and (date - box.post_on).days + 1 > warm
    )  # fmt: skip
    if bad:
        yield Flag(key="packing.box.spoils", level="quiet", scope=f"packed/boxes/{box.leg}",
                   values={"place": box.place, "food": bad[0], "foods": len(bad)})  # fmt: skip


def _not_sold(box: Box, bags: Iterable[Bag], foods: Mapping[str, Food],
              place: Place) -> Iterator[Flag]:  # fmt: skip
    """Food of a leg that its shop does not sell: it has to be carried or posted there."""
    missing = sorted({i.food for bag in bags for i in bag.items if not sold(foods[i.food], place)})
    if missing:
        yield Flag(key="packing.box.not-sold", level="quiet", scope=f"packed/boxes/{box.leg}",
                   values={"place": box.place, "food": missing[0],
                           "foods": len(missing)})  # fmt: skip
