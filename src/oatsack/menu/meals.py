"""All sensible meals of one slot from a short list, and the cheapest of them for every energy.

Prices come from `menu/price`: what the aim and the rules that reach beyond the meal ask per dose.
The meal's own rules (one main, what carries what, few things, whole doses) are kept here, so that
`menu/days` only has to add meals up to days. Everything built so is checked on the exact matrix.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from itertools import combinations, islice

import numpy as np
import numpy.typing as npt

from oatsack.menu.frame import Frame, Option
from oatsack.menu.rules import drinks as drinks_rule
from oatsack.menu.rules import items as items_rule
from oatsack.menu.rules import taste as taste_rule
from oatsack.menu.rules import toppings as toppings_rule
from oatsack.menu.rules.toppings import (
    ONE_AT_A_MEAL,
    WISHES,
    Wish,
    helps,
    kind_of,
    needs_company,
)
from oatsack.menu.usual import Key
from oatsack.values.problem import Floats, Ints

BIN_KCAL = 10.0
MOST_BAGS = 2
"""Open bags of one walker at a time, that the first plan tries; ours."""
MAINS, EXTRAS, LEVELS = 6, 8, 3
"""Length of the short lists, and amounts of one food that are tried; ours."""
SUBSET = {"breakfast": 2, "lunch": 3, "move": 3, "dinner": 2, "drinks": 2}

Item = tuple[Option, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """Price of every column by aim and far-reaching rules, and reduced costs for ranking."""

    cost: Floats
    rank: Floats


@dataclass(slots=True, kw_only=True)
class Dish:
    """The cheapest meal around one base for every energy: `cost[b]` for about b x 10 kcal."""

    cost: Floats
    where: Ints
    bases: list[tuple[Item, ...]]
    sets: Ints
    """Sets of items, a row each, by number in `items`; -1 for none."""
    items: list[Item]

    def meal(self, b: int) -> tuple[Item, ...]:
        """What is chosen at that energy."""
        base, subset = divmod(int(self.where[b]), len(self.sets))
        return (*self.bases[base], *(self.items[i] for i in self.sets[subset] if i >= 0))


@dataclass(slots=True)
class Meals:
    """The cheapest meals of a slot, by main dish; a slot without mains has the one dish ""."""

    key: Key
    dishes: dict[str, Dish] = field(default_factory=dict)


def item_cost(prices: Prices, o: Option, doses: float, *, shared: bool) -> float:
    """What so many doses cost; the column of a shared dish is priced once, elsewhere."""
    cost = float(prices.cost[o.eat]) * doses
    if o.use not in (o.eat, -1) and not shared:
        cost += float(prices.cost[o.use])
    return cost


def rank_of(frame: Frame, prices: Prices, o: Option) -> float:
    """How far a food is from being worth it at this meal; 0 for what the relaxed answer takes.

    A shared dish ranks alike for everybody who shares it.
    """
    eaters = frame.sharers.get(o.use, [o])
    own = sum(float(prices.rank[e.eat]) * e.least for e in eaters)
    return own + (float(prices.rank[o.use]) if o.use not in (o.eat, -1) else 0.0)


def levels_of(o: Option) -> list[float]:
    """Amounts of one food that are tried."""
    count = int(o.most - o.least) + 1
    if count <= LEVELS:
        return [o.least + i for i in range(count)]
    return sorted({float(round(v)) for v in np.linspace(o.least, o.most, LEVELS)})


Mask = npt.NDArray[np.bool_]


def table_of(frame: Frame, key: Key, prices: Prices) -> Meals:
    """The cheapest meals of a slot, by dish and energy."""
    options = frame.options.get(key, [])
    open_options = sorted(
        (o for o in options if o.use >= 0), key=lambda o: (rank_of(frame, prices, o), o.food.id)
    )
    mains = list(islice((o for o in open_options if o.food.role == "main"), MAINS))
    others = [o for o in open_options if o.food.role != "main"]
    extras = others[:EXTRAS]
    extras += _company(key, mains, [*extras, *(o for o in options if o.use < 0)], others)
    out = Meals(key=key)
    if key[2] == "drinks":
        _drinks(frame, out, extras, prices)
        return out
    sets = _Sets(frame, key, extras, prices, [o for o in options if o.use < 0])
    if not mains or key[2] not in ("breakfast", "dinner"):
        _fill(out, "", sets, [()], prices, frame)
    for main in mains:
        bases: list[tuple[Item, ...]] = [((main, level),) for level in levels_of(main)]
        _fill(out, main.food.id, sets, bases, prices, frame)
    return out


def _company(
    key: Key, mains: list[Option], there: list[Option], others: list[Option]
) -> list[Option]:  # fmt: skip
    """What a main needs beside it and the short list does not hold: the nearest to be worth it."""
    out: list[Option] = []
    for o, wish in ((o, wish) for o in mains for wish in WISHES):
        if wish.asks(o, key) and not any(wish.met_by(c, o) for c in [*there, *out]):
            out += [c for c in others if wish.met_by(c, o)][:1]
    return out


class _Sets:
    """Sets of sides, toppings and snacks that may be taken together, with cost and energy."""

    def __init__(
        self, frame: Frame, key: Key, extras: list[Option], prices: Prices, picked: list[Option]
    ) -> None:
        self.frame, self.key = frame, key
        self.items: list[Item] = [(o, level) for o in extras for level in levels_of(o)]
        self.picked = picked
        self.cost = np.array([item_cost(prices, o, n, shared=False) for o, n in self.items])
        self.kcal = np.array([o.facts.kcal * n for o, n in self.items])
        self.most = items_rule.RULE.value(frame, key[2]) - sum(
            1 for o in picked if o.why in ("usual", "held")
        )
        if key[2] == "move" and frame.day_bags(key[0], key[1]):
            self.most = max(1.0, self.most - MOST_BAGS)
        self.toppings = toppings_rule.RULE.value(frame, "most_toppings")
        self.sets = self._allowed(_subsets(len(self.items), SUBSET[key[2]]))
        self.needs = [needs_company(o, key) for o, _ in self.items]
        self.lonely = self._lonely()

    def _allowed(self, sets: Ints) -> Ints:
        """Each food once, not too many toppings, not too many things."""
        if not self.items:
            return sets
        kinds = [_kind(o) for o, _ in self.items]
        alike = np.array([kinds.index(kind) for kind in kinds] + [-1])
        topping = np.array([o.food.role == "topping" for o, _ in self.items] + [False])
        ok = np.ones(len(sets), bool)
        for a, b in combinations(range(sets.shape[1]), 2):
            ok &= (alike[sets[:, a]] != alike[sets[:, b]]) | (sets[:, b] < 0)
        ok &= topping[sets].sum(axis=1) <= self.toppings
        ok &= (sets >= 0).sum(axis=1) <= max(1.0, self.most)
        return sets[ok]

    def needs_met(self, base: tuple[Item, ...]) -> Mask:
        """Which sets stand beside this base: every topping carried, no bread dry."""
        around = [o for o, _ in base] + self.picked
        ok = (self.sets >= 0).sum(axis=1) + len(base) <= max(len(base), self.most)
        for o, _ in base:
            if o.food.role != "main":
                ok &= self._met(o, [c for c in around if c is not o])
        for _, belongs in ONE_AT_A_MEAL:
            if any(belongs(o.food) for o in around):
                more = np.array([belongs(o.food) for o, _ in self.items] + [False])
                ok &= ~more[self.sets].any(axis=1)
        helped = [any(helps(c, o) for c in around) for o, _ in self.items]
        return np.asarray(ok & ~(self.lonely & ~np.array([*helped, True])[self.sets]).any(axis=1))

    def _lonely(self) -> Mask:
        """By set and place: what stands there needs company and nothing in its own set is any."""
        count, options = len(self.items), {id(o): o for o, _ in self.items}
        good = np.zeros((count + 1, count + 1), bool)
        known = {(a, b): helps(options[a], options[b]) for a in options for b in options}
        for i, (o, _) in enumerate(self.items):
            good[:count, i] = [known[(id(c), id(o))] for c, _ in self.items]
        needs = np.array([*self.needs, False])[self.sets]
        met = [good[self.sets, self.sets[:, [a]]].any(axis=1) for a in range(self.sets.shape[1])]
        return np.asarray(needs & ~np.stack(met, axis=1))

    def _met(self, o: Option, around: list[Option], wish: Wish = WISHES[0]) -> Mask:
        """Which sets hold company for one thing, as far as it needs any."""
        if not wish.asks(o, self.key) or any(wish.met_by(c, o) for c in around):
            return np.ones(len(self.sets), bool)
        good = np.array([wish.met_by(c, o) for c, _ in self.items] + [False])
        return np.asarray(good[self.sets].any(axis=1), bool)

    def plain_cost(self, base: tuple[Item, ...]) -> Floats:
        """What each set costs beside this base for a main that stays plain or bare."""
        out = np.zeros(len(self.sets))
        for o, _ in base:
            for wish in WISHES if o.food.role == "main" else ():
                met = self._met(o, self.picked, wish)
                out += np.where(met, 0.0, wish.grams(self.frame, o))
        return out + self._sweet_cost(base)

    def _sweet_cost(self, base: tuple[Item, ...]) -> Floats:
        """What a lunch that is only sweet, or bread and sweet, costs with each set."""
        if not taste_rule.hearty(self.frame, self.key):
            return np.zeros(len(self.sets))
        good = np.array([taste_rule.is_hearty(o.food) for o, _ in self.items] + [False])
        met = good[self.sets].any(axis=1) | any(taste_rule.is_hearty(o.food) for o, _ in base)
        grams = taste_rule.RULE.value(self.frame, "sweet_lunch_grams") * self.frame.mean_carry
        return np.where(met, 0.0, grams)


def _kind(o: Option) -> str:
    """Of one kind one is taken: the same food, soups, breads, toppings of a class."""
    for name, belongs in ONE_AT_A_MEAL:
        if belongs(o.food):
            return f"one {name}"
    return kind_of(o) if o.food.role == "topping" else o.food.id


@cache
def _subsets(count: int, size: int) -> Ints:
    """All sets of up to `size` of `count` things, -1 for none, as rows."""
    rows = [(-1,) * size]
    for n in range(1, size + 1):
        rows += [(*c, *(-1,) * (size - n)) for c in combinations(range(count), n)]
    return np.array(rows, np.int64)


def _fill(
    out: Meals, dish: str, sets: _Sets, bases: list[tuple[Item, ...]], prices: Prices, frame: Frame
) -> None:
    """The cheapest combination of a base and a set for every bin of energy."""
    met = sets.needs_met(bases[0])
    if out.key[2] == "lunch" and not bases[0] and not sets.picked:
        met &= (sets.sets >= 0).any(axis=1) | (not sets.items)
    chosen = sets.sets[met]
    if len(chosen) == 0:
        return
    extra_cost, extra_kcal = np.append(sets.cost, 0.0), np.append(sets.kcal, 0.0)
    set_cost, set_kcal = extra_cost[chosen].sum(axis=1), extra_kcal[chosen].sum(axis=1)
    set_cost = set_cost + sets.plain_cost(bases[0])[met]
    fixed_kcal = sum(o.facts.kcal * o.most for o in sets.picked)
    base_cost = np.array([sum(item_cost(prices, o, n, shared=_is_shared(frame, o))
                              for o, n in base) for base in bases])  # fmt: skip
    base_kcal = np.array([sum(o.facts.kcal * n for o, n in base) for base in bases]) + fixed_kcal
    cost = (base_cost[:, None] + set_cost[None, :]).ravel()
    bins = np.rint((base_kcal[:, None] + set_kcal[None, :]) / BIN_KCAL).astype(np.int64).ravel()
    best, where = cheapest(cost, bins)
    out.dishes[dish] = Dish(cost=best, where=where, bases=bases, sets=chosen, items=sets.items)


def cheapest(cost: Floats, bins: Ints) -> tuple[Floats, Ints]:
    """Per bin the least cost and where it stands; infinite and -1 where a bin is empty."""
    size = int(bins.max()) + 1
    best, where = np.full(size, np.inf), np.full(size, -1, np.int64)
    order = np.argsort(-cost, kind="stable")
    best[bins[order]] = cost[order]
    where[bins[order]] = order
    return best, where


def _is_shared(frame: Frame, o: Option) -> bool:
    return frame.builder.columns[o.use].startswith("dish/")


def _drinks(frame: Frame, out: Meals, extras: list[Option], prices: Prices) -> None:
    """As many drinks as wanted, of one or two kinds; one that is missing has its price."""
    picked = [o for o in frame.options.get(out.key, ()) if o.use < 0]
    left = int(drinks_rule.drinks_left(frame, out.key))
    fixed = sum(o.facts.kcal * o.most for o in picked)
    sets: list[tuple[Item, ...]] = [()]
    for a, b in combinations(extras, 2):
        sets += [((a, 1.0), (b, float(left - 1)))] if 2 <= left <= b.most + 1 else []
    sets += [((o, float(left)),) for o in extras if 1 <= left <= o.most]
    miss = drinks_rule.RULE.value(frame, "grams") * frame.mean_carry
    cost = np.array([
        sum(item_cost(prices, o, n, shared=False) for o, n in s)
        + miss * (left - sum(n for _, n in s)) for s in sets
    ])  # fmt: skip
    kcal = np.array([fixed + sum(o.facts.kcal * n for o, n in s) for s in sets])
    best, where = cheapest(cost, np.rint(kcal / BIN_KCAL).astype(np.int64))
    none = np.zeros((1, 0), np.int64)
    out.dishes[""] = Dish(cost=best, where=where, bases=sets, sets=none, items=[])
