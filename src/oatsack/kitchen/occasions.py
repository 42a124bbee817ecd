"""Turns a menu into what is cooked together: one occasion per day, meal and pot group.

Knows which portions take boiling water, a pot, cold water or nothing, and to which meal a hot drink
belongs. Knows nothing of pots or burners: `cooking` puts an occasion on the clock.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field
from math import ceil

from oatsack.kitchen.price import SOLID_G_ML, in_bottle, in_mug, in_pot
from oatsack.values.food import Food, Meal
from oatsack.values.menu import Portion

COOKED_MEALS: tuple[Meal, ...] = ("breakfast", "lunch", "move", "dinner", "drinks")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """Boiling water for one food, all who have it together: into its bag, a bowl or mugs."""

    food: str
    water_ml: float
    wait_min: float
    portions: int
    """How many bags, bowls or mugs: each takes its time to pour."""
    mug: bool = False
    pots: tuple[int, ...] = ()
    """The pots whose water goes there, by their place in the kitchen; empty: any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dish:
    """A food made in a pot for all who have it."""

    food: str
    water_ml: float
    solids_g: float
    simmer_min: float
    wait_min: float
    portions: int
    pots: tuple[int, ...] = ()

    @property
    def room_ml(self) -> float:
        """Food with its water, without head room [ml]."""
        return self.water_ml + self.solids_g / SOLID_G_ML


