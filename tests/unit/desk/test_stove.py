"""The boil test as it is typed: masses, and a time as one reads a watch."""

from __future__ import annotations

import pytest

from oatsack.desk.stove import told
from oatsack.errors import UsageError

GIVEN = {"fuel": "gas", "water": "500 ml", "start": "15 °C", "end": "90 °C"}


def power_of(time: str) -> str:
    (line,) = (x for x in told([f"211 g, 204 g, {time}"], **GIVEN) if "W" in x and "burns" in x)
    return line


def test_a_time_is_read_in_every_way_that_a_watch_tells_it() -> None:
    wanted = power_of("220 s")
    ways = ("3 min 40", "3 min 40 s", "3:40", "3m40", "3 m 40 s", "3' 40\"", "3.6667 min")
    assert [way for way in ways if power_of(way) != wanted] == []


def test_power_is_told_to_ten_watts() -> None:
    # 7 g x 45.73 kJ/g in 220 s are 1455 W
    assert "about 1460 W" in power_of("3 min 40") or "about 1450 W" in power_of("3 min 40")


def test_a_time_that_is_none_says_what_to_write() -> None:
    with pytest.raises(UsageError, match="soon"):
        told(["211 g, 204 g, soon"], **GIVEN)


def test_more_than_a_time_is_refused() -> None:
    with pytest.raises(UsageError, match="before and after"):
        told(["211 g, 204 g, 3 min, 4 min"], **GIVEN)
