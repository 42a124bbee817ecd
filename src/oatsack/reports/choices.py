"""The picture of menus by mass, price and liking, for a broad and a narrow page."""

from __future__ import annotations

from collections.abc import Sequence

from oatsack.charts.tradeoff import Dot, TradeoffWords, tradeoff
from oatsack.reports.telling import Telling


def choices_picture(told: Telling, dots: Sequence[Dot]) -> tuple[str, str]:
    """The drawing for a broad and for a narrow page."""
    own = next(dot for dot in dots if dot.own)
    words = TradeoffWords(
        title=told.say("live.choices"),
        desc=told.say("live.choices_desc", n=len(dots), mass=own.mass_g, price=own.price,
                      least=min(d.mass_g for d in dots), cheapest=min(d.price for d in dots)),
        across=told.say("live.choices_x"), up=told.say("live.choices_y"), mass=told.m.mass,
        money=told.m.money,
    )  # fmt: skip
    return (tradeoff(dots, words=words, width=832.0, name="choices"),
            tradeoff(dots, words=words, width=350.0, name="choices-narrow"))  # fmt: skip


def dot(told: Telling, name: str, judged: tuple[float, float, float]) -> Dot:
    """A dot of a menu: its name in words; mass [g], price and liking as it is judged by."""
    mass, price, liking = judged
    own = name == "yours"
    said = told.say("live.choices_yours" if own else f"live.choice_{name}")
    return Dot(name=said, mass_g=mass, price=price, liking=liking, own=own)
