"""Day cards: one to a day, the size of a hand, for the map case."""

from __future__ import annotations

from collections.abc import Iterable

from oatsack.reports.contents.menu import day_line
from oatsack.reports.contents.sheet import camp_water, meal_text
from oatsack.reports.document import Block, Card, Cards, Document, Facts, Para
from oatsack.reports.telling import Telling, long_date, meals_of
from oatsack.values.food import Meal
from oatsack.values.menu import Pool
from oatsack.values.pack import Bag
from oatsack.values.route import Day


def document(told: Telling) -> Document:
    """Four cards to a sheet."""
    foot = told.foot()
    cards = tuple(card(told, day, foot=foot) for day in told.plan.days)
    return Document(
        title=told.say("day_cards.title", title=told.plan.trip.title), name="cards",
        blocks=(Cards(cards=cards, size="quarter"),), foot=told.foot(), large=True,
    )  # fmt: skip


def card(told: Telling, day: Day, *, foot: str = "") -> Card:
    """One day: where it goes, each meal, water and what to open."""
    pairs = [
        (told.say(f"meals.{m}"), _meal(told, day.number, m))
        for m in meals_of(told.plan, day.number)
    ]
    water = _water(told, day)
    if water:
        pairs.append((told.say("day_cards.water"), water))
    opened = ", ".join(
        _bag(told, b) for b in told.plan.packed.bags
        if b.open_day == day.number and not b.sealed and b.label != "spare"
    )
    blocks: tuple[Block, ...] = (
        Para(text=day_line(told, day), tone="quiet"),
        Facts(pairs=tuple(pairs)),
    )
    if opened and len(told.plan.packed.bags) <= 40:
        blocks += (Para(text=told.say("day_cards.open", list=opened), tone="quiet"),)
    return Card(title=long_date(day), mark=told.say("labels.mark", n=day.number,
                of=len(told.plan.days)), blocks=blocks, foot=foot)  # fmt: skip


def _meal(told: Telling, day: int, meal: Meal) -> str:
    """What is eaten; on the move also the bags that are open on the day, without amounts."""
    text = meal_text(told, day, meal).replace("\n", " / ")
    if meal != "move":
        return text
    names = _nibbled(told, day)
    nibbled = [told.say("day_cards.nibble", list=names)] if names else []
    return " / ".join([*filter(None, [text]), *nibbled])


def _nibbled(told: Telling, day: int) -> str:
    """The bags that are open on a day; whose, where two walk."""
    pools = [p for p in told.plan.menu.pools if p.by_day_g.get(day, 0.0) > 0]
    whose = {w.id: [p for p in pools if p.walker == w.id] for w in told.plan.trip.walkers}
    if len(whose) != 2:
        return _names(told, pools)
    return "; ".join(
        told.say("sheet.person", who=told.name(walker), list=_names(told, mine))
        for walker, mine in whose.items() if mine
    )  # fmt: skip


def _names(told: Telling, pools: Iterable[Pool]) -> str:
    return ", ".join(dict.fromkeys(told.food(p.food).name for p in pools))


def _water(told: Telling, day: Day) -> str:
    at_camp = camp_water(told, day)
    parts = [told.say("day_cards.at_camp", ml=at_camp)] if at_camp > 0 else []
    return "; ".join([*parts, *(_place(told, day, n) for n in range(len(day.water)))])


def _place(told: Telling, day: Day, n: int) -> str:
    place = day.water[n]
    key = "day_cards.place" if place.reliability == "sure" else "day_cards.place_unsure"
    return told.say(key, name=place.name, distance=place.distance_m,
                    sure=told.say(f"water.{place.reliability}"))  # fmt: skip


def _bag(told: Telling, bag: Bag) -> str:
    return told.say("day_cards.bag", n=bag.number, kind=told.say(f"meals.{bag.label}"))