@dataclass(frozen=True, slots=True, kw_only=True)
class Soak:
    """Cold water on a food, and how long it stands before it is eaten."""

    food: str
    water_ml: float
    wait_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """All that one pot group makes at one meal."""

    day: int
    meal: Meal
    walkers: tuple[str, ...]
    pours: tuple[Pour, ...] = ()
    dishes: tuple[Dish, ...] = ()
    soaks: tuple[Soak, ...] = ()
    bowls: int = 0
    """Bowls of walkers to be rinsed, emptied pouches taken off."""
    pouch_bowls: tuple[str, ...] = ()
    water_ml: Mapping[str, float] = field(default_factory=dict)
    """Walker -> cooking water of this meal, drinks apart."""
    drinks_ml: Mapping[str, float] = field(default_factory=dict)
    """Walker -> hot drinks of this meal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Helping:
    """One portion with its food, put to the meal at which it is made."""

    walker: str
    day: int
    meal: Meal
    food: Food
    doses: float
    cold: bool = False
    """Made with cold water although it is meant hot."""

    @property
    def water_ml(self) -> float:
        """Water it takes [ml]."""
        return self.doses * self.food.prep.water_ml

    @property
    def hot(self) -> bool:
        """Whether it takes a flame."""
        return self.food.prep.kind in ("boil", "simmer") and not self.cold

    @property
    def mug(self) -> bool:
        """Whether it is a hot drink."""
        return self.hot and in_mug(self.food)


def helpings(
    portions: Iterable[Portion], foods: Mapping[str, Food], *, flame: bool = True
) -> tuple[Helping, ...]:
    """Every portion that needs water in a kitchen, hot drinks shared out over the day's meals.

    What is stirred into a bottle belongs to drinking water, not here. Without a flame everything
    is made cold.
    """
    wet = [p for p in portions if p.doses > 0 and takes_water(foods[p.food])]
    meals: dict[tuple[str, int], set[Meal]] = defaultdict(set)
    for p in portions:
        meals[p.walker, p.day].add(p.meal)
    out = []
    for p in wet:
        food = foods[p.food]
        cold = not flame and food.prep.kind in ("boil", "simmer")
        for meal, doses in made_at(p, meals[p.walker, p.day]):
            out.append(
                Helping(walker=p.walker, day=p.day, meal=meal, food=food, doses=doses, cold=cold)
            )
    return tuple(out)


def takes_water(food: Food) -> bool:
    """Whether a kitchen gives it water of its own."""
    return food.prep.kind != "none" and not in_bottle(food)


def made_at(portion: Portion, meals: Set[Meal]) -> list[tuple[Meal, float]]:
    """At which of a day's meals a portion is made, and how many doses: drinks go half to breakfast,
    half to dinner."""
    if portion.meal != "drinks":
        return [(portion.meal, portion.doses)]
    homes: list[Meal] = [meal for meal in ("breakfast", "dinner") if meal in meals]
    if len(homes) < 2:
        return [(homes[0] if homes else "drinks", portion.doses)]
    first = float(ceil(portion.doses / 2.0))
    parts = [(homes[0], first), (homes[1], portion.doses - first)]
    return [(meal, doses) for meal, doses in parts if doses > 0]


def occasions(
    served: Sequence[Helping], groups: Mapping[str, tuple[str, ...]],
    pots_of: Mapping[str, tuple[int, ...]] | None = None,
) -> tuple[Occasion, ...]:  # fmt: skip
    """Occasions in order of day and meal, for each kitchen (name -> walkers).

    `pots_of`: walker -> the pots of that kitchen they eat from; None: any. What is made for walkers
    of different pots is made apart.
    """
    group_of = {walker: name for name, members in groups.items() for walker in members}
    heap: dict[tuple[int, int, str], list[Helping]] = defaultdict(list)
    for h in served:
        heap[h.day, COOKED_MEALS.index(h.meal), group_of[h.walker]].append(h)
    pouches: dict[str, int] = defaultdict(int)
    return tuple(_occasion(heap[key], pouches, pots_of or {}) for key in sorted(heap))


def _occasion(
    served: list[Helping], pouches: dict[str, int], pots_of: Mapping[str, tuple[int, ...]]
) -> Occasion:
    reused = _bowls(served, pouches)
    bowls = {h.walker for h in served if _wants_bowl(h)}
    return Occasion(
        day=served[0].day,
        meal=served[0].meal,
        walkers=tuple(sorted({h.walker for h in served})),
        pours=_pours([h for h in served if h.hot and not in_pot(h.food)], pots_of),
        dishes=_dishes([h for h in served if h.hot and in_pot(h.food)], pots_of),
        soaks=_soaks([h for h in served if not h.hot]),
        bowls=len(bowls) - len(reused),
        pouch_bowls=tuple(reused),
        water_ml=_by_walker(h for h in served if not h.mug),
        drinks_ml=_by_walker(h for h in served if h.mug),
    )


def _wants_bowl(helping: Helping) -> bool:
    """Eaten neither from its bag, nor drunk from a mug."""
    prep = helping.food.prep
    return not prep.from_bag and not helping.mug and prep.kind != "none"


def _bowls(served: Sequence[Helping], pouches: dict[str, int]) -> list[str]:
    """Who eats from a pouch emptied earlier; counts the pouches that this meal empties (C10).

    A pouch serves the same eater once more, and is a rubbish bag after that.
    """
    reused = sorted({h.walker for h in served if _wants_bowl(h) and pouches[h.walker] > 0})
    for walker in reused:
        pouches[walker] -= 1
    for h in served:
        if h.food.prep.from_bag and h.food.pouch is not None and h.food.pouch.stands:
            pouches[h.walker] += ceil(h.doses)
    return reused


def _by_walker(served: Iterable[Helping]) -> dict[str, float]:
    out: dict[str, float] = defaultdict(float)
    for h in served:
        out[h.walker] += h.water_ml
    return dict(sorted(out.items()))


def _by_food(served: Iterable[Helping]) -> dict[str, list[Helping]]:
    out: dict[str, list[Helping]] = defaultdict(list)
    for h in served:
        out[h.food.id].append(h)
    return dict(sorted(out.items()))


def _by_pot(
    served: Iterable[Helping], pots_of: Mapping[str, tuple[int, ...]]
) -> list[tuple[tuple[int, ...], str, list[Helping]]]:
    """Helpings by food, apart where the eaters have different pots."""
    parts: dict[tuple[int, ...], list[Helping]] = defaultdict(list)
    for h in served:
        parts[pots_of.get(h.walker, ())].append(h)
    return [(pots, food, group) for pots in sorted(parts)
            for food, group in _by_food(parts[pots]).items()]  # fmt: skip


def _pours(
    served: Sequence[Helping], pots_of: Mapping[str, tuple[int, ...]]
) -> tuple[Pour, ...]:
    """Meals before mugs, the longest wait first."""
    found = [
        Pour(
            food=food,
            pots=pots,
            water_ml=sum(h.water_ml for h in group),
            wait_min=group[0].food.prep.wait_min,
            portions=_vessels(group),
            mug=group[0].mug,
        )
        for pots, food, group in _by_pot(served, pots_of)
    ]
    return tuple(sorted(found, key=lambda p: (p.mug, -p.wait_min, p.food)))


def _vessels(group: Sequence[Helping]) -> int:
    """Bags of each dose, mugs of each dose, or one bowl each."""
    if group[0].mug or group[0].food.prep.from_bag:
        return sum(ceil(h.doses) for h in group)
    return len({h.walker for h in group})


def _dishes(
    served: Sequence[Helping], pots_of: Mapping[str, tuple[int, ...]]
) -> tuple[Dish, ...]:
    found = [
        Dish(
            food=food,
            pots=pots,
            water_ml=sum(h.water_ml for h in group),
            solids_g=sum(h.doses * h.food.dose_g for h in group),
            simmer_min=group[0].food.prep.simmer_min,
            wait_min=group[0].food.prep.wait_min,
            portions=len({h.walker for h in group}),
        )
        for pots, food, group in _by_pot(served, pots_of)
    ]
    return tuple(sorted(found, key=lambda d: (-(d.simmer_min + d.wait_min), d.food)))


def _soaks(served: Sequence[Helping]) -> tuple[Soak, ...]:
    return tuple(
        Soak(
            food=food,
            water_ml=sum(h.water_ml for h in group),
            wait_min=group[0].food.prep.cold_soak_min or group[0].food.prep.wait_min,
        )
        for food, group in _by_food(served).items()
    )
