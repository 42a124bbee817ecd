"""Does the stove go in the pot: cylinders in a cylinder, fill lines, and marks to measure by.

Exact for the few ways people really pack: one thing upright, two side by side, several equal ones,
one lying across, in layers on top of each other. It finds no cleverer way than these.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot, pi

from oatsack.errors import UsageError
from oatsack.kitchen.price import FOOD_FILL, WATER_FILL
from oatsack.values.frozen import dataclass
from oatsack.values.kit import Pot

CLEARANCE_MM = 1.5
"""A single thing needs this much play to come out again. Common practice."""
RING = {1: 1.0, 2: 2.0, 3: 2.1547, 4: 2.4142, 5: 2.7013, 6: 3.0, 7: 3.0}
"""Pot over thing, for n equal circles in one. Source: from memory, circle packing."""


CAN_MM = ((150.0, 90.0, 68.0), (300.0, 110.0, 90.0), (1e9, 110.0, 150.0))
"""Cans that hold up to so much [g]: diameter and height [mm]. Common practice; measure your own."""


def can_size(fuel_g: float) -> tuple[float, float]:
    """Diameter and height of a usual can with so much fuel [mm]."""
    return next((wide, high) for most, wide, high in CAN_MM if fuel_g <= most)


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A cylinder to be packed: a can, a folded burner, a lighter."""

    name: str
    diameter_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """Things on one level, how they lie, and the height they take."""

    things: tuple[str, ...]
    lying: bool
    height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Nested:
    """A way to pack: layers from the bottom, and the height left under the lid."""

    layers: tuple[Layer, ...]
    left_mm: float


def depth_mm(volume_ml: float, diameter_mm: float) -> float:
    """Depth of a round pot [mm]: ``4 V / (pi D^2)``."""
    return volume_ml * 1000.0 * 4.0 / (pi * diameter_mm**2)


def size_of(pot: Pot) -> tuple[float, float]:
    """Diameter and depth of a pot [mm]; the depth may follow from its volume.

    Raises UsageError where the diameter is not stated.
    """
    if pot.diameter_mm is None:
        raise UsageError(f"the diameter of {pot.name!r} is not stated")
    return pot.diameter_mm, pot.depth_mm or depth_mm(pot.volume_ml, pot.diameter_mm)


def layers(things: Sequence[Thing], diameter_mm: float) -> Iterator[Layer]:
    """The ways in which all these things share one level of a pot, if there are any."""
    names = tuple(t.name for t in things)
    widths = [t.diameter_mm for t in things]
    if _upright(widths, diameter_mm):
        yield Layer(things=names, lying=False, height_mm=max(t.height_mm for t in things))
    if len(things) == 1 and hypot(things[0].height_mm, widths[0]) <= diameter_mm:
        yield Layer(things=names, lying=True, height_mm=widths[0])


def _upright(widths: Sequence[float], diameter_mm: float) -> bool:
    if len(widths) == 1:
        return widths[0] + CLEARANCE_MM <= diameter_mm
    if len(widths) == 2:
        return sum(widths) <= diameter_mm
    return max(widths) * RING.get(len(widths), 1e9) <= diameter_mm


def nest(things: Sequence[Thing], pot: Pot, *, dome_mm: float = 0.0) -> Nested | None:
    """The lowest of the simple ways to pack all things in the pot; None: there is none.

    `dome_mm` is what a domed lid adds. Meant for up to six things.
    """
    diameter, depth = size_of(pot)
    found = [
        Nested(layers=ways, left_mm=depth + dome_mm - sum(layer.height_mm for layer in ways))
        for ways in _ways(tuple(things), diameter)
    ]
    fitting = [way for way in found if way.left_mm >= 0.0]
    return max(fitting, key=lambda way: (way.left_mm, -len(way.layers)), default=None)


def _ways(things: tuple[Thing, ...], diameter: float) -> Iterator[tuple[Layer, ...]]:
    """Every division of the things into levels."""
    if not things:
        yield ()
        return
    first, rest = things[0], things[1:]
    for mask in range(1 << len(rest)):
        beside = tuple(t for i, t in enumerate(rest) if mask >> i & 1)
        above = tuple(t for i, t in enumerate(rest) if not mask >> i & 1)
        for layer in layers((first, *beside), diameter):
            yield from ((layer, *way) for way in _ways(above, diameter))


def usable_ml(pot: Pot, *, food: bool) -> float:
    """What one fills a pot with at most [ml]: 75 % with food, 85 % clear water."""
    return pot.volume_ml * (FOOD_FILL if food else WATER_FILL)


def mark_mm(pot: Pot, water_ml: float) -> float:
    """Height of so much water over the bottom of a pot [mm], for a mark inside."""
    diameter, _ = size_of(pot)
    return depth_mm(water_ml, diameter)


def mug_share(mug_ml: float, water_ml: float) -> tuple[int, float]:
    """So much water as whole mugs and a part of one, in quarters: what one can see."""
    quarters = round(water_ml / mug_ml * 4.0)
    return quarters // 4, quarters % 4 / 4.0


CHECK_LIST: tuple[str, ...] = (
    "spoon", "lighter", "second-lighter", "pot-grip", "mug", "knife", "cloth", "soap",
    "rubbish-bag",
)  # fmt: skip
"""Small things that are missed at the first dinner, as keys of words. Common practice."""
FOR_A_FLAME = frozenset({"lighter", "second-lighter", "pot-grip"})


def check_list(*, flame: bool) -> tuple[str, ...]:
    """The small things to take, with or without a flame."""
    return tuple(thing for thing in CHECK_LIST if flame or thing not in FOR_A_FLAME)
