"""The pictures of a plan with their words and the tables behind them."""

from __future__ import annotations

from oatsack.charts import meals as meals_chart
from oatsack.charts import need as need_chart
from oatsack.charts import weight as weight_chart
from oatsack.charts.meals import MealDay
from oatsack.charts.need import NeedDay
from oatsack.charts.weight import SackDay
from oatsack.reports.contents.need import need_table
from oatsack.reports.document import Picture, Table, cell, row, table
from oatsack.reports.telling import Telling, portions_at, short_date
from oatsack.values.food import MEALS
from oatsack.values.route import Day
from oatsack.values.walker import Walker

WIDTHS = ((640.0, ""), (340.0, "-narrow"))
"""A broad drawing, and one for a phone: a broad one made small cannot be read."""


def need_picture(told: Telling, walker: Walker) -> Picture:
    """What a walker's days use, with range, beside what is eaten."""
    days = [_need_day(told, walker, d) for d in told.plan.days]
    title = told.say("pictures.need", walker=walker.name)
    desc = told.say(
        "pictures.need_text", walker=walker.name,
        least=min(d.likely for d in days), most=max(d.likely for d in days),
        eats_least=min(d.eaten for d in days), eats_most=max(d.eaten for d in days),
    )  # fmt: skip
    words = (title, desc, told.say("need.eats"), told.say("need.uses"), "kcal")
    broad, narrow = (
        need_chart.draw(days, words=words, width=width, name=f"need-{walker.id}{tail}")
        for width, tail in WIDTHS
    )
    return Picture(svg=broad, narrow=narrow, title=title, text=desc, table=need_table(told, walker))


def _need_day(told: Telling, walker: Walker, day: Day) -> NeedDay:
    n = told.plan.need[walker.id][str(day.number)]
    eaten = told.plan.eaten[walker.id][str(day.number)].energy_kcal
    return NeedDay(name=short_date(day), low=n.low_kcal, likely=n.energy_kcal, high=n.high_kcal,
                   eaten=eaten, shown=told.m.about(eaten))  # fmt: skip


def meals_picture(told: Telling, walker: Walker) -> Picture:
    """Energy by meal and day of one walker."""
    days = [_meal_day(told, walker, d) for d in told.plan.days]
    title = told.say("pictures.meals", walker=walker.name)
    desc = told.say("pictures.meals_text", walker=walker.name)
    named = [told.say(f"meals.{m}") for m in MEALS]
    eaten = {meal for d in days for meal, _ in d.parts}
    words = (title, desc, *(n for n in named if n in eaten))
    broad, narrow = (
        meals_chart.draw(days, words=words, width=width, name=f"meals-{walker.id}{tail}")
        for width, tail in WIDTHS
    )
    return Picture(
        svg=broad,
        narrow=narrow,
        title=title,
        text=desc,
        table=_meal_table(told, walker, days, words[2:]),
    )


def _meal_day(told: Telling, walker: Walker, day: Day) -> MealDay:
    parts = []
    for meal in MEALS:
        found = portions_at(told.plan, day.number, meal, walker.id)
        kcal = sum(p.doses * told.food(p.food).dose_kcal for p in found)
        if kcal > 0:
            parts.append((told.say(f"meals.{meal}"), kcal))
    total = sum(k for _, k in parts)
    return MealDay(name=short_date(day), parts=tuple(parts), total=told.m.about(total))


def _meal_table(told: Telling, walker: Walker, days: list[MealDay],
                names: tuple[str, ...]) -> Table:  # fmt: skip
    rows = [
        row(d.name, *(cell(told.m.about(k), k) for n in names for k in [dict(d.parts).get(n, 0.0)]))
        for d in days
    ]
    heads = (told.say("need.day"), *(f">{n}" for n in names))
    return table(heads, rows, caption=told.say("pictures.meals", walker=walker.name))


def weight_picture(told: Telling, walker: Walker) -> Picture:
    """What is in a walker's food bag at each waking."""
    days = [_sack_day(told, walker, d) for d in told.plan.days]
    title = told.say("pictures.weight", walker=walker.name)
    first, last = days[0], days[-1]
    desc = told.say("pictures.weight_text", first=first.grams / 1000.0, last=last.grams / 1000.0,
                    day_one=first.name, day_end=last.name)  # fmt: skip
    words = (title, desc, told.say("pictures.wrappers"))
    broad, narrow = (
        weight_chart.draw(days, words=words, width=width, name=f"weight-{walker.id}{tail}")
        for width, tail in WIDTHS
    )
    heads = (told.say("need.day"), ">" + told.say("pictures.sack"),
             ">" + told.say("pictures.wrappers"))  # fmt: skip
    rows = [
        row(d.name, cell(told.m.mass(d.grams), d.grams), cell(told.m.mass(d.wrappers), d.wrappers))
        for d in days
    ]
    return Picture(
        svg=broad, narrow=narrow, title=title, text=desc, table=table(heads, rows, caption=title)
    )


def _sack_day(told: Telling, walker: Walker, day: Day) -> SackDay:
    sack = [s for s in told.plan.packed.sacks if s.walker == walker.id and s.leg == day.leg]
    key = str(day.number)
    grams = sum(s.by_day_g.get(key, 0.0) for s in sack)
    wrappers = sum(s.wrappers_by_day_g.get(key, 0.0) for s in sack)
    return SackDay(name=short_date(day), grams=grams, wrappers=wrappers,
                   shown=told.m.heavy(grams / 1000.0))  # fmt: skip
