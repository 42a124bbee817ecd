"""The plan file: a `Plan` <-> the bytes of plan.json. A plan file suffices by itself (C18).

Equal plans give equal bytes. One top-level key stands on each line, so that two plans can be
compared by eye. The format is numbered; files/upgrades lifts older ones step by step. Imports
neither numpy nor the trip file's parser, so that a plan opens at once.
"""

from __future__ import annotations

import dataclasses
import json
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from oatsack.errors import Fault, PlanFileError
from oatsack.files.codec import Misfit, Misfits, decode, described, encode
from oatsack.files.upgrades import lifted
from oatsack.values.plan import FORMAT, Plan

AGAIN = "make the plan again with: oatsack plan"
NEWER = "open it with the Oatsack that wrote it, or a newer one; its version stands under made"


def dump(plan: Plan) -> bytes:
    """The bytes of a plan: UTF-8, one top-level key on each line. Equal plans, equal bytes."""
    data = encode(plan, Plan)
    lines = [f"{json.dumps(key)}: {_compact(value)}" for key, value in data.items()]
    return ("{\n" + ",\n".join(lines) + "\n}\n").encode()


def begins(data: bytes) -> bool:
    """Whether bytes begin as those of `dump` do: a plan of today's format."""
    return data.startswith(f'{{\n"format": {FORMAT},'.encode())


def _compact(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def load(data: bytes, *, name: str = "plan.json") -> Plan:
    """The plan in some bytes. Raises PlanFileError with every fault and its path."""
    tree = _upgraded(_tree(data, name), name)
    try:
        plan: Plan = decode(tree, Plan)
    except Misfits as misfits:
        raise PlanFileError([_fault(name, one) for one in misfits.found]) from None
    return _in_its_zone(plan)


def _tree(data: bytes, name: str) -> dict[str, Any]:
    try:
        tree = json.loads(data.decode("utf-8"))
    except UnicodeDecodeError as error:
        raise _refused(name, "not text in UTF-8", f"byte {data[error.start]:#04x}") from None
    except json.JSONDecodeError as error:
        fault = Fault(
            file=name, path="the file", wrong="not JSON", read=error.msg, line=error.lineno,
            column=error.colno, instead=AGAIN,
        )  # fmt: skip
        raise PlanFileError([fault]) from None
    except RecursionError:
        raise _refused(name, "not a plan", "lists nested without end") from None
    if not isinstance(tree, dict):
        raise _refused(name, "not a plan", _short(tree))
    return tree


def _upgraded(tree: dict[str, Any], name: str) -> dict[str, Any]:
    """The tree in today's format."""
    number = tree.get("format")
    if type(number) is not int or number < 1:
        raise _refused(name, "no plan's format number", _short(number), path="format")
    if number > FORMAT:
        wrong = f"written by a newer Oatsack; this one knows formats up to {FORMAT}"
        raise _refused(name, wrong, str(number), path="format", instead=NEWER)
    return tree if number == FORMAT else lifted(tree, number)


def _refused(name: str, wrong: str, read: str, *, path: str = "the file",
             instead: str = AGAIN) -> PlanFileError:  # fmt: skip
    return PlanFileError([Fault(file=name, path=path, wrong=wrong, read=read, instead=instead)])


def _fault(name: str, misfit: Misfit) -> Fault:
    read = "nothing" if misfit.wrong == "is missing" else _short(misfit.read)
    return Fault(
        file=name, path=misfit.path or "the file", wrong=misfit.wrong, read=read,
        instead="restore the value, or make the plan again with: oatsack plan",
    )  # fmt: skip


def _short(value: object, most: int = 60) -> str:
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= most else text[: most - 1] + "…"


def _in_its_zone(plan: Plan) -> Plan:
    """The trip's times in its own zone again; JSON keeps only their offset."""
    try:
        zone = ZoneInfo(plan.trip.zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return plan
    begin, end = plan.trip.begin.astimezone(zone), plan.trip.end.astimezone(zone)
    trip = dataclasses.replace(plan.trip, begin=begin, end=end)
    return dataclasses.replace(plan, trip=trip)


def schema() -> dict[str, Any]:
    """The JSON Schema of plan.json, made from the dataclasses."""
    found = described(Plan, "An Oatsack plan")
    found["$defs"]["Plan"]["properties"]["format"] = {"const": FORMAT}
    return found


def schema_text() -> str:
    """The schema as it is kept beside the documentation."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"
