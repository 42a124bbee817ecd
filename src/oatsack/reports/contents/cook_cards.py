"""Cook's cards: one per cooked occasion, to be read by a tired stranger with one spoon."""

from __future__ import annotations

from dataclasses import replace

from oatsack.kitchen.occasions import made_at
from oatsack.reports.contents.kitchen import step_text
from oatsack.reports.document import Block, Bullets, Card, Cards, Document, Facts
from oatsack.reports.telling import Telling, portions_at, short_date, together
from oatsack.values.food import Food
from oatsack.values.kitchen import CookStep, MealLedger
from oatsack.values.menu import Portion
from oatsack.values.walker import Avoid


def document(told: Telling) -> Document:
    """Six cards to a sheet."""
    cards = tuple(card(told, meal) for meal in told.plan.kitchen.meals)
    return Document(
        title=told.say("cook_cards.title", title=told.plan.trip.title), name="cook-cards",
        blocks=(Cards(cards=cards, size="sixth"),), foot=told.foot(),
    )  # fmt: skip


def card(told: Telling, meal: MealLedger) -> Card:
    """For how many, how much water, what goes in, how long, who must not eat what."""
    mugs = round(meal.boiled_ml / told.plan.trip.kit.mug_ml * 4) / 4
    boil = told.say("cook_cards.water", water=meal.boiled_ml, mugs=mugs, batches=meal.batches)
    pairs = [
        (told.say("cook_cards.for"), told.say("cook_cards.people", n=len(meal.walkers))),
        *([(told.say("cook_cards.boil"), boil)] if meal.boiled_ml > 0 else []),
        (told.say("cook_cards.takes"), told.m.minutes(meal.minutes)),
    ]  # fmt: skip
    blocks: tuple[Block, ...] = (
        Facts(pairs=tuple(pairs)), Bullets(items=tuple(_foods(told, meal)), ticks=True),
        Bullets(items=tuple(_step(told, s) for s in meal.steps if s.kind != "boil")),
    )  # fmt: skip
    title = told.say("cook_cards.of", day=short_date(told.day(meal.day)),
                     meal=told.say(f"meals.{meal.meal}"))  # fmt: skip
    return Card(title=title, mark=told.m.temperature(meal.boiling_c),
                blocks=tuple(b for b in blocks if not isinstance(b, Bullets) or b.items),
                allergens=_apart(told, meal))  # fmt: skip


def made_at_meal(told: Telling, meal: MealLedger) -> list[Portion]:
    """What is made at this meal: its own portions, and what of the day's drinks is poured here."""
    found = portions_at(told.plan, meal.day, meal.meal) + _drunk(told, meal)
    return [p for p in found if p.walker in meal.walkers]


def _drunk(told: Telling, meal: MealLedger) -> list[Portion]:
    """The drinks of the day that belong to this meal, as the kitchen shares them out, and what goes
    into them; salt that is counted by the day does not."""
    if meal.meal == "drinks":
        return []
    out = []
    for p in portions_at(told.plan, meal.day, "drinks"):
        if "drinks" not in told.food(p.food).meals:
            continue
        eaten = {q.meal for q in told.plan.menu.portions if (q.walker, q.day) == (p.walker, p.day)}
        out += [replace(p, doses=doses) for at, doses in made_at(p, eaten) if at == meal.meal]
    return out


def _foods(told: Telling, meal: MealLedger) -> list[str]:
    out = []
    for p in together(made_at_meal(told, meal)):
        food = told.food(p.food)
        text = told.portion(p)
        if food.prep.water_ml > 0:
            text = told.say("cook_cards.with_water", what=text, water=p.doses * food.prep.water_ml)
        out.append(text + _who(told, meal, p.food))
    return out


def _who(told: Telling, meal: MealLedger, food: str) -> str:
    """Whose it is, where not everyone's: what the bigger eaters have beside the base."""
    eaters = {p.walker for p in made_at_meal(told, meal) if p.food == food}
    if not eaters or set(meal.walkers) <= eaters:
        return ""
    return f" ({', '.join(told.name(w) for w in meal.walkers if w in eaters)})"


def _step(told: Telling, step: CookStep) -> str:
    """One step; from which pot, where some have a pot of their own."""
    apart = any(pot.walkers for pot in told.plan.trip.kit.pots)
    pot = f"{step.pot}: " if apart and step.pot and step.kind in ("pour", "simmer") else ""
    return pot + step_text(told, step)


def _apart(told: Telling, meal: MealLedger) -> str:
    """Who at this meal must not eat which of its foods (C10)."""
    cooked = {p.food: told.food(p.food) for p in made_at_meal(told, meal)}
    out = []
    for walker in told.plan.trip.walkers:
        held = [
            food.name for food in cooked.values()
            if any(forbidden(food, a) for a in walker.avoids)
        ]  # fmt: skip
        if held and walker.id in meal.walkers:
            out.append(told.say("cook_cards.not_for", walker=walker.name, list=", ".join(held)))
    return " ".join(out)


def forbidden(food: Food, avoid: Avoid) -> bool:
    """Whether a food is not for someone: it contains it, nobody read it, or it may contain it and
    no trace is allowed (C10)."""
    state = food.state(avoid.allergen)
    return state in ("contains", "unknown") or (state == "may" and not avoid.traces)
