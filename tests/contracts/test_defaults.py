"""What stands when nothing was said: the defaults that must be right, each with its reason.

Values are common practice, or our choice where it says so; they are read from a trip of four
answers, so that the table, the file and the reader cannot drift apart.
"""

from __future__ import annotations

from typing import Any

from oatsack.files.trip import parse_trip
from oatsack.values.trip import Trip
from oatsack.values.walker import Usual
from support.each import each

FOUR = """\
from = "2026-07-02 09:00"
to = "{to} 15:00"
[[walkers]]
mass = "68 kg"
{target}
[route]
usual_day = {{ distance = "16 km", up = "700 m" }}
"""


def trip(more: str = "", *, to: str = "2026-07-05", target: str = "") -> Trip:
    return parse_trip(FOUR.format(to=to, target=target) + more, "trip.toml")


def at(value: Any, path: str) -> Any:
    for step in path.split("."):
        value = value[int(step)] if step.isdigit() else getattr(value, step)
    return value


@each(
    ("path", "expected", "why"),
    [
        ("walkers.0.age_years", None, "no form: the range widens instead"),
        ("walkers.0.height_cm", None, "no form"),
        ("walkers.0.sex", None, "no form: between the sexes"),
        ("walkers.0.eats", "anything", "habit"),
        ("walkers.0.avoids", (), "nobody said"),
        ("walkers.0.condition", "none", "nobody said"),
        ("walkers.0.appetite", 1.0, "nobody said"),
        ("walkers.0.capacity", 1.0, "equal shares"),
        ("walkers.0.hot_drinks_day", 2.0, "two a day"),
        ("walkers.0.usual", Usual(), "everything is proposed"),
        ("walkers.0.target.kcal", None, "nobody asked (C15)"),
        ("walkers.0.target.share", None, "nobody asked (C15)"),
        ("rules.hot_breakfast", True, "habit"),
        ("rules.cook_midday", False, "lunch is cold, no stove"),
        ("rules.no_flame", False, "no ban unless said"),
        ("rules.first_day_meals", None, "only meals inside the times (C4)"),
        ("rules.last_lunch", None, "a visible switch"),
        ("rules.spare", None, "by the trip's length (C16)"),
        ("rules.budget", None, "none"),
        ("rules.day_window", 0.12, "the walker's own window"),
        ("rules.trip_window", 0.05, "the walker's own window"),
        ("rules.bags", None, "by the party's size"),
        ("rules.water_ml_h", 500.0, "half a litre an hour, a suggestion"),
        ("rules.mains_shared", True, "one pot"),
        ("rules.holds", (), "nobody said"),
        ("kit.mug_ml", 300.0, "an everyday mug"),
        ("kit.stove.kind", "gas-open", "the common burner"),
        ("kit.containers", (), "only where the place asks for one"),
        ("kit.other_smellables_ml", 1000.0, "one litre"),
        ("route.pace_model", "campbell-2022", "the first of the shelf"),
        ("route.start_clock_min", 510.0, "half past eight"),
        ("route.warm_c", 18.0, "a fair day"),
        ("route.cold_c", 6.0, "a fair night"),
        ("larders", (), "the bundled larder"),
        ("now", None, "not begun"),
        ("units", "metric", "as the file is written"),
    ],
)
def test_a_default_is_right(path: str, expected: object, why: str) -> None:
    assert why
    assert at(trip(), path) == expected


def test_meals_are_taken_at_seven_half_past_twelve_and_half_past_six() -> None:
    """Common practice."""
    assert trip().rules.meal_clock_min == {"breakfast": 420.0, "lunch": 750.0, "dinner": 1110.0}


def test_a_meal_that_is_moved_moves_no_other() -> None:
    rules = trip('[rules]\ntimes = { lunch = "13:00" }\n').rules
    assert rules.meal_clock_min == {"breakfast": 420.0, "lunch": 780.0, "dinner": 1110.0}


def test_a_day_goes_down_as_much_as_up() -> None:
    day = trip().route.usual_day
    assert day is not None
    assert (day.ascent_m, day.descent_m) == (700.0, 700.0)


@each(("word", "share"), [("light", 0.7), ("usual", None), ("hungry", 1.0)])
def test_words_for_how_much_to_eat(word: str, share: float | None) -> None:
    """Our choice: light is 70 % of the need, hungry all of it, usual what stands if nobody asks."""
    target = trip(target=f'target = "{word}"').walkers[0].target
    assert (target.kcal, target.share) == (None, share)


@each(
    ("said", "key"),
    [
        ('[kit]\nmug = "300 ml"\n', "kit.mug"),
        ("[rules]\nhot_breakfast = true\n", "rules.hot_breakfast"),
        ('[rules.times]\nlunch = "12:30"\n', "rules.times.lunch"),
        ('[kit.stove]\nkind = "gas-open"\n', "kit.stove.kind"),
    ],
)
def test_a_default_that_was_said_is_no_default_any_more(said: str, key: str) -> None:
    plain, stated = trip(), trip(said)
    assert key in plain.defaults
    assert key not in stated.defaults
    assert key in stated.origins
    assert (stated.kit, stated.rules) == (plain.kit, plain.rules)


def test_every_default_that_moves_the_answer_is_listed() -> None:
    """What a plan may name among its five assumptions."""
    moving = {"walkers[0].sex", "walkers[0].age", "walkers[0].height", "walkers[0].base_weight",
              "walkers[0].target", "route.terrain", "route.pace", "route.speed", "route.warm",
              "route.usual_day.down"}  # fmt: skip
    assert moving <= trip().defaults


@each(
    ("to", "days"), [("2026-07-02", 1), ("2026-07-03", 2), ("2026-07-05", 4), ("2026-08-01", 31)]
)
def test_days_are_counted_by_date_first_and_last_included(to: str, days: int) -> None:
    assert trip(to=to).day_count == days
