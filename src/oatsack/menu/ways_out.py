"""What would help when no menu fits: changes of the request, each tried before it is named.

Only what a walker may change by a word is offered: cook at midday, allow more minutes, money, a
larger pot or container, another amount to eat, disliked or banned food. Never a safety rule (C11).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from oatsack.menu.refuse import BUDGET, FAR, Give
from oatsack.values.flags import Flag
from oatsack.values.menu import MenuRequest

ROOM = 1.03
"""What must give is offered with so much to spare, since packs and doses are whole; ours."""
STEPS, ALONE = (1.0, 1.3, 2.0), 2
"""How much further each try of a limit goes; alone the first two are tried, the last only where
several give together, since one that just does leaves little to the others; ours."""
EAT_LESS = (0.98, 0.94, 0.88, 0.78, 0.6)
EAT_MORE = (1.02, 1.06, 1.15, 1.4)
"""By so much less, or more, than a menu of parts would bring; whole doses ask for it; ours."""
LEAST_KCAL, LEAST_ROOM = 300.0, 0.5
"""Less than so much a day, or such a share of it where room is short, is no answer; ours."""
MOST_TRIED = 9
STEP_ML = 50.0
"""Pots and containers are told, and written, in such steps."""
EACH = "kcal/"
"""Begins the names of the values that tell every walker's number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One change of the request, and how it is said."""

    request: MenuRequest
    flag: Flag


def ways(request: MenuRequest, gives: Sequence[Give]) -> Iterator[WayOut]:
    """Changes worth trying, the gentlest first."""
    rules = {give.row.split("/")[0] for give in gives}
    if rules & {"energy-day", "energy-trip", "mains"}:
        yield from _open_meals(request)
        yield from _allow(request)
    means = [(name, make) for name, rule, make in MEANS if rule in rules]
    if len(means) > 1:
        yield from _several(request, gives, means)
    for _, make in means:
        yield from islice(make(request, gives), ALONE)
    if request.container_ml is not None and "container" not in rules:
        yield from _room(request, gives)
    if rules & {"energy-day", "energy-trip"}:
        yield from _eat(request, _shares(gives))
    elif rules & {"packs", "container"}:
        yield from _eat(request, _shares_of_room(request, gives))


def _open_meals(request: MenuRequest) -> Iterator[WayOut]:
    """Something warm at a meal that was cold, where there is a stove."""
    if request.kit.stove is None or request.rules.no_flame:
        return
    for meal in ("lunch", "breakfast"):
        if any(s.meal == meal and not s.hot for s in request.slots):
            slots = tuple(replace(s, hot=True) if s.meal == meal else s for s in request.slots)
            flag = Flag(key=f"way-out.cook-{meal}", level="note", values={"meal": meal})
            yield WayOut(request=replace(request, slots=slots), flag=flag)


def _allow(request: MenuRequest) -> Iterator[WayOut]:
    """What is disliked or banned, allowed again."""
    if any(w.dislikes for w in request.walkers):
        walkers = tuple(replace(w, dislikes=frozenset()) for w in request.walkers)
        flag = Flag(key="way-out.dislikes", level="note")
        yield WayOut(request=replace(request, walkers=walkers), flag=flag)
    bans = [h for h in request.rules.holds if h.count <= 0]
    if bans:
        rules = replace(request.rules, holds=tuple(h for h in request.rules.holds if h.count > 0))
        flag = Flag(key="way-out.bans", level="note", values={"n": len(bans)})
        yield WayOut(request=replace(request, rules=rules), flag=flag)


def _money(request: MenuRequest, gives: Sequence[Give]) -> Iterator[WayOut]:
    over = max((g.over for g in gives if g.row == "packs/budget"), default=0.0)
    if request.rules.budget is not None and over > 0:
        for step in STEPS:
            budget = float(round((request.rules.budget + over) * step * ROOM + 0.5))
            flag = Flag(key="way-out.budget", level="note", values={"budget_money": budget})
            yield WayOut(
                request=replace(request, rules=replace(request.rules, budget=budget)), flag=flag
            )


def _minutes(request: MenuRequest, gives: Sequence[Give]) -> Iterator[WayOut]:
    worst = max((g for g in gives if g.row.startswith("minutes/")), key=lambda g: g.over)
    meal = worst.row.split("/")[3]
    limit = float(round((worst.high + worst.over) * ROOM + 0.5))
    slots = tuple(
        replace(s, minutes_limit=limit) if s.meal == meal and s.minutes_limit is not None else s
        for s in request.slots
    )
    flag = Flag(key="way-out.minutes", level="note", values={"meal": meal, "limit_min": limit})
    yield WayOut(request=replace(request, slots=slots), flag=flag)


