"""The shopping list: by time and shop, whole packs, what is at home, what is left over."""

from __future__ import annotations

from typing import get_args

from oatsack.packing.buy import remainders
from oatsack.reports.document import (
    APART,
    Block,
    Document,
    Facts,
    Heading,
    Para,
    Row,
    cell,
    row,
    table,
)
from oatsack.reports.telling import Telling
from oatsack.values.food import Shop
from oatsack.values.pack import Buy

WHEN = ("weeks before", "day before", "on the way")
SHOPS: tuple[str, ...] = get_args(Shop)
"""From the smallest kind that has something to what must be sent for."""


def document(told: Telling) -> Document:
    """One table per time and shop; what is at home last."""
    buy = told.plan.packed.buy
    blocks: list[Block] = []
    for when, shop, leg in groups(buy):
        mine = [b for b in buy if (b.when, b.shop, b.leg) == (when, shop, leg) and b.packs > 0]
        blocks += _group(told, mine, leg)
    blocks += _home(told) + _rests(told) + _sum(told)
    return Document(
        title=told.say("shopping.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="shopping", foot=told.foot(),
    )  # fmt: skip


def groups(buy: tuple[Buy, ...]) -> list[tuple[str, str, int]]:
    """Time, shop and leg of every list, in the order in which one goes shopping."""
    found = dict.fromkeys((b.when, b.shop, b.leg) for b in buy if b.packs > 0)
    return sorted(found, key=lambda g: (g[2] > 1, g[2], WHEN.index(g[0]), SHOPS.index(g[1])))


def _group(told: Telling, lines: list[Buy], leg: int) -> list[Block]:
    first = lines[0]
    title = told.say(
        "shopping.group", shop=told.say(f"shop.{first.shop}"), when=told.say(f"when.{first.when}")
    )
    if leg > 1:
        title = told.say("shopping.leg", n=leg, group=title)
    heads = ("[]", ">" + told.say("shopping.packs"), told.say("shopping.thing") + "*3",
             ">" + told.say("shopping.pack_of"), ">" + told.say("shopping.price"),
             ">" + told.say("shopping.left"))  # fmt: skip
    return [
        Heading(text=title[:1].upper() + title[1:], level=2),
        table(heads, [_line(told, b) for b in lines], caption=title),
    ]


def _line(told: Telling, line: Buy) -> Row:
    price = "" if line.price is None else told.m.money(line.price)
    left = "" if line.left_g < 1 else told.m.mass(line.left_g)
    at = address(told, line)
    return row(
        "", cell(told.m.number(line.packs), line.packs, address=f"{at}/packs"),
        told.food(line.food).name,
        cell(told.m.mass(line.pack_g), line.pack_g, address=f"{at}/pack_g"),
        cell(price, line.price, address=f"{at}/price" if price else ""),
        cell(left, line.left_g, address=f"{at}/left_g" if left else ""),
    )  # fmt: skip


def address(told: Telling, line: Buy) -> str:
    """Where a line of the list stands in the plan; of several alike each bears its number."""
    alike = [b for b in told.plan.packed.buy
             if (b.leg, b.shop, b.food) == (line.leg, line.shop, line.food)]  # fmt: skip
    nth = alike.index(line) + 1
    name = f"{line.leg}-{line.shop}-{line.food}".replace("/", "-")
    return f"packed/buy/{name}{f'~{nth}' if nth > 1 else ''}"


def _home(told: Telling) -> list[Block]:
    mine = [b for b in told.plan.packed.buy if b.from_home_g > 0]
    if not mine:
        return []
    heads = ("[]", told.say("shopping.thing") + "*3", ">" + told.say("shopping.take"))
    rows = [
        row("", told.food(b.food).name, cell(told.m.mass(b.from_home_g), b.from_home_g,
                                             address=f"{address(told, b)}/from_home_g"))
        for b in mine
    ]
    title = told.say("shopping.home")
    return [Heading(text=title, level=2), table(heads, rows, caption=title)]


USES = {"next leg": "next", "spare": "spare", "next walk": "walk", "eat at home": "eat"}


def _rests(told: Telling) -> list[Block]:
    """What remains of the packs, as mass, servings and energy, by the use of it."""
    by_use: dict[str, list[str]] = {}
    opens: dict[str, list[tuple[str, str]]] = {}
    for rest in remainders(told.plan.packed.buy, told.plan.foods):
        if rest.grams >= 1:
            text = told.say("shopping.rest", grams=rest.grams, food=told.food(rest.food).name,
                            doses=round(rest.doses, 1), kcal=rest.energy_kcal)  # fmt: skip
            by_use.setdefault(rest.use, []).append(text)
            at = APART.join(f"{address(told, b)}/left_g" for b in told.plan.packed.buy
                            if b.food == rest.food and b.left_g > 0)  # fmt: skip
            kcal = APART.join([at, f"foods/{rest.food}/per_100g/energy_kcal"])
            opens.setdefault(rest.use, []).extend(
                [(told.m.mass(rest.grams), at), (told.m.energy(rest.energy_kcal), kcal)]
            )
    if not by_use:
        return []
    pairs = tuple(
        (told.say(f"shopping.use.{key}"), "; ".join(by_use[use]))
        for use, key in USES.items() if use in by_use
    )  # fmt: skip
    found = tuple(tuple(opens[use]) for use in USES if use in by_use)
    return [Heading(text=told.say("shopping.uses"), level=2), Facts(pairs=pairs, opens=found)]


def _sum(told: Telling) -> list[Block]:
    total = told.plan.totals.price
    unpriced = told.plan.totals.unpriced
    if total is None:
        return [Para(text=told.say("shopping.sum_none"))]
    key = "shopping.sum_some" if unpriced else "shopping.sum"
    return [Para(text=told.say(key, price=total, n=unpriced),
                 opens=((told.m.money(total), "totals/price"),))]  # fmt: skip
