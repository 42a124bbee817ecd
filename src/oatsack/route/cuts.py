"""A track cut into days: at named camps, at distances, or into days of equal effort.

Effort is walking time by the party's own gait; a day that has fewer hours inside the walk gets its
share of it. The cut keeps length and climb: the days add up to the track.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from oatsack.errors import Fault, TripFileError
from oatsack.route.faults import fault, nearest, refuse
from oatsack.route.line import passings
from oatsack.route.pieces import GRADE_LIMIT_PCT, Piece, Source, Walk, gait_of, merged
from oatsack.route.profile import HEIGHTS, profile_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from oatsack.route.calendar import Window
    from oatsack.route.line import Pass
    from oatsack.route.profile import Profile
    from oatsack.values.route import Track, Waypoint
    from oatsack.values.trip import Heights, Trip

SLOPE_OVER_M = 100.0
PIECES_A_DAY = 200
"""Leaves room for pauses, chores and sleep below 250 stretches."""
CAMP_NEAR_M = 300.0
"""A cut this near to a camp's waypoint bears its name."""
SAME_PLACE_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Where a day ends: how far along, and the name of the camp where it has one."""

    along_m: float
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Course:
    """A track made ready: its profile, and every waypoint with its passings."""

    profile: Profile
    marks: tuple[tuple[Waypoint, tuple[Pass, ...]], ...]

    def find(self, name: str) -> tuple[Waypoint, tuple[Pass, ...]] | None:
        """The waypoint of this name; camps before others, upper and lower case alike."""
        wanted = name.casefold().strip()
        found = [mark for mark in self.marks if mark[0].name.casefold().strip() == wanted]
        return min(found, key=lambda mark: mark[0].kind != "camp", default=None)


def course_of(track: Track, *, base_m: float = 0.0, heights: Heights = "map") -> Course:
    """The track made ready; `base_m` is the height of one that carries no heights.

    `heights` says where they come from, and so how much of their wavering counts as climb.
    """
    window_m, threshold_m = HEIGHTS[heights]
    profile = profile_of(track, window_m=window_m, threshold_m=threshold_m, base_m=base_m)
    return Course(profile=profile, marks=passings(track, profile.points_m))


def walks_on(trip: Trip, track: Track, windows: Sequence[Window]) -> list[Walk]:
    """The walk of every day, in order. Raises TripFileError for camps and cuts that do not fit."""
    route = trip.route
    course = course_of(track, base_m=route.start_height_m, heights=route.heights)
    cuts = _named(course, cuts_of(trip, course, windows))
    starts = [0.0, *(cut.along_m for cut in cuts)]
    return [
        _walk(trip, course, start, end)
        for start, end in zip(starts, [*cuts, Cut(along_m=course.profile.length_m)], strict=True)
    ]


def cuts_of(trip: Trip, course: Course, windows: Sequence[Window]) -> list[Cut]:
    """Where every day but the last ends, by the way the trip asks for."""
    route = trip.route
    if route.camps:
        return _at_camps(trip, course, len(windows))
    if route.cuts_m:
        return _at_distances(trip, course.profile, len(windows))
    return _of_equal_effort(trip, course.profile, windows)


def _at_camps(trip: Trip, course: Course, days: int) -> list[Cut]:
    """Cuts at named waypoints, each the next passing of its place; twice named is a day of rest."""
    camps = trip.route.camps
    cuts: list[Cut] = []
    faults: list[Fault] = []
    if len(camps) != days - 1:
        faults.append(fault(
            trip, "route.camps", f"a walk of {days} days has {days - 1} nights between them",
            read=f"{len(camps)} camps", instead="name one for every night, twice for a day of rest",
        ))  # fmt: skip
    for number, name in enumerate(camps):
        after = cuts[-1].along_m if cuts else 0.0
        path = f"route.camps[{number}]"
        try:
            cuts.append(_camp(trip, course, name=name, after=after, path=path))
        except TripFileError as error:
            faults += error.faults
    if faults:
        raise TripFileError(faults)
    return cuts


def _camp(trip: Trip, course: Course, *, name: str, after: float, path: str) -> Cut:
    """The first passing of a camp that lies no earlier than `after`."""
    mark = course.find(name)
    if mark is None:
        known = [place.name for place, _ in course.marks]
        raise refuse(
            trip, path, "no waypoint of the track bears this name",
            read=repr(name), instead=nearest(name, known),
        )  # fmt: skip
    place, found = mark
    if not found:
        raise refuse(
            trip, path, "the camp lies more than a kilometre from the track",
            read=repr(name), instead="choose a camp on the way, or draw the track to it",
        )  # fmt: skip
    later = [one.along_m for one in found if one.along_m >= after - SAME_PLACE_M]
    if not later:
        raise refuse(
            trip, path, "the camp lies before the one named ahead of it",
            read=repr(name), instead="name the camps in the order they are reached",
        )  # fmt: skip
    return Cut(along_m=min(max(later[0], after), course.profile.length_m), name=place.name)


def _at_distances(trip: Trip, profile: Profile, days: int) -> list[Cut]:
    """Cuts at typed distances from the start; the end of the track needs no cut."""
    marks = [mark for mark in trip.route.cuts_m if mark < profile.length_m - SAME_PLACE_M]
    far = [mark for mark in trip.route.cuts_m if mark > profile.length_m * 1.02 + 500.0]
    wrong = ""
    if far:
        wrong = f"the track is {profile.length_m / 1000:.1f} km long"
    elif list(marks) != sorted(marks):
        wrong = "the distances count from the start of the track and only grow"
    elif len(marks) != days - 1:
        wrong = f"a walk of {days} days has {days - 1} cuts between them"
    if wrong:
        kms = ", ".join(f"{mark / 1000:g}" for mark in trip.route.cuts_m)
        raise refuse(
            trip, "route.cuts", wrong, read=f"{kms} km",
            instead="give the distance from the start at which each night is spent",
        )  # fmt: skip
    return [Cut(along_m=mark) for mark in marks]


def _of_equal_effort(trip: Trip, profile: Profile, windows: Sequence[Window]) -> list[Cut]:
    """Cuts where the walking time so far reaches each day's share of the whole."""
    pieces = _pieces(trip, profile, 0.0, profile.length_m)
    gait = gait_of(trip)
    minutes = np.concatenate(([0.0], np.cumsum([gait.minutes(piece) for piece in pieces])))
    joints = np.concatenate(([0.0], np.cumsum([piece.distance_m for piece in pieces])))
    shares = np.cumsum([window.share for window in windows])
    wanted = minutes[-1] * shares[:-1] / shares[-1]
    return [Cut(along_m=float(one)) for one in np.interp(wanted, minutes, joints)]


