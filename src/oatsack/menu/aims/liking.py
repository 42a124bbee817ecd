"""Food one likes: every point below five costs grams, by the energy eaten of it."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten
from oatsack.menu.frame import Frame
from oatsack.values.walker import Walker

BEST = 5.0
SMALL_KCAL = 40.0
"""A drink without energy weighs as much in liking as this; ours."""


def add(frame: Frame, weight: float) -> None:
    """Each dose costs (5 - liking) x its energy [kcal]; what is in one's usual is liked best."""
    own = {w.id: favourites(w) for w in frame.request.walkers}
    likes: dict[tuple[str, str], float] = {}
    for e in eaten(frame):
        who = (e.walker, e.food.id)
        if who not in likes:
            likes[who] = BEST if e.food.id in own[e.walker] else liked(frame, *who)
        liking = likes[who]
        kcal = max(e.facts.kcal, SMALL_KCAL) if e.food.role == "drink" else e.facts.kcal
        frame.builder.cost[e.column] += weight * e.doses * kcal * (BEST - liking)


def liked(frame: Frame, walker: str, name: str) -> float:
    """How much a walker likes a food, 1 to 5: their own word, the food's row, else 3."""
    own = frame.walkers[walker].liking.get(name)
    if own is not None:
        return own
    food = next(f for f in frame.request.foods if f.id == name)
    return food.liked_by(walker)


def favourites(walker: Walker) -> frozenset[str]:
    """Every food that a walker named in their usual."""
    usual = walker.usual
    meals = [p.food for choices in usual.meals.values() for c in choices for p in c.picks]
    return frozenset([*meals, *(p.food for p in usual.bags), *(c.food for c in usual.counts)])


AIM = Aim(
    name="liking", help="How much you like it.", unit="points x kcal", grams=0.08,
    weight=lambda frame: frame.request.rules.weight_liking, add=add,
    in_trip="rules.weights.liking",
)  # fmt: skip
