"""Caffeine by walker and day against what is held harmless, and habits that would break off.

Figures of foods come from the larder. What no label states counts as nothing towards a habit, and
against a limit as the high value of its kind of food, said as such (C2). No medical advice: one
quiet line, and who to ask.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from oatsack.values.classes import high_of
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import CaffeineLine
from oatsack.values.menu import Menu
from oatsack.values.route import Day
from oatsack.values.walker import Walker

DAY_MG = 400.0
SINGLE_MG = 200.0
EXPECTING_DAY_MG = 200.0
"""Adults per day, at once, and per day when pregnant or nursing. Source: EfsaCaffeine2015."""
YOUNG_DAY_MG_KG, ADULT_FROM_YEARS = 3.0, 18.0
"""Children and adolescents, per day and kg of body mass. Source: EfsaCaffeine2015."""
USED_MG = 100.0
"""Someone used to this much a day notices when it stops. Ours, planning prior."""
CONTINUITY = 0.5
"""A day below this share of the habit counts as breaking off. Ours."""


def dose_mg(food: Food, *, high: bool = False) -> float:
    """Caffeine of one dose [mg]; a blank is nothing, or its kind's high value if `high` (C2)."""
    stated = food.per_dose("caffeine_mg")
    if stated is None and high:
        return food.dose_g / 100.0 * high_of(food, "caffeine_mg")
    return stated or 0.0


def by_day_mg(
    menu: Menu, foods: Mapping[str, Food], *, high: bool = False
) -> dict[str, dict[int, float]]:
    """Walker -> day -> caffeine of all portions [mg]; blanks as in `dose_mg`."""
    out: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    for p in menu.portions:
        out[p.walker][p.day] += p.doses * dose_mg(foods[p.food], high=high)
    return {walker: dict(days) for walker, days in out.items()}


def single_mg(
    menu: Menu, foods: Mapping[str, Food], walker: str, *, high: bool = False
) -> float:
    """The strongest single thing a walker takes [mg]: one dose, or all doses of one meal's food;
    blanks as in `dose_mg`."""
    strongest = 0.0
    for p in menu.portions:
        if p.walker == walker:
            at_once = 1.0 if p.meal in ("drinks", "move") else p.doses
            strongest = max(strongest, at_once * dose_mg(foods[p.food], high=high))
    return strongest


def caffeine_lines(
    menu: Menu, foods: Mapping[str, Food], walkers: Sequence[Walker]
) -> dict[str, CaffeineLine]:
    """Walker -> caffeine of the strongest day and thing beside the limits, whoever takes any."""
    amounts = by_day_mg(menu, foods)
    out = {}
    for walker in walkers:
        mine = amounts.get(walker.id, {})
        most = max(mine, key=lambda day: mine[day], default=None)
        if most is not None and mine[most] > 0:
            out[walker.id] = CaffeineLine(
                most_mg=mine[most], most_day=most, day_cap_mg=day_limit_mg(walker),
                single_mg=single_mg(menu, foods, walker.id), single_cap_mg=single_limit_mg(walker),
                usual_mg=walker.caffeine_mg_day,
            )  # fmt: skip
    return out


def day_limit_mg(walker: Walker) -> float:
    """Caffeine per day held harmless for this walker [mg]; the least of what applies."""
    limits = {"day": DAY_MG, "expecting": EXPECTING_DAY_MG,
              "young": YOUNG_DAY_MG_KG * walker.mass_kg}  # fmt: skip
    return limits[_whose(walker)]


def single_limit_mg(walker: Walker) -> float:
    """Caffeine at once held harmless for this walker [mg]."""
    return min(SINGLE_MG, day_limit_mg(walker))


def _whose(walker: Walker) -> Literal["day", "expecting", "young"]:
    """Whose daily limit applies: a grown-up's, or that of somebody to be careful with."""
    if walker.age_years is not None and walker.age_years < ADULT_FROM_YEARS:
        return "young"
    return "expecting" if walker.condition in ("pregnant", "nursing") else "day"


