"""The question laid out for the rules: every possible portion and open bag with its columns.

`lay` makes the columns; `menu/rules` write rows over them and `menu/aims` price them. Columns are
named ``eat/walker/day/meal/food`` (whole doses), ``use/...`` (0 or 1: taken at all), ``dish/group/
day/meal/food`` (the main a cook group shares) and ``bag/walker/first-last/food`` (packs).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from oatsack.menu.allowed import Gate, reason_against, reason_any_day, reason_on_day
from oatsack.menu.eaten import Eaten
from oatsack.menu.facts import Facts, facts_of
from oatsack.menu.groups import Group, cook_groups
from oatsack.menu.sizes import bag_most_g, doses_between
from oatsack.menu.slots import MEAL_SHARE
from oatsack.menu.usual import Bag, Given, Key, given_of
from oatsack.values.food import Food, Meal
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest, Slot, Why
from oatsack.values.pots import pot_mates
from oatsack.values.problem import Builder
from oatsack.values.walker import Walker

BAG_KCAL_DAY = (110.0, 650.0)
"""Least and most that one open bag brings on a day; ours."""
BAG_USUAL_KCAL = (200.0, 330.0, 500.0)
"""Daily amounts at which bags are offered; ours."""
MEAL_MOST = 1.5
"""Most of a meal's usual energy that one food may bring."""
FREE = DosePrice()


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One possible portion: its slot and food, its columns, its least and most doses."""

    slot: Slot
    food: Food
    facts: Facts
    eat: int
    use: int
    """0 or 1. The dish column of the cook group where a main is shared; -1 for a fixed portion."""
    least: float
    most: float
    why: Why = "chosen"

    @property
    def key(self) -> Key:
        """Walker, day, meal."""
        return (self.slot.walker, self.slot.day, self.slot.meal)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenBag:
    """One possible open bag: packs of a food nibbled evenly over these days."""

    bag: Bag
    facts: Facts
    column: int
    fixed: bool
    doses_day: float
    """Doses that one pack brings on each of its days."""


@dataclass(slots=True)
class Frame:
    """Everything the rules and aims read and write."""

    request: MenuRequest
    gate: Gate
    given: Given
    groups: tuple[Group, ...]
    builder: Builder
    walkers: Mapping[str, Walker]
    facts: Mapping[str, Facts]
    slots: dict[Key, Slot] = field(default_factory=dict)
    options: dict[Key, list[Option]] = field(default_factory=lambda: defaultdict(list))
    bags: dict[str, list[OpenBag]] = field(default_factory=lambda: defaultdict(list))
    days: dict[str, list[int]] = field(default_factory=dict)
    day_keys: dict[tuple[str, int], list[Key]] = field(default_factory=lambda: defaultdict(list))
    sharers: dict[int, list[Option]] = field(default_factory=lambda: defaultdict(list))
    """Column of a shared dish -> the portion of everybody who shares it."""
    buy: dict[str, int] = field(default_factory=dict)
    """Food -> column of packs to buy, where packs are counted."""
    mean_carry: float = 1.0
    open_on: dict[tuple[str, int], list[OpenBag]] = field(default_factory=lambda: defaultdict(list))
    of_day: dict[tuple[str, int], list[Option]] = field(default_factory=dict)
    """Options by walker and day, once they are all laid."""
    windows: dict[tuple[str, int], tuple[float, float]] = field(default_factory=dict)
    """Least and most energy of a walker's day, once asked for [kcal]."""
    eaten: tuple[Eaten, ...] = ()
    """Every column through which food is eaten, once an aim has asked for them."""
    may_stand: dict[tuple[str, Meal, bool], list[Food]] = field(default_factory=dict)

    def setting(self, name: str, default: float) -> float:
        """A rule's setting, the walker's where given."""
        return self.request.settings.get(name, default)

    def target(self, walker: str, day: int) -> float:
        """What this walker is to eat on this day [kcal]."""
        return self.request.target_kcal.get(walker, {}).get(day, 0.0)

    def meal_kcal(self, slot: Slot) -> float:
        """What this meal usually brings of its day's target [kcal]."""
        keys = self.day_keys[(slot.walker, slot.day)]
        total = sum(MEAL_SHARE[self.slots[key].meal] for key in keys)
        if total <= 0:
            return 0.0
        return self.target(slot.walker, slot.day) * MEAL_SHARE[slot.meal] / total

    def price(self, food: Food, day: int) -> DosePrice:
        """What one dose costs in that day's kitchen."""
        return self.request.prices.get((food.id, day), FREE)

    def day_options(self, walker: str, day: int) -> list[Option]:
        """Every option of one walker on one day."""
        at = (walker, day)
        if at not in self.of_day:
            self.of_day[at] = [o for key in self.day_keys[at] for o in self.options.get(key, ())]
        return self.of_day[at]

    def day_bags(self, walker: str, day: int) -> list[OpenBag]:
        """Every bag of one walker that lies open on one day."""
        return self.open_on.get((walker, day), [])

    def slack(self, name: str, cost: float) -> int:
        """A column that measures how far a soft wish is missed, at so much of the aim per unit."""
        return self.builder.column(name, integer=False, cost=cost)


