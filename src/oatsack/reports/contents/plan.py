"""The whole plan: first what one decides by, then the days, then what stands behind them."""

from __future__ import annotations

from collections.abc import Sequence

from oatsack.cite import cite
from oatsack.errors import UnknownSource
from oatsack.reports.contents import (
    bags,
    first_screen,
    flameless,
    kitchen,
    menu,
    need,
    shopping,
)
from oatsack.reports.contents.defaults import default_lines
from oatsack.reports.contents.losses import loss_blocks
from oatsack.reports.document import (
    Block,
    Bullets,
    Document,
    Facts,
    Fold,
    Heading,
    Note,
    Para,
    Table,
    cell,
    row,
    table,
)
from oatsack.reports.telling import NEUTRAL, Telling, each_line_on_top
from oatsack.values.flags import Flag, Level

LEVELS: tuple[Level, ...] = ("block", "caution", "quiet")


def document(told: Telling) -> Document:
    """Everything, in the order in which it is asked."""
    blocks: list[Block] = [*first_screen.document(told, brief=False).blocks, *flag_blocks(told)]
    needs = need.document(told, lines=not each_line_on_top(told))
    others = [part.document(told) for part in (shopping, bags, kitchen)]
    for inner in (menu.document(told), needs, *others):
        blocks += [
            Heading(text=inner.title.split(": ", 1)[-1].capitalize()),
            *lowered(inner.blocks),
        ]
    blocks += [*totals_blocks(told), *late_blocks(told), *loss_blocks(told)]
    blocks += flameless.brief(told)
    blocks += behind_blocks(told)
    return Document(
        title=told.plan.trip.title, subtitle=told.title_line(), blocks=tuple(blocks), name="plan",
        foot=told.foot(),
    )  # fmt: skip


def lowered(blocks: tuple[Block, ...]) -> list[Block]:
    """Blocks with their headings one level further down."""
    return [
        Heading(text=b.text, level=min(3, b.level + 1)) if isinstance(b, Heading) else b
        for b in blocks
    ]


def flag_blocks(told: Telling) -> list[Block]:
    """What is to be said about the plan, the loud first; what is only noted folds away."""
    flags = [f for f in told.plan.flags if not (f.key == NEUTRAL and f.level == "quiet")]
    shown = [
        Note(text=text, level=level)
        for level in LEVELS for text in flag_texts(told, [f for f in flags if f.level == level])
    ]  # fmt: skip
    blocks: list[Block] = [Heading(text=told.say("plan.flags")), *shown] if shown else []
    noted = tuple(flag_texts(told, [f for f in flags if f.level == "note"]))
    if noted:
        blocks.append(Fold(title=told.say("plan.noted"), blocks=(Bullets(items=noted),)))
    return blocks


def flag_texts(told: Telling, flags: Sequence[Flag]) -> list[str]:
    """The sentences of flags, each once; of whom, where it concerns some of a party."""
    of: dict[str, list[str]] = {}
    for flag in flags:
        names = of.setdefault(told.flag(flag), [])
        walker = next((w for w in told.plan.trip.walkers if w.id in flag.scope.split("/")), None)
        names += [walker.name] if walker else []
    return [_with_names(told, text, list(dict.fromkeys(names))) for text, names in of.items()]


def _with_names(told: Telling, text: str, names: list[str]) -> str:
    party = len(told.plan.trip.walkers)
    if party == 1 or not names or len(names) == party or all(n in text for n in names):
        return text
    return told.say("plan.whom", who=", ".join(names), text=text)


def totals_blocks(told: Telling) -> list[Block]:
    """The trip in one row, and the four yardsticks side by side."""
    t, m = told.plan.totals, told.m
    pairs = (
        ("energy", m.energy(t.energy_kcal)),
        ("density", told.say("plan.per_100", kcal=t.kcal_per_100g)),
        ("per_day", m.mass(t.g_per_person_day)),
        ("start", m.heavy(t.start_kg)),
        ("protein", told.say("plan.protein_line", per=m.per_body(t.protein_g_per_kg_day))),
        ("sodium", told.say("plan.mg", mg=t.sodium_mg_day)),
        ("fibre", told.say("plan.g", g=round(t.fibre_g_day))),
        ("caffeine", told.say("plan.mg", mg=t.caffeine_mg_day)),
        ("fat", m.percent(t.fat_share)),
        ("minutes", m.minutes(t.cook_minutes_day)),
        ("water", m.volume(t.boiled_ml_day)),
        ("fuel", m.mass(t.fuel_g)),
        ("rubbish", m.mass(t.rubbish_g)),
        ("price", told.price(t.price) or told.say("plan.no_price")),
        ("kg_days", m.mass_days(t.kg_days)),
    )
    facts = Facts(pairs=tuple((told.say(f"plan.{key}"), text) for key, text in pairs))
    return [Heading(text=told.say("plan.totals")), facts, *yardstick_blocks(told)]


def yardstick_blocks(told: Telling) -> list[Block]:
    """Four ways to size food, and how far they disagree."""
    y = told.plan.yardsticks
    parts = ("by_mass", "by_energy", "by_meals", "by_volume", "plan")
    rows = [
        row(told.say(f"plan.{p}"), cell(told.m.heavy(kg), kg))
        for p in parts for kg in [getattr(y, f"{p}_kg")]
    ]  # fmt: skip
    heads = (told.say("plan.yardstick"), ">" + told.say("plan.yard_kg"))
    return [
        Heading(text=told.say("plan.yardsticks"), level=2),
        table(heads, rows, caption=told.say("plan.yardsticks")),
        Para(text=told.say("plan.spread", spread=y.spread), tone="quiet"),
    ]


def late_blocks(told: Telling) -> list[Block]:
    """If you are late: shares of each one's own number (C11), and the fuel."""
    return [Heading(text=told.say("late.title")), late_table(told)] if told.plan.late else []


def late_table(told: Telling) -> Table:
    """Days late by what is left for each."""
    heads = (told.say("late.days"), told.say("late.share"), told.say("late.fuel"))
    rows = []
    for late in told.plan.late:
        shares = late.share
        low, high = min(shares.values(), default=0.0), max(shares.values(), default=0.0)
        key = "late.all" if high - low < 0.03 else "late.span"
        rows.append(
            row(told.say("late.n", n=late.days), told.say(key, low=low, high=high),
                told.say("late.fuel_line", left=late.fuel_left_g, needed=late.fuel_needed_g))
        )  # fmt: skip
    return table(heads, rows, caption=told.say("late.title"))


def behind_blocks(told: Telling) -> list[Block]:
    """Assumptions, how the plan was made, and the sources it rests on."""
    texts = tuple(first_screen.assumption_text(told, a) for a in told.plan.assumptions)
    left, made = default_lines(told), told.plan.made
    blocks: list[Block] = [
        Fold(title=told.say("plan.assumptions"), blocks=(Bullets(items=texts),)),
        *([Fold(title=told.say("plan.defaults"), blocks=(Bullets(items=left),))] if left else []),
        Fold(title=told.say("plan.made"), blocks=(Para(text=told.say(
            "plan.made_line", version=made.oatsack, ended=told.say(f"ended.{made.ended}"),
            gap=made.gap, rounds=made.rounds, residual=made.residual_kcal)),)),
    ]  # fmt: skip
    sources = tuple(source_text(key) for key in told.plan.sources)
    if sources:
        blocks.append(Fold(title=told.say("plan.sources"), blocks=(Bullets(items=sources),)))
    return blocks


def source_text(key: str) -> str:
    """A source in full, or its key where the bibliography lacks it."""
    try:
        return cite(key)
    except UnknownSource:
        return key
