"""Checked tables -> the frozen trip, and which of its values nobody stated.

What a table leaves out is left out of the value's arguments too, so that defaults stand once, in
`values`. The few that depend on other answers are made here (names, how much down, the fuel).
"""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, cast
from zoneinfo import ZoneInfo

from oatsack.files.trip import tables
from oatsack.files.trip.document import Document, path_text
from oatsack.files.trip.faults import inner_table, is_many
from oatsack.files.trip.tables.places import WEEKDAYS
from oatsack.kitchen.fuels import fuels, stoves
from oatsack.units import written_in
from oatsack.values.dog import Dog
from oatsack.values.food import MEALS
from oatsack.values.kit import Container, FuelCan, FuelKind, Kit, Pot, Stove
from oatsack.values.pack import Place
from oatsack.values.trip import (
    MEAL_CLOCK,
    HandDay,
    Hold,
    NeedSpec,
    Now,
    RouteSpec,
    Rules,
    Trip,
)
from oatsack.values.walker import Usual, Walker

NOT_A_DEFAULT = {"now", "now.left", "places", "dogs", "rules.settings"}
"""Keys whose absence is no assumption."""


def stated(table: tables.Table) -> dict[str, Any]:
    """What a table gives, by the names of the value's fields; lists become tuples."""
    found = {name: getattr(table, name) for name in sorted(table.model_fields_set)}
    return {name: tuple(v) if isinstance(v, list) else v for name, v in found.items()}


def filled(table: tables.Table, **changes: Any) -> Any:
    """The value that a table makes, with some arguments put in another form."""
    assert table.MAKES is not None
    return table.MAKES(**{**stated(table), **changes})


def all_filled(tables: Iterable[tables.Table] | None) -> tuple[Any, ...]:
    """The values of several tables."""
    return tuple(filled(table) for table in tables or ())


def slug(name: str) -> str:
    """A walker's id from the name: ``Änne Marie`` -> ``anne-marie``."""
    plain = (
        unicodedata.normalize("NFKD", name.replace("ß", "ss")).encode("ascii", "ignore").decode()
    )
    return re.sub(r"[^a-z0-9]+", "-", plain.casefold()).strip("-")


def walker_names(table: tables.TripTable) -> list[tuple[str, str]]:
    """Id and name of every walker; those without a name are numbered."""
    names = [one.name or f"Walker {n}" for n, one in enumerate(table.walkers, 1)]
    return [(slug(name) or f"walker-{n}", name) for n, name in enumerate(names, 1)]


def dog_names(table: tables.TripTable) -> list[tuple[str, str]]:
    """Id and name of every dog; those without a name are numbered."""
    names = [one.name or f"Dog {n}" for n, one in enumerate(table.dogs or (), 1)]
    return [(slug(name) or f"dog-{n}", name) for n, name in enumerate(names, 1)]


def _named(begin: dt.datetime, end: dt.datetime) -> str:
    """What a walk without a title is called: "Walk from 17 June to 20 June 2027"."""
    last = f"{end.day} {end:%B %Y}"
    if begin.date() == end.date():
        return f"Walk on {last}"
    year = "" if begin.year == end.year else f" {begin.year}"
    return f"Walk from {begin.day} {begin:%B}{year} to {last}"


def trip_of(table: tables.TripTable, document: Document) -> Trip:
    """The trip. `table` has passed the cross checks."""
    zone = ZoneInfo(table.zone or "UTC")
    ids = walker_names(table)
    by_name = {word: who for who, name in ids for word in (who, name, name.casefold())}
    begin, end = table.begin.replace(tzinfo=zone), table.end.replace(tzinfo=zone)
    walkers = (_walker(one, who) for one, who in zip(table.walkers, ids, strict=True))
    return Trip(
        title=table.title or _named(begin, end),
        begin=begin,
        end=end,
        zone=table.zone or "UTC",
        walkers=tuple(walkers),
        route=_route(table.route),
        places=tuple(place_of(one) for one in table.places or ()),
        dogs=_dogs(table, by_name),
        need=filled(table.need) if table.need else NeedSpec(),
        kit=_kit(table.kit, by_name),
        rules=_rules(table.rules, by_name),
        larders=tuple(table.larder.files or ()) if table.larder else (),
        stock=table.larder.stock if table.larder else None,
        now=_now(table.now),
        units=cast(Any, table.units or written_in(_texts(document.data))),
        defaults=frozenset(defaults_of(table)),
        origins={path_text(p): (document.name, at.line) for p, at in document.values.items()},
    )


