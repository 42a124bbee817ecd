"""The same bags without a flame: what is eaten cold as it is, what soaks, what must be swapped.

For a fire ban, or a stove that died. Swaps come from whoever calls: the desk has a larder; without
one only the verdicts are told.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from oatsack.kitchen.flamefree import Swap, Twin, flame_free
from oatsack.kitchen.keeping import heats
from oatsack.reports.document import Block, Bullets, Document, Heading, Para, Row, cell, row, table
from oatsack.reports.telling import Telling, short_date
from oatsack.values.food import MEALS, Food


def document(
    told: Telling, twins: Sequence[Twin] | None = None, larder: Mapping[str, Food] | None = None
) -> Document:
    """Verdicts by food, with the swaps of `twins` where given; `larder` names what they bring."""
    found = twins_of(told) if twins is None else tuple(twins)
    return Document(
        title=told.say("flameless.title", title=told.plan.trip.title),
        subtitle=told.title_line(), name="no-flame", foot=told.foot(),
        blocks=(
            Para(text=_works(told, found)), *_soaks(told, found),
            *_never(told, found, larder or {}), *_cold(told, found),
            Para(text=told.say("flameless.rule"), tone="quiet"),
        ),
    )  # fmt: skip


def twins_of(told: Telling) -> tuple[Twin, ...]:
    """Every portion without a flame; nothing to swap is looked for."""
    plan = told.plan
    return flame_free(plan.menu, plan.foods, larder=(), allowed=lambda walker, food: False,
                      heat_c=heats(plan.days))  # fmt: skip


def brief(told: Telling) -> list[Block]:
    """The answer in a paragraph, for a sheet; nothing where no flame was planned at all."""
    if told.plan.kitchen.fuel is None:
        return []
    found = twins_of(told)
    named = {
        verdict: ", ".join(_named(told, t) for t in _once(found, verdict))
        for verdict in ("soak", "no")
    }
    lines = [told.say(f"flameless.brief_{v}", list=text) for v, text in named.items() if text]
    return [Heading(text=told.say("flameless.head")), Para(text=_works(told, found)),
            Bullets(items=tuple(lines))]  # fmt: skip


def _named(told: Telling, twin: Twin) -> str:
    name = told.food(twin.food).name
    if twin.clock is None:
        return name
    return told.say("flameless.soaked", food=name, minutes=twin.clock.ready_min)


def _works(told: Telling, twins: Sequence[Twin]) -> str:
    """How many meals work cold; hot drinks stand apart, for nobody starves without them."""
    meals = [t for t in twins if t.meal != "drinks" and told.food(t.food).role != "drink"]
    every = {(t.walker, t.day, t.meal) for t in meals}
    broken = {(t.walker, t.day, t.meal) for t in meals if t.verdict == "no"}
    return told.say("flameless.works", n=len(every) - len(broken), all=len(every))


def _once(twins: Iterable[Twin], verdict: str) -> list[Twin]:
    """The first twin of each food with this verdict."""
    out: dict[str, Twin] = {}
    for twin in twins:
        if twin.verdict == verdict:
            out.setdefault(twin.food, twin)
    return list(out.values())


def _when(told: Telling, twins: Iterable[Twin], food: str) -> str:
    """The meals at which a food is eaten, by day; many days are only counted."""
    spots = sorted({(t.day, t.meal) for t in twins if t.food == food},
                   key=lambda spot: (spot[0], MEALS.index(spot[1])))  # fmt: skip
    if len({day for day, _ in spots}) > 3:
        return told.say("flameless.days", n=len({day for day, _ in spots}))
    return ", ".join(f"{short_date(told.day(d))} {told.say(f'meals.{m}')}" for d, m in spots)


def _soaks(told: Telling, twins: Sequence[Twin]) -> list[Block]:
    rows = [_soak(told, twins, twin) for twin in _once(twins, "soak")]
    if not rows:
        return []
    title = told.say("flameless.soak")
    heads = (told.say("small.what"), told.say("flameless.when"), ">" + told.say("flameless.ready"),
             ">" + told.say("flameless.within"))  # fmt: skip
    return [Heading(text=title), table(heads, rows, caption=title),
            Para(text=told.say("flameless.soak_how"), tone="quiet")]  # fmt: skip


def _soak(told: Telling, twins: Sequence[Twin], twin: Twin) -> Row:
    """One food that soaks, on the hottest of its days."""
    clocks = [t.clock for t in twins if t.food == twin.food and t.clock is not None]
    clock = min(clocks, key=lambda c: c.eat_within_min or 1e9)
    within = clock.eat_within_min
    text = told.say("flameless.no_clock") if within is None else told.m.minutes(within)
    if not clock.safe:
        text = told.say("flameless.too_slow", minutes=within)
    prep = told.food(twin.food).prep
    field = "cold_soak_min" if prep.cold_soak_min is not None else "wait_min"
    hot = next((t.day for t in twins if t.food == twin.food and t.clock == clock), twin.day)
    return row(
        told.food(twin.food).name, _when(told, twins, twin.food),
        cell(told.m.minutes(clock.ready_min), clock.ready_min,
             address=f"foods/{twin.food}/prep/{field}"),
        cell(text, within, address="" if within is None else f"kitchen/wet_min/{hot}"),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Mend:
    """A food that cannot be eaten cold, and what goes in its place."""

    food: str
    swap: Swap | None


def _never(told: Telling, twins: Sequence[Twin], larder: Mapping[str, Food]) -> list[Block]:
    mends = dict.fromkeys(_Mend(t.food, _whole(t.swap)) for t in twins if t.verdict == "no")
    if not mends:
        return []
    rows = [_mended(told, twins, mend, larder) for mend in mends]
    heads = (told.say("small.what"), told.say("flameless.when"), told.say("flameless.instead"),
             ">" + told.say("flameless.off"))  # fmt: skip
    title = told.say("flameless.never")
    return [Heading(text=title), table(heads, rows, caption=title)]


def _whole(swap: Swap | None) -> Swap | None:
    """A swap without what rounding makes of its energy, so that equal ones are told once."""
    if swap is None:
        return None
    return Swap(food=swap.food, doses=swap.doses, energy_kcal=round(swap.energy_kcal),
                off_kcal=round(swap.off_kcal))  # fmt: skip


def _mended(
    told: Telling, twins: Sequence[Twin], mend: _Mend, larder: Mapping[str, Food]
) -> Row:
    name = told.food(mend.food).name
    same = [t for t in twins if t.food == mend.food and _whole(t.swap) == mend.swap]
    when = _when(told, same, mend.food)
    if mend.swap is None:
        drink = told.food(mend.food).role == "drink"
        return row(name, when, told.say("flameless.leave" if drink else "flameless.nothing"), "")
    into = larder.get(mend.swap.food) or told.plan.foods.get(mend.swap.food)
    other = mend.swap.food if into is None else into.name
    what = told.say("flameless.swap", doses=mend.swap.doses, food=other)
    return row(name, when, what, cell(_signed(told, mend.swap.off_kcal), mend.swap.off_kcal))


def _signed(told: Telling, kcal: float) -> str:
    return ("+" if kcal > 0 else "") + told.m.energy(kcal)


def _cold(told: Telling, twins: Sequence[Twin]) -> list[Block]:
    names = tuple(told.food(t.food).name for t in _once(twins, "as-it-is"))
    if not names:
        return []
    return [Heading(text=told.say("flameless.cold")), Para(text=", ".join(names) + ".")]
