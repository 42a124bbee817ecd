"""Long walks: legs share only stock and money, so each is chosen apart, and equal legs once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from oatsack.menu.allowed import warmth
from oatsack.values.flags import Flag
from oatsack.values.food import Food, Meal
from oatsack.values.menu import Menu, MenuRequest, Pool, Portion, Slot
from oatsack.values.trip import Rules


def leg_numbers(request: MenuRequest) -> list[int]:
    """The legs of a request, in order."""
    return sorted({slot.leg for slot in request.slots})


def can_part(request: MenuRequest) -> bool:
    """Whether the legs can be chosen apart: more than one, and no money shared between them."""
    return len(leg_numbers(request)) > 1 and request.rules.budget is None


def walker_days(request: MenuRequest) -> int:
    """Days of all walkers together."""
    return len({(slot.walker, slot.day) for slot in request.slots})


def leg_request(request: MenuRequest, leg: int, used: Mapping[str, float]) -> MenuRequest:
    """The question of one leg; `used` packs of stock are gone by then."""
    slots = tuple(s for s in request.slots if s.leg == leg)
    days = {s.day for s in slots}
    target = {
        w: {d: kcal for d, kcal in by_day.items() if d in days}
        for w, by_day in request.target_kcal.items()
    }
    near = None if request.near is None else part_of(request.near, days)
    foods = tuple(f.less_home(_gone(request, leg, f, used)) for f in request.foods)
    return replace(request, slots=slots, target_kcal=target, near=near, foods=foods,
                   spare_kcal={w.id: 0.0 for w in request.walkers},
                   eaten_before=_eaten_before(request, leg))  # fmt: skip


def _gone(request: MenuRequest, leg: int, food: Food, used: Mapping[str, float]) -> float:
    """Packs that are not at home for this leg: eaten before, or all where the leg is bought."""
    return used.get(food.id, 0.0) if bought_for(request, food, leg) is None else food.home_packs


def bought_for(request: MenuRequest, food: Food, leg: int) -> int | None:
    """The leg at whose shop a food is bought; None where it leaves home, in a box or at once."""
    sold = leg in request.shops and (not request.shops[leg] or food.shop in request.shops[leg])
    return leg if sold else None


def _eaten_before(request: MenuRequest, leg: int) -> dict[str, dict[Meal, int]]:
    """Walker -> meal -> how many of these meals the legs before this one hold."""
    out: dict[str, dict[Meal, int]] = {w: dict(by) for w, by in request.eaten_before.items()}
    for slot in request.slots:
        if slot.leg < leg:
            mine = out.setdefault(slot.walker, {})
            mine[slot.meal] = mine.get(slot.meal, 0) + 1
    return out


def part_of(menu: Menu, days: set[int]) -> Menu:
    """The part of a menu on these days."""
    return replace(
        menu, portions=tuple(p for p in menu.portions if p.day in days),
        pools=tuple(p for p in menu.pools if p.open_day in days), spare=(),
    )  # fmt: skip


def likeness(request: MenuRequest) -> object:
    """Two legs with the same likeness ask the same question, days shifted."""
    first = min(s.day for s in request.slots)
    days = {s.day for s in request.slots}
    slots = tuple(
        (s.walker, s.day - first, s.meal, s.hot, s.minutes_limit, s.carry_days)
        for s in request.slots
    )
    target = tuple(
        (w, d - first, round(kcal, 3)) for w, by in request.target_kcal.items()
        for d, kcal in sorted(by.items())
    )  # fmt: skip
    warm = tuple(tuple(warmth(request, s)) for s in request.slots)
    by_day = tuple(
        (w, d - first, value)
        for of in (request.walking_h, request.hot_drinks, request.bottle_fills)
        for w, by in of.items() for d, value in sorted(by.items()) if d in days
    )  # fmt: skip
    prices = frozenset(
        (name, day - first, price) for (name, day), price in request.prices.items() if day in days
    )
    return (slots, target, warm, by_day, _stock(request), prices, _dated(request.rules),
            _turns(request), request.near is None)  # fmt: skip


def _stock(request: MenuRequest) -> tuple[object, ...]:
    """What is at home of each food, with the days of these on which its date has not passed."""
    dates = sorted({s.date for s in request.slots})
    return tuple(
        (f.id, lot.packs,
         sum(lot.best_before is None or date <= lot.best_before for date in dates))
        for f in request.foods for lot in f.at_home
    )  # fmt: skip


def _turns(request: MenuRequest) -> tuple[object, ...]:
    """Where the turns of each walker's usual stand, and whether the walk has begun."""
    before = request.eaten_before
    return tuple(
        (w.id, meal, before.get(w.id, {}).get(meal, 0) % max(1, len(choices)))
        for w in request.walkers for meal, choices in w.usual.meals.items()
    ) + tuple(
        (w.id, "trip", bool(before.get(w.id)))
        for w in request.walkers if any(c.per == "trip" for c in w.usual.counts)
    )  # fmt: skip


