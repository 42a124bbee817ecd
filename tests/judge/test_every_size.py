"""The judge passes the plan of every size, from one walker's three days to a group of twelve and a
walk of five months with a box or a shop every six days."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

import pytest

from judge.judge import judge
from oatsack.desk.opening import opened
from oatsack.desk.planning import make_plan
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump
from oatsack.files.trip import parse_trip
from support.amount import some
from support.each import each

pytestmark = pytest.mark.slow

TODAY = dt.date(2026, 1, 5)
BEGIN = dt.date(2026, 6, 12)
EATS = ("anything", "vegetarian", "anything", "anything", "vegan", "anything")
SIZES = {"solo 3": (1, 3, 1), "solo 7": (1, 7, 1), "couple 7": (2, 7, 1), "4 x 10": (4, 10, 1),
         "12 x 14": (12, 14, 1), "150 x 25": (1, 150, 25)}  # fmt: skip
"""Walkers, days, legs."""


def text_of(walkers: int, days: int, legs: int) -> str:
    """A trip's text: unlike eaters with a pot for each six, and a place at the end of each leg."""
    end = BEGIN + dt.timedelta(days=days - 1)
    lines = ['title = "Of any size"', f"from = {BEGIN}T09:00", f"to = {end}T15:00", 'zone = "UTC"']
    for n in range(walkers):
        lines += ["[[walkers]]", f'name = "Walker {n + 1}"', f'mass = "{55 + 3 * n} kg"',
                  f'eats = "{EATS[n % len(EATS)]}"']  # fmt: skip
        lines += ['avoids = ["gluten"]'] if n == 6 else []
    per_leg = -(-days // legs)
    rows = ", ".join(
        f'{{ distance = "15 km", up = "600 m", leg = {n // per_leg + 1}, camp = "Camp {n + 1}" }}'
        for n in range(days)
    )
    lines += ["[route]", f"days = [{rows}]"]
    for leg in range(2, legs + 1):
        kind = "shop" if leg % 4 == 0 else "box"
        lines += ["[[places]]", f'name = "Camp {(leg - 1) * per_leg}"', f'kind = "{kind}"']
    pots = ", ".join(['"6 l"'] * -(-walkers // 6)) if walkers > 2 else '"1.2 l"'
    return "\n".join([*lines, "[kit]", f"pots = [{pots}]", ""])


def planned(size: str) -> dict[str, Any]:
    text = text_of(*SIZES[size])
    trip = parse_trip(text, "trip.toml")
    told: dict[str, Any] = json.loads(
        dump(make_plan(opened(trip, bundled(), text=text), today=TODAY))
    )
    return told


@each("size", some(SIZES, 6))
def test_the_judge_passes_the_plan_of_every_size(size: str) -> None:
    plan = planned(size)
    assert judge(plan) == []
    walkers, days, legs = SIZES[size]
    eaten = {(p["walker"], p["day"]) for p in plan["menu"]["portions"]}
    assert len(eaten) == walkers * days
    assert {d["leg"] for d in plan["days"]} == set(range(1, legs + 1))
    assert 0.0 <= plan["made"]["gap"] < 0.15
    assert plan["menu"]["bound"] > 0.0, "nothing is proven of it"
