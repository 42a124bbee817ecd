"""Ways out of a clash: what each writes into the trip's text, and which are for nobody.

A refusal names changes that were tried and work. One press makes such a change where it stands in
the text, comments and order kept (C12). Whoever is to be fully fed is never offered less (C11).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from oatsack.desk.edits import LEAST_KCAL, Changes, data_of
from oatsack.menu.add_food import KINDS, SEVERAL
from oatsack.menu.ways_out import EACH
from oatsack.values.flags import Flag
from oatsack.values.trip import Trip
from oatsack.values.walker import Target, Walker
from oatsack.walker.person import body_of
from oatsack.walker.target import SHORT_WALK_DAYS, SHORT_WALK_SHARE

Values = Mapping[str, Any]
EATS = ("way-out.eat", "way-out.eat-all")
ADDED = (SEVERAL, *(f"way-out.add-{kind.name}" for kind in KINDS))
ELSEWHERE = ("way-out.none", "way-out.labels", *ADDED)
"""Not written into a trip: that nothing was found, and what is to be done in a larder."""


def mended(text: str, key: str, values: Values) -> Changes | None:
    """The change of a way out; None for one that lies outside the trip's text."""
    out: dict[str, object] = {}
    for name in parts_of(key):
        changes = WRITES[name](text, values) if name in WRITES else None
        if changes is None:
            return None
        out |= changes
    return out


def parts_of(key: str) -> list[str]:
    """The changes that a way out makes together."""
    return key.removeprefix("way-out.").split("-and-")


def _cook_lunch(text: str, values: Values) -> Changes:
    return {"rules.cook_midday": True}


def _cook_breakfast(text: str, values: Values) -> Changes:
    return {"rules.hot_breakfast": True}


def _bans(text: str, values: Values) -> Changes:
    return {"rules.bans": None}


def _dislikes(text: str, values: Values) -> Changes:
    walkers = data_of(text).get("walkers", [])
    return {f"walkers[{n}].dislikes": None for n, w in enumerate(walkers) if "dislikes" in w}


def _budget(text: str, values: Values) -> Changes:
    said = str(data_of(text).get("rules", {}).get("budget", "")).split()
    currency = said[-1] if len(said) > 1 and said[-1].isalpha() else "EUR"
    return {"rules.budget": f"{values['budget_money']:g} {currency}"}


def _minutes(text: str, values: Values) -> Changes:
    return {f"rules.minutes.{values['meal']}": f"{values['limit_min']:g} min"}


def _pot(text: str, values: Values) -> Changes:
    return _volume(text, "pots", int(values.get("pot", 0)), float(values["pot_ml"]))


def _container(text: str, values: Values) -> Changes:
    first = _trip(text).kit.containers[0]
    return _volume(text, "containers", 0, first.volume_ml + float(values["more_ml"]))


def _volume(text: str, kind: str, place: int, volume_ml: float) -> Changes:
    """The volume of a pot or container, told by itself or in a table of its own."""
    rows = data_of(text).get("kit", {}).get(kind, ())
    said = f"{volume_ml / 1000.0:g} l"
    if place >= len(rows):
        return {f"kit.{kind}": [said]}
    table = isinstance(rows[place], Mapping)
    return {f"kit.{kind}[{place}]" + (".volume" if table else ""): said}


def _eat(text: str, values: Values) -> Changes | None:
    """Of those who have to give, a share of what each chose on a full day."""
    trip = _trip(text)
    out = {
        f"walkers[{n}].target": scaled(trip, w, float(values["share"]))
        for n, w in enumerate(trip.walkers) if w.id in concerned(values)
    }  # fmt: skip
    return out or None


WRITES: Mapping[str, Callable[[str, Values], Changes | None]] = {
    "cook-lunch": _cook_lunch, "cook-breakfast": _cook_breakfast, "bans": _bans,
    "dislikes": _dislikes, "budget": _budget, "minutes": _minutes, "pot": _pot,
    "container": _container, "eat": _eat, "eat-all": _eat,
}  # fmt: skip
"""Every way out that is a change of the trip, by its key."""


def _trip(text: str) -> Trip:
    from oatsack.files.trip import parse_trip

    return parse_trip(text, "the trip file")


def concerned(values: Values) -> frozenset[str]:
    """The walkers who are to eat another amount."""
    each = {name.removeprefix(EACH) for name in values if name.startswith(EACH)}
    return frozenset(each or {str(values.get("walker", ""))})


def scaled(trip: Trip, walker: Walker, share: float) -> str:
    """A walker's wish for a full day, so many times as much, as the trip's file says it."""
    of = walker.target
    if of.kcal is not None:
        return f"{rounded(of.kcal * share, less=share < 1.0):g} kcal"
    percent = 100.0 * chosen_share(trip, walker, of) * share
    return f"{max(1, math.floor(percent) if share < 1.0 else math.ceil(percent))}%"


def chosen_share(trip: Trip, walker: Walker, of: Target) -> float:
    """What a walker chose as a share of the likely need; what stands if nobody asked (C15)."""
    if of.share is not None:
        return of.share
    return walker.appetite * (SHORT_WALK_SHARE if trip.day_count <= SHORT_WALK_DAYS else 1.0)


def rounded(kcal: float, *, less: bool) -> float:
    """A number as it is written into a trip [kcal], to the side of the limit on which it fits."""
    tens = math.floor(kcal / 10.0) if less else math.ceil(kcal / 10.0)
    return float(max(LEAST_KCAL, tens * 10))


def kept_ways(trip: Trip, flags: Iterable[Flag]) -> Iterator[Flag]:
    """The flags of a refusal: none that would have somebody eat less who is to be fully fed, and
    a typed number told as the number that it becomes."""
    full = {w.id for w in trip.walkers if body_of(w).fully_fed}
    typed = {w.id: w.target.kcal for w in trip.walkers}
    for flag in flags:
        if flag.key in EATS and concerned(flag.values) & full:
            continue
        kcal = typed.get(str(flag.values.get("walker", ""))) if flag.key == EATS[0] else None
        if kcal is not None:
            share = float(flag.values["share"])
            number = rounded(kcal * share, less=share < 1.0)
            flag = replace(flag, values={**flag.values, "energy_kcal": number})
        yield flag