def caffeine_flags(
    menu: Menu, foods: Mapping[str, Food], *, walkers: Sequence[Walker], days: Sequence[Day]
) -> Iterator[Flag]:
    """One line per walker and kind at most, for the worst day."""
    amounts, highs = by_day_mg(menu, foods), by_day_mg(menu, foods, high=True)
    for walker in walkers:
        mine, most = (
            {day.number: of.get(walker.id, {}).get(day.number, 0.0) for day in days}
            for of in (amounts, highs)
        )
        found = [*_too_much(walker, mine, single_mg(menu, foods, walker.id))]
        yield from found
        if not found:
            once = single_mg(menu, foods, walker.id, high=True)
            yield from _perhaps(walker, most, once, _unread(menu, foods, walker.id))
        yield from _broken_off(walker, mine)


def _unread(menu: Menu, foods: Mapping[str, Food], walker: str) -> list[str]:
    """Foods of a walker whose label does not state caffeine and whose kind may hold some, those
    that may hold most of it in a portion first."""
    most: dict[str, float] = {}
    for p in menu.portions:
        food = foods[p.food]
        if p.walker == walker and food.per_dose("caffeine_mg") is None:
            most[p.food] = max(most.get(p.food, 0.0), p.doses * dose_mg(food, high=True))
    return sorted((food for food, mg in most.items() if mg > 0.0), key=lambda f: (-most[f], f))


def _perhaps(
    walker: Walker, most: Mapping[int, float], once: float, unread: Sequence[str]
) -> Iterator[Flag]:
    """What is stated keeps to the limits, and what is not may not (C2)."""
    worst = max(most, key=lambda d: most[d], default=None)
    if worst is None or not unread:
        return
    limit, at_once = day_limit_mg(walker), single_limit_mg(walker)
    if most[worst] > limit or once > at_once:
        daily = most[worst] > limit
        yield Flag(
            key="kitchen.caffeine-unread", level="quiet", scope=f"eaten/{walker.id}/{worst}",
            values={"walker": walker.id, "caffeine_mg": most[worst] if daily else once,
                    "limit_mg": limit if daily else at_once, "food": unread[0], "n": len(unread)},
            source="EfsaCaffeine2015",
        )  # fmt: skip


def _too_much(walker: Walker, mine: Mapping[int, float], single: float) -> Iterator[Flag]:
    limit, at_once, whose = day_limit_mg(walker), single_limit_mg(walker), _whose(walker)
    worst = max(mine, key=lambda d: mine[d], default=None)
    if worst is not None and mine[worst] > limit:
        yield Flag(
            key=f"kitchen.caffeine-{whose}", level="quiet" if whose == "day" else "caution",
            scope=f"eaten/{walker.id}/{worst}",
            values={"walker": walker.id, "caffeine_mg": mine[worst], "limit_mg": limit,
                    "day": worst},
            source="EfsaCaffeine2015",
        )  # fmt: skip
    if single > at_once:
        yield Flag(
            key="kitchen.caffeine-single", level="quiet", scope=f"eaten/{walker.id}",
            values={"walker": walker.id, "caffeine_mg": single, "limit_mg": at_once},
            source="EfsaCaffeine2015",
        )  # fmt: skip


def _broken_off(walker: Walker, mine: Mapping[int, float]) -> Iterator[Flag]:
    """Whole days on which someone used to coffee gets little of it; first and last day apart."""
    habit = walker.caffeine_mg_day
    if habit is None or habit < USED_MG:
        return
    inner = sorted(mine)[1:-1] or sorted(mine)
    poor = [day for day in inner if mine[day] < CONTINUITY * habit]
    if poor:
        yield Flag(
            key="kitchen.caffeine-less", level="quiet", scope=f"eaten/{walker.id}/{poor[0]}",
            values={"walker": walker.id, "caffeine_mg": mine[poor[0]], "habit_mg": habit,
                    "day": poor[0], "days": len(poor)},
            source="common practice",
        )  # fmt: skip
