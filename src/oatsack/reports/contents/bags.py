"""The bags: each with its number, whose it is, what is in it, and what it weighs."""

from __future__ import annotations

from collections.abc import Iterable

from oatsack.reports.contents import dogs
from oatsack.reports.document import APART, Block, Document, Heading, Para, Row, cell, row, table
from oatsack.reports.telling import Telling, short_date
from oatsack.values.pack import Bag


def document(told: Telling) -> Document:
    """One table per leg and carrier, with sums that equal the plan's."""
    blocks: list[Block] = [Para(text=told.say("bags.intro"), tone="quiet")]
    bags = told.plan.packed.bags
    for leg, carrier in dict.fromkeys((b.leg, b.carrier) for b in bags):
        mine = [b for b in bags if (b.leg, b.carrier) == (leg, carrier)]
        blocks += _sack(told, leg, carrier, mine)
    blocks.append(
        Para(text=told.say("bags.sum", n=len(bags), gross=told.plan.totals.gross_g / 1000),
             opens=((told.m.heavy(told.plan.totals.gross_g / 1000), "totals/gross_g"),))
    )
    blocks += dogs.blocks(told)
    return Document(
        title=told.say("bags.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="bags", foot=told.foot(),
    )  # fmt: skip


def _sack(told: Telling, leg: int, carrier: str, bags: list[Bag]) -> list[Block]:
    legs = {b.leg for b in told.plan.packed.bags}
    name = told.name(carrier) or told.say("bags.all")
    title = told.say("bags.of_leg", walker=name, leg=leg) if len(legs) > 1 else name
    heads = ("[]", ">" + told.say("bags.number"), told.say("bags.bag"),
             told.say("bags.contents") + "*4", ">" + told.say("bags.net"),
             ">" + told.say("bags.gross"))  # fmt: skip
    rows = [_row(told, b) for b in in_order(bags)]
    gross = sum(b.gross_g for b in bags)
    net = sum(b.net_g for b in bags)
    nets, all_ = (APART.join(f"packed/bags/{b.id}/{name}" for b in bags)
                  for name in ("net_g", "gross_g"))  # fmt: skip
    rows.append(row("", "", told.say("bags.total"), "", cell(told.m.mass(net), net, address=nets),
                    cell(told.m.mass(gross), gross, address=all_), kind="total"))  # fmt: skip
    return [Heading(text=title, level=2), table(heads, rows, caption=title)]


def _row(told: Telling, bag: Bag) -> Row:
    return row(
        "", cell(number(bag)), bag_name(told, bag),
        cell(", ".join(contents(told, bag)), address=APART.join(
            f"packed/bags/{bag.id}/items/{n}/net_g" for n in range(len(bag.items)))),
        cell(told.m.fine(bag.net_g), bag.net_g, address=f"packed/bags/{bag.id}/net_g"),
        cell(told.m.fine(bag.gross_g), bag.gross_g, address=f"packed/bags/{bag.id}/gross_g"),
    )  # fmt: skip


def bag_name(told: Telling, bag: Bag) -> str:
    """What a bag is called: its kind of meal, and whose where that is one walker's."""
    text = told.say(f"meals.{bag.label}")
    if bag.sealed and len({i.food for i in bag.items}) == 1:
        text = told.food(bag.items[0].food).name
    return text[:1].upper() + text[1:]


def things_in(told: Telling, bag: Bag) -> str:
    """What a bag holds by its foods, without amounts: "Honey, Rye crispbread (lunch)"."""
    foods = dict.fromkeys(told.food(item.food).name for item in bag.items)
    if bag.sealed and len(foods) == 1:
        return bag_name(told, bag)
    return told.say("bags.things", foods=", ".join(foods), kind=told.say(f"meals.{bag.label}"))


def contents(told: Telling, bag: Bag) -> list[str]:
    """What is in a bag, food by food, counted or weighed."""
    grams: dict[str, float] = {}
    doses: dict[str, float] = {}
    for item in bag.items:
        grams[item.food] = grams.get(item.food, 0.0) + item.net_g
        doses[item.food] = doses.get(item.food, 0.0) + item.doses
    texts = [_content(told, food, grams[food], doses[food]) for food in grams]
    return [*texts[:-1], texts[-1] + opened(told, bag)] if texts else []


def opened(told: Telling, bag: Bag) -> str:
    """From which day to which a pack that is carried closed is eaten from; nothing for others."""
    if not bag.sealed or any(told.food(i.food).carry != "bag" for i in bag.items):
        return ""
    first, last = (short_date(told.day(n)) for n in (bag.open_day, bag.empty_day))
    key = "bags.opened_day" if first == last else "bags.opened"
    return told.say(key, first=first, last=last)


def _content(told: Telling, food: str, grams: float, doses: float) -> str:
    known = told.food(food)
    packs = grams / known.pack_g
    if known.carry == "bag" and packs > 0.5 and abs(packs - round(packs)) < 0.02:
        return told.say("bags.whole", n=round(packs), food=known.name)
    return told.shared(food, grams, doses)


def number(bag: Bag) -> str:
    """A bag's number; what is carried as bought bears none."""
    return "" if bag.sealed else str(bag.number)


def in_order(bags: Iterable[Bag]) -> list[Bag]:
    """Bags with a number first, then what is carried as bought."""
    return sorted(bags, key=lambda b: (b.sealed, b.number))
