"""Writes docs/reference/models.md from the shelves of models; a contract test compares."""

from __future__ import annotations

from pathlib import Path

from oatsack.reports.shelves import models_page

PAGE = Path(__file__).resolve().parents[1] / "docs" / "reference" / "models.md"


def main() -> None:
    """Writes the page."""
    PAGE.parent.mkdir(parents=True, exist_ok=True)
    PAGE.write_text(models_page(), encoding="utf-8")


if __name__ == "__main__":
    main()
