"""A fair price: packs bought where packs are counted, else by the dose; stock at home is free."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten
from oatsack.menu.facts import price_of_pack
from oatsack.menu.frame import Frame


def add(frame: Frame, weight: float) -> None:
    """Each pack bought, or each dose, costs its price."""
    for food in (f for f in frame.request.foods if f.id in frame.buy):
        frame.builder.cost[frame.buy[food.id]] += weight * price_of_pack(food)
    for e in eaten(frame):
        if e.food.id not in frame.buy:
            frame.builder.cost[e.column] += weight * e.doses * e.facts.price


AIM = Aim(
    name="price", help="What it costs to buy.", unit="money", grams=1.5,
    weight=lambda frame: frame.request.rules.weight_price, add=add,
    in_trip="rules.weights.price",
)  # fmt: skip
