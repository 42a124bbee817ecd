"""A panel of "would you eat this" checks, written from what walkers say, not from the rules.

Each check reads one plan and names what nobody would eat; an empty list is a pass. Lunches and
foods marked "every day is fine" may repeat. It is for plans in which nobody picked anything.
Source: common practice.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from oatsack.menu.slots import MEAL_SHARE
from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest, Portion, Slot

Key = tuple[str, int, str]
Found = list[tuple[Food, Portion]]

FAT_MOST = 0.455
"""Share of a trip's energy; 45 %, and what whole doses may add."""
STARCHES = ("grain", "bread")
ON_BREAD = ("protein", "dairy", "nut", "vegetable", "sweet", "fat", "condiment")
MOST_G: Mapping[str, float] = {
    "fat": 20.0, "condiment": 30.0, "vegetable": 60.0, "soup": 50.0, "sweet": 75.0, "fruit": 125.0,
    "nut": 130.0, "dairy": 90.0, "protein": 130.0, "bread": 150.0, "drink": 60.0, "snack": 220.0,
    "grain": 170.0, "breakfast": 130.0, "meal": 260.0,
}  # fmt: skip
"""Food class -> most grams of it at one meal, bags counted; more as one eats more than `EATS`."""
EATS = 2500.0
"""What one eats a day for whom these grams are the most [kcal]."""
POWDER_MOST_G = 20.0
"""Tomato powder, flakes of onion: two heaped spoons make a cup of sauce."""
SAME_MOST_G = 130.0
"""Most of one food at one meal, but for dishes."""
SLICES = 8
LUNCH_LEAST, DINNER_LEAST = 0.4, 0.45
"""Shares of a meal's usual energy below which it is a nibble."""
SALTY_LEAST = 0.25
"""Share of the salty among what is nibbled and takes a side."""


@dataclass(frozen=True)
class Eaten:
    """One plan with its foods by meal."""

    asked: MenuRequest
    menu: Menu

    @cached_property
    def foods(self) -> Mapping[str, Food]:
        """By id."""
        return {f.id: f for f in self.asked.foods}

    @cached_property
    def meals(self) -> Mapping[Key, Found]:
        """What stands at each meal; one line for each food, bags of one food put together."""
        doses: dict[tuple[Key, str], Portion] = {}
        for p in self.menu.portions:
            at = ((p.walker, p.day, p.meal), p.food)
            before = doses[at].doses if at in doses else 0.0
            doses[at] = Portion(walker=p.walker, day=p.day, meal=p.meal, food=p.food,
                                doses=before + p.doses, why=p.why)  # fmt: skip
        out: dict[Key, Found] = defaultdict(list)
        for (key, name), p in doses.items():
            out[key].append((self.foods[name], p))
        return out

    @cached_property
    def slots(self) -> Mapping[Key, Slot]:
        """By walker, day and meal."""
        return {(s.walker, s.day, s.meal): s for s in self.asked.slots}

    def at(self, meal: str) -> Iterator[tuple[Key, Found]]:
        """Meals of one name."""
        yield from ((key, found) for key, found in self.meals.items() if key[2] == meal)

    def usual_kcal(self, key: Key) -> float:
        """What such a meal brings of its day by its usual share."""
        of_day = [s.meal for k, s in self.slots.items() if k[:2] == key[:2]]
        share = MEAL_SHARE[self.slots[key].meal] / sum(MEAL_SHARE[m] for m in of_day)
        return share * self.asked.target_kcal[key[0]][key[1]]


Check = Callable[[Eaten], Iterator[str]]


def kcal(found: Found) -> float:
    """Energy of a meal [kcal]."""
    return sum(p.doses * f.dose_kcal for f, p in found)


def told(key: Key, found: Found) -> str:
    """A meal in one line."""
    parts = (f"{p.doses * f.dose_g:.0f} g {f.id}" for f, p in found)
    return f"{key[0]} {key[1]} {key[2]}: {' + '.join(parts)}"


