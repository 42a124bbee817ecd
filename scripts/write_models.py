"""Writes docs/reference/models.md and data/models.json from the shelves of models.

Contract tests compare.
"""

from __future__ import annotations

from pathlib import Path

from oatsack.reports.shelves import kept_facts, models_page

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "docs" / "reference" / "models.md"
FACTS = ROOT / "src" / "oatsack" / "data" / "models.json"


def main() -> None:
    """Writes the page and the facts."""
    PAGE.parent.mkdir(parents=True, exist_ok=True)
    PAGE.write_text(models_page(), encoding="utf-8")
    FACTS.write_text(kept_facts(), encoding="utf-8")


if __name__ == "__main__":
    main()
