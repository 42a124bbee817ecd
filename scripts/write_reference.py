"""Writes the generated pages of the trip file and the plan file into docs/reference.

Run it after a change of a table, a kind or a value; contract tests compare.
"""

from __future__ import annotations

from pathlib import Path

from oatsack.files.planfile import schema_text
from oatsack.files.trip.reference import reference

FOLDER = Path(__file__).resolve().parents[1] / "docs" / "reference"


def main() -> None:
    """Writes every page."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    (FOLDER / "trip-file.md").write_text(reference(), encoding="utf-8")
    (FOLDER / "plan.schema.json").write_text(schema_text(), encoding="utf-8")


if __name__ == "__main__":
    main()
