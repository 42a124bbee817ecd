"""What a published model says of its range and checks, and a menu problem as plain numbers."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.values.model import Bound, Case, Model
from oatsack.values.problem import Builder, Problem, activity, worst_breach
from support.each import each


@each(
    ("low", "high", "value", "inside"),
    [
        (1.0, 2.0, 1.0, True), (1.0, 2.0, 2.0, True), (1.0, 2.0, 0.999, False),
        (1.0, 2.0, 2.001, False), (None, 2.0, -1e9, True), (None, 2.0, 2.1, False),
        (1.0, None, 1e9, True), (1.0, None, 0.9, False), (None, None, 5.0, True),
    ],
)  # fmt: skip
def test_a_bound_is_closed_and_a_side_may_be_open(
    low: float | None, high: float | None, value: float, inside: bool
) -> None:
    bound = Bound(low=low, high=high)
    assert bound.holds(value) is inside
    assert bool(bound.misses(value)) is not inside
    column = bound.misses(np.array([value, 1.5]))
    assert np.broadcast_to(column, 2).tolist() == [not inside, False]


DOUBLE = Model(
    name="double",
    help="twice",
    function=lambda *, load_kg, mass_kg: 2.0 * load_kg + 0.0 * mass_kg,
    unit="W",
    sources=(),
    validity={"load_kg": Bound(low=0.0, high=30.0), "share": Bound(high=0.5),
              "speed_ms": Bound(high=2.0)},
    derived={"share": lambda *, load_kg, mass_kg, **_: load_kg / mass_kg},
    cases=tuple(
        Case(arguments={"load_kg": 3.0, "mass_kg": 60.0}, expected=expected, tolerance=0.5,
             source="", kind="oracle")
        for expected in (6.0, 6.5, 5.5, 6.51, 5.49)
    ),
)  # fmt: skip


@each(
    ("load", "mass", "outside"),
    [(10.0, 60.0, set()), (31.0, 70.0, {"load_kg"}), (26.0, 50.0, {"share"}),
     (-1.0, 60.0, {"load_kg"}), (40.0, 50.0, {"load_kg", "share"})],
)  # fmt: skip
def test_a_model_tells_which_quantities_lie_outside_also_derived_ones(
    load: float, mass: float, outside: set[str]
) -> None:
    found = DOUBLE.outside(load_kg=load, mass_kg=mass)
    assert {name for name, missed in found.items() if missed} == outside
    # What was not handed over cannot be judged, and is not called fine either.
    assert "speed_ms" not in found
    assert DOUBLE.outside(load_kg=load, mass_kg=mass, speed_ms=9.0)["speed_ms"] is True


def test_a_check_value_is_met_up_to_and_at_its_tolerance() -> None:
    assert [met for _, _, met in DOUBLE.check()] == [True, True, True, False, False]
    assert {got for _, got, _ in DOUBLE.check()} == {6.0}


def small() -> Problem:
    """Two columns and three rows: a sum, one column alone, and an empty one."""
    made = Builder(offset=7.0)
    x = made.column("x", high=4.0, cost=1.5)
    y = made.column("y", low=-1.0, integer=False)
    made.row("sum", [(x, 1.0), (y, 2.0)], low=1.0, high=6.0)
    made.row("alone", [(y, 3.0), (x, 0.0)], high=3.0)
    made.row("nothing", [])
    return made.done()


def test_a_problem_is_built_row_by_row_without_the_terms_that_are_nothing() -> None:
    one = small()
    assert (one.columns, one.rows, one.offset) == (("x", "y"), ("sum", "alone", "nothing"), 7.0)
    assert one.start.tolist() == [0, 2, 3, 3]
    assert one.index.tolist() == [0, 1, 1]
    assert one.value.tolist() == [1.0, 2.0, 3.0]
    assert one.integer.tolist() == [True, False]
    assert (one.low.tolist(), one.high.tolist()) == ([0.0, -1.0], [4.0, np.inf])
    assert (one.row_low[1], one.row_high[2], one.cost.tolist()) == (-np.inf, np.inf, [1.5, 0.0])


def test_a_column_is_offered_once() -> None:
    made = Builder()
    assert (made.column("x"), made.column("y")) == (0, 1)
    with pytest.raises(ValueError, match="'x' is offered twice"):
        made.column("x")


@each(
    ("x", "y", "rows", "breach"),
    [
        (2.0, 1.0, [4.0, 3.0, 0.0], 0.0),
        (1.0, 0.0, [1.0, 0.0, 0.0], 0.0),
        (0.5, 0.0, [0.5, 0.0, 0.0], 0.5),  # half of what the sum needs at least
        (4.0, 1.5, [7.0, 4.5, 0.0], 1.5),  # the worst of two rows
        (4.5, 0.0, [4.5, 0.0, 0.0], 0.5),  # a column above its own bound
        (4.0, -3.0, [-2.0, -9.0, 0.0], 3.0),
    ],
)
def test_the_worst_breach_is_the_largest_over_rows_and_bounds(
    x: float, y: float, rows: list[float], breach: float
) -> None:
    at = np.array([x, y])
    assert activity(small(), at).tolist() == pytest.approx(rows)
    assert worst_breach(small(), at) == pytest.approx(breach)


def test_random_activities_are_those_of_the_whole_matrix() -> None:
    rng = np.random.default_rng(7)
    for _ in range(20):
        dense = np.where(rng.random((6, 9)) < 0.4, rng.normal(size=(6, 9)), 0.0)
        made = Builder()
        for j in range(9):
            made.column(f"c{j}")
        for i, row in enumerate(dense):
            made.row(f"r{i}", list(enumerate(row)))
        x = rng.normal(size=9)
        assert activity(made.done(), x) == pytest.approx(dense @ x)


def test_a_problem_without_rows_or_columns_breaks_nothing() -> None:
    assert worst_breach(Builder().done(), np.zeros(0)) == 0.0
    alone = Builder()
    alone.column("x", low=2.0)
    assert worst_breach(alone.done(), np.zeros(1)) == 2.0