def too_fat(one: Eaten) -> Iterator[str]:
    """Fat above 45 % of a trip's energy."""
    for w in one.asked.walkers:
        mine = [(one.foods[p.food], p) for p in one.menu.portions if p.walker == w.id]
        fat = 9.0 * sum(p.doses * (f.per_dose("fat_g") or 0.0) for f, p in mine)
        if fat > FAT_MOST * kcal(mine):
            yield f"{w.id}: {fat / kcal(mine):.1%}"


def dinner_twice_running(one: Eaten) -> Iterator[str]:
    """The same dinner on two days running."""
    for (who, day, meal), found in one.at("dinner"):
        next_one = {f.id for f, _ in one.meals.get((who, day + 1, meal), ())}
        for f, _ in found:
            if f.role == "main" and not f.every_day_fine and f.id in next_one:
                yield f"{who} {day}: {f.id}"


def sauce_on_nothing(one: Eaten) -> Iterator[str]:
    """Oil, sauces, spreads and cheese without what carries them."""
    for key, found in one.meals.items():
        carries = any(f.role == "main" or f.category in ("bread", "soup", "grain", "breakfast")
                      for f, _ in found)  # fmt: skip
        loose = [f for f, _ in found if f.role == "topping"]
        by_hand = key[2] == "move" and all(f.category in ("dairy", "protein") for f in loose)
        if loose and not carries and not by_hand:
            yield told(key, found)


def dry_bread(one: Eaten) -> Iterator[str]:
    """Bread and crackers with nothing on them, at a table."""
    for key, found in one.meals.items():
        dry = any(f.category == "bread" and f.role == "side" for f, _ in found)
        if dry and key[2] != "move" and not any(f.category in ON_BREAD for f, _ in found):
            yield told(key, found)


def sweet_drink_with_cold_food(one: Eaten) -> Iterator[str]:
    """Cocoa, malt and the like belong to hot drinks and hot meals."""
    for key, found in one.meals.items():
        cold = not one.slots[key].hot
        for f, _ in found:
            if cold and f.role == "drink" and f.prep.kind == "boil":
                yield told(key, found)


def nibbles_all_sweet(one: Eaten) -> Iterator[str]:
    """Of what is nibbled and takes a side, a quarter at least is salty."""
    for w in one.asked.walkers:
        mine = [x for key, found in one.at("move") if key[0] == w.id for x in found]
        sided = kcal([x for x in mine if x[0].taste != "neutral"])
        salty = kcal([x for x in mine if x[0].taste == "salty"])
        if salty < SALTY_LEAST * sided and sided > 600.0:
            yield f"{w.id}: {salty / sided:.0%} of {sided:.0f} kcal"


def absurd_amount(one: Eaten) -> Iterator[str]:
    """Eleven slices, a cup of powder, a pound of nuts."""
    for key, found in one.meals.items():
        by_class: dict[str, float] = defaultdict(float)
        for f, p in found:
            grams = p.doses * f.dose_g
            by_class[f.category] += grams if f.category == "meal" or f.role != "main" else 0.0
            powder = f.category == "vegetable" and f.role == "topping" and grams > POWDER_MOST_G
            much = f.role != "main" and f.category != "meal" and grams > SAME_MOST_G
            slices = f.category == "bread" and p.doses > SLICES
            if powder or much or slices:
                yield told(key, [(f, p)])
        more = max(1.0, max(one.asked.target_kcal[key[0]].values()) / EATS)
        over = [name for name, grams in by_class.items()
                if grams > more * MOST_G.get(name, 200.0)]  # fmt: skip
        if over:
            yield f"{told(key, found)} ({', '.join(over)})"


def dinner_without_a_dish(one: Eaten) -> Iterator[str]:
    """A dinner of sides."""
    for key, found in one.at("dinner"):
        if not any(f.role == "main" for f, _ in found):
            yield told(key, found)


