"""Meals and walkers for whom the larder holds too little: told with what keeps its foods out.

Nothing is bent here; a gate that refuses is a gate that refuses (C11). `menu/no_plan` tells a
refusal by it, `menu/rules/mains` a menu in which some breakfast or dinner has no dish.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from oatsack.menu.allowed import reason_against
from oatsack.menu.frame import Frame
from oatsack.values.flags import Flag
from oatsack.values.menu import Slot

NO_MAIN = "menu.no-main"
DISHED = ("breakfast", "dinner")
USUAL = frozenset({"meal", "no-energy"})
"""Reasons that say what a food is, not what stands in its way."""


def without_main(frame: Frame) -> list[Flag]:
    """A caution for each walker's breakfasts or dinners for which no main dish may be taken."""
    found: dict[tuple[str, str], list[Slot]] = {}
    for key, slot in frame.slots.items():
        options = frame.options.get(key, ())
        served = key in frame.given.whole or any(o.food.role == "main" for o in options)
        if slot.meal in DISHED and not served:
            found.setdefault((slot.walker, slot.meal), []).append(slot)
    return [_no_main(frame, slots) for slots in found.values()]


def _no_main(frame: Frame, slots: list[Slot]) -> Flag:
    first = slots[0]
    gate = next(iter(_kept_out(frame, slots, {"main"})), "meal")
    return Flag(
        key=NO_MAIN, level="caution", scope=f"menu/{first.walker}/{first.day}/{first.meal}",
        values={"walker": first.walker, "meal": first.meal, "gate": gate, "n_days": len(slots)},
    )  # fmt: skip


def kept_from(frame: Frame, walkers: Iterable[str]) -> list[Flag]:
    """For each of these walkers, how many foods one gate keeps out at all of their meals; only the
    gate that keeps out most."""
    out = []
    for walker in walkers:
        slots = [s for s in frame.slots.values() if s.walker == walker]
        found = _kept_out(frame, slots, {"main", "side", "snack", "topping"})
        if found:
            gate, count = next(iter(found.items()))
            values: dict[str, float | int | str] = {
                "walker": walker, "gate": gate, "n": count, "of": len(frame.request.foods),
            }  # fmt: skip
            out.append(Flag(key="no-plan.kept-out", level="block", values=values))
    return out


def _kept_out(frame: Frame, slots: list[Slot], roles: set[str]) -> dict[str, int]:
    """Gate -> foods of these roles that suit the meals and are refused at all of them, most first;
    a food is counted by the first gate that refuses it."""
    tally: Counter[str] = Counter()
    for food in frame.request.foods:
        if food.role not in roles:
            continue
        reasons = [reason_against(frame.gate, food, slot) for slot in slots]
        hard = [r for r in reasons if r not in USUAL]
        if hard and None not in hard:
            tally[str(hard[0])] += 1
    return dict(tally.most_common())
