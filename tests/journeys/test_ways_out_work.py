"""Every way out that a refusal names, written into the trip's file and planned again, gives a plan.

The trips ask for what cannot be: too little money, room, minutes, pot, or too much to eat of too
little. What is tried is what a walker would do: press the button, or write what it says.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from judge.judge import judge
from oatsack.desk.opening import open_trip
from oatsack.desk.planning import make_plan
from oatsack.desk.ways import ELSEWHERE, mended
from oatsack.errors import NoPlan
from oatsack.files.planfile import dump
from oatsack.files.trip import edit_trip
from oatsack.values.flags import Flag
from support.each import each

pytestmark = pytest.mark.slow

TRIP = """title = "Three days"
from = 2027-06-12T08:00
to = 2027-06-14T19:00
zone = "UTC"
[[walkers]]
name = "Ann"
mass = "70 kg"
WALKER
[route]
usual_day = { distance = "14 km", up = "500 m" }
REST
"""
SMALL = 'containers = ["2 l"]'
QUICK = 'minutes = { dinner = "1 min" }'
AVOIDS = ", ".join(f'{{ allergen = "{name}" }}'
                   for name in ("gluten", "tree_nut", "peanut", "soy", "sesame"))  # fmt: skip
DISLIKES = ["meal", "breakfast", "grain", "bread", "sweet", "snack", "nut", "fruit", "dairy", "fat"]
SECOND = '[[walkers]]\nname = "Ben"\nmass = "84 kg"\neats = "vegetarian"'
THIRD = """
[[walkers]]
name = "Cora"
mass = "55 kg"
avoids = ["gluten"]
[[walkers]]
name = "Dan"
mass = "75 kg"
"""
CASES = {
    "money": ("", '[rules]\nbudget = "9 EUR"'),
    "room": ('target = "2600 kcal"', f"[kit]\n{SMALL}"),
    "money and room": ("", f'[rules]\nbudget = "12 EUR"\n[kit]\n{SMALL}'),
    "minutes": ("", f"[rules]\n{QUICK}"),
    "room and minutes": ("", f"[rules]\n{QUICK}\n[kit]\n{SMALL}"),
    "no fire": (f'eats = "vegan"\navoids = [{AVOIDS}]', "[rules]\nno_flame = true"),
    "all disliked": (f'target = "3600 kcal"\ndislikes = {DISLIKES}', ""),
    "a couple's money": (SECOND, '[rules]\nbudget = "20 EUR"'),
    "a couple's room": (SECOND, f"[kit]\n{SMALL}"),
    "a group's money and minutes": (
        SECOND + THIRD, f'[kit]\npots = ["3 l"]\n[rules]\nbudget = "40 EUR"\n{QUICK}'),
}


def text_of(walker: str, rest: str) -> str:
    return TRIP.replace("WALKER", walker).replace("REST", rest)


def planned(folder: Path, text: str) -> dict[str, object]:
    file = folder / "walk.toml"
    file.write_text(text, "utf-8")
    made = make_plan(open_trip(file), today=dt.date(2027, 6, 1))
    told: dict[str, object] = json.loads(dump(made))
    return told


def ways(error: NoPlan) -> Iterator[Flag]:
    for flag in error.flags:
        if flag.key.startswith("way-out.") and flag.key not in ELSEWHERE:
            yield flag


@each("case", CASES)
def test_each_way_out_taken_gives_a_plan_that_the_judge_passes(case: str, tmp_path: Path) -> None:
    text = text_of(*CASES[case])
    with pytest.raises(NoPlan) as refused:
        planned(tmp_path, text)
    found = list(ways(refused.value))
    assert found, [f.key for f in refused.value.flags]
    wrong = []
    for flag in found:
        changes = mended(text, flag.key, flag.values)
        assert changes, flag.key
        try:
            wrong += judge(planned(tmp_path, edit_trip(text, changes)))
        except NoPlan as again:
            wrong.append(f"{flag.key} {dict(flag.values)}: {[f.key for f in again.flags]}")
    assert wrong == []