def _dated(rules: Rules) -> tuple[str, ...]:
    """Holds and bans of single dates make a leg its own."""
    return tuple(str(h) for h in rules.holds if h.date is not None)


def shifted(menu: Menu, by: int) -> Menu:
    """The same menu so many days later."""
    portions = tuple(replace(p, day=p.day + by) for p in menu.portions)
    pools = tuple(
        Pool(walker=p.walker, food=p.food, packs=p.packs, open_day=p.open_day + by,
             last_day=p.last_day + by, by_day_g={d + by: g for d, g in p.by_day_g.items()})
        for p in menu.pools
    )  # fmt: skip
    binds = tuple(_later(name, by) for name in menu.binds)
    return replace(menu, portions=portions, pools=pools, binds=binds)


def _later(row: str, by: int) -> str:
    """A row's name with its day so many days later; the container's row bears its leg, no day."""
    if row.startswith("container/"):
        return row
    return "/".join(str(int(part) + by) if part.isdigit() else part for part in row.split("/"))


def joined(menus: Iterable[Menu], spare: tuple[Portion, ...]) -> Menu:
    """One menu of the legs' menus: aims and bounds add up."""
    parts = list(menus)
    ends = [m.ended for m in parts if m.ended != "proved"]
    moves = [m.moved for m in parts if m.moved is not None]
    return Menu(
        portions=tuple(p for m in parts for p in m.portions),
        pools=tuple(p for m in parts for p in m.pools), spare=spare,
        aim=sum(m.aim for m in parts), bound=sum(m.bound for m in parts),
        ended=ends[0] if ends else "proved",
        binds=tuple(dict.fromkeys(name for m in parts for name in m.binds)),
        flags=_once(f for m in parts for f in m.flags if _said(f, parts)),
        moved=sum(moves) if moves else None,
    )  # fmt: skip


def _said(flag: Flag, parts: list[Menu]) -> bool:
    """A hold is lost only where no leg has a place for it."""
    return flag.key != "menu.hold-lost" or all(flag in m.flags for m in parts)


def _once(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    out: list[Flag] = []
    for flag in flags:
        if flag not in out:
            out.append(flag)
    return tuple(out)


def first_day(slots: Iterable[Slot]) -> int:
    """The first day of some slots."""
    return min(s.day for s in slots)


def stock_used(request: MenuRequest, menu: Menu) -> dict[str, float]:
    """Packs of stock that a menu takes from home."""
    foods = {f.id: f for f in request.foods}
    used: dict[str, float] = {}
    for p in menu.portions:
        food = foods[p.food]
        if food.at_home:
            used[p.food] = used.get(p.food, 0.0) + p.doses / food.doses_per_pack
    return {name: min(packs, foods[name].home_packs) for name, packs in used.items()}
