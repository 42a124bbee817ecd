"""Why a food is not on the menu: asked by its name, worked out while one waits or leaves."""

from __future__ import annotations

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import why_not as asking
from oatsack.desk.bench import Standing
from oatsack.desk.solving import Hear
from oatsack.errors import UsageError
from oatsack.reports.words import say
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.web.door import Door, Form, planned
from oatsack.web.live import answered, best_said


def why_not(door: Door, request: Request, form: Form) -> Response:
    """The question, and the answer to the food that the address names once it is worked out."""
    standing, plan = planned(door, request)
    asked = request.query_params.get("food", "").strip()
    foods = _foods(door, standing, plan)
    lines = door.bench.why_not_known(standing, asked)
    if request.query_params.get("note") == "left":
        lines = (say("live.left"),)
    name = foods[asked].name if asked in foods else asked
    return _page(door, request, standing, foods, name, lines=lines)


def ask(door: Door, request: Request, form: Form) -> Response:
    """Works the answer out."""
    standing, plan = planned(door, request)
    foods, asked = _foods(door, standing, plan), str(form.get("food", "")).strip()
    try:
        food = asking.named(asked, foods)
    except UsageError as error:
        return _page(door, request, standing, foods, asked, wrong=str(error))
    at = f"/trip/{standing.name}/why-not"

    def work(hear: Hear) -> str:
        door.bench.why_not(standing, food.id, hear=hear)
        return f"{at}?food={quote(food.id)}#changed"

    return answered(door, request, work, best_said, at=at)


def _foods(door: Door, standing: Standing, plan: Plan) -> dict[str, Food]:
    return {food.id: food for food in door.bench.foods(standing)} | dict(plan.foods)


def _page(door: Door, request: Request, standing: Standing, foods: dict[str, Food], asked: str, *,
          lines: tuple[str, ...] = (), wrong: str = "") -> Response:  # fmt: skip
    return door.page(
        request, "why_not.html", status=422 if wrong else 200, s=standing, asked=asked,
        lines=lines, wrong=wrong, foods=sorted({food.name for food in foods.values()}),
    )  # fmt: skip
