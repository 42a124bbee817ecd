"""What a trip comes to, at a glance: figures and sentences whose numbers are links to their why."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from html import escape
from typing import NamedTuple
from urllib.parse import quote

from markupsafe import Markup

from oatsack.reports.contents import dogs
from oatsack.reports.contents import first_screen as first
from oatsack.reports.document import APART, bound
from oatsack.reports.telling import Telling, flag_opens, full_days, mean

Shown = tuple[str, str]
"""A number as it is shown, and its address, or several of what it comes of."""
PLAIN = re.compile(r"[\w/.~*-]*", re.ASCII)
"""An address that may stand in a link as it is."""
ADDRESSED = re.compile(r'(<(?:td|span)[^>]*) data-why="([^"]*)">([^<]*)<')


class Figure(NamedTuple):
    """One figure: its key, what it is, how it reads, where it is opened."""

    key: str
    name: str
    text: str
    at: str


def figures(told: Telling) -> list[Figure]:
    """The figures that stand first; the dial changes those it can."""
    t, m = told.plan.totals, told.m
    price = told.price(t.price) or told.say("live.none")
    rows = [
        ("mass", m.mass(t.gross_g), "totals/gross_g"),
        ("start", m.heavy(t.start_kg), "totals/start_kg"),
        ("energy", m.energy(t.energy_kcal), "totals/energy_kcal"),
        ("price", price, "totals/price"),
        ("kg_days", m.mass_days(t.kg_days), "totals/kg_days"),
        ("cook", m.minutes(t.cook_minutes_day), "totals/cook_minutes_day"),
        ("water", m.volume(t.boiled_ml_day), "totals/boiled_ml_day"),
        ("fuel", m.mass(t.fuel_g), "totals/fuel_g"),
        ("rubbish", m.mass(t.rubbish_g), "totals/rubbish_g"),
    ]
    if t.price is None:
        rows = [row for row in rows if row[0] != "price"]
    return [Figure(key, told.say(f"live.{key}"), text, at) for key, text, at in rows]


def facts(told: Telling, base: str) -> list[tuple[str, Markup]]:
    """The sentences of the first screen, their numbers as links below `base`."""
    return [
        (told.say(f"first.{key}"), linked(text, shown, base))
        for key, text, shown in _sentences(told) if text
    ]  # fmt: skip


def _sentences(told: Telling) -> Iterator[tuple[str, str, list[Shown]]]:
    plan, m = told.plan, told.m
    loud = [f for f in plan.flags if f.level in ("block", "caution")]
    for flag in sorted(loud, key=lambda f: f.level != "block"):
        yield "look", told.flag(flag), list(flag_opens(told, flag))
    t, fuel = plan.totals, plan.kitchen.fuel
    yield "buy", first.buy_line(told), (
        [] if t.price is None else [(m.money(t.price), "totals/price")]
    )
    yield from (("open", line, nibbled(told)) for line in first.open_lines(told, first.UNCUT))
    yield "weighs", first.weighs_line(told, first.UNCUT), [
        (m.heavy(t.start_kg), "totals/start_kg"), (m.room(t.volume_ml), "totals/volume_ml"),
        *((m.heavy(s.start_g / 1000.0), f"packed/sacks/{s.leg}-{s.walker}/start_g")
          for s in plan.packed.sacks if s.leg == 1),
        (m.mass(t.spare_g), "totals/spare_g"),
    ]  # fmt: skip
    yield "night", first.night_line(told, first.UNCUT), _night(told)
    yield "dog", dogs.first_line(told), [
        (m.mass(b.net_g), f"{dogs.address(b)}/net_g") for b in plan.packed.dogs
    ]
    yield "heat", first.heat_line(told), [(m.volume(t.boiled_ml_day), "totals/boiled_ml_day")] + (
        [(m.mass(fuel.need_g), "kitchen/fuel/need_g")] if fuel else []
    )
    yield "rubbish", first.rubbish_line(told), _rubbish(told)
    lines = first.need_lines(told, first.UNCUT)
    each = [w.id for w in plan.trip.walkers]
    for k, line in enumerate(lines):
        yield "need", line, need_opens(told, each[k : k + 1] if len(lines) == len(each) else each)
    yield "assumed", first.assumed_line(told, first.UNCUT), [
        (first.assumption_text(told, one), f"assumptions/{one.key}/effect_kcal")
        for one in plan.assumptions[:5]
    ]


def nibbled(told: Telling) -> list[Shown]:
    """What a day's nibbling comes to for each walker: of every bag, its grams and its energy."""
    out = []
    for walker in told.plan.trip.walkers:
        bags = [(n, p) for n, p in enumerate(told.plan.menu.pools) if p.walker == walker.id]
        if bags:
            shown = told.m.about(first.nibbled_kcal(told, [p for _, p in bags]))
            grams = [f"menu/pools/{n}/by_day_g/{min(p.by_day_g)}" for n, p in bags if p.by_day_g]
            kcal = dict.fromkeys(f"foods/{p.food}/per_100g/energy_kcal" for _, p in bags)
            out.append((shown, APART.join([*grams, *kcal])))
    return out


