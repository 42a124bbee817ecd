"""What eating less than the need does over a walk, and when that deserves a word (C11).

A neutral line with a range, once. A caution only below resting use, beyond 3 % of body mass, or
when a long walk stays far below need. No line about shortfall at all for who must eat in full.
"""

from __future__ import annotations

from collections.abc import Mapping

from oatsack.values.flags import Flag
from oatsack.values.plan import Consequence, DayNeed
from oatsack.walker.available import availability, full_days
from oatsack.walker.hall_2011 import mass_change_kg
from oatsack.walker.person import Body, resting_kcal_day
from oatsack.walker.tissue import FAT_SPREAD, energy_kcal_per_kg, fat_kg, water_kg

DUST_KCAL = 1e-6
"""A shortfall that only rounding left over."""
LOSS_SHARE = 0.03
LONG_WALK_DAYS = 10
FAR_BELOW = 0.75
"""A walk longer than this that eats less than this share of its need (ours)."""
WORTH_A_LINE = 0.05
"""A shortfall of at least this share of the need is worth its one line."""


def consequence(
    body: Body, need: Mapping[int, DayNeed], eaten_kcal: Mapping[int, float]
) -> Consequence:
    """What the walk's shortfall may do: tissue with its range, water apart [kg].

    `eaten_kcal` is keyed by day number like `need`. A surplus costs nothing. The range joins the
    need's own range with the walker's unknown fat. Source: Hall2007 for tissue; allowance ours.
    """
    eaten = sum(eaten_kcal.values())
    short = {
        side: max(0.0, sum(getattr(day, side) for day in need.values()) - eaten)
        for side in ("low_kcal", "energy_kcal", "high_kcal")
    }
    fat = fat_kg(body)
    tissue = short["energy_kcal"] / energy_kcal_per_kg(fat)
    water = water_kg(short["energy_kcal"])
    return Consequence(
        deficit_kcal=sum(day.energy_kcal for day in need.values()) - eaten,
        tissue_low_kg=short["low_kcal"] / energy_kcal_per_kg(fat * (1.0 + FAT_SPREAD)),
        tissue_kg=tissue,
        tissue_high_kg=short["high_kcal"] / energy_kcal_per_kg(fat * (1.0 - FAT_SPREAD)),
        water_low_kg=water[0],
        water_high_kg=water[1],
        share_of_mass=(tissue + sum(water) / 2.0) / body.mass_kg,
        scales_hall_kg=scales_hall_kg(body, need, short["energy_kcal"]),
        availability=availability(body, need, eaten_kcal),
    )


def scales_hall_kg(body: Body, need: Mapping[int, DayNeed], short_kcal: float) -> float:
    """What Hall's model puts on the scales for the same shortfall, water included [kg].

    Its walker is in balance at the walk's own use and eats so much less each day, rounded to whole
    days. The model was made for smaller meals over months, not for a week of hard work: a
    comparison, never the answer. Source: Hall2011.
    """
    days = full_days(body, need)
    if short_kcal < DUST_KCAL or days <= 0.0:
        return 0.0
    level = sum(day.energy_kcal for day in need.values()) / days / resting_kcal_day(body)
    return -mass_change_kg(
        body, -short_kcal / days, days=max(1, round(days)), activity_level=max(1.2, level)
    )


def cautions(
    body: Body,
    need: Mapping[int, DayNeed],
    eaten_kcal: Mapping[int, float],
    *,
    scope: str = "",
    shares: Mapping[int, float] | None = None,
) -> tuple[Flag, ...]:
    """What to say of a walker's eating: nothing, one neutral line, or a caution (C11).

    `shares` says how much of each day's meals lies inside the walk; a part day is judged by its
    part of resting use.
    """
    if body.fully_fed:
        return (Flag(key="body.professional", level="caution", scope=scope),)
    found = consequence(body, need, eaten_kcal)
    whole = sum(day.energy_kcal for day in need.values())
    share = sum(eaten_kcal.values()) / whole if whole > 0 else 1.0
    flags = [
        *_below_resting(body, eaten_kcal, shares or {}, scope),
        *_loss(found, scope),
        *_long_walk(len(need), share, scope),
    ]
    if 1.0 - share >= WORTH_A_LINE:
        flags.append(_line(found, need, share, scope))
    return tuple(flags)


def _below_resting(
    body: Body, eaten: Mapping[int, float], shares: Mapping[int, float], scope: str
) -> list[Flag]:
    resting = resting_kcal_day(body)
    days = [day for day, kcal in eaten.items() if kcal < resting * shares.get(day, 1.0)]
    if not days:
        return []
    values = {"n_days": len(days), "first": min(days), "resting_kcal": resting}
    return [Flag(key="body.below-resting", level="caution", scope=scope, values=values)]


def _loss(found: Consequence, scope: str) -> list[Flag]:
    if found.share_of_mass <= LOSS_SHARE:
        return []
    values = {"share": found.share_of_mass, "tissue_kg": found.tissue_kg}
    return [Flag(key="body.loss", level="caution", scope=scope, values=values)]


def _long_walk(days: int, share: float, scope: str) -> list[Flag]:
    if days <= LONG_WALK_DAYS or share >= FAR_BELOW:
        return []
    values = {"n_days": days, "share": share}
    return [Flag(key="body.long-far-below", level="caution", scope=scope, values=values)]


def _line(found: Consequence, need: Mapping[int, DayNeed], share: float, scope: str) -> Flag:
    """The one neutral line, with its range."""
    return Flag(
        key="body.shortfall",
        level="quiet",
        scope=scope,
        values={
            "share": share,
            "n_days": len(need),
            "deficit_kcal": found.deficit_kcal,
            "low_kg": found.tissue_low_kg + found.water_low_kg,
            "high_kg": found.tissue_high_kg + found.water_high_kg,
            "water_low_kg": found.water_low_kg,
            "water_high_kg": found.water_high_kg,
        },
        source="Hall2007",
    )