def _dogs(table: tables.TripTable, by_name: Mapping[str, str]) -> tuple[Dog, ...]:
    return tuple(
        filled(one, id=who, name=name, carrier=walker_id(one.carrier, by_name) or "")
        for one, (who, name) in zip(table.dogs or (), dog_names(table), strict=True)
    )


def _texts(value: object) -> Iterator[str]:
    """Every text of the file."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping | list):
        for item in value.values() if isinstance(value, Mapping) else value:
            yield from _texts(item)


def _walker(table: tables.WalkerTable, who: tuple[str, str]) -> Walker:
    changes: dict[str, Any] = {"id": who[0], "name": who[1]}
    if table.avoids:
        changes["avoids"] = all_filled(table.avoids)
    if table.dislikes is not None:
        changes["dislikes"] = frozenset(table.dislikes)
    if table.usual:
        changes["usual"] = _usual(table.usual)
    return cast(Walker, filled(table, **changes))


def _usual(table: tables.UsualTable) -> Usual:
    given = stated(table)
    meals = {meal: given[meal] for meal in MEALS if given.get(meal)}
    return Usual(meals=meals, bags=given.get("bags", ()), counts=given.get("counts", ()))


def _route(table: tables.RouteTable) -> RouteSpec:
    changes: dict[str, Any] = {"equal_days": equal_days(table)}
    if table.usual_day:
        changes["usual_day"] = _day(table.usual_day)
    if table.hand_days:
        changes["hand_days"] = tuple(_day(day) for day in table.hand_days)
    if table.dry_camps:
        changes["dry_camps"] = frozenset(table.dry_camps)
    return cast(RouteSpec, filled(table, **changes))


def equal_days(table: tables.RouteTable) -> bool:
    """Whether a track is cut into days of equal effort: as stated, or for want of anything else."""
    if table.equal_days is not None:
        return table.equal_days
    return bool(table.track) and not table.camps and not table.cuts_m


def _day(table: tables.DayTable) -> HandDay:
    changes: dict[str, Any] = {
        "stretches": all_filled(table.stretches),
        "water": all_filled(table.water),
    }
    if table.distance_m is None:
        changes["distance_m"] = sum(one.distance_m for one in table.stretches or ())
    if table.descent_m is None and table.ascent_m is not None:
        changes["descent_m"] = table.ascent_m
    return cast(HandDay, filled(table, **changes))


def place_of(table: tables.PlaceTable) -> Place:
    """The place that a table means, not yet found on the route."""
    changes: dict[str, Any] = {}
    if table.open_weekdays is not None:
        changes["open_weekdays"] = frozenset(WEEKDAYS.index(one) for one in table.open_weekdays)
    if table.sells is not None:
        changes["sells"] = frozenset(table.sells)
    if table.town_meals is not None:
        changes["town_meals"] = frozenset(table.town_meals)
    if table.checked is not None:
        changes["checked"] = table.checked.isoformat()
    return cast(Place, filled(table, **changes))


def _kit(table: tables.KitTable | None, by_name: Mapping[str, str]) -> Kit:
    if table is None:
        return Kit()
    changes: dict[str, Any] = {}
    if table.pots is not None:
        changes["pots"] = tuple(_pot(one, by_name) for one in table.pots)
    stove = stove_of(table.stove)
    if table.stove:
        changes["stove"] = stove
    if table.cans is not None:
        changes["cans"] = tuple(can_of(one, stove) for one in table.cans)
    if table.containers is not None:
        changes["containers"] = tuple(_container(one, by_name) for one in table.containers)
    return cast(Kit, filled(table, **changes))


def _pot(table: tables.PotTable, by_name: Mapping[str, str]) -> Pot:
    whose = tuple(who for name in table.walkers or () if (who := walker_id(name, by_name)))
    return cast(Pot, filled(table, walkers=whose))


def stove_of(table: tables.StoveTable | None) -> Stove | None:
    """The stove that a table means; None for no stove."""
    if table is None:
        return Stove()
    if table.kind == "none":
        return None
    kind = table.kind or Stove().kind
    return cast(Stove, filled(table, kind=kind, fuel=table.fuel or stoves()[kind].fuel))


def can_of(table: tables.CanTable, stove: Stove | None) -> FuelCan:
    """A can; one of a common size knows what it weighs empty."""
    empty = table.empty_g if table.empty_g is not None else common_empty_g(table.net_g, stove)
    return FuelCan(net_g=table.net_g, empty_g=empty or 0.0, gross_now_g=table.gross_now_g,
                   diameter_mm=table.diameter_mm, height_mm=table.height_mm)  # fmt: skip


def common_empty_g(net_g: float, stove: Stove | None) -> float | None:
    """What a can of a common size weighs empty [g]; None for any other size."""
    sizes = common_sizes_g(stove)
    return next((empty for net, empty in sizes.items() if abs(net - net_g) <= 0.02 * net), None)


def common_sizes_g(stove: Stove | None) -> dict[float, float]:
    """The common cans of a stove's fuel: net -> empty mass [g]."""
    fuel: FuelKind = (stove or Stove()).fuel
    return {can.net_g: can.empty_g for can in fuels()[fuel].cans}


