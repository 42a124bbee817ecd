"""Checks a trip with all files that it names, without planning: faults and doubts, each in place.

A doubt is about a label that cannot well be true (oatsack.larder.plausible); it is no fault, but
such a food enters no menu.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from oatsack.desk.opening import Desk, doubtful, read_all, sound, way_faults, written
from oatsack.errors import Fault, UnreadableInput
from oatsack.files.larder import Reading
from oatsack.files.trip import gone
from oatsack.larder.stock import stale
from oatsack.reports.words import Voice, say
from oatsack.route.calendar import windows_of
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.trip import Trip

ENERGY = ("kcal", "kj")
CELLS: Mapping[str, tuple[str, ...]] = {
    "available-as-total": ("fibre_g",), "sugars-over-carb": ("sugars_g",),
    "polyols-over-carb": ("polyols_g",), "doses-over-pack": ("doses", "dose_g"),
    "doses-under-pack": ("doses", "dose_g"), "pack-in-ounces": ("pack_g",),
    "salt-as-sodium": ("sodium_mg", "salt_g"), "sodium-high": ("sodium_mg", "salt_g"),
    "sodium-in-grams": ("sodium_mg", "salt_g"), "caffeine-high": ("caffeine_mg",),
    "volume-odd": ("pack_ml",), "over-100": ("per", "carb_g", "carb_available_g"),
}  # fmt: skip
"""Doubt -> the columns whose cell is shown; all others are about the energy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What was found: faults, doubts with their place, what is to be noted, how much there is."""

    faults: tuple[Fault, ...]
    doubts: tuple[str, ...]
    notes: tuple[str, ...] = ()
    days: int = 0
    walkers: int = 0
    foods: int = 0


def checked(path: Path) -> Checked:
    """Everything that is wrong or odd with a trip and its files; nothing is planned."""
    desk = Desk(path.parent)
    text = read_all(desk, path, None)
    doubts = tuple(_doubt(food, flag, desk.readings) for food in desk.foods
                   for flag in doubtful([food]))  # fmt: skip
    try:
        trip, foods = sound(desk, path)
    except UnreadableInput as error:
        return Checked(faults=error.faults, doubts=doubts)
    if found := way_faults(trip, desk.track, text):
        return Checked(faults=found, doubts=doubts)
    voice = Voice(foods={food.id: food.name for food in foods})
    return Checked(
        faults=(), doubts=doubts, days=len(windows_of(trip)), walkers=len(trip.walkers),
        foods=len(foods), notes=(
            *_gone(trip, foods, voice),
            *(voice.flag(flag) for flag in stale(desk.lots, trip.begin.date())),
            *(written(name, found) for name, found in desk.dialects.items()),
        ),
    )  # fmt: skip


def _gone(trip: Trip, foods: tuple[Food, ...], voice: Voice) -> tuple[str, ...]:
    """Holds and bans that no longer apply, each with its line."""
    out = []
    for path, hold, why in gone(trip, foods):
        file, line = trip.origins.get(f"{path}.food") or trip.origins.get(path) or ("", 0)
        out.append(voice.say("check-trip.gone", file=file, line=line, food=hold.food, why=why))
    return tuple(out)


def _doubt(food: Food, flag: Flag, readings: Mapping[str, Reading]) -> str:
    """A doubt at its cell; of a file with faults only at its line."""
    said = Voice(foods={food.id: food.name}).flag(flag)
    file, line = food.origin.file, food.origin.line
    if file not in readings:
        return f"{file}:{line}: {said}" if file else said
    columns = CELLS.get(flag.key.removeprefix("larder."), ENERGY)
    at = readings[file].fault(line, columns, path=food.id, wrong=said, read="", instead="")
    return "\n".join([
        f"{at.file}:{at.line}:{at.column}: {said}", f"    {at.text}",
        f"    {' ' * (at.column - 1)}^", f"    {say('check-trip.confirm')}",
    ])  # fmt: skip
