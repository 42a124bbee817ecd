"""Spare food: one stated thing, apart from the plan, that needs no flame and no water (C16)."""

from __future__ import annotations

from oatsack.menu.aims.liking import liked
from oatsack.menu.allowed import reason_against, suits_plate
from oatsack.menu.frame import Frame
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest, Portion

SHORT_TRIP_DAYS = 7
COLD_MEAL_SHARE = 0.25
"""A cold meal is so much of a full day; ours."""
NEEDS_ROOM_KCAL = 100.0


def spare_of(request: MenuRequest, frame: Frame) -> tuple[Portion, ...]:
    """Spare portions of every walker, day 0: whole doses of one dense thing each that needs no
    cooking, up to the energy asked for."""
    out = []
    for walker in request.walkers:
        wanted = spare_kcal(request, frame, walker.id)
        food = _best(request, frame, walker.id, wanted)
        if wanted > 0 and food is not None:
            doses = max(1.0, -(-wanted // food.dose_kcal))
            out.append(Portion(walker=walker.id, day=0, meal="move", food=food.id, doses=doses))
    return tuple(out)


def spare_kcal(request: MenuRequest, frame: Frame, walker: str) -> float:
    """Energy of spare food for a walker [kcal]: as stated, else one cold meal up to seven days and
    a day beyond."""
    if walker in request.spare_kcal:
        return request.spare_kcal[walker]
    full = max(request.target_kcal.get(walker, {}).values(), default=0.0)
    wish = request.rules.spare
    if isinstance(wish, int | float):
        return float(wish)
    if wish is None:
        wish = "meal" if len(frame.days.get(walker, ())) <= SHORT_TRIP_DAYS else "day"
    return {"none": 0.0, "meal": COLD_MEAL_SHARE * full, "day": full}[wish]


def _best(request: MenuRequest, frame: Frame, walker: str, wanted: float) -> Food | None:
    """The densest well-liked food that keeps, is eaten as it is and comes in its own wrapping."""
    slots = [s for s in request.slots if s.walker == walker and s.meal in ("move", "lunch")]
    last = max(slots, key=lambda s: s.day, default=None)
    fits = [
        f for f in request.foods
        if f.role in ("snack", "main") and f.prep.kind == "none" and f.dose_kcal >= NEEDS_ROOM_KCAL
        and f.carry == "sealed" and suits_plate(frame.walkers[walker], f)
        and last is not None and reason_against(frame.gate, f, last) in (None, "meal")
    ]  # fmt: skip
    return max(fits, key=lambda f: (_merit(frame, walker, f), f.id), default=None)


def _merit(frame: Frame, walker: str, food: Food) -> float:
    density = food.dose_kcal / (food.dose_g + food.dose_wrap_g)
    return density * (0.7 + 0.1 * liked(frame, walker, food.id))