def lay(request: MenuRequest) -> Frame:
    """The frame with all its columns; no rows and no costs yet."""
    groups = cook_groups(request)
    mates = {w: frozenset(g.walkers) for g in groups for w in g.walkers}
    walkers = {w.id: w for w in request.walkers}
    met = pot_mates(request.kit.pots, list(walkers), [g.walkers for g in groups])
    gate = Gate(request=request, walkers=walkers, mates=mates, pot_mates=met)
    frame = Frame(
        request=request, gate=gate, given=given_of(request, gate), groups=groups,
        builder=Builder(), walkers=walkers, facts={f.id: facts_of(f) for f in request.foods},
    )  # fmt: skip
    for slot in request.slots:
        key: Key = (slot.walker, slot.day, slot.meal)
        frame.slots[key] = slot
        frame.day_keys[(slot.walker, slot.day)].append(key)
        days = frame.days.setdefault(slot.walker, [])
        if slot.day not in days:
            days.append(slot.day)
    carries = [slot.carry_days for slot in request.slots]
    frame.mean_carry = max(1.0, sum(carries) / len(carries)) if carries else 1.0
    _fixed_columns(frame)
    _dish_columns(frame)
    for slot in request.slots:
        _slot_columns(frame, slot)
    for walker in request.walkers:
        _bag_columns(frame, walker.id)
    return frame


def _fixed_columns(frame: Frame) -> None:
    sums: dict[tuple[Key, str, Why], float] = defaultdict(float)
    foods: dict[str, Food] = {}
    for one in frame.given.fixed:
        key = (one.slot.walker, one.slot.day, one.slot.meal)
        sums[(key, one.food.id, one.why)] += one.doses
        foods[one.food.id] = one.food
    for (key, name, why), doses in sums.items():
        column = frame.builder.column(
            f"{why}/{key[0]}/{key[1]}/{key[2]}/{name}", low=doses, high=doses, integer=False
        )
        frame.options[key].append(
            Option(slot=frame.slots[key], food=foods[name], facts=frame.facts[name], eat=column,
                   use=-1, least=doses, most=doses, why=why)
        )  # fmt: skip


def has_main(frame: Frame, key: Key) -> bool:
    """Whether the walker picked or held a main at this meal."""
    return any(o.food.role == "main" and o.use < 0 for o in frame.options.get(key, ()))


def shares_dish(frame: Frame, group: Group, day: int, meal: Meal) -> list[str]:
    """Members of a cook group who share the dish then: those who picked nothing of their own."""
    return [
        w for w in group.walkers
        if (w, day, meal) in frame.slots and (w, day, meal) not in frame.given.whole
        and not has_main(frame, (w, day, meal))
    ]  # fmt: skip


def _dish_columns(frame: Frame) -> None:
    for group in frame.groups:
        days = sorted({d for w, d, m in frame.slots if m == "dinner" and w in group.walkers})
        for day in days:
            members = shares_dish(frame, group, day, "dinner")
            for food in _common_mains(frame, members, day) if len(members) > 1 else ():
                name = f"dish/{group.name}/{day}/dinner/{food.id}"
                use = frame.builder.column(name, high=1.0)
                for walker in members:
                    slot = frame.slots[(walker, day, "dinner")]
                    frame.sharers[use].append(_option(frame, slot, food, use))


def _common_mains(frame: Frame, members: list[str], day: int) -> list[Food]:
    slots = [frame.slots[(w, day, "dinner")] for w in members]
    return [
        food for food in frame.request.foods
        if food.role == "main" and all(reason_against(frame.gate, food, s) is None for s in slots)
    ]  # fmt: skip


def _slot_columns(frame: Frame, slot: Slot) -> None:
    key = (slot.walker, slot.day, slot.meal)
    if key in frame.given.whole:
        return
    mate_count = len(frame.gate.mates.get(slot.walker, ()))
    shared = slot.meal == "dinner" and mate_count > 1 and _eats_with_others(frame, slot)
    own_main = has_main(frame, key)
    held = {o.food.id for o in frame.options.get(key, ()) if o.why == "held"}
    for food in _may_stand(frame, slot):
        if food.id in held:
            continue  # the walker's count is the count
        if food.role == "main" and (shared or own_main):
            continue
        if is_bag(food) and slot.meal == "move":
            continue
        if reason_on_day(frame.gate, food, slot) is None:
            _option(frame, slot, food, None)


