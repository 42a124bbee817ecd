"""Small random questions, a kind for every rule that can hold a menu back, that trying everything
answers; each with what it would be if that rule asked nothing.

Everything is invented. What a kind asks is drawn so that it binds in a good part of the seeds.
"""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from oatsack.menu.choose import choose
from oatsack.solve.highs import solve
from oatsack.values.food import Food, Stock
from oatsack.values.kit import Kit, Pot
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Avoid, Choice, Count, Pick, Usual
from support.menus import FREE, START, boiled, food, keeps, request, retarget, walker

Dice = random.Random
Pair = tuple[MenuRequest, MenuRequest]
"""A question, and the same without the rule."""
NO_SPARE = Rules(spare="none", day_window=0.25, trip_window=0.25)


def mains(dice: Dice, count: int = 2, dose_g: float = 0.0, **more: Any) -> list[Food]:
    """Dinners of one or two doses, of a stated size or any."""
    return [
        food(f"main-{i}", role="main", meals="dinner", category="meal", doses=2.0,
             kcal=dice.choice([360, 420, 480]), dose_g=dose_g or dice.choice([60.0, 90.0, 120.0]),
             liking=float(dice.randint(1, 5)), price=float(dice.randint(2, 9)),
             **{"every_day_fine": True} | more)
        for i in range(count)
    ]  # fmt: skip


def bars(dice: Dice, count: int = 3, meals: str = "lunch", **more: Any) -> list[Food]:
    """Things to bite."""
    return [
        food(f"bar-{i}", meals=meals, kcal=dice.choice([380, 450, 520]),
             dose_g=dice.choice([40.0, 60.0]), liking=float(dice.randint(1, 5)),
             price=float(dice.randint(1, 4)), taste=dice.choice(["sweet", "salty"]),
             **{"every_day_fine": True} | more)
        for i in range(count)
    ]  # fmt: skip


def dinner(foods: Sequence[Food], kcal: float, **more: Any) -> MenuRequest:
    """One dinner, or with `count` some."""
    given: dict[str, Any] = {"keep": "dinner", "rules": NO_SPARE, "hot_drinks": {}} | more
    return retarget(request(foods, **given), kcal)


def _shared(dice: Dice) -> Pair:
    couple = [walker("anna"), walker("ben", 85.0, eats=dice.choice(["anything", "vegetarian"]))]
    diets = [dice.choice(["vegan", "vegan", "meat"]) for _ in range(4)]
    foods = [replace(f, diet=diet) for f, diet in zip(mains(dice, 4, 130.0), diets, strict=True)]
    foods = foods if dice.random() < 0.5 else foods[:3]
    asked = dinner(foods, 500.0, walkers=couple)
    hungry = {"anna": {1: dice.choice([300.0, 420.0, 520.0])},
              "ben": {1: dice.choice([520.0, 640.0])}}  # fmt: skip
    asked = replace(asked, target_kcal=hungry)
    return asked, replace(asked, rules=replace(asked.rules, mains_shared=False))


def _minutes(dice: Dice) -> Pair:
    foods = [*mains(dice, 3, prep=boiled()), *bars(dice, 1, "dinner", role="side")]
    prices = {
        (f.id, 1): DosePrice(
            flame_min=dice.choice([2.0, 4.0, 6.0]), wait_min=dice.choice([0.0, 5.0, 10.0])
        )
        for f in foods[:3]
    }
    asked = replace(dinner(foods, dice.choice([450.0, 600.0, 800.0])), prices=prices)
    limit = dice.choice([3.0, 8.0, 12.0])
    quick = tuple(replace(s, minutes_limit=limit) for s in asked.slots)
    return replace(asked, slots=quick), asked


def _pot(dice: Dice) -> Pair:
    foods = [*mains(dice, 3, prep=boiled(needs_pot=True)),
             *bars(dice, 1, "dinner", role="side")]  # fmt: skip
    prices = {(f.id, 1): DosePrice(pot_ml=dice.choice([150.0, 250.0, 350.0])) for f in foods[:3]}
    asked = replace(dinner(foods, dice.choice([450.0, 600.0, 800.0])), prices=prices)
    small = Kit(pots=(Pot(volume_ml=dice.choice([250.0, 400.0, 700.0])),))
    return replace(asked, kit=small), asked


