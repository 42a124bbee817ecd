"""A walker's own pace from a recorded track with times."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.errors import UsageError
from oatsack.route import pace
from oatsack.route.pace.own import flat_speed_ms, moving, rest_share
from oatsack.values.model import Model

GRADES = np.array([0.0, 5.0, 12.0, -8.0, -3.0, 20.0, 1.0] * 6)
METRES = np.full(GRADES.size, 250.0)


def recorded(rule: Model, flat: float) -> np.ndarray:
    """Minutes of a walker who keeps exactly to a rule at this speed on the flat."""
    return np.asarray(pace.minutes(rule, METRES, grade_pct=GRADES, flat_ms=flat))


@pytest.mark.parametrize("rule", pace.MODELS, ids=lambda m: m.name)
@pytest.mark.parametrize("flat", [0.9, 1.2, 1.4])
def test_a_walker_who_keeps_to_the_rule_is_found_again(rule: Model, flat: float) -> None:
    minutes = recorded(rule, flat)
    found = flat_speed_ms(rule, METRES, minutes=minutes, grade_pct=GRADES)
    assert found == pytest.approx(flat)


def test_pauses_are_left_out() -> None:
    minutes = recorded(pace.DEFAULT, 1.1)
    distance = np.append(METRES, [2.0, 0.0])
    grades = np.append(GRADES, [0.0, 0.0])
    paused = np.append(minutes, [40.0, 15.0])
    found = flat_speed_ms(pace.DEFAULT, distance, minutes=paused, grade_pct=grades)
    assert found == pytest.approx(1.1)
    assert rest_share(distance, paused) == pytest.approx(55.0 / paused.sum())


def test_a_drive_to_the_start_is_left_out() -> None:
    minutes = np.append(recorded(pace.DEFAULT, 1.1), 10.0)
    distance, grades = np.append(METRES, 8000.0), np.append(GRADES, 0.0)
    found = flat_speed_ms(pace.DEFAULT, distance, minutes=minutes, grade_pct=grades)
    assert found == pytest.approx(1.1)


def test_stretches_without_duration_are_no_movement() -> None:
    assert list(moving(np.array([5.0, 60.0]), np.array([0.0, 1.0]))) == [False, True]


def test_a_few_minutes_tell_no_pace() -> None:
    with pytest.raises(UsageError, match="10 minutes on the move"):
        flat_speed_ms(
            pace.DEFAULT, np.array([600.0]), minutes=np.array([10.0]), grade_pct=np.array([0.0])
        )


def test_an_empty_record_has_no_rests() -> None:
    assert rest_share(np.zeros(0), np.zeros(0)) == 0.0
