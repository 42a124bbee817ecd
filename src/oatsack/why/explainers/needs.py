"""Explains what a day uses and what is chosen to be eaten of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from oatsack.values.plan import Plan
from oatsack.values.trip import NeedSpec
from oatsack.why.explainers.base import Asked, Explainer, given, sums
from oatsack.why.explanation import Explanation, Input

MODEL = "Looney2022, eq. 4, as transcribed"
"""Source of the default walking-cost model; a test holds it to the shelf."""
TERMS = "ours, after Herrmann2024 (cold), ArmyNutrition2001 (heat), Butterfield1992 (height)"
SOURCES = {"terms_kcal": TERMS, "thermic_kcal": "Hall2011, parameter table"}
"""What the other parts of a day rest on; camp, rest and sleep are rows of the Compendium."""
PARTS = "walking_kcal + camp_kcal + rest_kcal + sleep_kcal + terms_kcal + thermic_kcal"


def walker_input(plan: Plan, name: str) -> Input:
    """The walker of an id."""
    return Input(
        value=next(w for w in plan.trip.walkers if w.id == name), origin=f"trip/walkers/{name}"
    )


def model_source(plan: Plan) -> str:
    """Source of the walking-cost model that the trip asks for."""
    if plan.trip.need.model == NeedSpec().model:
        return MODEL
    from oatsack.walker.energy import model  # loads every model; the usual one needs none

    return model(plan.trip.need.model).sources[0]


def beyond(asked: Asked, found: Explanation) -> Explanation:
    """The same, with where this walker's need lies outside what was measured (C7)."""
    scope = f"need/{asked.words[1]}"
    flags = (f for f in asked.plan.flags if f.scope == scope and f.key.startswith("need."))
    return replace(found, flags=tuple(flags))


def likely(asked: Asked) -> Explanation:
    """The likely need of a day: the sum of its parts."""
    return beyond(asked, sums(PARTS, source=model_source(asked.plan), sure="model")(asked))


def modelled(asked: Asked) -> Explanation:
    """A part of a day's need, worked out from the stretches and what was on the back."""
    name, day, what = asked.words[1], asked.words[2], asked.last
    walking = what in ("walking_kcal", "walking_h")
    return beyond(asked, asked.answer(
        f"pick(need_of(walker, choices, days, back), 'days/{day}/{what}')",
        source=model_source(asked.plan) if walking else SOURCES.get(what, "Herrmann2024"),
        sure="choice" if what == "terms_kcal" else "model",
        walker=walker_input(asked.plan, name), choices=asked.taken("trip/need"),
        days=asked.taken("days"), back=asked.taken(f"backs/{name}"),
    ))  # fmt: skip


def ranged(asked: Asked) -> Explanation:
    """The low or high end: the likely need times its band."""
    name, day = asked.words[1], asked.words[2]
    side = asked.last.removesuffix("_kcal")
    return beyond(asked, asked.answer(
        f"energy_kcal * pick(need_of(walker, choices, days, back), 'bands/{day}/{side}')",
        source=model_source(asked.plan), sure="model",
        energy_kcal=asked.beside("energy_kcal"),
        walker=walker_input(asked.plan, name), choices=asked.taken("trip/need"),
        days=asked.taken("days"), back=asked.taken(f"backs/{name}"),
    ))  # fmt: skip


def target(asked: Asked) -> Explanation:
    """What is eaten on a day: base x ramp x share of the day's meals inside the walk (C15), less
    what is eaten in a town on the way."""
    name, day = asked.words[1], asked.words[2]
    factors: dict[str, Any] = {
        "base_kcal": asked.taken(f"chosen/{name}/base_kcal"),
        "ramp": asked.taken(f"chosen/{name}/ramp/{day}"),
        "share": asked.taken(f"chosen/{name}/share/{day}"),
    }
    if day in asked.plan.chosen[name].town:
        factors["town_kcal"] = asked.taken(f"chosen/{name}/town/{day}")
    formula = "base_kcal * ramp * share" + (" - town_kcal" if len(factors) > 3 else "")
    return asked.answer(formula, sure="choice", **factors)


def base(asked: Asked) -> Explanation:
    """The walker's own number, or a share of a full day's need."""
    chosen = asked.plan.chosen[asked.words[1]]
    if chosen.how == "typed":
        mine = walker_input(asked.plan, asked.words[1]).value
        origin = f"trip/walkers/{asked.words[1]}/target/kcal"
        return asked.answer("kcal", sure="given", kcal=given(mine.target.kcal, origin))
    return asked.answer(
        "factor * full_day_kcal", sure="choice",
        factor=asked.beside("factor"), full_day_kcal=asked.beside("full_day_kcal"),
    )  # fmt: skip


