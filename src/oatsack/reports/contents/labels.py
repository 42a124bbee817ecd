"""Labels for bags, to be cut out: whose and what, contents, water, minutes, allergens, eat-by."""

from __future__ import annotations

from oatsack.reports.contents.bags import bag_name, contents
from oatsack.reports.document import Block, Card, Cards, Document, Para
from oatsack.reports.telling import Telling, short_date
from oatsack.values.pack import Bag


def document(told: Telling) -> Document:
    """One label per bag, ten to a sheet."""
    cards = tuple(label(told, bag) for bag in told.plan.packed.bags)
    return Document(
        title=told.say("labels.title", title=told.plan.trip.title), name="labels",
        blocks=(Cards(cards=cards, size="label"),), foot=told.foot(),
    )  # fmt: skip


def label(told: Telling, bag: Bag) -> Card:
    """The label of one bag."""
    who = told.name(bag.group) if bag.group else told.say("bags.all")
    blocks: list[Block] = [Para(text=" · ".join(contents(told, bag)))]
    how = how_to(told, bag)
    blocks += [Para(text=how, tone="strong")] if how else []
    when = told.say("labels.when", when=days_text(told, bag), net=bag.net_g, gross=bag.gross_g)
    blocks.append(Para(text=when))
    return Card(
        title=f"{bag_name(told, bag)} · {who}",
        mark=told.say("labels.mark", n=bag.number, of=bag.of),
        blocks=tuple(blocks), allergens=allergens(told, bag), foot=told.foot(),
    )  # fmt: skip


def how_to(told: Telling, bag: Bag) -> str:
    """Water in millilitres and in mugs, and the wait; nothing where nothing is added."""
    if bag.water_ml <= 0:
        return ""
    mugs = bag.water_ml / told.plan.trip.kit.mug_ml
    key = "labels.water_wait" if bag.wait_min > 0 else "labels.water"
    return told.say(key, water=bag.water_ml, mugs=round(mugs * 4) / 4, wait=bag.wait_min)


def days_text(told: Telling, bag: Bag) -> str:
    """When it is opened and emptied, and by when it must be eaten."""
    days = {d.number: short_date(d) for d in told.plan.days}
    first, last = days.get(bag.open_day, ""), days.get(bag.empty_day, "")
    text = first if first == last else f"{first}–{last}"
    if bag.eat_by_day is not None and bag.eat_by_day in days:
        text += told.say("labels.eat_by", day=bag.eat_by_day)
    return text


def allergens(told: Telling, bag: Bag) -> str:
    """The one line in bold: what it contains, may contain, or nobody read (C10)."""
    watched = {a.allergen for w in told.plan.trip.walkers for a in w.avoids}
    states: dict[str, list[str]] = {"contains": [], "may": [], "unknown": []}
    named = dict(bag.allergens) | {
        a: "unknown" for a in watched - set(bag.allergens)
        if any(told.food(i.food).state(a) == "unknown" for i in bag.items)
    }  # fmt: skip
    for allergen, state in sorted(named.items()):
        if state in states:
            states[state].append(told.say(f"allergen.{allergen}"))
    parts = [told.say(f"labels.{s}", list=", ".join(found)) for s, found in states.items() if found]
    return " ".join(parts)
