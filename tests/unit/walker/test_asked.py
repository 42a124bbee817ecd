"""The need as the trip asks for it: its model, its terms, and a walker's own record above all."""

from __future__ import annotations

import dataclasses
import datetime as dt

import numpy as np
import pytest

from oatsack.errors import UsageError
from oatsack.values.plan import DayNeed
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import NeedSpec
from oatsack.values.walker import Walker
from oatsack.walker.asked import need_of
from oatsack.walker.energy import MODELS
from oatsack.walker.need import need
from oatsack.walker.person import body_of
from oatsack.walker.stretches import of_days

ANNA = Walker(id="anna", name="Anna", mass_kg=62.0, sex="female", age_years=34.0, height_cm=168.0)
LOAD = {1: np.full(4, 12.0)}


def a_day(*, warm_c: float = 15.0, height_m: float = 800.0) -> tuple[Day, ...]:
    rows = (("walk", 480.0, 780.0, 18000.0, 4.0), ("rest", 780.0, 960.0, 0.0, 0.0),
            ("camp", 960.0, 1140.0, 0.0, 0.0), ("sleep", 1320.0, 1800.0, 0.0, 0.0))  # fmt: skip
    return (Day(
        number=1, date=dt.date(2027, 7, 1), distance_m=18000.0, ascent_m=720.0, descent_m=0.0,
        highest_m=height_m, camp_m=height_m, warm_c=warm_c, cold_c=warm_c - 8.0,
        stretches=tuple(
            Stretch(kind=kind, start_min=a, end_min=b, distance_m=m, grade_pct=g,
                    height_m=height_m)  # type: ignore[arg-type]
            for kind, a, b, m, g in rows
        ),
    ),)  # fmt: skip


def used(walker: Walker = ANNA, spec: NeedSpec | None = None, **air: float) -> DayNeed:
    return need_of(walker, spec or NeedSpec(), days=a_day(**air), load_kg=LOAD).days[1]


def test_by_default_it_is_the_plain_need() -> None:
    plain = need(body_of(ANNA), of_days(a_day(), LOAD)).days[1]
    assert used() == plain


@pytest.mark.parametrize("name", [one.name for one in MODELS])
def test_the_trip_chooses_the_model(name: str) -> None:
    found = need_of(ANNA, NeedSpec(model=name), days=a_day(), load_kg=LOAD)
    assert next(iter(found.shelf_kcal)) == name
    assert found.days[1].walking_kcal == pytest.approx(found.shelf_kcal[name][1])


def test_a_model_that_no_file_describes_is_refused_with_the_known_ones() -> None:
    with pytest.raises(UsageError, match="lcda-backpacking-2022"):
        used(spec=NeedSpec(model="guesswork"))


@pytest.mark.parametrize(
    ("off", "air"),
    [("cold", {"warm_c": -5.0}), ("heat", {"warm_c": 38.0}), ("height", {"height_m": 3600.0})],
)
def test_each_term_can_be_switched_off_and_only_it_goes(off: str, air: dict[str, float]) -> None:
    on, gone = used(**air), used(spec=dataclasses.replace(NeedSpec(), **{off: False}), **air)
    assert on.terms_kcal > gone.terms_kcal == 0.0
    assert on.walking_kcal == gone.walking_kcal
    assert on.energy_kcal - gone.energy_kcal == pytest.approx(on.terms_kcal / 0.9)


@pytest.mark.parametrize("name", [one.name for one in MODELS])
def test_a_walkers_own_record_outranks_every_model(name: str) -> None:
    """A tenth more walking than the model says is a tenth more, whichever model was chosen."""
    spec = NeedSpec(model=name)
    plain = used(spec=spec)
    own = used(dataclasses.replace(ANNA, own_walking=1.1), spec)
    assert own.energy_kcal - plain.energy_kcal == pytest.approx(0.1 * plain.walking_kcal / 0.9)
    thrifty = used(dataclasses.replace(ANNA, own_walking=0.8), spec)
    assert thrifty.energy_kcal < plain.energy_kcal