def _container(table: tables.ContainerTable, by_name: Mapping[str, str]) -> Container:
    changes = {"carrier": walker_id(table.carrier, by_name) or ""} if table.carrier else {}
    return cast(Container, filled(table, **changes))


def walker_id(name: str | None, by_name: Mapping[str, str]) -> str | None:
    """The id of a walker who was named; None for nobody or somebody unknown."""
    return by_name.get(name) or by_name.get(name.casefold()) if name else None


def _rules(table: tables.RulesTable | None, by_name: Mapping[str, str]) -> Rules:
    if table is None:
        return Rules()
    given = stated(table)
    weights = stated(table.weights) if table.weights else {}
    for gone in ("times", "weights", "bans"):
        given.pop(gone, None)
    changes: dict[str, Any] = {**weights, "holds": _holds(table, by_name)}
    if table.first_day_meals is not None:
        changes["first_day_meals"] = frozenset(table.first_day_meals)
    if table.aims is not None:
        changes["aims"] = tuple(dict.fromkeys(table.aims))
    if table.times:
        changes["meal_clock_min"] = {**MEAL_CLOCK, **stated(table.times)}
    if table.minutes:
        changes["minutes"] = stated(table.minutes)
    if table.budget:
        changes["budget"], changes["currency"] = table.budget
    return Rules(**{**given, **changes})


def _holds(table: tables.RulesTable, by_name: Mapping[str, str]) -> tuple[Hold, ...]:
    """Holds first, then bans, which are holds of nothing."""
    out = [_hold(one, one.count or 1.0, by_name) for one in table.holds or ()]
    return tuple(out + [_hold(one, 0.0, by_name) for one in table.bans or ()])


def _hold(table: tables.BanTable, count: float, by_name: Mapping[str, str]) -> Hold:
    """A hold; of a walker who walks no longer it is kept, and stands for nobody."""
    who = walker_id(table.walker, by_name) or (slug(table.walker) if table.walker else None)
    return Hold(
        food=table.food, walker=who, date=table.date, meal=cast(Any, table.meal), count=count
    )


def _now(table: tables.NowTable | None) -> Now | None:
    return None if table is None else cast(Now, filled(table))


def defaults_of(table: tables.Table, path: str = "") -> Iterator[str]:
    """Paths of every key that was left out, as deep as the tables that were given go."""
    for name, info in type(table).model_fields.items():
        here = f"{path}{info.alias or name}"
        value = getattr(table, name) if name in table.model_fields_set else None
        inner = inner_table(info.annotation)
        if isinstance(value, list):
            for number, item in enumerate(value):
                if isinstance(item, tables.Table):
                    yield from defaults_of(item, f"{here}[{number}].")
        elif isinstance(value, tables.Table):
            yield from defaults_of(value, f"{here}.")
        elif name not in table.model_fields_set and here not in NOT_A_DEFAULT:
            yield from _all_left_out(here, inner if not is_many(info) else None)


def _all_left_out(path: str, inner: type[tables.Table] | None) -> Iterator[str]:
    """A plain key, or every key of a single table that was left out whole."""
    if inner is None or inner is tables.DayTable:
        yield path
    else:
        for name, info in inner.model_fields.items():
            below = inner_table(info.annotation) if not is_many(info) else None
            yield from _all_left_out(f"{path}.{info.alias or name}", below)
