"""What the kitchen counts and dates: things by habit, caffeine and salt, and what to eat first."""

from __future__ import annotations

from collections.abc import Iterator

from oatsack.kitchen.counts import strength
from oatsack.reports.document import Block, Heading, Para, Row, cell, row, table
from oatsack.reports.telling import Telling, short_date
from oatsack.values.kitchen import CaffeineLine, CountLine, KeepLine


def small_things(told: Telling) -> list[Block]:
    """Counts, caffeine and salt, what keeps and what does not."""
    return [*_counts(told), *_caffeine(told), *_salt(told), *eat_first(told)]


def _counts(told: Telling) -> list[Block]:
    rows = [
        _count(told, walker, food, line)
        for walker, of in told.plan.kitchen.counts.items() for food, line in of.items()
    ]  # fmt: skip
    if not rows:
        return []
    heads = (told.say("kitchen.who"), told.say("small.what"), told.say("small.how"),
             ">" + told.say("small.take"))  # fmt: skip
    title = told.say("small.counts")
    return [Heading(text=title), table(heads, rows, caption=title)]


def _count(told: Telling, walker: str, food: str, line: CountLine) -> Row:
    return row(
        told.name(walker), told.food(food).name, _how(told, line),
        cell(told.m.number(line.take), line.take, address=f"kitchen/counts/{walker}/{food}/take"),
    )  # fmt: skip


def _how(told: Telling, line: CountLine) -> str:
    """So many per what; for a bottle which one, and how strong it comes out."""
    text = told.say(f"small.per_{line.per}", each=line.each)
    if line.bottle_ml <= 0:
        return text
    share = strength(line.bottle_ml, line.each, line.made_for_ml)
    key = "small.bottle" if 0.75 <= share <= 1.25 else "small.bottle_off"
    return text + told.say(key, bottle=line.bottle_ml, made=line.made_for_ml, share=share)


def _caffeine(told: Telling) -> list[Block]:
    lines = told.plan.kitchen.caffeine
    if not lines:
        return []
    heads = (told.say("kitchen.who"), ">" + told.say("small.most"), ">" + told.say("small.limit"),
             ">" + told.say("small.single"), ">" + told.say("small.limit_single"),
             ">" + told.say("small.usual"))  # fmt: skip
    title = told.say("small.caffeine")
    rows = [_drinker(told, walker, line) for walker, line in lines.items()]
    return [Heading(text=title), table(heads, rows, caption=title)]


def _drinker(told: Telling, walker: str, line: CaffeineLine) -> Row:
    at = f"kitchen/caffeine/{walker}"
    names = ("most_mg", "day_cap_mg", "single_mg", "single_cap_mg", "usual_mg")
    cells = [
        cell("?" if mg is None else told.say("plan.mg", mg=round(mg)), mg,
             address="" if mg is None else f"{at}/{name}")
        for name in names for mg in [getattr(line, name)]
    ]  # fmt: skip
    return row(told.name(walker), *cells)


def _salt(told: Telling) -> list[Block]:
    """Sodium sweated out beside sodium eaten, the day on which most is lost, for each."""
    rows = list(_salts(told))
    if not rows:
        return []
    title = told.say("small.salt")
    heads = (told.say("kitchen.who"), told.say("need.day"), ">" + told.say("small.lost"),
             ">" + told.say("small.eaten"))  # fmt: skip
    return [Heading(text=title), table(heads, rows, caption=title),
            Para(text=told.say("small.salt_line"), tone="quiet")]  # fmt: skip


def _salts(told: Telling) -> Iterator[Row]:
    for walker, of in told.plan.kitchen.water.items():
        day = max(of, key=lambda d: of[d].sodium_high_mg, default=None)
        eaten = told.plan.eaten.get(walker, {}).get(day or "")
        if day is None or eaten is None or of[day].sodium_high_mg <= 0:
            continue
        lost = told.say("small.span_mg", low=round(of[day].sodium_low_mg, -2),
                        high=round(of[day].sodium_high_mg, -2))  # fmt: skip
        yield row(
            told.name(walker), short_date(told.day(int(day))),
            cell(lost, of[day].sodium_high_mg,
                 address=f"kitchen/water/{walker}/{day}/sodium_high_mg"),
            cell(told.say("plan.mg", mg=round(eaten.sodium_mg, -1)), eaten.sodium_mg,
                 address=f"eaten/{walker}/{day}/sodium_mg"),
        )  # fmt: skip


def eat_first(told: Telling) -> list[Block]:
    """What does not keep for the walk, and how long moist food may stand."""
    book = told.plan.kitchen
    if not book.wet_min and not book.keeping:
        return []
    title = told.say("small.keeping")
    out: list[Block] = [Heading(text=title)]
    if book.keeping:
        heads = (told.say("small.what"), told.say("small.until"), told.say("small.opened"),
                 told.say("small.last"))  # fmt: skip
        rows = [_kept(told, food, line) for food, line in book.keeping.items()]
        out.append(table(heads, rows, caption=title))
    else:
        out.append(Para(text=told.say("small.all_keeps")))
    return [*out, Para(text=wet_line(told))]


def _kept(told: Telling, food: str, line: KeepLine) -> Row:
    def day(number: int | None) -> str:
        return "" if number is None else short_date(told.plan.days[min(number, _end(told)) - 1])

    opened = ""
    if line.opened_day is not None and line.opened_until_day is not None:
        opened = told.say("small.open_span", first=day(line.opened_day),
                          last=day(line.opened_until_day))  # fmt: skip
    until = day(line.until_day) if line.until_day else told.say("small.whole_walk")
    at = f"kitchen/keeping/{food}"
    return row(
        told.food(food).name,
        cell(until, line.until_day, address=f"{at}/until_day" if line.until_day else ""),
        cell(opened, line.opened_until_day,
             address=f"{at}/opened_until_day" if line.opened_until_day else ""),
        cell(day(line.last_day), line.last_day, address=f"{at}/last_day"),
    )  # fmt: skip


def _end(told: Telling) -> int:
    return len(told.plan.days)


def wet_line(told: Telling) -> str:
    """The two-hour rule, with the days on which it is one hour."""
    wet = told.plan.kitchen.wet_min
    if not wet:
        return told.say("small.wet_cold")
    longest = max(wet.values())
    short = [d for d, minutes in wet.items() if minutes < longest or longest <= 60.0]
    days = ", ".join(short_date(told.day(int(d))) for d in short)
    if not short:
        return told.say("small.wet", hours=longest / 60.0)
    if len(short) == len(wet):
        return told.say("small.wet", hours=min(wet.values()) / 60.0)
    return told.say("small.wet_hot", hours=longest / 60.0, hot=min(wet.values()) / 60.0, days=days)
