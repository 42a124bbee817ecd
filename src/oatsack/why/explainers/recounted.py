"""Explains by counting again: the whole kitchen, the packing, the late plans, the yardsticks."""

from __future__ import annotations

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
        f"pick(consequence(walker, needs, target, slots), '{asked.last}')",
        source="Hall2007", sure="model",
        walker=walker_input(asked.plan, name), needs=asked.taken(f"need/{name}"),
        target=asked.taken(f"target/{name}"), slots=asked.taken("slots"),
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
    Explainer(pattern="consequence/*/*", explain=consequence),
    Explainer(pattern="assumptions/**", explain=assumption),
    Explainer(pattern="slots/**", explain=slot),
)
