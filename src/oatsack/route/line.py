"""A track as a line on the ground: how far along each point lies, and where a place is passed.

Distances are along the map, on a sphere; heights are not known here (`profile`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    from oatsack.values.route import Track, Waypoint

    Array = npt.NDArray[np.float64]

EARTH_M = 6_371_008.8
"""Mean radius of the earth (IUGG, from memory)."""
WALKED_GAP_M = 500.0
"""A gap between two segments is walked up to this length; a longer one is a lift (ours)."""
NEAR_M = 100.0
"""A place is passed wherever the line comes this near, or about as near as it ever does."""
FAR_M = 1000.0
"""A place further from the line than this is not on it."""


def steps_m(lat: Array, lon: Array) -> Array:
    """Length between neighbouring points by the haversine formula [m]."""
    phi, lam = np.radians(lat), np.radians(lon)
    half_phi, half_lam = np.diff(phi) / 2.0, np.diff(lam) / 2.0
    chord = np.sin(half_phi) ** 2 + np.cos(phi[:-1]) * np.cos(phi[1:]) * np.sin(half_lam) ** 2
    steps: Array = 2.0 * EARTH_M * np.arcsin(np.sqrt(np.clip(chord, 0.0, 1.0)))
    return steps


def along_m(track: Track) -> Array:
    """How far along the way each point lies [m]; long gaps between segments have no length."""
    steps = steps_m(np.array(track.lat, dtype=float), np.array(track.lon, dtype=float))
    for first in track.starts:
        if 0 < first <= len(steps) and steps[first - 1] > WALKED_GAP_M:
            steps[first - 1] = 0.0
    return np.concatenate(([0.0], np.cumsum(steps)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One passing of a place: how far along the line, and how far off it."""

    along_m: float
    off_m: float


def passings(track: Track, along: Array) -> tuple[tuple[Waypoint, tuple[Pass, ...]], ...]:
    """Every waypoint of the track with its passings."""
    lat, lon = np.array(track.lat, dtype=float), np.array(track.lon, dtype=float)
    return tuple((place, passes(lat, lon, along=along, place=place)) for place in track.waypoints)


def passes(lat: Array, lon: Array, *, along: Array, place: Waypoint) -> tuple[Pass, ...]:
    """Every time a line passes the place, in order; empty where it never comes near.

    `along` says how far along each of its points lies. A stated `distance_m` of the place outranks
    its coordinates.
    """
    if place.distance_m is not None:
        return (Pass(along_m=place.distance_m, off_m=0.0),)
    off, share = _off_line(lat, lon, place)
    least = float(off.min())
    if least > FAR_M:
        return ()
    near = off <= max(NEAR_M, 1.5 * least)
    edges = np.flatnonzero(np.diff(np.concatenate(([False], near, [False])).astype(int)))
    found = []
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        best = first + int(np.argmin(off[first:last]))
        at = along[best] + share[best] * (along[best + 1] - along[best])
        found.append(Pass(along_m=float(at), off_m=float(off[best])))
    return tuple(found)


def _off_line(lat: Array, lon: Array, place: Waypoint) -> tuple[Array, Array]:
    """Distance from the place to each piece of the line [m], and where along the piece (0 to 1)."""
    metre = np.radians(1.0) * EARTH_M
    x = (lon - place.lon) * metre * np.cos(np.radians(place.lat))
    y = (lat - place.lat) * metre
    dx, dy = np.diff(x), np.diff(y)
    length2 = np.maximum(dx * dx + dy * dy, 1e-12)
    share = np.clip(-(x[:-1] * dx + y[:-1] * dy) / length2, 0.0, 1.0)
    return np.hypot(x[:-1] + share * dx, y[:-1] + share * dy), share