def _pot(request: MenuRequest, gives: Sequence[Give]) -> Iterator[WayOut]:
    """A larger pot in the place of one, the largest first."""
    worst = max((g for g in gives if g.row.startswith("pot/")), key=lambda g: g.over)
    pots = request.kit.pots
    if worst.high <= 0:
        return
    for n in sorted(range(len(pots)), key=lambda n: -pots[n].volume_ml):
        volume = pots[n].volume_ml * (worst.high + worst.over) / worst.high * ROOM
        volume = math.ceil(volume / STEP_ML) * STEP_ML
        larger = replace(pots[n], volume_ml=volume)
        kit = replace(request.kit, pots=(*pots[:n], larger, *pots[n + 1 :]))
        flag = Flag(key="way-out.pot", level="note", values={"pot_ml": volume, "pot": n})
        yield WayOut(request=replace(request, kit=kit), flag=flag)


def _several(
    request: MenuRequest, gives: Sequence[Give], means: Sequence[tuple[str, Means]]
) -> Iterator[WayOut]:  # fmt: skip
    """All of them at once, since none is enough alone: a little of each, then more."""
    for step in range(len(STEPS)):
        now, values = request, dict[str, float | int | str]()
        for _, make in means:
            found = list(make(now, gives))
            way = found[min(step, len(found) - 1)] if found else None
            if way is not None:
                now, values = way.request, {**values, **way.flag.values}
        key = "way-out." + "-and-".join(name for name, _ in means)
        yield WayOut(request=now, flag=Flag(key=key, level="note", values=values))


def _room(request: MenuRequest, gives: Sequence[Give]) -> Iterator[WayOut]:
    """More room in containers; the rule itself stands."""
    assert request.container_ml is not None
    over = max((g.over for g in gives if g.row.startswith("container/")), default=0.0)
    had, shown = request.container_ml, request.container_ml + over * ROOM
    for wish in (step * shown for step in STEPS) if over > 0 else (1.25 * had, 1.6 * had):
        extra = math.ceil((wish - had) / STEP_ML) * STEP_ML
        room = request.container_ml + extra
        flag = Flag(
            key="way-out.container", level="note",
            values={"more_ml": extra, "room_ml": room},
        )  # fmt: skip
        yield WayOut(request=replace(request, container_ml=room), flag=flag)


def _eat(request: MenuRequest, shares: Mapping[str, float]) -> Iterator[WayOut]:
    """The amount to eat that these foods and limits can bring: for the one walker who has to give,
    else the same share for everyone."""
    if not shares:
        return
    furthest = max if min(shares.values()) > 1.0 else min
    walker = furthest(shares, key=lambda w: shares[w])
    for slack in EAT_LESS if shares[walker] < 1.0 else EAT_MORE:
        share = shares[walker] * slack
        target = {
            w: {d: kcal * (share if w == walker or len(shares) > 1 else 1.0)
                for d, kcal in days.items()}
            for w, days in request.target_kcal.items()
        }  # fmt: skip
        most = {w: max(days.values(), default=0.0) for w, days in target.items()}
        if share < 1.0 and most[walker] < LEAST_KCAL:
            continue
        values: dict[str, float | int | str] = {"share": share}
        if len(shares) > 1:
            values |= {f"{EACH}{w}": kcal for w, kcal in most.items()}
        else:
            values |= {"walker": walker, "energy_kcal": most[walker]}
        key = "way-out.eat-all" if len(shares) > 1 else "way-out.eat"
        flag = Flag(key=key, level="note", values=values)
        yield WayOut(request=replace(request, target_kcal=target), flag=flag)


def _shares(gives: Sequence[Give]) -> dict[str, float]:
    """How much of what each walker wants to eat there can be; above 1 where it must be more."""
    out: dict[str, float] = {}
    for give in gives:
        rule, walker, *_ = give.row.split("/")
        if rule in ("energy-day", "energy-trip"):
            end = give.low - give.short if give.short > give.over else give.high + give.over
            share = end / (give.low if give.short else give.high)
            out[walker] = min(out.get(walker, share), share)
    return out


def _shares_of_room(request: MenuRequest, gives: Sequence[Give]) -> dict[str, float]:
    """As much less for everyone as money or room is short; where less than half of it fits into
    the container, only a larger one helps."""
    far = [g for g in gives if g.row.startswith(FAR) and g.over > 0 and g.high > 0]
    share = min((g.high / (g.high + g.over) for g in far), default=0.0)
    if share < LEAST_ROOM and any(g.row != BUDGET for g in far):
        return {}
    return dict.fromkeys(request.target_kcal, share) if share > 0 else {}


Means = Callable[[MenuRequest, Sequence[Give]], Iterator[WayOut]]
MEANS: tuple[tuple[str, str, Means], ...] = (
    ("budget", "packs", _money), ("minutes", "minutes", _minutes), ("pot", "pot", _pot),
    ("container", "container", _room),
)  # fmt: skip
"""What is written for each rule that gives, the gentlest first, with the name of its way out."""