def _may_stand(frame: Frame, slot: Slot) -> list[Food]:
    """Foods that no gate refuses at this meal of this walker, whatever the day."""
    kind = (slot.walker, slot.meal, slot.hot)
    if kind not in frame.may_stand:
        frame.may_stand[kind] = [
            f for f in frame.request.foods if reason_any_day(frame.gate, f, slot) is None
        ]
    return frame.may_stand[kind]


def _eats_with_others(frame: Frame, slot: Slot) -> bool:
    group = next(g for g in frame.groups if slot.walker in g.walkers)
    members = shares_dish(frame, group, slot.day, "dinner")
    return slot.walker in members and len(members) > 1


def is_bag(food: Food) -> bool:
    """Whether it is nibbled from its own pack over days."""
    return food.carry == "bag" and "move" in food.meals and food.role in ("snack", "side", "main")


def _option(frame: Frame, slot: Slot, food: Food, use: int | None) -> Option:
    kcal = MEAL_MOST * frame.meal_kcal(slot)
    if slot.meal == "drinks":
        kcal = 250.0
    least, most = doses_between(food, slot.meal, max(kcal, 1.0))
    where = f"{slot.walker}/{slot.day}/{slot.meal}/{food.id}"
    eat = frame.builder.column(f"eat/{where}", high=float(most))
    if use is None:
        use = eat if most == 1 else frame.builder.column(f"use/{where}", high=1.0)
    option = Option(slot=slot, food=food, facts=frame.facts[food.id], eat=eat, use=use,
                    least=float(least), most=float(most))  # fmt: skip
    frame.options[(slot.walker, slot.day, slot.meal)].append(option)
    return option


def _bag_columns(frame: Frame, walker: str) -> None:
    for number, bag in enumerate(b for b in frame.given.bags if b.walker == walker):
        name = f"usual-bag/{walker}/{bag.days[0]}-{bag.days[-1]}/{bag.food.id}/{number}"
        column = frame.builder.column(name, low=bag.packs, high=bag.packs, integer=False)
        _open_bag(frame, bag, column, fixed=True)
    for food in frame.request.foods:
        if is_bag(food):
            for days in _bag_days(frame, walker, food):
                bag = Bag(walker=walker, food=food, days=days)
                name = f"bag/{walker}/{days[0]}-{days[-1]}/{food.id}"
                _open_bag(frame, bag, frame.builder.column(name, high=1.0), fixed=False)


def _open_bag(frame: Frame, bag: Bag, column: int, *, fixed: bool) -> None:
    opened = OpenBag(bag=bag, facts=frame.facts[bag.food.id], column=column, fixed=fixed,
                     doses_day=bag.food.doses_per_pack / len(bag.days))  # fmt: skip
    frame.bags[bag.walker].append(opened)
    for day in dict.fromkeys(bag.days):
        frame.open_on[(bag.walker, day)].append(opened)


def _bag_days(frame: Frame, walker: str, food: Food) -> list[tuple[int, ...]]:
    """Runs of days over which one pack of this food can sensibly be nibbled."""
    open_days = [
        d for d in frame.days.get(walker, ())
        if (walker, d, "move") in frame.slots and (walker, d, "move") not in frame.given.whole
        and reason_against(frame.gate, food, frame.slots[(walker, d, "move")]) is None
    ]  # fmt: skip
    runs = [
        tuple(range(d, d + length)) for length in _bag_lengths(frame, walker, food)
        for d in open_days
    ]  # fmt: skip
    allowed = set(open_days)
    legs = {d: frame.slots[(walker, d, "move")].leg for d in open_days}
    return [r for r in runs if allowed.issuperset(r) and len({legs[d] for d in r}) == 1]


def _bag_lengths(frame: Frame, walker: str, food: Food) -> list[int]:
    pack = food.dose_kcal * food.doses_per_pack
    target = max((frame.target(walker, d) for d in frame.days[walker]), default=0.0)
    low, high = BAG_KCAL_DAY[0], min(BAG_KCAL_DAY[1], 0.3 * target)
    opened = food.keep.opened_days or 99.0
    least = math.ceil(food.pack_g / bag_most_g(food) - 1e-9)
    lengths = {max(least, round(pack / kcal)) for kcal in BAG_USUAL_KCAL}
    return sorted(n for n in lengths if low <= pack / n <= high and n <= opened)
