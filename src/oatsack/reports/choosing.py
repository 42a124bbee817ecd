"""The menus of other weights and along the energy dial as quiet tables, and as plain values."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.reports.document import Block, Document, Para, Row, cell, row, table
from oatsack.reports.telling import Telling

HEADS = ("name", ">mass", ">price", ">kg_days", ">liking", ">minutes", ">rubbish", ">gap")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What one menu comes to: food with its wrapping [g], price of what is eaten, kg-days, mean
    liking (1 to 5), minutes of cooking a day, rubbish [g], and the share that it may be above the
    best possible by its own weights."""

    name: str
    mass_g: float
    price: float
    kg_days: float
    liking: float
    cook_min_day: float
    rubbish_g: float
    energy_kcal: float
    gap: float


def document(told: Telling, ten: Sequence[Figures], dial: Sequence[Figures]) -> Document:
    """Both tables; one that is empty is left out."""
    blocks: list[Block] = []
    if ten:
        heads = [_head(told, name) for name in HEADS]
        blocks += [
            table(heads, (_row(told, f) for f in ten), caption=told.say("choices.ten")),
            Para(text=told.say("choices.ten_says"), tone="quiet"),
        ]
    if dial:
        heads = [_head(told, name) for name in ("dial", *HEADS[1:])]
        blocks += [
            table(heads, (_row(told, f) for f in dial), caption=told.say("choices.along")),
            Para(text=told.say("choices.along_says"), tone="quiet"),
        ]
    title = told.say("choices.title", title=told.plan.trip.title)
    return Document(title=title, blocks=tuple(blocks), name="choices")


def _head(told: Telling, name: str) -> str:
    """A column's title; where numbers stand without their unit, the unit is said here."""
    side = ">" if name.startswith(">") else ""
    name = name.lstrip(">")
    units = {"price": told.m.money(0.0), "kg_days": told.m.mass_days(0.0)}
    return side + told.say(f"choices.{name}", unit=_parted(units.get(name, ""))[1])


def _parted(text: str) -> tuple[str, str]:
    """A number and its unit."""
    number, _, unit = text.rpartition(" ")
    return number or text, unit


def _row(told: Telling, f: Figures) -> Row:
    name = f.name if f.name.endswith("%") else told.say(f"live.choice_{f.name}")
    return row(
        name, cell(told.m.mass(f.mass_g), f.mass_g),
        cell(_parted(told.m.money(f.price))[0], f.price),
        cell(_parted(told.m.mass_days(f.kg_days))[0], f.kg_days),
        cell(told.m.number(f.liking, 1), f.liking),
        cell(told.m.minutes(f.cook_min_day), f.cook_min_day),
        cell(told.m.mass(f.rubbish_g), f.rubbish_g), cell(told.m.percent(f.gap), f.gap),
    )  # fmt: skip
