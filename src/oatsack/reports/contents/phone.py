"""The phone page: one file without network. Each day with its meals to tick, water and fuel left,
the ribbon, cautions, the late plan; a script, where it may run, keeps the ticks and tells them
again as a short text. Everything can be read without it."""

from __future__ import annotations

from dataclasses import replace

from oatsack.reports.contents import flameless, kitchen
from oatsack.reports.contents.menu import day_line
from oatsack.reports.contents.plan import late_table
from oatsack.reports.contents.sheet import camp_water, foot_facts, meal_lines, order_line
from oatsack.reports.document import (
    Block,
    Bullets,
    Document,
    Facts,
    Fold,
    Heading,
    Note,
    Para,
    Picture,
)
from oatsack.reports.ribbon import ribbon_picture
from oatsack.reports.telling import Telling, is_outside, long_date, meals_of, version
from oatsack.values.food import Meal
from oatsack.values.route import Day


def document(told: Telling) -> Document:
    """A fold per day; the script opens today's, without it the first is open."""
    blocks: list[Block] = [
        Note(text=told.flag(f), level=f.level)
        for f in told.plan.flags if f.level in ("block", "caution") or is_outside(f)
    ]  # fmt: skip
    blocks += [_day(told, day) for day in told.plan.days]
    blocks += [Heading(text=told.say("phone.also")), Facts(pairs=tuple(foot_facts(told)))]
    if told.plan.late:
        blocks += [Heading(text=told.say("late.title")), Para(text=told.say("sheet.late")),
                   late_table(told)]  # fmt: skip
    blocks += flameless.brief(told)
    blocks += [Fold(title=told.say("phone.kitchen"), blocks=kitchen.essentials(told))]
    blocks += [Heading(text=told.say("pictures.ribbon")), small_ribbon(told)]
    return Document(
        title=told.plan.trip.title, subtitle=order_line(told), blocks=tuple(blocks), name="phone",
        script="phone", version=version(told.plan), foot=told.foot(),
    )  # fmt: skip


def small_ribbon(told: Telling) -> Picture:
    """The ribbon in its narrow drawing only, to keep the page small."""
    whole = ribbon_picture(told)
    return replace(whole, svg=whole.narrow or whole.svg, narrow="")


def _day(told: Telling, day: Day) -> Fold:
    blocks: list[Block] = [Para(text=day_line(told, day), tone="quiet")]
    for meal in meals_of(told.plan, day.number):
        blocks += _meal(told, day, meal)
    facts = day_facts(told, day)
    blocks += [Facts(pairs=tuple(facts))] if facts else []
    return Fold(title=long_date(day), blocks=tuple(blocks), open=day.number == 1,
                key=day.date.isoformat())  # fmt: skip


def _meal(told: Telling, day: Day, meal: Meal) -> list[Block]:
    lines = meal_lines(told, day.number, meal)
    if not lines:
        return []
    name = told.say(f"meals.{meal}")
    keys = tuple(f"{day.number} {meal} {food}" for food, _ in lines)
    return [
        Heading(text=name[:1].upper() + name[1:]),
        Bullets(items=tuple(text for _, text in lines), ticks=True, keys=keys),
    ]


def day_facts(told: Telling, day: Day) -> list[tuple[str, str]]:
    """Water for camp, water places, fuel left after this day."""
    facts = []
    water = camp_water(told, day)
    if water > 0:
        facts.append((told.say("sheet.water"), told.m.volume(water)))
    places = ", ".join(f"{p.name} {told.m.distance(p.distance_m)}" for p in day.water)
    if places:
        facts.append((told.say("phone.places"), places))
    fuel = fuel_left(told, day)
    if fuel is not None:
        facts.append((told.say("phone.fuel_left"), told.m.mass(fuel)))
    return facts


def fuel_left(told: Telling, day: Day) -> float | None:
    """Fuel left after a day if all goes as planned [g]; None without a stove."""
    fuel = told.plan.kitchen.fuel
    if fuel is None or fuel.carried_g <= 0:
        return None
    burnt = sum(g for d, g in fuel.by_day_g.items() if int(d) <= day.number)
    return max(0.0, fuel.carried_g - burnt)