def need_opens(told: Telling, walkers: Sequence[str]) -> list[Shown]:
    """What walkers eat and use on full days, and what they may lose."""
    plan, m = told.plan, told.m
    out: list[Shown] = []
    for w in walkers:
        days = [d for d in full_days(plan, w) if d in plan.need[w]]
        out.append((m.percent(plan.chosen[w].factor), f"chosen/{w}/factor"))
        eats = mean(plan.target[w][d] for d in days if d in plan.target[w])
        out.append((m.about(eats), APART.join(f"target/{w}/{d}" for d in days)))
        for name in ("energy_kcal", "low_kcal", "high_kcal"):
            of_days = [getattr(plan.need[w][d], name) for d in days]
            at = APART.join(f"need/{w}/{d}/{name}" for d in days)
            out += [(m.about(mean(of_days)), at)] * bool(days)
        lost = plan.consequence.get(w)
        for end in ("low", "high") if lost else ():
            parts = [f"{of}_{end}_kg" for of in ("tissue", "water")]
            at = APART.join(f"consequence/{w}/{part}" for part in parts)
            out.append((m.body(sum(getattr(lost, part) for part in parts)), at))
    return out


def _night(told: Telling) -> list[Shown]:
    nights = told.plan.packed.nights
    if not nights:
        return []
    one = nights[0]
    return [(told.m.room(one.needed_ml), f"packed/nights/{one.day}/needed_ml"),
            (told.m.room(one.room_ml), f"packed/nights/{one.day}/room_ml")]  # fmt: skip


def _rubbish(told: Telling) -> list[Shown]:
    rows = told.plan.packed.rubbish
    if not rows:
        return []
    last = max(rows, key=lambda r: r.mass_g)
    return [(told.m.mass(last.mass_g), f"packed/rubbish/{last.day}/mass_g"),
            (told.m.room(last.volume_ml), f"packed/rubbish/{last.day}/volume_ml")]  # fmt: skip


def why_href(base: str, at: str) -> str:
    """The page of a number; of one that comes of several, all of their addresses."""
    if PLAIN.fullmatch(at):
        return f"{base}/why?at={at}"
    return f"{base}/why?" + "&amp;".join(f"at={quote(one)}" for one in at.split(APART))


def linked(text: str, shown: list[Shown], base: str) -> Markup:
    """A sentence, escaped, each shown number once a link to how it came about."""
    out = escape(bound(text))
    for number, at in shown:
        said = escape(bound(number))
        href = why_href(base, at)
        pattern = rf"(?<![\d.,>]){re.escape(said)}(?![\d<])"
        out = re.sub(pattern, f'<a href="{href}">{said}</a>', out, count=1)
    return Markup(out)



def opened(html: str, base: str) -> Markup:
    """Blocks whose cells and sentences bear addresses, with links in them."""
    return Markup(ADDRESSED.sub(
        lambda m: f'{m[1]}><a href="{why_href(base, m[2])}">{m[3]}</a><', html
    ))  # fmt: skip
