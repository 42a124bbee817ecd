"""The list of models and what a Model can say of itself."""

from __future__ import annotations

import inspect

import numpy as np
import pytest

from oatsack.cite import cite
from oatsack.errors import UsageError
from oatsack.route import pace
from oatsack.values.model import Bound, Case, Model
from oatsack.walker import resting
from oatsack.walker.energy import DEFAULT, MODELS, model
from support.each import each

ALL = [*MODELS, *pace.MODELS, *resting.MODELS]
SIX = ["mass_kg", "load_kg", "speed_ms", "grade_pct", "terrain", "resting_w"]


def test_the_default_stands_first() -> None:
    assert MODELS[0] is DEFAULT
    assert DEFAULT.name == "lcda-backpacking-2022"


@each("one", MODELS, ids=lambda m: m.name)
def test_every_walking_cost_takes_the_same_six_arguments(one: Model) -> None:
    assert list(inspect.signature(one.function).parameters) == SIX


@each("one", ALL, ids=lambda m: m.name)
def test_every_source_resolves(one: Model) -> None:
    assert one.sources
    for citation in one.sources + tuple(c.source for c in one.cases):
        assert cite(citation.split(" and ")[0])


@each("one", ALL, ids=lambda m: m.name)
def test_every_model_states_its_range_and_why(one: Model) -> None:
    assert one.validity
    assert all(bound.why for bound in one.validity.values())


@each("one", MODELS, ids=lambda m: m.name)
def test_every_bounded_quantity_can_be_judged(one: Model) -> None:
    given = dict(zip(SIX, (75.0, 12.0, 1.2, 3.0, 1.1, 82.0), strict=True))
    assert set(one.outside(**given)) == set(one.validity)


def test_names_are_unique_on_each_shelf() -> None:
    for shelf in (MODELS, pace.MODELS, resting.MODELS):
        names = [m.name for m in shelf]
        assert len(names) == len(set(names))


def test_a_model_is_found_by_its_name() -> None:
    assert model("acsm").name == "acsm"
    assert pace.model("tobler").unit == "m/s"
    assert resting.model("henry-2005").sources == ("Henry2005",)


@each("find", [model, pace.model, resting.model])
def test_an_unknown_name_is_answered_with_all_names(find: object) -> None:
    with pytest.raises(UsageError, match="there are: "):
        find("naismyth")  # type: ignore[operator]


def test_outside_is_judged_element_by_element() -> None:
    grade = np.array([-50.0, -40.0, 0.0, 45.0, 45.1])
    missed = DEFAULT.outside(
        mass_kg=75.0, load_kg=12.0, speed_ms=1.2, grade_pct=grade, terrain=1.1, resting_w=82.0
    )
    assert list(missed["grade_pct"]) == [True, False, False, False, True]
    assert not missed["speed_ms"]
    assert not missed["load_share"]


def test_a_load_beyond_two_thirds_of_the_body_is_outside_the_default() -> None:
    given = dict(zip(SIX, (60.0, 42.0, 1.2, 0.0, 1.1, 70.0), strict=True))
    assert DEFAULT.outside(**given)["load_share"]


def test_check_tells_a_wrong_result_from_a_right_one() -> None:
    case = Case(arguments={"x": 2.0}, expected=4.0, tolerance=0.1, source="ours", kind="oracle")
    right = Model(name="r", help="", function=lambda x: x * x, unit="", sources=(), cases=(case,))
    wrong = Model(name="w", help="", function=lambda x: x + 1, unit="", sources=(), cases=(case,))
    assert right.check() == ((case, 4.0, True),)
    assert wrong.check() == ((case, 3.0, False),)


@each(
    ("bound", "value", "missed"),
    [(Bound(low=1.0), 0.9, True), (Bound(low=1.0), 1.0, False), (Bound(high=2.0), 2.1, True),
     (Bound(high=2.0), 2.0, False), (Bound(), 1e9, False)],
)  # fmt: skip
def test_bounds_are_closed(bound: Bound, value: float, missed: bool) -> None:
    assert bool(bound.misses(value)) is missed
    assert bound.holds(value) is not missed
