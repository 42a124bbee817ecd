"""The first screen: the whole plan in at most 30 lines of 60 columns or more, for a glance.

Order: one line per day, what to buy, open bags, what it weighs, water to heat and fuel, rubbish,
need with its range and the one neutral line, the five assumptions that matter, what can be asked.
Long trips and large parties are summed up; the other reports hold the rest.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from oatsack.reports.contents import dogs
from oatsack.reports.contents.bags import bag_name, things_in
from oatsack.reports.document import Block, Document, Facts, Row, Table, bound, columns, row
from oatsack.reports.formats.layout import fold, wide
from oatsack.reports.telling import (
    BETWEEN_DISHES,
    Telling,
    beyond,
    each_line_on_top,
    full_days,
    headline,
    mains,
    neutral_line,
    short_date,
)
from oatsack.reports.words import sentence
from oatsack.values.menu import Pool
from oatsack.values.pack import Bag, Buy
from oatsack.values.plan import Assumption
from oatsack.values.route import Day

MOST_LINES = 30
FEWEST_DAYS, WEEK = 3, 7
MOST_LESS = 8
"""How far the facts give way, step by step, so that the days of a week have their lines; the last
step is for the fewest days alone."""
MOST_FLAGS = 2
NAMES = 14
"""What the names of the facts take, and a little for long words."""
FACT_CHARS = 80 - NAMES
NARROW = 72
"""Columns below which a day's line names no climb."""
BESIDE_DISHES = {False: 52, True: 41}
"""What a day's line needs beside its dishes; narrow or not."""
UNCUT = 10_000


def document(told: Telling, *, brief: bool = True, width: int = 80) -> Document:
    """At most 30 lines of `width` columns, 60 at the least; not `brief`, with nothing cut short."""
    if brief:
        pairs, room = _fitting(told, width)
        days = _days(told, room, width)
    else:
        pairs, days = _told(told, UNCUT, 0), _days(told, UNCUT, UNCUT)
    blocks: tuple[Block, ...] = (days, Facts(pairs=pairs))
    return Document(
        title=clip(told.plan.trip.title, width - 4), subtitle=told.title_line(), blocks=blocks,
        name="first", foot=told.foot(),
    )  # fmt: skip


Pairs = tuple[tuple[str, str], ...]


def _fitting(told: Telling, width: int) -> tuple[Pairs, int]:
    """The facts, as long as they may be while every day of a week still has its line, and how
    many lines are left for days."""
    wanted = min(len(told.plan.days), WEEK)
    for less in range(MOST_LESS + 1):
        pairs = _told(told, width - NAMES, less)
        room = _room(told, pairs, width)
        if room >= (wanted if less < MOST_LESS - 1 else FEWEST_DAYS):
            break
    return pairs, max(FEWEST_DAYS, room)


def _told(told: Telling, chars: int, less: int) -> Pairs:
    facts = _facts(told, chars, less)
    return tuple((told.say(f"first.{key}"), text) for key, text in facts if text)


def _room(told: Telling, pairs: Pairs, width: int) -> int:
    """How many lines are left for days, once the rest is folded as a terminal folds it."""
    beside = width - 1 - max(wide(name) for name, _ in pairs)
    facts = sum(len(fold(bound(text), beside)) for _, text in pairs)
    head = 1 + len(fold(bound(told.title_line()), width))
    return MOST_LINES - head - 2 - facts