def _named(course: Course, cuts: Sequence[Cut]) -> list[Cut]:
    """Cuts with the name of the camp they fall on."""
    places = [
        (one.along_m, place.name)
        for place, passed in course.marks
        if place.kind == "camp"
        for one in passed
    ]
    out = []
    for cut in cuts:
        near = min(places, key=lambda place: abs(place[0] - cut.along_m), default=(np.inf, ""))
        close = abs(near[0] - cut.along_m) <= CAMP_NEAR_M
        out.append(cut if cut.name or not close else Cut(along_m=cut.along_m, name=near[1]))
    return out


def _walk(trip: Trip, course: Course, start: float, end: Cut) -> Walk:
    """One day between two places of the track."""
    profile = course.profile
    stop = max(end.along_m, start)
    up, down = profile.climb_m(start, stop)
    resting = stop - start < SAME_PLACE_M
    pieces = () if resting else merged(_pieces(trip, profile, start, stop), PIECES_A_DAY)
    return Walk(
        pieces=pieces,
        ascent_m=up,
        descent_m=down,
        highest_m=profile.highest_m(start, stop),
        start_m=profile.height_at(start),
        end_m=profile.height_at(stop),
        camp_name=end.name,
        camp_dry=trip.route.is_dry(end.name),
        water=_water(course, start, stop),
        supplied=next((n for n in trip.route.leg_ends if _inside(course, n, start, stop)), ""),
        heights_known=profile.known,
    )


def _pieces(trip: Trip, profile: Profile, start: float, end: float) -> list[Piece]:
    """Pieces of about 100 m with their clamped slope."""
    joints, slopes = profile.slopes(start, end, SLOPE_OVER_M)
    heights = np.interp((joints[:-1] + joints[1:]) / 2.0, profile.along_m, profile.height_m)
    grades = np.clip(slopes, -GRADE_LIMIT_PCT, GRADE_LIMIT_PCT)
    return [
        Piece(distance_m=length, grade_pct=grade, height_m=height, terrain=trip.route.terrain)
        for length, grade, height in zip(
            np.diff(joints).tolist(), grades.tolist(), heights.tolist(), strict=True
        )
    ]


def _water(course: Course, start: float, end: float) -> tuple[Source, ...]:
    """Water passed between two places, metres counted from the first."""
    found = [
        Source(name=place.name, distance_m=one.along_m - start, reliability=place.reliability)
        for place, passed in course.marks
        if place.kind == "water"
        for one in passed
        if start <= one.along_m <= end
    ]
    return tuple(sorted(found, key=lambda source: source.distance_m))


def _inside(course: Course, name: str, start: float, end: float) -> bool:
    """Whether a named place is passed after the one place and no later than the other."""
    mark = course.find(name)
    return mark is not None and any(start < one.along_m <= end for one in mark[1])
