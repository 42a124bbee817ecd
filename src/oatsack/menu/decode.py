"""From an answer's numbers back to a menu: portions, open bags and their shares by day."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.values.menu import Pool, Portion
from oatsack.values.problem import Floats

_EPS = 1e-6


def portions_of(frame: Frame, x: Floats) -> tuple[Portion, ...]:
    """Everything eaten, shares of open bags included, in walker, day and meal order."""
    out = []
    for key, slot in frame.slots.items():
        for o in frame.options.get(key, ()):
            if x[o.eat] > _EPS:
                out.append(
                    Portion(walker=slot.walker, day=slot.day, meal=slot.meal, food=o.food.id,
                            doses=float(x[o.eat]), why=o.why)
                )  # fmt: skip
        if slot.meal == "move":
            for b in frame.day_bags(slot.walker, slot.day):
                if x[b.column] > _EPS:
                    doses = float(x[b.column]) * b.doses_day
                    out.append(
                        Portion(walker=slot.walker, day=slot.day, meal="move",
                                food=b.bag.food.id, doses=doses, why="bag")
                    )  # fmt: skip
    return tuple(out)


def pools_of(frame: Frame, x: Floats) -> tuple[Pool, ...]:
    """Every open bag that is taken."""
    out = []
    for walker, bags in frame.bags.items():
        for b in bags:
            packs = float(x[b.column])
            if packs > _EPS:
                grams = packs * b.doses_day * b.bag.food.dose_g
                out.append(
                    Pool(walker=walker, food=b.bag.food.id, packs=packs, open_day=b.bag.days[0],
                         last_day=b.bag.days[-1], by_day_g=dict.fromkeys(b.bag.days, grams))
                )  # fmt: skip
    return tuple(out)
