"""Reads a plan file for those who only look at it: nothing heavy is loaded for that."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from oatsack.errors import Fault, PlanFileError
from oatsack.files.planfile import load
from oatsack.reports.words import say
from oatsack.values.plan import Plan


def read_plan(path: Path) -> Plan:
    """A plan file. Raises PlanFileError."""
    try:
        return load(path.read_bytes(), name=path.name)
    except OSError as error:
        fault = replace(missing(str(path), error), instead=say("desk.plan-name"))
        raise PlanFileError([fault]) from None


def missing(name: str, error: OSError) -> Fault:
    """The fault of a file that cannot be read."""
    return Fault(
        file=name, path="the file", wrong=say("desk.no-read"), read=error.strerror or str(error),
        instead=say("desk.names-beside"),
    )  # fmt: skip