def _container(dice: Dice) -> Pair:
    foods = [replace(f, pack_ml=f.pack_g * dice.choice([1.2, 2.0, 4.0]))
             for f in bars(dice, 3)]  # fmt: skip
    asked = retarget(request(foods, keep="lunch", count=2, rules=NO_SPARE, hot_drinks={}), 480.0)
    asked = replace(asked, spare_kcal={"anna": 0.0})
    return replace(asked, container_ml=dice.choice([120.0, 300.0, 500.0])), asked


def _bags(dice: Dice) -> Pair:
    """A pack nibbled over days, whole."""
    nuts = food("nuts", carry="bag", category="nut", kcal=600.0, dose_g=30.0, every_day_fine=True,
                doses=float(dice.choice([3, 4, 5])), liking=float(dice.randint(3, 5)))  # fmt: skip
    foods = [nuts, *bars(dice, 2, "move")]
    asked = request(foods, keep="move", count=2, rules=NO_SPARE, hot_drinks={})
    asked = retarget(asked, dice.choice([420.0, 560.0, 700.0]))
    return asked, replace(asked, foods=(replace(nuts, carry="sealed"), *foods[1:]))


def _budget(dice: Dice) -> Pair:
    foods = [*mains(dice), *bars(dice, 2)]
    asked = dinner(foods, dice.choice([700.0, 850.0]), keep="lunch dinner")
    low = replace(asked.rules, budget=float(dice.choice([6, 8, 11])))
    return replace(asked, rules=low), asked


def _stock(dice: Dice) -> Pair:
    """Two days of lunches, with some at home that ends on the first of them."""
    date = dice.choice([None, START, START + dt.timedelta(days=1)])
    foods = [replace(f, stock=Stock(packs=dice.choice([0.2, 0.6, 1.0]), best_before=date))
             if i == 0 else f for i, f in enumerate(bars(dice, 2))]  # fmt: skip
    rules = replace(NO_SPARE, budget=float(dice.choice([3, 5, 9])))
    asked = request(foods, keep="lunch", count=2, rules=rules, hot_drinks={})
    asked = retarget(asked, dice.choice([300.0, 480.0]))
    return asked, replace(asked, foods=tuple(replace(f, stock=Stock()) for f in foods))


def _drinks(dice: Dice) -> Pair:
    """Hot drinks wanted, of which some have the caffeine one is used to."""
    foods = [
        food(f"drink-{i}", role="drink", meals="drinks", category="drink", prep=boiled(), dose_g=8,
             kcal=dice.choice([0.0, 380.0]), caffeine_mg=dice.choice([0.0, 600.0, 1200.0]),
             liking=float(dice.randint(1, 5)))
        for i in range(3)
    ]  # fmt: skip
    used = walker(caffeine_mg_day=dice.choice([0.0, 120.0, 300.0]))
    asked = request([*foods, *bars(dice, 1)], [used], keep="lunch drinks", rules=NO_SPARE,
                    hot_drinks={"anna": {1: float(dice.randint(1, 3))}})  # fmt: skip
    asked = retarget(asked, 250.0)
    return asked, replace(asked, walkers=(replace(used, caffeine_mg_day=None),))


def _carbs(dice: Dice) -> Pair:
    foods = [replace(f, per_100g=replace(f.per_100g, carb_g=dice.choice([15.0, 40.0, 75.0])))
             for f in bars(dice, 4)]  # fmt: skip
    asked = retarget(request(foods, keep="lunch", rules=NO_SPARE, hot_drinks={}), 480.0)
    return replace(asked, walking_h={"anna": {1: dice.choice([2.0, 4.0])}}), asked


def _usual(dice: Dice) -> Pair:
    """A picked lunch, and something counted."""
    foods = [*mains(dice), *bars(dice, 3)]
    picked = Usual(
        meals={"lunch": (Choice(picks=(Pick(food="bar-0", count=float(dice.randint(1, 3))),)),)},
        counts=(Count(food="bar-1", count=float(dice.randint(1, 2)), per="day"),),
    )  # fmt: skip
    kcal = dice.choice([700.0, 850.0, 1000.0])
    asked = dinner(foods, kcal, keep="lunch dinner", walkers=[walker(usual=picked)])
    return asked, dinner(foods, kcal, keep="lunch dinner")


