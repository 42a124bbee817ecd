"""The reference page of larder files says what the reader does."""

from __future__ import annotations

import re
from pathlib import Path

from oatsack.files.larder_columns import COLUMNS
from oatsack.files.larder_headers import ALIASES
from oatsack.files.larder_page import larder_page
from oatsack.values.classes import CLASSES
from support.foods import faults, one

PAGE = Path(__file__).resolve().parents[2] / "docs" / "reference" / "larder-file.md"


def test_the_page_is_what_its_script_writes() -> None:
    assert PAGE.read_text(encoding="utf-8") == larder_page()


def test_every_column_class_and_other_spelling_is_on_the_page() -> None:
    text = larder_page()
    for word in (*(column.name for column in COLUMNS), *CLASSES, *ALIASES):
        assert f"`{word}`" in text, word


def test_the_example_of_the_page_can_be_read() -> None:
    found = re.search(r"```csv\n(.*?)```", larder_page(), re.DOTALL)
    assert found is not None
    assert faults(found[1]) == ()
    assert one(found[1]).per_100g.energy_kcal == 415.0


def test_the_page_says_that_labels_must_be_read_for_allergens() -> None:
    assert "Read the label" in larder_page()