def _facts(told: Telling, chars: int, less: int) -> Iterable[tuple[str, str]]:
    """Names and texts; `less` takes lines off the shopping first, then off the assumptions, what is
    said of the need, the open bags and the flags, what rides outside; last they go altogether."""
    loud = [f for f in told.plan.flags if f.level in ("block", "caution")]
    loud.sort(key=lambda f: f.level != "block")
    shown = loud[:MOST_FLAGS] if chars < UNCUT else []
    two = 2 if less < 6 else 1
    yield from (("look", clip(told.flag(f), two * chars)) for f in shown)
    yield "changed", changed_line(told)
    yield "buy", buy_line(told, chars, lines=max(1, 3 - less))
    yield from (("open", line) for line in open_lines(told, chars, lines=two))
    yield "weighs", weighs_line(told, chars)
    yield "night", night_line(told, chars, outside=less < 7)
    yield "dog", dogs.first_line(told)
    yield "heat", heat_line(told)
    yield "rubbish", rubbish_line(told)
    yield from (("need", line) for line in need_lines(told, chars, short=less >= 5))
    lines = 1 if len(shown) >= MOST_FLAGS else max(1, 3 - max(0, less - 2))
    yield "assumed", assumed_line(told, lines * chars) if less < MOST_LESS else ""
    dinner = _a_dinner(told)
    yield "next", told.say("first.next_line" if dinner else "first.next_cold", day=dinner)


def _named(name: str, most: int, chars: int) -> str:
    """A name, cut only where lines are."""
    return clip(name, most) if chars < UNCUT else name


def clip(text: str, most: int) -> str:
    """A text cut to so many signs, with an ellipsis where it was cut."""
    return text if len(text) <= most else text[: most - 1].rstrip(" ,;·") + "…"


def _days(told: Telling, room: int, width: int) -> Table:
    days = told.plan.days
    shown = days if len(days) <= room else days[: room - 1]
    rows = [_day_row(told, day, width) for day in shown]
    if len(shown) < len(days):
        rest = told.say("first.days_more", n=len(days) - len(shown))
        rows.append(row("", "", rest, ""))
    return Table(columns=columns("", "", "", ">"), rows=tuple(rows))


def _day_row(told: Telling, day: Day, width: int) -> Row:
    narrow = width < NARROW
    main = _dishes(told, headline(told, day.number), max(12, width - BESIDE_DISHES[narrow]))
    kcal = [told.plan.eaten[w.id][str(day.number)].energy_kcal for w in told.plan.trip.walkers]
    eats = told.m.about(kcal[0]) if len(kcal) == 1 else _span(told, kcal)
    way = told.m.distance(day.distance_m) if narrow and day.distance_m else walk_text(told, day)
    return row(short_date(day), way, main, f"{eats} kcal")


def _dishes(told: Telling, dishes: str, chars: int) -> str:
    """The day's dishes; what does not fit loses first how it was dried, then its end."""
    if len(dishes) <= chars:
        return dishes
    form = told.say("first.dish_form") + " "
    bare = [dish.removeprefix(form) for dish in dishes.split(BETWEEN_DISHES)]
    return clip(BETWEEN_DISHES.join(dish[:1].upper() + dish[1:] for dish in bare), chars)


def _span(told: Telling, values: list[float]) -> str:
    if len(values) == 2:
        return " + ".join(told.m.about(v) for v in values)
    low, high = told.m.about(min(values)), told.m.about(max(values))
    return low if low == high else f"{low}–{high}"


def changed_line(told: Telling) -> str:
    """What an edit moved; nothing where the plan had no earlier one to stay close to."""
    moved = ("menu.moved", "menu.none-moved")
    return next((told.flag(f) for f in told.plan.flags if f.key in moved), "")


def walk_text(told: Telling, day: Day) -> str:
    """How far and how much up, or a rest day."""
    if day.distance_m <= 0:
        return told.say("trip.day_rest")
    return told.say("trip.day_walk", distance=day.distance_m, climb=day.ascent_m)


def buy_line(told: Telling, chars: int = FACT_CHARS, *, lines: int = 3) -> str:
    """What to buy as whole things, the many first; cut after so many lines."""
    packs = sorted((b for b in told.plan.packed.buy if b.packs > 0), key=lambda b: -b.packs)
    if not packs:
        return told.say("first.buy_none")
    totals = told.plan.totals
    key = "first.price_least" if totals.unpriced else "first.price"
    head = told.say(
        "first.buy_line", packs=sum(b.packs for b in packs), things=len(packs), list="",
        price=told.say("first.price_none") if totals.price is None else
        told.say(key, price=totals.price),
    )  # fmt: skip
    return head + _some(told, [_pack(told, b) for b in packs], lines * chars - len(head))


