"""What the tests of pages share: one browser for each file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from support.browser import chromium


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as opened:
        yield opened
