"""The route's arithmetic done again the slow and obvious way, to judge the quick one.

Nothing here imports the code it judges: plain loops over plain lists.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

RADIUS_M = 6_371_008.8


def distance_m(a: tuple[float, float], b: tuple[float, float]) -> float:
    """Between two places on the sphere, through the angle between two arrows from its centre."""

    def arrow(place: tuple[float, float]) -> tuple[float, float, float]:
        phi, lam = math.radians(place[0]), math.radians(place[1])
        return math.cos(phi) * math.cos(lam), math.cos(phi) * math.sin(lam), math.sin(phi)

    u, v = arrow(a), arrow(b)
    cross = (
        u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0],
    )  # fmt: skip
    dot = sum(p * q for p, q in zip(u, v, strict=True))
    return RADIUS_M * math.atan2(math.hypot(*cross), dot)


def between(knots: Sequence[float], heights: Sequence[float], at: float) -> float:
    """The line through the knots at one place, level beyond its ends."""
    if at <= knots[0]:
        return heights[0]
    for k in range(1, len(knots)):
        if at <= knots[k]:
            share = (at - knots[k - 1]) / (knots[k] - knots[k - 1])
            return heights[k - 1] + share * (heights[k] - heights[k - 1])
    return heights[-1]


def window_mean(
    knots: Sequence[float], heights: Sequence[float], at: float, half: float, steps: int = 800
) -> float:
    """The mean over a window by adding up many thin slices at their middles."""
    if half <= 0.0:
        return between(knots, heights, at)
    width = 2.0 * half / steps
    total = sum(between(knots, heights, at - half + (k + 0.5) * width) for k in range(steps))
    return total / steps


def climbs(heights: Sequence[float], threshold: float) -> tuple[float, float]:
    """Ascent and descent by taking small waves out, the smallest first, until none is left.

    A wave is an inner rise or fall below the threshold; taking both of its ends out joins its
    neighbours. The ends of the row go last: a first or last leg below the threshold does not count.
    """
    row = extremes(heights)
    while len(row) > 2:
        legs = [abs(b - a) for a, b in itertools.pairwise(row)]
        least = min(range(len(legs)), key=lambda k: legs[k])
        if legs[least] >= threshold:
            break
        if least == 0:
            row = row[1:]
        elif least == len(legs) - 1:
            row = row[:-1]
        else:
            row = extremes(row[:least] + row[least + 2 :])
    legs = [b - a for a, b in itertools.pairwise(row)]
    counted = [leg for leg in legs if abs(leg) >= threshold]
    return sum(leg for leg in counted if leg > 0), -sum(leg for leg in counted if leg < 0)


def extremes(heights: Sequence[float]) -> list[float]:
    """The ends of a row and every place where it turns."""
    row = [float(heights[0])]
    for height in map(float, heights[1:]):
        if height == row[-1]:
            continue
        if len(row) >= 2 and (row[-1] - row[-2]) * (height - row[-1]) > 0:
            row[-1] = height
        else:
            row.append(height)
    return row


def nearest_on(
    line: Sequence[tuple[float, float]], place: tuple[float, float], steps: int = 400
) -> tuple[float, float]:
    """How far along the nearest place of a line lies, and how far off, by trying many places."""
    best, along = (0.0, math.inf), 0.0
    for a, b in itertools.pairwise(line):
        length = distance_m(a, b)
        for k in range(steps + 1):
            share = k / steps
            here = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            off = distance_m(here, place)
            if off < best[1]:
                best = (along + share * length, off)
        along += length
    return best


def minutes_inside(begin: float, end: float, wake_s: Sequence[float]) -> list[float]:
    """Minutes of each day between two instants, by walking through them minute by minute.

    `wake_s` are the instants of waking, in seconds; a day runs from one to the next.
    """
    days = [0.0] * (len(wake_s) + 1)
    now = begin
    while now < end - 1e-6:
        days[sum(now >= wake for wake in wake_s)] += 1.0
        now += 60.0
    return [minutes for minutes in days if minutes]