def factor(asked: Asked) -> Explanation:
    """Which share of the need is eaten: as stated, by default, or as it follows from a number."""
    chosen = asked.plan.chosen[asked.words[1]]
    if chosen.how == "typed":
        return asked.answer(
            "over(base_kcal, full_day_kcal)",
            base_kcal=asked.beside("base_kcal"), full_day_kcal=asked.beside("full_day_kcal"),
        )  # fmt: skip
    return asked.answer("share", sure="choice", share=given(chosen.factor, f"choice: {chosen.how}"))


def full_day(asked: Asked) -> Explanation:
    """The need of a full day in the round that was frozen; it differs by the stated residual."""
    residual = asked.plan.made.residual_kcal
    origin = f"frozen in round {asked.plan.made.rounds}, residual {residual:.0f} kcal"
    return asked.answer("frozen_kcal", sure="model", frozen_kcal=given(asked.value, origin))


def ramp_of(asked: Asked) -> Explanation:
    """Appetite by day, mean 1 over the trip; none where a number was typed."""
    name, day = asked.words[1], asked.last
    if asked.plan.chosen[name].how in ("typed", "full"):
        return asked.answer("flat", sure="choice", flat=given(1.0, "no ramp: a number was chosen"))
    return asked.answer(
        f"pick(appetite(shares), '{day}')", source="common practice", sure="choice",
        shares=asked.taken(f"chosen/{name}/share"),
    )  # fmt: skip


def share(asked: Asked) -> Explanation:
    """Which share of a full day's meals lies inside the walk, counted from clock times (C4)."""
    name, day = asked.words[1], asked.last
    return asked.answer(
        f"pick(meal_share(trip, slots, '{name}'), '{day}')", source="common practice",
        sure="choice", trip=asked.taken("trip"), slots=asked.taken("slots"),
    )  # fmt: skip


def back(asked: Asked) -> Explanation:
    """What was on the back: base weight, food left, wrappers, fuel left, water."""
    name, day, place = asked.words[1:4]
    plan = asked.plan
    return asked.answer(
        f"pick(backs(walkers, days, slots, packed, kitchen), '{name}/{day}/{place}')",
        walkers=given(plan.trip.walkers, "trip/walkers"), days=asked.taken("days"),
        slots=asked.taken("slots"), packed=asked.taken("packed"), kitchen=asked.taken("kitchen"),
    )  # fmt: skip


def hour(asked: Asked) -> Explanation:
    """An hour of the timeline: the stretches cut at full hours, and what is eaten between."""
    name = asked.words[1]
    return asked.answer(
        "pick(timeline(walker, days, back, slots, menu, foods, trip, town), "
        f"'{asked.words[2]}/{asked.last}')",
        source=model_source(asked.plan), sure="model",
        walker=walker_input(asked.plan, name), days=asked.taken("days"),
        back=asked.taken(f"backs/{name}"), slots=asked.taken("slots"),
        menu=asked.taken("menu"), foods=asked.taken("foods"), trip=asked.taken("trip"),
        town=asked.taken(f"chosen/{name}/town"),
    )  # fmt: skip


def town(asked: Asked) -> Explanation:
    """What is eaten in a town on the way: as stated, or what its meals would have brought."""
    return asked.answer("town", sure="choice", town=given(asked.value, "trip/places"))


NEEDS: tuple[Explainer, ...] = (
    Explainer(pattern="need/*/*/energy_kcal", explain=likely),
    Explainer(pattern="need/*/*/low_kcal", explain=ranged),
    Explainer(pattern="need/*/*/high_kcal", explain=ranged),
    Explainer(pattern="need/*/*/*", explain=modelled),
    Explainer(pattern="target/*/*", explain=target),
    Explainer(pattern="chosen/*/base_kcal", explain=base),
    Explainer(pattern="chosen/*/factor", explain=factor),
    Explainer(pattern="chosen/*/full_day_kcal", explain=full_day),
    Explainer(pattern="chosen/*/ramp/*", explain=ramp_of),
    Explainer(pattern="chosen/*/share/*", explain=share),
    Explainer(pattern="chosen/*/town/*", explain=town),
    Explainer(pattern="backs/*/*/*", explain=back),
    Explainer(pattern="timeline/*/*/*", explain=hour),
)
