"""Explains by counting again: the whole kitchen, the packing, the late plans, the yardsticks."""

from __future__ import annotations

from dataclasses import replace

from oatsack.values.flags import Flag
from oatsack.why.explainers.base import Asked, Explainer, given
from oatsack.why.explainers.needs import walker_input
from oatsack.why.explanation import Explanation


def _rest(asked: Asked, skip: int) -> str:
    return "/".join(asked.words[skip:])


def kitchen(asked: Asked) -> Explanation:
    """The camp-by-camp ledger of water, heat, fuel and minutes."""
    return asked.answer(
        f"pick(kitchen(menu, foods, days, trip, need, groups), '{_rest(asked, 1)}')",
        source="IapwsIF97", sure="prior",
        menu=asked.taken("menu"), foods=asked.taken("foods"), days=asked.taken("days"),
        trip=asked.taken("trip"), need=asked.taken("need"),
        groups=asked.taken("kitchen/groups"),
    )  # fmt: skip


def packing(asked: Asked) -> Explanation:
    """Bags, sacks, containers, rubbish and purchases."""
    return asked.answer(
        f"pick(pack(menu, foods, days, trip, kitchen), '{_rest(asked, 1)}')",
        source="common practice", sure="prior",
        menu=asked.taken("menu"), foods=asked.taken("foods"), days=asked.taken("days"),
        trip=asked.taken("trip"), kitchen=asked.taken("kitchen"),
    )  # fmt: skip


def late(asked: Asked) -> Explanation:
    """What is left spread over the days that remain and the days more."""
    return asked.answer(
        f"pick(late_plans(menu, foods, target, fuel, days), '{_rest(asked, 1)}')",
        menu=asked.taken("menu"), foods=asked.taken("foods"), target=asked.taken("target"),
        fuel=asked.taken("kitchen/fuel"), days=asked.taken("days"),
    )  # fmt: skip


def yardstick(asked: Asked) -> Explanation:
    """Four usual ways to size food, beside the plan's own packed mass."""
    grams = sum(b.gross_g for b in asked.plan.packed.bags if b.label != "spare")
    return asked.answer(
        f"pick(yardsticks(slots, days, target, grams), '{asked.last}')",
        source="common practice", sure="prior",
        slots=asked.taken("slots"), days=asked.taken("days"), target=asked.taken("target"),
        grams=given(grams, "packed/bags without spare food"),
    )  # fmt: skip


def consequence(asked: Asked) -> Explanation:
    """What the shortfall may do: tissue by Forbes's curve, water apart."""
    name = asked.words[1]
    return asked.answer(
        f"pick(consequence(walker, needs, target, town, slots), '{asked.last}')",
        source="Hall2011" if asked.last == "scales_hall_kg" else "Hall2007", sure="model",
        walker=walker_input(asked.plan, name), needs=asked.taken(f"need/{name}"),
        target=asked.taken(f"target/{name}"), town=asked.taken(f"chosen/{name}/town"),
        slots=asked.taken("slots"),
    )  # fmt: skip


ENDS = {
    "likely": ("walking_kcal_day", "lean_kg"),
    "low": ("walking_high_kcal_day", "lean_low_kg", "lean_high_kg"),
    "high": ("walking_low_kcal_day", "lean_low_kg", "lean_high_kg"),
}


def available(asked: Asked) -> Explanation:
    """What a day's food leaves for all but walking, per kg of fat-free mass, with its range."""
    side = asked.last.removesuffix("_kcal_kg")
    walking, *lean = ENDS[side]
    each = ", ".join(f"(eaten_kcal_day - {walking}) / {kg}" for kg in lean)
    pick = {"likely": "", "low": "min", "high": "max"}[side]
    names = ("eaten_kcal_day", walking, *lean)
    found = asked.answered(
        f"{pick}({each})", {name: asked.beside(name) for name in names},
        source="Burke2018", sure="model",
    )  # fmt: skip
    row = asked.taken(asked.home).value
    values = {"low": row.low_kcal_kg, "high": row.high_kcal_kg}
    caution = Flag(key="body.availability", level="caution", scope=asked.home, values=values,
                   source="Areta2021")  # fmt: skip
    return replace(found, flags=(caution,))


def available_part(asked: Asked) -> Explanation:
    """A part of the availability: mean food, mean walking beyond rest, fat-free mass."""
    name = asked.words[1]
    return asked.answer(
        f"pick(consequence(walker, needs, target, town, slots), 'availability/{asked.last}')",
        source="Hall2011" if asked.last.startswith("lean") else "ours", sure="model",
        walker=walker_input(asked.plan, name), needs=asked.taken(f"need/{name}"),
        target=asked.taken(f"target/{name}"), town=asked.taken(f"chosen/{name}/town"),
        slots=asked.taken("slots"),
    )  # fmt: skip


def assumption(asked: Asked) -> Explanation:
    """Half of what lies between the need at the assumption's two other readings."""
    return asked.answer(
        f"pick(assumptions(trip, days, backs), '{_rest(asked, 1)}')", sure="model",
        trip=asked.taken("trip"), days=asked.taken("days"), backs=asked.taken("backs"),
    )  # fmt: skip


def slot(asked: Asked) -> Explanation:
    """A meal of the walk, counted from clock times (C4)."""
    return asked.answer(
        f"pick(slots_of(trip, days), '{_rest(asked, 1)}')",
        trip=asked.taken("trip"), days=asked.taken("days"),
    )  # fmt: skip


RECOUNTED: tuple[Explainer, ...] = (
    Explainer(pattern="kitchen/**", explain=kitchen),
    Explainer(pattern="packed/**", explain=packing),
    Explainer(pattern="late/**", explain=late),
    Explainer(pattern="yardsticks/*", explain=yardstick),
    Explainer(pattern="consequence/*/availability/likely_kcal_kg", explain=available),
    Explainer(pattern="consequence/*/availability/low_kcal_kg", explain=available),
    Explainer(pattern="consequence/*/availability/high_kcal_kg", explain=available),
    Explainer(pattern="consequence/*/availability/*", explain=available_part),
    Explainer(pattern="consequence/*/*", explain=consequence),
    Explainer(pattern="assumptions/**", explain=assumption),
    Explainer(pattern="slots/**", explain=slot),
)
