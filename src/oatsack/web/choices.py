"""The trade-off as a picture: mass against price against liking, the plan's own point filled, each
other a whole plan to be taken. It is worked out when asked for, and kept while the trip stands."""

from __future__ import annotations

from functools import partial

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk.choosing import Choice, yours
from oatsack.desk.solving import ENOUGH, Going, Hear, Seen
from oatsack.reports.choices import choices_picture, dot
from oatsack.reports.formats.html_blocks import slim
from oatsack.reports.telling import Telling, telling
from oatsack.web.door import Door, Form, planned
from oatsack.web.live import answered

NOTES = {"left": "live.left", "some": "live.choices_some", "all": "live.choices_all"}
"""What the page may be told to say, and how it says it."""


def choices(door: Door, request: Request, form: Form) -> Response:
    """The picture with its table, and the button that works it out, or out again."""
    standing, plan = planned(door, request)
    told, found = telling(plan), door.bench.choices_known(standing)
    rows = [yours(plan), *found]
    broad, narrow = choices_picture(told, [dot(told, c.name, judged_by(c)) for c in rows])
    note = request.query_params.get("note", "")
    return door.page(
        request, "choices.html", s=standing, known=bool(found), broad=slim(broad),
        narrow=slim(narrow), rows=[_row(told, choice) for choice in rows],
        changed=told.say(NOTES[note]) if note in NOTES else "",
    )  # fmt: skip


def judged_by(choice: Choice) -> tuple[float, float, float]:
    """Mass, price and liking of a choice."""
    return choice.mass_g, choice.price, choice.liking


def _row(told: Telling, choice: Choice) -> dict[str, str]:
    """A choice as texts."""
    own = choice.name == "yours"
    return {
        "name": told.say("live.choices_yours" if own else f"live.choice_{choice.name}"),
        "wish": "" if own else f"choice {choice.name}", "mass": told.m.mass(choice.mass_g),
        "price": told.m.money(choice.price), "liking": told.m.number(choice.liking, 1),
    }  # fmt: skip


def work_out(door: Door, request: Request, form: Form) -> Response:
    """Works the points out, heard as they come, and shows them."""
    standing, plan = planned(door, request)
    told = telling(plan)

    at, goings = f"/trip/{standing.name}/choices", set[Going]()

    def heard(hear: Hear, seen: Seen) -> Going:
        goings.add(going := hear(seen))
        return going

    def work(hear: Hear) -> str:
        door.bench.choices(standing, hear=partial(heard, hear), anew=bool(form.get("anew")))
        return f"{at}?note={'some' if ENOUGH in goings else 'all'}"

    return answered(door, request, work, lambda seen: told.say("live.choices_seen", n=seen.count),
                    at=at)  # fmt: skip
