"""The reference of the trip file is today's, and the defaults it names are the ones that count."""

from __future__ import annotations

from pathlib import Path

from oatsack.files.trip.reference import reference

KEPT = Path(__file__).resolve().parents[2] / "docs" / "reference" / "trip-file.md"


def test_the_kept_reference_is_todays() -> None:
    assert KEPT.read_text(encoding="utf-8") == reference(), "run scripts/write_reference.py"
