"""Labels for bags, to be cut out: whose and what, contents, water, minutes, allergens, eat-by."""

from __future__ import annotations

from oatsack.packing.code import Label, encode
from oatsack.reports.contents import dogs
from oatsack.reports.contents.bags import bag_name, contents
from oatsack.reports.document import Block, Card, Cards, Document, Para
from oatsack.reports.telling import Telling, counted, short_date, version
from oatsack.values.food import Food
from oatsack.values.pack import Bag


def document(told: Telling) -> Document:
    """One label per bag of ours, ten to a sheet; what is carried as bought needs none."""
    ours = [bag for bag in told.plan.packed.bags if not bag.sealed]
    cards = (
        *(label(told, bag, foot=foot_of(told, bag)) for bag in ours),
        *(dogs.label(told, bag) for bag in told.plan.packed.dogs),
    )
    return Document(
        title=told.say("labels.title", title=told.plan.trip.title), name="labels",
        blocks=(Cards(cards=cards, size="label"),), foot=told.foot(),
    )  # fmt: skip


def foot_of(told: Telling, bag: Bag) -> str:
    """The trip and the code that names this bag of this version of the plan."""
    code = encode(Label(leg=bag.leg, number=bag.number, version=version(told.plan)))
    return told.say("labels.foot", title=told.plan.trip.title, code=code)


def label(told: Telling, bag: Bag, *, foot: str = "") -> Card:
    """The label of one bag."""
    who = told.group(bag.group)
    blocks: list[Block] = [Para(text=" · ".join(contents(told, bag)))]
    blocks += [Para(text=how, tone="strong") for how in how_to(told, bag)]
    when = told.say("labels.when", when=days_text(told, bag), net=bag.net_g, gross=bag.gross_g)
    blocks.append(Para(text=when))
    if kept := dogs.not_for(told, bag):
        blocks.append(Para(text=kept, tone="strong"))
    return Card(
        title=f"{bag_name(told, bag)} · {who}",
        mark=told.say("labels.mark", n=bag.number, of=bag.of),
        blocks=tuple(blocks), allergens=allergens(told, bag), foot=foot,
    )  # fmt: skip


def how_to(told: Telling, bag: Bag) -> list[str]:
    """For each food that takes water: how much, in mugs too, and how long it waits."""
    lines = []
    for food in dict.fromkeys(item.food for item in bag.items):
        known = told.food(food)
        if known.prep.water_ml > 0:
            lines.append(prep_text(told, known))
    return lines


def prep_text(told: Telling, food: Food) -> str:
    """What one dose of a food needs: water in millilitres and mugs, and minutes."""
    prep = food.prep
    mugs = max(0.25, round(prep.water_ml / told.plan.trip.kit.mug_ml * 4) / 4)
    dose = told.say("labels.each") if counted(food) else told.m.mass(food.dose_g)
    wait = prep.simmer_min or prep.wait_min
    key = f"labels.{prep.kind}" if wait > 0 else f"labels.{prep.kind}_now"
    return told.say(key, food=food.name, dose=dose, water=prep.water_ml, mugs=mugs, wait=wait)


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