def _holds(dice: Dice) -> Pair:
    foods = [*mains(dice, 3), *bars(dice, 3)]
    kept = Hold(food=f"bar-{dice.randint(0, 2)}", date=START, meal="lunch", count=1)
    gone = Hold(food=f"main-{dice.randint(0, 2)}", count=0)
    asked = dinner(foods, dice.choice([600.0, 750.0]), keep="lunch dinner")
    return replace(asked, rules=replace(asked.rules, holds=(kept, gone))), asked


def _avoids(dice: Dice) -> Pair:
    """Labels that contain, may contain, or do not say; and somebody's over the whole party."""
    states = [dice.choice(["contains", "may", "free", None]) for _ in range(3)]
    foods = [
        replace(f, allergens={**FREE, "milk": state} if state else
                {k: v for k, v in FREE.items() if k != "milk"})
        for f, state in zip(mains(dice, 3, dose_g=120.0), states, strict=True)
    ]  # fmt: skip
    avoid = Avoid(allergen="milk", scope=dice.choice(["plate", "party"]),
                  traces=dice.random() < 0.5)  # fmt: skip
    asked = dinner(foods, 520.0, walkers=[walker("anna"), walker("ben", avoids=(avoid,))])
    return asked, replace(asked, walkers=(walker("anna"), walker("ben")))


def _keeping(dice: Dice) -> Pair:
    """What melts, and what spoils, in the heat of some days."""
    foods = [
        replace(f, keep=keeps(melts=dice.random() < 0.5, warm_days=dice.choice([None, 1.0, 3.0])))
        for f in bars(dice, 3)
    ]  # fmt: skip
    asked = retarget(request(foods, keep="lunch", count=2, rules=NO_SPARE, hot_drinks={}), 480.0)
    hot = replace(asked, temperatures_c={1: dice.choice([18.0, 30.0]), 2: 20.0})
    calm = tuple(replace(f, keep=keeps()) for f in foods)
    return hot, replace(hot, foods=calm)


def _flame(dice: Dice) -> Pair:
    foods = [
        replace(f, prep=boiled(cold_soak_min=dice.choice([None, 60.0])) if dice.random() < 0.7
                else f.prep)
        for f in mains(dice, 3)
    ]  # fmt: skip
    asked = dinner([*foods, *bars(dice, 1, "dinner", role="side")], 480.0)
    cold = tuple(replace(s, hot=False) for s in asked.slots)
    return replace(asked, slots=cold), asked


def _apart(dice: Dice) -> Pair:
    """Three dinners that should not come twice running."""
    asked = dinner(
        mains(dice, 2, 135.0, every_day_fine=False), dice.choice([480.0, 560.0]), count=3
    )
    return asked, replace(asked, foods=tuple(replace(f, every_day_fine=True) for f in asked.foods))


def _whole_trip(dice: Dice) -> Pair:
    """Days that may each be off while the whole may not."""
    asked = dinner(mains(dice, 3, 90.0), dice.choice([380.0, 450.0, 560.0]), count=2)
    strict = replace(asked.rules, trip_window=0.06)
    return replace(asked, rules=strict), asked


def _near(dice: Dice) -> Pair:
    """An edit: a food forbidden at its meal, near the menu that had it."""
    foods = [*mains(dice), *bars(dice, 3)]
    asked = dinner(foods, dice.choice([600.0, 750.0]), keep="lunch dinner", count=1)
    menu = choose(asked, solve)
    gone = dice.choice([p for p in menu.portions if p.why == "chosen"])
    ban = Hold(food=gone.food, date=START, meal=gone.meal, count=0)
    edit = replace(asked, rules=replace(asked.rules, holds=(ban,)))
    return replace(edit, near=menu), edit


KINDS: dict[str, Callable[[Dice], Pair]] = {
    "one dish for two": _shared, "minutes": _minutes, "pot": _pot, "container": _container,
    "open bags": _bags, "budget": _budget, "stock": _stock, "drinks": _drinks, "carbs": _carbs,
    "usual": _usual, "holds and bans": _holds, "allergens": _avoids, "keeping": _keeping,
    "no flame": _flame, "dinners apart": _apart, "whole trip": _whole_trip, "near": _near,
}  # fmt: skip


def small(kind: str, seed: int) -> Pair:
    """A question of a kind, and the same without its rule."""
    return KINDS[kind](random.Random(f"{kind}/{seed}"))