def dinner_of_next_to_nothing(one: Eaten) -> Iterator[str]:
    """A cup of beans after a day's walk."""
    for key, found in one.at("dinner"):
        if kcal(found) < DINNER_LEAST * one.usual_kcal(key):
            yield told(key, found)


def bland_dinner(one: Eaten) -> Iterator[str]:
    """Plain rice, pasta, beans or potato without anything that has a taste of its own."""
    for key, found in one.at("dinner"):
        plain = any(f.role == "main" and f.taste == "neutral" for f, _ in found)
        salty = [x for x in found if x[0].taste == "salty"]
        if plain and kcal(salty) < 20.0:
            yield told(key, found)


def starch_and_sauce_alone(one: Eaten) -> Iterator[str]:
    """Plain rice or pasta with a sauce and neither protein nor vegetables of any substance."""
    for key, found in one.at("dinner"):
        plain = any(f.role == "main" and f.taste == "neutral" and f.category == "grain"
                    for f, _ in found)  # fmt: skip
        body = [x for x in found if x[0].category in ("protein", "dairy", "nut", "meal")
                or (x[0].category in ("vegetable", "soup") and x[0].role == "side")
                or (x[0].category == "condiment" and x[0].dose_kcal >= 100.0)]  # fmt: skip
        if plain and kcal(body) < 35.0:
            yield told(key, found)


def one_sauce_every_evening(one: Eaten) -> Iterator[str]:
    """The same powder or sauce on three dinners running."""
    for (who, day, meal), found in one.at("dinner"):
        later = [one.meals.get((who, d, meal), ()) for d in (day + 1, day + 2)]
        for f, _ in found:
            sauce = f.role == "topping" and f.category in ("vegetable", "soup", "condiment")
            if sauce and all(f.id in {g.id for g, _ in other} for other in later):
                yield f"{who} {day}: {f.id}"


def sweet_lunch(one: Eaten) -> Iterator[str]:
    """Bars and honey at noon, and nothing to it."""
    for key, found in one.at("lunch"):
        salty = [x for x in found if x[0].taste != "sweet" and not
                 (x[0].category == "bread" and x[0].role == "side")]  # fmt: skip
        if not salty:
            yield told(key, found)


def lunch_of_next_to_nothing(one: Eaten) -> Iterator[str]:
    """A stick of dried meat is no lunch."""
    for key, found in one.at("lunch"):
        if kcal(found) < LUNCH_LEAST * one.usual_kcal(key):
            yield told(key, found)


def plain_porridge(one: Eaten) -> Iterator[str]:
    """Porridge or dry cereal with nothing in it."""
    for key, found in one.at("breakfast"):
        plain = any(f.role == "main" and f.category == "breakfast" and f.taste == "neutral"
                    for f, _ in found)  # fmt: skip
        if plain and len([f for f, _ in found if f.role != "drink"]) < 2:
            yield told(key, found)


def fruit_upon_fruit(one: Eaten) -> Iterator[str]:
    """Several kinds of dried fruit in one bowl, by the handful each."""
    for key, found in one.at("breakfast"):
        if sum(1 for f, _ in found if f.category == "fruit") > 1:
            yield told(key, found)


PANEL: tuple[Check, ...] = (
    too_fat, dinner_twice_running, sauce_on_nothing, dry_bread, sweet_drink_with_cold_food,
    nibbles_all_sweet, absurd_amount, dinner_without_a_dish, bland_dinner, starch_and_sauce_alone,
    one_sauce_every_evening, sweet_lunch, lunch_of_next_to_nothing,
    dinner_of_next_to_nothing, plain_porridge,
    fruit_upon_fruit,
)  # fmt: skip


def faults_of(asked: MenuRequest, menu: Menu) -> dict[str, list[str]]:
    """Check -> what it names; only checks that name something."""
    one = Eaten(asked, menu)
    found = {check.__name__: list(check(one)) for check in PANEL}
    return {name: faults for name, faults in found.items() if faults}