def _pack(told: Telling, line: Buy) -> str:
    return f"{told.m.number(line.packs)} × {clip(told.food(line.food).name, 32)}"


def _some(told: Telling, texts: list[str], room: int) -> str:
    """As many texts as fit into so many signs, one at the least, then how many more."""
    kept: list[str] = []
    for text in texts:
        if kept and sum(len(k) + 2 for k in kept) + len(text) > room - 14:
            break
        kept.append(text)
    if len(kept) < len(texts):
        kept.append(told.say("first.more", n=len(texts) - len(kept)))
    return ", ".join(kept)


def open_lines(told: Telling, chars: int = FACT_CHARS, *, lines: int = 2) -> list[str]:
    """The open bags: how much a day to nibble, when each is opened and how long it lasts; whose
    they are, one or two walkers in so many lines each."""
    pools = told.plan.menu.pools
    if not pools:
        return []
    walkers = told.plan.trip.walkers
    if len(walkers) > 2:
        return [_nibbled(told, list(pools), told.say("first.open_party"), lines * chars)]
    mine = [(w, [p for p in pools if p.walker == w.id]) for w in walkers]
    alone = len(walkers) == 1
    return [
        _nibbled(told, of, "" if alone else f"{_named(w.name, 16, chars)}: ", lines * chars)
        for w, of in mine if of
    ]  # fmt: skip


def nibbled_kcal(told: Telling, pools: list[Pool]) -> float:
    """What is nibbled from bags on a day that has any [kcal]."""
    days = {(p.walker, day) for p in pools for day in p.by_day_g}
    kcal = sum(
        g * (told.food(p.food).per_100g.energy_kcal or 0.0) / 100.0
        for p in pools for g in p.by_day_g.values()
    )  # fmt: skip
    return kcal / max(1, len(days))


def _nibbled(told: Telling, pools: list[Pool], who: str, room: int) -> str:
    head = told.say("first.open_line", who=who, about=nibbled_kcal(told, pools), list="")
    by_food: dict[str, list[Pool]] = {}
    for pool in sorted(pools, key=lambda p: p.open_day):
        by_food.setdefault(pool.food, []).append(pool)
    texts = [_bag_text(told, same) for same in by_food.values()]
    return head + _some(told, texts, room - len(head))


def _bag_text(told: Telling, pools: list[Pool]) -> str:
    first, last = min(p.open_day for p in pools), max(p.last_day for p in pools)
    name = clip(told.food(pools[0].food).name, 28)
    days = "–".join(dict.fromkeys(_weekday(told, day) for day in (first, last)))
    return told.say("first.open_bag", packs=sum(p.packs for p in pools), food=name, days=days)


def _weekday(told: Telling, day: int) -> str:
    whole = short_date(told.day(day))
    return whole.split()[0] if len(told.plan.days) <= 7 else whole


def weighs_line(told: Telling, chars: int = FACT_CHARS) -> str:
    """Mass with wrapping, litres, whose back; spare named."""
    sacks = [s for s in told.plan.packed.sacks if s.leg == 1]
    kgs = [s.start_g / 1000.0 for s in sacks]
    if len(sacks) <= 3:
        backs = ", ".join(
            told.say("first.back", walker=_named(told.name(s.walker), 20, chars),
                     kg=s.start_g / 1000.0)
            for s in sacks
        )  # fmt: skip
    else:
        backs = told.say("first.backs", low=min(kgs), high=max(kgs))
    totals = told.plan.totals
    key = "first.weighs_line" if len(sacks) > 1 else "first.weighs_alone"
    text = told.say(key, kg=totals.start_kg, room=totals.volume_ml, backs=backs)
    spare = told.say("first.weighs_spare", spare=totals.spare_g) if totals.spare_g > 0 else ""
    return text + spare


