"""Every exception of Oatsack, and what a fault in a user's file looks like.

OatsackError
├── UsageError            wrong use of a command or of the library            exit code 2
│   └── NotThere          a trip, a food or a walker that there is not
├── UnreadableInput       a file cannot be read; carries all its faults       exit code 2
│   ├── TripFileError
│   ├── LarderError
│   ├── TrackError
│   └── PlanFileError
├── UnitError             a text that is no quantity, or two readings of one
├── NoPlan                the trip cannot be provisioned as asked, explained  exit code 1
├── UnknownAddress        `why` was asked for a number that the plan lacks    exit code 2
├── UnknownSource         a source key that the bibliography does not hold
├── StaleHead             another window saved this trip in between; carries both texts
└── SolverFailed          the engine answered something that is no answer
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from oatsack.values.flags import Flag
from oatsack.values.frozen import dataclass

if TYPE_CHECKING:
    from oatsack.values.food import Food


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong in a user's file: where it stands, what was read, what to write instead.

    `line` and `column` count from 1; 0 means that the place is not known (a missing file).
    `path` names the value in the file's own terms, as ``walkers[1].mass``.
    """

    file: str
    path: str
    wrong: str
    read: str
    instead: str
    line: int = 0
    column: int = 0
    text: str = ""

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        head = f"{where}: {self.path}: {self.wrong}, got {self.read}"
        parts = [head]
        if self.text:
            parts += [f"    {self.text}", "    " + " " * (self.column - 1) + "^"]
        if self.instead:
            parts.append(f"    {self.instead}")
        return "\n".join(parts)


class OatsackError(Exception):
    """The base of every exception that Oatsack raises on purpose."""

    exit_code = 2


class UsageError(OatsackError):
    """A command or a function was used in a way that has no meaning."""


class NotThere(UsageError):
    """Something was asked for by a name that nothing bears."""


class UnreadableInput(OatsackError):
    """A file of the user's holds faults; all of them are in `faults`."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class TripFileError(UnreadableInput):
    """Faults of a trip file."""


class LarderError(UnreadableInput):
    """Faults of a larder file. `foods` are the rows without a fault; `at_fault` the ids of the
    others, None where some row could not be told by a name."""

    def __init__(self, faults: Sequence[Fault], foods: Sequence[Food] = (),
                 at_fault: frozenset[str] | None = None) -> None:  # fmt: skip
        super().__init__(faults)
        self.foods = tuple(foods)
        self.at_fault = at_fault


class TrackError(UnreadableInput):
    """Faults of a track."""


class PlanFileError(UnreadableInput):
    """Faults of a plan file."""


class UnitError(OatsackError, ValueError):
    """A text that is not the quantity asked for: what is wrong, what was read, what to write."""

    def __init__(self, wrong: str, *, read: str = "", instead: str = "") -> None:
        self.wrong, self.read, self.instead = wrong, read, instead
        got = f", got {read}" if read else ""
        super().__init__(f"{wrong}{got}" + (f"; {instead}" if instead else ""))


class NoPlan(OatsackError):
    """The trip cannot be provisioned as asked. `reasons` are sentences for the walker; `flags` the
    same as keys and values: which wishes clash, by how much each must give, and the ways out."""

    exit_code = 1

    def __init__(self, reasons: Sequence[str], flags: Sequence[Flag] = ()) -> None:
        self.reasons = tuple(reasons)
        self.flags = tuple(flags)
        self.walkers: Mapping[str, str] = {}
        """Names by id, once a door knows whose trip it was; likewise `foods`."""
        self.foods: Mapping[str, str] = {}
        super().__init__("\n".join(self.reasons))


class UnknownAddress(OatsackError, KeyError):
    """No number of the plan stands at this address."""

    def __str__(self) -> str:
        return str(self.args[0])


class UnknownSource(OatsackError, KeyError):
    """The bibliography holds no such key."""

    def __str__(self) -> str:
        return str(self.args[0])


class StaleHead(OatsackError):
    """A trip was saved elsewhere since it was opened here: `theirs` stands, `mine` was refused."""

    def __init__(self, *, head: int, theirs: str, mine: str) -> None:
        self.head, self.theirs, self.mine = head, theirs, mine
        super().__init__("this trip was changed in another window; both versions are kept")


class SolverFailed(OatsackError):
    """The engine failed in a way that is no statement about the trip."""
