"""Not the same again: dinners, their sauces and breakfasts apart, snacks not every day, nothing
twice a day, one bag of a food open at a time."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable

from oatsack.menu.frame import Frame, OpenBag, Option
from oatsack.menu.rules.base import Rule, Setting
from oatsack.menu.rules.toppings import is_sauce
from oatsack.values.food import Food, Meal

ONE_A_DAY = ("sweet", "nut")
"""Classes of which one kind a day is enough on the move."""
SNACKED: tuple[Meal, ...] = ("lunch", "move")
"""What is fine every day is not therefore wanted at noon and before and after it as well."""
FILLING_KCAL = 40.0
"""From so much on, a drink is a small meal."""


def rows(frame: Frame) -> None:
    """Soft: over every window of days the same dinner stands at most once; and so on. A dish that
    several share costs all of them when it comes too soon."""
    apart = max(2, frame.request.rules.dinner_apart_days)
    wider = int(RULE.value(frame, "dinner_wish_days"))
    for name, uses in _uses(frame, "dinner", _dish).items():
        _windows(frame, f"dinner/{name}", uses, apart, RULE.value(frame, "dinner_grams"))
        if wider > apart:
            _windows(frame, f"dinner-wish/{name}", uses, wider, RULE.value(frame, "wish_grams"))
    for name, uses in _uses(frame, "breakfast", _dish).items():
        _windows(frame, f"breakfast/{name}", uses, 2, RULE.value(frame, "wish_grams"))
    for name, uses in _uses(frame, "dinner", _sauce).items():
        _windows(frame, f"sauce/{name}", uses, 2, RULE.value(frame, "sauce_grams"))
    _snacks(frame)
    _one_of_a_kind(frame)
    _one_open(frame)
    _drinks(frame)


def _dish(food: Food) -> bool:
    return food.role == "main" and not food.every_day_fine


def _sauce(food: Food) -> bool:
    return food.role == "topping" and not food.every_day_fine and is_sauce(food)


def _uses(
    frame: Frame, meal: str, wanted: Callable[[Food], bool]
) -> dict[str, dict[int, int]]:  # fmt: skip
    """Eater and food -> day -> column that says it is eaten; shared dishes counted once."""
    out: dict[str, dict[int, int]] = defaultdict(dict)
    seen: set[int] = set()
    for (walker, day, at), options in frame.options.items():
        for o in options if at == meal else ():
            if o.use >= 0 and o.use not in seen and wanted(o.food):
                seen.add(o.use)
                column = frame.builder.columns[o.use].split("/")
                eater = column[1] if column[0] == "dish" else walker
                out[f"{eater}/{o.food.id}"][day] = o.use
    return out


def _windows(frame: Frame, name: str, uses: dict[int, int], apart: int, grams: float) -> None:
    days = sorted(uses)
    for first in days:
        inside = [d for d in days if first <= d < first + apart]
        if len(inside) < 2:
            continue
        eaters = max(len(frame.sharers.get(uses[d], ())) for d in inside) or 1
        slack = frame.slack(f"again/{name}/{first}", grams * eaters * frame.mean_carry)
        terms = [(uses[d], 1.0) for d in inside] + [(slack, -1.0)]
        frame.builder.row(f"variety/{name}/{first}", terms, high=1.0)


def _snacks(frame: Frame) -> None:
    by_food: dict[tuple[str, Meal, str], list[Option]] = defaultdict(list)
    by_day: dict[tuple[str, int, str], list[Option]] = defaultdict(list)
    for (walker, day, meal), options in frame.options.items():
        for o in options:
            if o.use < 0 or o.food.role == "main":
                continue
            if not o.food.every_day_fine:
                by_food[(walker, meal, o.food.id)].append(o)
            if not o.food.every_day_fine or (o.food.role == "snack" and meal in SNACKED):
                by_day[(walker, day, o.food.id)].append(o)
    grams = RULE.value(frame, "snack_grams") * frame.mean_carry
    twice = RULE.value(frame, "twice_grams") * frame.mean_carry
    beside = RULE.value(frame, "beside_grams") * frame.mean_carry
    for (walker, meal, food), found in by_food.items():
        most = max(1.0, -(-len(frame.days[walker]) // 2))
        if meal in ("move", "lunch") and len(found) > most:
            _at_most(frame, f"often/{walker}/{meal}/{food}", found, most, grams)
    nibbled = {
        (*at, b.bag.food.id) for at in frame.day_keys for b in frame.day_bags(*at) if b.fixed
    }
    for (walker, day, food), found in by_day.items():
        open_all_day = (walker, day, food) in nibbled
        most, cost = (0.0, beside) if open_all_day else (1.0, twice)
        if len(found) > most:
            _at_most(frame, f"twice/{walker}/{day}/{food}", found, most, cost)


def _one_of_a_kind(frame: Frame) -> None:
    """Of sweets and of nuts one kind a day is nibbled, of other classes one open bag."""
    grams = RULE.value(frame, "kind_grams") * frame.mean_carry
    for walker, day in frame.day_keys:
        alike: dict[str, list[int]] = defaultdict(list)
        for b in frame.day_bags(walker, day):
            if not b.fixed:
                alike[b.bag.food.category].append(b.column)
        for o in frame.options.get((walker, day, "move"), ()):
            if o.use >= 0 and o.food.category in ONE_A_DAY:
                alike[o.food.category].append(o.use)
        for kind, columns in alike.items():
            if len(columns) > 1:
                slack = frame.slack(f"again/kind/{walker}/{day}/{kind}", grams)
                terms = [(c, 1.0) for c in columns] + [(slack, -1.0)]
                frame.builder.row(f"variety/kind/{walker}/{day}/{kind}", terms, high=1.0)


def _one_open(frame: Frame) -> None:
    """Of one food one bag lies open at a time: days on which the same bags lie open are asked once,
    and so are those whose bags all lie open on a neighbour."""
    grams = RULE.value(frame, "same_bag_grams") * frame.mean_carry
    for walker, bags in frame.bags.items():
        for name in dict.fromkeys(b.bag.food.id for b in bags if not b.fixed):
            own = [b for b in bags if b.bag.food.id == name and not b.fixed]
            _one_of_these(frame, f"{walker}/{name}", own, grams)


def _one_of_these(frame: Frame, where: str, bags: list[OpenBag], grams: float) -> None:
    days = sorted({d for b in bags for d in b.bag.days})
    found = {d: frozenset(b.column for b in bags if d in b.bag.days) for d in days}
    asked = [d for d in days if len(found[d]) > 1
             and not any(found[d] < found.get(e, found[d]) for e in (d - 1, d + 1))
             and found[d] != found.get(d - 1)]  # fmt: skip
    slack = frame.slack(f"again/bag/{where}", grams) if asked else -1
    for day in asked:
        terms = [(c, 1.0) for c in sorted(found[day])] + [(slack, -1.0)]
        frame.builder.row(f"variety/bag/{where}/{day}", terms, high=1.0)


def _drinks(frame: Frame) -> None:
    """Not the same filling drink twice a day."""
    grams = RULE.value(frame, "drink_grams") * frame.mean_carry
    for key, options in frame.options.items():
        for o in options if key[2] == "drinks" else ():
            if o.use >= 0 and o.most > 1 and o.facts.kcal >= FILLING_KCAL:
                where = f"{key[0]}/{key[1]}/{o.food.id}"
                slack = frame.slack(f"again/drink/{where}", grams)
                terms = [(o.eat, 1.0), (slack, -1.0)]
                frame.builder.row(f"variety/drink/{where}", terms, high=1.0)


def _at_most(frame: Frame, name: str, found: list[Option], most: float, grams: float) -> None:
    slack = frame.slack(f"again/{name}", grams)
    terms = [(o.use, 1.0) for o in found] + [(slack, -1.0)]
    frame.builder.row(f"variety/{name}", terms, high=most)


RULE = Rule(
    name="variety",
    help="Not the same dinner twice running, and not the same snack every day.",
    rows=rows,
    in_trip=("rules.dinner_apart",),
    hard=False,
    settings=(
        Setting(name="dinner_grams", unit="g", default=60.0, help="cost of a dinner too soon"),
        Setting(name="dinner_wish_days", unit="days", default=4.0, help="dinners apart, wish"),
        Setting(name="wish_grams", unit="g", default=20.0, help="cost of missing that wish"),
        Setting(name="sauce_grams", unit="g", default=12.0, help="cost of a sauce twice running"),
        Setting(name="kind_grams", unit="g", default=60.0, help="cost of sweets or nuts twice"),
        Setting(name="same_bag_grams", unit="g", default=60.0, help="cost of two bags of a food"),
        Setting(name="drink_grams", unit="g", default=8.0, help="cost of a filling drink twice"),
        Setting(name="snack_grams", unit="g", default=6.0, help="cost of a snack too often"),
        Setting(name="twice_grams", unit="g", default=15.0, help="cost of a food twice a day"),
        Setting(name="beside_grams", unit="g", default=40.0, help="cost beside one's own bag"),
    ),
)
