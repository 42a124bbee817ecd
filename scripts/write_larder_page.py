"""Writes docs/reference/larder-file.md from the tables of the format; a contract test compares."""

from __future__ import annotations

from pathlib import Path

from oatsack.files.larder_page import larder_page

PAGE = Path(__file__).resolve().parents[1] / "docs" / "reference" / "larder-file.md"


def main() -> None:
    """Writes the page."""
    PAGE.parent.mkdir(parents=True, exist_ok=True)
    PAGE.write_text(larder_page(), encoding="utf-8")


if __name__ == "__main__":
    main()
