"""Which keys of a trip file each form asks for, in which order. What a key is, its table says."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

ROUTES: tuple[tuple[str, str, str], ...] = (
    ("GET", "/trip/{name}/walkers", "walkers"),
    ("GET", "/trip/{name}/walkers/{number:int}", "walker"),
    ("POST", "/trip/{name}/walkers/{number:int}", "put_walker"),
    ("GET", "/trip/{name}/form/{form}", "form"),
    ("POST", "/trip/{name}/form/{form}", "put_form"),
    ("POST", "/trip/{name}/track", "put_track"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Keys of one table, or of every row of a list of tables."""

    title: str
    """Key of its heading, below `web.form`."""
    path: str
    keys: tuple[str, ...]
    rows: int = 0
    """For a list: so many blank rows stand behind those that are there."""
    folded: bool = False
    when: str = ""
    """For the way: shown with this choice of how it is given."""


NAMES = ("kit", "rules", "days")
"""The forms of a trip besides its walkers'."""


def walker(number: int) -> tuple[Part, ...]:
    """One walker's form."""
    at = f"walkers[{number}]"
    return (
        Part(title="person", path=at, keys=("name", "mass", "target", "eats", "hot_drinks")),
        Part(title="avoids", path=f"{at}.avoids", keys=("allergen", "scope", "traces"), rows=2),
        Part(title="usual", path=f"{at}.usual",
             keys=("breakfast", "lunch", "move", "dinner", "drinks", "bags", "counts")),
        Part(title="finer", path=at, folded=True,
             keys=("sex", "age", "height", "base_weight", "capacity", "pace", "pace_track",
                   "own_walking", "appetite", "condition", "caffeine", "dislikes")),
    )  # fmt: skip


def kit() -> tuple[Part, ...]:
    """Pots, stove, fuel, bottles, containers."""
    return (
        Part(title="pots", path="kit.pots", rows=1,
             keys=("name", "volume", "mass", "material", "diameter", "depth", "for")),
        Part(title="stove", path="kit.stove",
             keys=("kind", "fuel", "efficiency", "power", "burners", "diameter", "length")),
        Part(title="cans", path="kit.cans", keys=("net", "empty", "now", "diameter", "height"),
             rows=1),
        Part(title="drinking", path="kit", keys=("mug", "bottles", "treatment")),
        Part(title="containers", path="kit.containers", rows=1,
             keys=("name", "volume", "mass", "shape", "carrier")),
        Part(title="besides", path="kit", keys=("smellables", "cosy")),
    )  # fmt: skip


def rules() -> tuple[Part, ...]:
    """What one may set about the food, and what is held and banned."""
    return (
        Part(title="cooking", path="rules",
             keys=("hot_breakfast", "cook_midday", "no_flame", "one_pot")),
        Part(title="minutes", path="rules.minutes", keys=("breakfast", "lunch", "dinner")),
        Part(title="limits", path="rules", keys=("budget", "volume", "spare", "dinner_apart")),
        Part(title="bans", path="rules.bans", keys=("food", "walker", "date", "meal"), rows=1),
        Part(title="holds", path="rules.holds", rows=1,
             keys=("food", "walker", "date", "meal", "count")),
        Part(title="times", path="rules.times", keys=("breakfast", "lunch", "dinner"), folded=True),
        Part(title="finer", path="rules", folded=True,
             keys=("last_lunch", "first_day", "bags", "water", "fat_ceiling", "day_window",
                   "trip_window", "order", "order_within")),
        Part(title="weights", path="rules.weights", keys=("load", "liking", "price"), folded=True),
        Part(title="need", path="need", keys=("model", "cold", "heat", "height"), folded=True),
        Part(title="drawn", path="larder", keys=("files", "stock"), folded=True),
    )  # fmt: skip


WAYS: dict[str, tuple[str, ...]] = {
    "usual": ("usual_day",), "days": ("days",), "track": ("track", "camps", "cuts", "equal_days"),
}  # fmt: skip
"""How a way may be given, and the keys that give it so."""
DAY = ("distance", "up", "down", "highest", "camp", "camp_height", "dry")


def days(rows: int, track: bool) -> tuple[Part, ...]:
    """When, and which way; `rows` is how many more days there are than are typed."""
    by_track = (Part(title="track", path="route", keys=("camps", "cuts", "equal_days", "heights"),
                     when="track"),)  # fmt: skip
    return (
        Part(title="when", path="", keys=("title", "from", "to", "zone", "units")),
        Part(title="usual-day", path="route.usual_day", keys=DAY[:5], when="usual"),
        Part(title="days", path="route.days", keys=DAY, rows=rows, when="days"),
        *(by_track if track else ()),
        Part(title="ground", path="route",
             keys=("start_height", "warm", "cold", "terrain", "walk_from")),
        Part(title="finer", path="route", folded=True,
             keys=("pace", "speed", "snow", "windy", "dry_camps", "resupply")),
        Part(title="places", path="places", rows=1, folded=True,
             keys=("name", "kind", "sells", "open", "fastest", "slowest", "hold", "early", "late",
                   "town", "town_energy", "checked")),
    )  # fmt: skip


LEFT_TO_THE_TEXT = {
    "dogs": "few walk with one; the file's text holds it",
    "now": "a walk under way is planned again from its file",
    "liking": "has a page of its own",
    "track": "is sent as a file",
    "stretches": "a day piece by piece has more rows than a form should",
    "water": "places with water on typed days; a track brings its own",
    "chores": "seldom known before", "sleep": "seldom known before",
    "warm": "of single days; the route's is asked for", "cold": "of single days likewise",
    "leg": "follows from resupply",
    "settings": "some sixty numbers, for who reads the page of rules",
}  # fmt: skip
"""Keys that no form asks for, and why; a contract test holds both lists against the tables."""


def way_of(route: Any) -> str:
    """How the way of a file is given."""
    given = route if isinstance(route, dict) else {}
    return next((way for way, keys in WAYS.items() if any(key in given for key in keys)), "usual")


def others(way: str, route: Any) -> Iterable[str]:
    """Paths of what gives the way otherwise, to go when this one is chosen."""
    given = route if isinstance(route, dict) else {}
    for name, keys in WAYS.items():
        yield from (f"route.{key}" for key in keys if name != way and key in given)
