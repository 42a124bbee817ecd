"""What must be eaten first: days that food keeps in this heat, and clocks once it is wet.

Limits of days are habits of the field, stated by the larder; the danger zone is a rule of food
safety. In doubt food is packed out, not eaten. Knows nothing of taste.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import KeepLine
from oatsack.values.menu import Menu
from oatsack.values.route import Day

COLD_C = 4.4
HOT_C = 32.2
"""Between 40 and 140 F germs grow; above 90 F of air twice as fast. Source: FSISDanger."""
WET_MIN = 120.0
WET_HOT_MIN = 60.0
"""Perishable food in the danger zone. Source: FSISDanger."""
COOL_C = 20.0
"""Up to here the larder's days hold. Common practice."""
WARM_RATE = 2.0
SCORCH_RATE = 4.0
"""Days that one warm, one scorching day uses up. Ours, from cheese: a week cool, half hot."""


def ageing(warm_c: float) -> float:
    """How many of a food's days one day of this heat uses up."""
    if warm_c <= COOL_C:
        return 1.0
    return WARM_RATE if warm_c <= HOT_C else SCORCH_RATE


def wet_minutes(air_c: float) -> float | None:
    """How long moist food may stand before it is eaten [min]; None where it is as cold as a fridge.

    Two hours, one above 32 deg C. Source: FSISDanger.
    """
    if air_c <= COLD_C:
        return None
    return WET_HOT_MIN if air_c > HOT_C else WET_MIN


def keeps_until(limit_days: float, start_day: int, heat_c: Mapping[int, float]) -> int:
    """The last day on which food is eaten that keeps so many days from a start day on.

    The heat of each day counts; days beyond the known ones are as warm as the last. A limit below
    one day means the first day only.
    """
    left, known = limit_days, max(heat_c, default=0)
    for day in range(start_day, known + 1):
        left -= ageing(heat_c.get(day, heat_c[known]))
        if left < 1e-9:
            return day if left > -1e-9 or day == start_day else day - 1
    rate = ageing(heat_c[known]) if heat_c else 1.0
    return max(start_day, max(known, start_day - 1) + int((left + 1e-9) // rate))


@dataclass(frozen=True, slots=True, kw_only=True)
class EatBy:
    """The last day for one food carried sealed from the start, and for a bag opened on a day."""

    food: str
    day: int | None
    opened_day: int | None
    perishable: bool
    """Keeps less than a day: the first meal only."""


def heats(days: Sequence[Day]) -> dict[int, float]:
    """Day -> midday air [deg C]."""
    return {day.number: day.warm_c for day in days}


def eat_by(food: Food, days: Sequence[Day], *, start_day: int = 1, open_day: int = 1) -> EatBy:
    """Until when a food keeps on this walk; None: longer than anyone walks."""
    heat = heats(days)
    warm, opened = food.keep.warm_days, food.keep.opened_days
    return EatBy(
        food=food.id,
        day=None if warm is None else keeps_until(warm, start_day, heat),
        opened_day=None if opened is None else keeps_until(opened, open_day, heat),
        perishable=warm is not None and warm < 1.0,
    )


def keep_lines(
    menu: Menu, foods: Mapping[str, Food], days: Sequence[Day]
) -> dict[str, KeepLine]:
    """Food -> until when it keeps and when it is last eaten, the most pressing first.

    What keeps beyond the walk, opened or not, is left out.
    """
    end = max((day.number for day in days), default=0)
    opened: dict[str, list[int]] = defaultdict(list)
    for pool in menu.pools:
        opened[pool.food].append(pool.open_day)
    found = {
        food: _keep_line(foods[food], last, days, min(opened.get(food, [0])))
        for food, last in _last_days(menu).items()
    }
    limited = {food: line for food, line in found.items() if _until(line) < end}
    return dict(sorted(limited.items(), key=lambda pair: (_until(pair[1]), pair[0])))


def _until(line: KeepLine) -> int:
    return min(line.until_day or 10**6, line.opened_until_day or 10**6)


def _keep_line(food: Food, last: int, days: Sequence[Day], open_day: int) -> KeepLine:
    limit = eat_by(food, days, start_day=_leg_start(last, days), open_day=max(1, open_day))
    return KeepLine(
        last_day=last,
        until_day=limit.day,
        opened_day=open_day or None,
        opened_until_day=limit.opened_day if open_day else None,
    )


def wet_by_day(days: Sequence[Day]) -> dict[str, float]:
    """Day -> minutes that moist food may stand in that day's warmth [min]."""
    found = {str(day.number): wet_minutes(day.warm_c) for day in days}
    return {day: minutes for day, minutes in found.items() if minutes is not None}


@dataclass(frozen=True, slots=True, kw_only=True)
class SoakClock:
    """Cold soaking: ready after, eaten within; both counted from the water going in [min]."""

    ready_min: float
    eat_within_min: float | None

    @property
    def safe(self) -> bool:
        """Whether it is ready before it must be eaten."""
        return self.eat_within_min is None or self.ready_min <= self.eat_within_min


def soak_clock(food: Food, air_c: float) -> SoakClock | None:
    """The clock of a food soaked cold; None: it is not to be soaked."""
    ready = food.prep.cold_soak_min
    if ready is None and food.prep.kind == "soak":
        ready = food.prep.wait_min
    return None if ready is None else SoakClock(ready_min=ready, eat_within_min=wet_minutes(air_c))


def keeping_flags(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day]) -> Iterator[Flag]:
    """Food eaten after it keeps, and bags open too long: once per food. Dates of what is at home
    are asked where it is decided what comes from home (`packing`)."""
    yield from _late(menu, foods, days)
    yield from _open_long(menu, foods, days)


def _last_days(menu: Menu) -> dict[str, int]:
    out: dict[str, int] = defaultdict(int)
    for p in menu.portions:
        out[p.food] = max(out[p.food], p.day)
    return out


def _leg_start(day: int, days: Sequence[Day]) -> int:
    """First day of the leg on which food for this day was taken on."""
    leg = next((d.leg for d in days if d.number == day), 1)
    return min((d.number for d in days if d.leg == leg), default=1)


def _late(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day]) -> Iterator[Flag]:
    for food, last in sorted(_last_days(menu).items()):
        limit = eat_by(foods[food], days, start_day=_leg_start(last, days))
        if limit.day is not None and last > limit.day:
            yield Flag(
                key="kitchen.perishable" if limit.perishable else "kitchen.eat-by",
                level="block" if limit.perishable else "quiet",
                scope=f"menu/foods/{food}",
                values={"food": food, "until": limit.day, "day": last},
                source="FSISDanger" if limit.perishable else "common practice",
            )  # fmt: skip


def _open_long(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day]) -> Iterator[Flag]:
    for pool in menu.pools:
        limit = eat_by(foods[pool.food], days, open_day=pool.open_day).opened_day
        if limit is not None and pool.last_day > limit:
            yield Flag(
                key="kitchen.open-long", level="quiet", scope=f"menu/foods/{pool.food}",
                values={"food": pool.food, "walker": pool.walker, "until": limit,
                        "day": pool.last_day},
                source="common practice",
            )  # fmt: skip
