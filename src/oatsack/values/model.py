"""What a published model says of itself, as data: name, sources, range of validity, cases."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Any, Literal

from oatsack.values.frozen import dataclass

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Numbers = float | npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """The closed range in which one argument was measured; None leaves a side open."""

    low: float | None = None
    high: float | None = None
    why: str = ""

    def holds(self, value: float) -> bool:
        """Whether the value lies inside."""
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    def misses(self, value: Any) -> Any:
        """Whether the value lies outside; for an array, element by element."""
        too_low = False if self.low is None else value < self.low
        return too_low if self.high is None else too_low | (value > self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A check value: the arguments, the result, how closely, and where it stands.

    `kind` is ``published`` (printed in the source, to half its last digit) or ``oracle``
    (computed another way). `result` may be a name of an attribute of the model's answer.
    """

    arguments: Mapping[str, Any]
    expected: float
    tolerance: float
    source: str
    kind: Literal["published", "oracle"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """One published model: a vectorised function of unit-named arguments, and what is known of it.

    `function` takes keyword arguments (floats or numpy arrays) named with their unit and returns a
    float or array in `unit`. `validity` bounds arguments, or quantities derived from them by
    `derived` (name -> function of the same keyword arguments), in the range they were measured.
    """

    name: str
    help: str
    function: Callable[..., Any]
    unit: str
    sources: tuple[str, ...]
    validity: Mapping[str, Bound] = field(default_factory=dict)
    derived: Mapping[str, Callable[..., Any]] = field(default_factory=dict)
    cases: tuple[Case, ...] = ()
    notes: str = ""

    def outside(self, **arguments: Any) -> dict[str, Any]:
        """For each bounded quantity, where these arguments lie outside the measured range (C7).

        The values are booleans, or boolean arrays for array arguments.
        """
        quantities = dict(arguments) | {name: f(**arguments) for name, f in self.derived.items()}
        return {
            name: bound.misses(quantities[name])
            for name, bound in self.validity.items()
            if name in quantities
        }

    def check(self) -> tuple[tuple[Case, float, bool], ...]:
        """Every case with what this code gives for it, and whether that is close enough."""
        results = [(case, float(self.function(**case.arguments))) for case in self.cases]
        return tuple(
            (case, got, abs(got - case.expected) <= case.tolerance) for case, got in results
        )