def night_line(told: Telling, chars: int = FACT_CHARS, *, outside: bool = True) -> str:
    """Whether the container closes on the first night, and what rides outside by day; nothing
    without one."""
    if not told.plan.packed.nights or not told.plan.trip.kit.containers:
        return ""
    night = told.plan.packed.nights[0]
    text = told.say(f"night.{night.verdict}", needed=night.needed_ml, room=night.room_ml)
    if night.outside and outside:
        things = _outside(told, night.outside, things_in)
        fits = len(", ".join(things)) <= chars
        named = things if fits else _outside(told, night.outside, bag_name)
        text += told.say("night.outside", list=_some(told, named, chars))
    return text


def _outside(
    told: Telling, outside: Iterable[str], name: Callable[[Telling, Bag], str]
) -> list[str]:
    bags = {bag.id: bag for bag in told.plan.packed.bags}
    named = [name(told, bags[b]) if b in bags else b for b in outside]
    return list(dict.fromkeys(named))


def heat_line(told: Telling) -> str:
    """Water to heat, fuel with its reserve, which cans."""
    fuel = told.plan.kitchen.fuel
    if fuel is None or fuel.need_g <= 0:
        kit = told.plan.trip
        stove = kit.kit.stove is not None and not kit.rules.no_flame
        return told.say("first.heat_nothing" if stove else "first.heat_none")
    cans = [told.say("first.can", n=n, size=size) for size, n in fuel.cans]
    return told.say(
        "first.heat_line", boiled=told.plan.totals.boiled_ml_day, need=fuel.need_g,
        fuel=told.say(f"fuel.{fuel.kind}"), cans=" + ".join(cans) or told.say("first.no_can"),
    )  # fmt: skip


def rubbish_line(told: Telling) -> str:
    """What comes back out, and what it goes into."""
    rubbish = told.plan.packed.rubbish
    if not rubbish:
        return ""
    last = max(rubbish, key=lambda r: r.mass_g)
    pouches = any(r.in_pouches_ml > 0 for r in rubbish)
    bags = max(r.bags for r in rubbish)
    key = ("line" if bags == 0 else "both") if pouches else "bag"
    return told.say(f"first.rubbish_{key}", mass=last.mass_g, room=last.volume_ml,
                    bags=max(1, bags))  # fmt: skip


def need_lines(told: Telling, chars: int = FACT_CHARS, *, short: bool = False) -> list[str]:
    """The neutral line of each walker, `short` where lines are few; for parties above two, one line
    for all."""
    walkers = told.plan.trip.walkers
    if each_line_on_top(told):
        return [neutral_line(told, w, name=_named(w.name, 24, chars), short=short)
                for w in walkers]  # fmt: skip
    days = [
        told.plan.need[w.id][d].energy_kcal for w in walkers for d in full_days(told.plan, w.id)
    ]
    where = told.say("need.party_where") if chars < UNCUT else ""
    return [beyond(told, told.say("need.party", low=min(days), high=max(days), where=where))]


def assumed_line(told: Telling, chars: int = 3 * FACT_CHARS) -> str:
    """The five assumptions that move the answer most, in one breath of so many signs."""
    texts = [assumption_text(told, a) for a in told.plan.assumptions[:5]]
    return _some(told, texts, chars) if texts else ""


def assumption_text(told: Telling, assumption: Assumption) -> str:
    """One assumption, with what a change would do where that is known."""
    key = f"assumption.{assumption.key}"
    if sentence(key) is None:
        key = "assumption.unknown"
    track = next((w.own_pace.track for w in told.plan.trip.walkers if w.own_pace), "")
    text = told.say(key, key=assumption.path or assumption.key, value=assumption.value,
                    track=track)  # fmt: skip
    effect = abs(assumption.effect_kcal)
    return told.say("assumption.line", what=text, effect=effect) if effect >= 25 else text


def _a_dinner(told: Telling) -> str:
    """The weekday of the last dinner; nothing where there is none."""
    nights = [d for d in told.plan.days if mains(told, d.number)]
    return short_date(nights[-1]).split()[0] if nights else ""
