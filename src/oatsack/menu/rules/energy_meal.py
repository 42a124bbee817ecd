"""Meals of sensible size: each brings about its usual share of the day."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, day_terms


def rows(frame: Frame) -> None:
    """Soft: least x usual <= energy of the meal <= most x usual; a miss costs grams per kcal."""
    least, most = RULE.value(frame, "least"), RULE.value(frame, "most")
    for key, slot in frame.slots.items():
        terms = day_terms(frame, slot.walker, slot.day, lambda f: f.kcal, slot.meal)
        usual = frame.meal_kcal(slot)
        if key in frame.given.whole or usual <= 0 or not terms:
            continue
        where = "/".join(map(str, key))
        cost = RULE.value(frame, "grams_per_kcal") * max(1.0, slot.carry_days)
        short = frame.slack(f"small-meal/{where}", cost)
        over = frame.slack(f"large-meal/{where}", cost)
        terms = [*terms, (short, 1.0), (over, -1.0)]
        frame.builder.row(f"energy-meal/{where}", terms, low=least * usual, high=most * usual)


RULE = Rule(
    name="energy-meal",
    help="A meal brings about its usual share of the day's energy.",
    rows=rows,
    gives_in="kcal",
    hard=False,
    settings=(
        Setting(name="least", unit="share", default=0.7, help="of the meal's usual energy"),
        Setting(name="most", unit="share", default=1.35, help="of the meal's usual energy"),
        Setting(name="grams_per_kcal", unit="g/kcal", default=0.2, help="cost of missing it"),
    ),
)
