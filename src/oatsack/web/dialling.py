"""The energy dial of one walker: every place of it a whole plan, ready to be taken."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from oatsack.desk.bench import Standing
from oatsack.desk.turning import STEP_KCAL, Figures, figures_of
from oatsack.errors import NotThere
from oatsack.reports.telling import Telling, telling
from oatsack.reports.words import say
from oatsack.values.plan import Plan
from oatsack.web.changing import spoken_step
from oatsack.web.door import Door, Form, planned


def dial(door: Door, request: Request, form: Form) -> Response:
    """All places as a table, each with a button; works without scripts."""
    standing, plan, walker = _asked(door, request)
    told = telling(plan)
    return door.page(
        request, "dial.html", s=standing, walker=walker, who=told.name(walker),
        rows=[_place(told, walker, step, f) for step, f in _places(door, standing, plan, walker)],
    )  # fmt: skip


def dial_json(door: Door, request: Request, form: Form) -> Response:
    """The same for the slider on the trip page: texts only, nothing to be worked out there."""
    standing, plan, walker = _asked(door, request)
    told = telling(plan)
    rows = [_place(told, walker, step, f) for step, f in _places(door, standing, plan, walker)]
    return JSONResponse({"places": rows})


def _asked(door: Door, request: Request) -> tuple[Standing, Plan, str]:
    standing, plan = planned(door, request)
    walker = request.query_params.get("w", "")
    if walker not in plan.chosen:
        raise NotThere(say("web.refused.walker"))
    return standing, plan, walker


def _places(
    door: Door, standing: Standing, plan: Plan, walker: str
) -> list[tuple[int, Figures]]:
    """Step and figures, least first, the plan as it is among them."""
    turns = door.bench.turns(standing, walker)
    return sorted([(t.step, t.figures) for t in turns] + [(0, figures_of(plan, walker))],
                  key=lambda row: row[0])  # fmt: skip


def _place(told: Telling, walker: str, step: int, f: Figures) -> dict[str, Any]:
    """One place as texts: what each figure reads, and the sentence that is read out."""
    m = told.m
    price = told.price(f.price) or told.say("live.none")
    step_text = spoken_step(told, step * STEP_KCAL) if step else told.say("live.dial_here")
    says = told.say(
        "live.dial_place", who=told.name(walker), kcal=f.base_kcal, step=step_text, mass=f.gross_g,
        price=price, kgdays=m.mass_days(f.kg_days), cook=f.cook_min, rubbish=f.rubbish_g,
    )  # fmt: skip
    figures = {"mass": m.mass(f.gross_g), "price": price, "kg_days": m.mass_days(f.kg_days),
               "cook": m.minutes(f.cook_min), "rubbish": m.mass(f.rubbish_g),
               "energy": m.energy(f.energy_kcal), "start": m.heavy(f.start_kg)}  # fmt: skip
    return {"step": step, "wish": f"dial {walker}/{step}", "base": m.about(f.base_kcal),
            "change": step_text, "says": says, "figures": figures, "moved": f.moved}  # fmt: skip
