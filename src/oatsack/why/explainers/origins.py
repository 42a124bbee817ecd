"""Explains what was given: by the trip file, a larder, the route; and what was recorded."""

from __future__ import annotations

from oatsack.values.plan import Plan
from oatsack.why.explainers.base import Asked, Explainer, given
from oatsack.why.explanation import Explanation


def food(asked: Asked) -> Explanation:
    """A cell of a larder row, with its file and line, and whether it is invented."""
    row = asked.plan.foods[asked.words[1]]
    origin = f"{row.origin.file}:{row.origin.line}"
    if asked.last in row.origin.invented or asked.words[2] in row.origin.invented:
        origin += " (invented for the bundled larder)"
    source = f"{row.origin.source}, {row.origin.source_id}" if row.origin.source else "your larder"
    return asked.answer("stated", source=source, sure="given", stated=given(asked.value, origin))


def trip(asked: Asked) -> Explanation:
    """A value of the trip file with its line, or the default that stands for it."""
    origin = origin_in_trip(asked.plan, asked.words)
    return asked.answer("stated", sure="given", stated=given(asked.value, origin))


def own_pace(asked: Asked) -> Explanation:
    """What a recorded track tells of a walker's pace: the rule's speed on the flat, scaled."""
    from oatsack.route import pace

    own = next(w for w in asked.plan.trip.walkers if w.id == asked.words[2]).own_pace
    assert own is not None
    said = f"your track of {own.track}, {own.moving_min:.0f} min over {own.distance_m:.0f} m"
    return asked.answer("read", source=pace.model(own.rule).sources[0], sure="model",
                        read=given(asked.value, said))  # fmt: skip


def pace_of(asked: Asked) -> Explanation:
    """A walker's pace: as typed, or as a recorded track tells it."""
    own = f"trip/walkers/{asked.words[2]}/own_pace"
    if asked.taken(own).value is None:
        return trip(asked)
    return asked.answer("flat_ms", sure="model", flat_ms=asked.taken(f"{own}/flat_ms"))


def origin_in_trip(plan: Plan, words: tuple[str, ...]) -> str:
    """``trip.toml:12`` of the closest stated path, or that it is a default."""
    path = [word for word in words[1:] if word]
    several = {"walkers": [w.id for w in plan.trip.walkers], "dogs": [d.id for d in plan.trip.dogs]}
    names = several.get(path[0], []) if path else []
    if len(path) > 1 and path[1] in names:
        path[:2] = [f"{path[0]}[{names.index(path[1])}]"]
    plain = [_file_word(word) for word in path]
    for length in range(len(plain), 0, -1):
        found = plan.trip.origins.get(".".join(plain[:length]))
        if found and length == len(plain):
            return f"{found[0]}:{found[1]}"
    return "default"


def _file_word(word: str) -> str:
    """A field's name as the trip file writes it: without its unit."""
    units = ("_kg", "_g_day", "_g", "_kcal", "_ml", "_years", "_cm", "_m", "_ms", "_c", "_min",
             "_day")  # fmt: skip
    for unit in units:
        if word.endswith(unit):
            return word.removesuffix(unit)
    return word


def route(asked: Asked) -> Explanation:
    """A day or stretch as the route was read, cut and laid on the clock."""
    spec = asked.plan.trip.route
    origin = f"the track {spec.track}" if spec.track else "days typed by hand"
    return asked.answer("read", source=spec.pace_model, sure="model",
                        read=given(asked.value, origin))  # fmt: skip


def recorded(asked: Asked) -> Explanation:
    """What the making of the plan recorded: format, seed, rounds, residual, values of a remark."""
    return asked.answer("recorded", sure="given",
                        recorded=given(asked.value, "when the plan was made"))  # fmt: skip


ORIGINS: tuple[Explainer, ...] = (
    Explainer(pattern="foods/**", explain=food),
    Explainer(pattern="trip/walkers/*/pace_ms", explain=pace_of),
    Explainer(pattern="trip/walkers/*/own_pace/*", explain=own_pace),
    Explainer(pattern="trip/**", explain=trip),
    Explainer(pattern="days/**", explain=route),
    Explainer(pattern="**", explain=recorded),
)
