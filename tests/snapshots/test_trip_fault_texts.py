"""What is said of a trip file with every sort of slip, word for word.

Frozen: guards against change, proves nothing. To renew after a meant change, run the tests with
OATSACK_RENEW=1 and read the difference.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from oatsack.errors import TripFileError
from oatsack.files.trip import read_trip

FOLDER = Path(__file__).parent
BROKEN, SAID = FOLDER / "broken-trip.toml", FOLDER / "broken-trip.txt"


def said() -> str:
    with pytest.raises(TripFileError) as caught:
        read_trip(BROKEN)
    return f"{caught.value}\n"


def test_the_texts_are_as_they_were() -> None:
    text = said()
    if os.environ.get("OATSACK_RENEW"):
        SAID.write_text(text, encoding="utf-8")
    assert text == SAID.read_text(encoding="utf-8")


def test_each_caret_stands_below_the_place_that_is_named() -> None:
    rows = said().split("\n")
    carets = [n for n, row in enumerate(rows) if row.strip() == "^"]
    source = BROKEN.read_text(encoding="utf-8").split("\n")
    assert len(carets) > 40
    for number in carets:
        _, line, column, *_ = rows[number - 2].split(":")
        assert rows[number - 1] == "    " + source[int(line) - 1]
        assert rows[number].index("^") == 4 + int(column) - 1
        assert rows[number + 1].startswith("    ")


def test_every_slip_of_the_file_is_named_and_nothing_else() -> None:
    """The lines were marked by eye."""
    with pytest.raises(TripFileError) as caught:
        read_trip(BROKEN)
    assert sorted({fault.line for fault in caught.value.faults}) == [
        2, 4, 5, 6, *range(10, 20), 22, 23, 24, *range(27, 31), *range(33, 39), 41, 42, 45, 46,
        *range(49, 55), 56, 57, 58, 62, 64, 66,
    ]  # fmt: skip
