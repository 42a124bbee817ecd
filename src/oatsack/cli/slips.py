"""What is said when a command gives no answer: of one that cannot be read, and as data.

The parser finds a slip; its own words name places as options and list the verbs in a box.
"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches
from typing import TYPE_CHECKING

from oatsack.cli import plain
from oatsack.cli.verbs import VERBS, Verb
from oatsack.errors import NoPlan, OatsackError, UnreadableInput
from oatsack.reports.words import say

if TYPE_CHECKING:
    from cyclopts.exceptions import CycloptsError


def slip(error: CycloptsError, words: Sequence[str]) -> str:
    """The slip in one line and what to do in another."""
    for verb in VERBS:
        if words and words[0] == verb.name:
            missing = _missing(error, verb)
            wrong = say("cli.needs", verb=verb.name, what=missing) if missing else str(error)
            return f"{wrong.rstrip('.')}\n    {say('cli.see-help', verb=verb.name)}"
    near = get_close_matches(words[0], [verb.name for verb in VERBS], n=1, cutoff=0.7)
    wrong = say("cli.no-verb", verb=words[0])
    instead = say("cli.mean", verb=near[0]) if near else say("cli.see-verbs")
    return f"{wrong}\n    {instead}"


def _missing(error: CycloptsError, verb: Verb) -> str:
    """What has to stand in a place and does not, as help names it; nothing for another slip."""
    from cyclopts.exceptions import MissingArgumentError

    name = getattr(getattr(error, "argument", None), "name", "")
    if not isinstance(error, MissingArgumentError):
        return ""
    for one in plain.arguments_of(plain.function_of(verb)):
        if name in one.options and one.placed:
            return one.name.upper()
    return ""


def as_data(error: OatsackError, text: str) -> str:
    """The JSON of a command that was asked for JSON and has none to give: the exit code, what is
    said, the faults of files, and the flags of a trip that cannot be provisioned."""
    import json
    from dataclasses import asdict

    told: dict[str, object] = {"exit_code": error.exit_code, "said": text.splitlines()}
    if isinstance(error, UnreadableInput):
        told["faults"] = [asdict(fault) for fault in error.faults]
    if isinstance(error, NoPlan):
        told["flags"] = [asdict(flag) for flag in error.flags]
    return json.dumps(told, ensure_ascii=False, indent=2)
