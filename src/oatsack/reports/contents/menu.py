"""The menu: every meal of every day, with who eats what, and the day's sums."""

from __future__ import annotations

from oatsack.reports.contents.first_screen import walk_text
from oatsack.reports.contents.town import town_text
from oatsack.reports.document import Block, Cell, Document, Heading, Para, Table, cell, row, table
from oatsack.reports.telling import (
    Telling,
    long_date,
    meals_of,
    portions_at,
    short_date,
    together,
)
from oatsack.values.food import Meal
from oatsack.values.menu import Pool, Portion
from oatsack.values.route import Day


def document(told: Telling) -> Document:
    """One table per day."""
    blocks: list[Block] = []
    for day in told.plan.days:
        blocks += day_blocks(told, day)
    blocks += [*pool_blocks(told), *spare_blocks(told)]
    return Document(
        title=told.say("menu.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="menu", foot=told.foot(),
    )  # fmt: skip


def day_blocks(told: Telling, day: Day) -> list[Block]:
    """A day: its heading, where it goes, its meals as a table, its sums."""
    return [
        Heading(text=told.say("menu.day", n=day.number, date=long_date(day))),
        Para(text=day_line(told, day), tone="quiet"),
        _meals(told, day),
    ]


def day_line(told: Telling, day: Day) -> str:
    """How far, how high, and where the night is."""
    parts = [walk_text(told, day), told.say("menu.highest", height=day.highest_m)]
    if day.camp_m is not None:
        key = "menu.camp_dry" if day.camp_dry else "menu.camp"
        name = f"{day.camp_name}, " if day.camp_name else ""
        parts.append(told.say(key, name=name, height=day.camp_m))
    return " · ".join([*parts, *filter(None, [town_text(told, day)])])


def _meals(told: Telling, day: Day) -> Table:
    walkers = told.plan.trip.walkers
    heads = ["", *(w.name for w in walkers)] if len(walkers) <= 3 else ["", told.say("menu.all")]
    rows = [
        row(told.say(f"meals.{m}"), *_cells(told, day, m)) for m in meals_of(told.plan, day.number)
    ]
    if len(walkers) <= 3:
        sums = [told.plan.eaten[w.id][str(day.number)] for w in walkers]
        rows.append(
            row(told.say("menu.sum"), *(_sum_cell(told, w.id, day, s.energy_kcal)
                for w, s in zip(walkers, sums, strict=True)), kind="total")
        )  # fmt: skip
    return table(heads, rows, caption=told.say("menu.day", n=day.number, date=long_date(day)))


def _sum_cell(told: Telling, walker: str, day: Day, kcal: float) -> Cell:
    return cell(told.m.energy(kcal), kcal, address=f"eaten/{walker}/{day.number}/energy_kcal")


def _cells(told: Telling, day: Day, meal: Meal) -> list[Cell]:
    walkers = told.plan.trip.walkers
    if len(walkers) > 3:
        return [cell(party_meal(told, portions_at(told.plan, day.number, meal)))]
    return [cell(", ".join(meal_texts(told, day.number, meal, w.id))) for w in walkers]


def meal_texts(told: Telling, day: int, meal: Meal, walker: str) -> list[str]:
    """What one walker eats at one meal, as texts; open bags together at the end."""
    mine = together(portions_at(told.plan, day, meal, walker))
    texts = [told.portion(p) for p in mine if p.why != "bag"]
    return texts + nibbled(told, mine)


def nibbled(told: Telling, portions: list[Portion]) -> list[str]:
    """The open bags among portions, as one text, or none."""
    names = [told.food(p.food).name for p in portions if p.why == "bag"]
    return [told.say("menu.nibble", list=", ".join(names))] if names else []


def party_meal(told: Telling, portions: list[Portion]) -> str:
    """What a large party eats together at one meal: totals, and for how many."""
    whole = together(portions)
    texts = []
    for p in whole:
        eaters = len({q.walker for q in portions if q.food == p.food})
        if p.why != "bag":
            texts.append(told.say("menu.for", what=told.portion(p), n=eaters))
    return ", ".join(texts + nibbled(told, whole))


def pool_blocks(told: Telling) -> list[Block]:
    """The open bags: whose, when each is opened, how long it lasts, about how much a day."""
    pools = told.plan.menu.pools
    if not pools:
        return []
    heads = (told.say("menu.pool_who"), told.say("menu.pool_bag"), told.say("menu.pool_open"),
             told.say("menu.pool_last"), ">" + told.say("menu.pool_about"))  # fmt: skip
    rows = [
        row(told.name(p.walker), told.shared_packs(p.food, p.packs),
            short_date(told.day(p.open_day)), short_date(told.day(p.last_day)),
            told.m.about(pool_kcal(told, p)))
        for p in pools
    ]  # fmt: skip
    title = told.say("menu.pools")
    return [Heading(text=title), table(heads, rows, caption=title)]


def pool_kcal(told: Telling, pool: Pool) -> float:
    """What an open bag gives on each of its days [kcal]."""
    grams = sum(pool.by_day_g.values()) / max(1, len(pool.by_day_g))
    return grams * (told.food(pool.food).per_100g.energy_kcal or 0.0) / 100.0


def spare_blocks(told: Telling) -> list[Block]:
    """Spare food, apart from everything (C16)."""
    spare = told.plan.menu.spare
    if not spare:
        return []
    texts = [told.portion(p) for p in together(spare)]
    return [
        Heading(text=told.say("menu.spare")),
        Para(text=told.say("menu.spare_line", list=", ".join(texts),
                           kcal=told.plan.totals.spare_kcal)),
    ]  # fmt: skip
