"""What the reports of a hand-built plan read like, kept as files (frozen: guards against change).

To renew them after a wanted change, run the tests with OATSACK_RENEW=1 and read the difference.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from oatsack.reports import render
from support.each import each
from support.sample_plan import sample_plan

FOLDER = Path(__file__).parent / "reports"
TWO: dict[str, Any] = {"walkers": 2, "days": 3}
GROUP: dict[str, Any] = {
    "walkers": 12, "days": 14, "legs": 2, "units": "us", "long_names": True,
}  # fmt: skip
KEPT = [
    ("first", TWO), ("first", GROUP), ("plan", TWO), ("menu", GROUP), ("shopping", TWO),
    ("bags", TWO), ("kitchen", TWO), ("carriers", TWO), ("container", TWO), ("labels", TWO),
    ("cook-cards", TWO), ("cards", TWO), ("sheet", TWO), ("boxes", GROUP), ("allergy", GROUP),
    ("pack-out", TWO), ("tally", TWO), ("phone", TWO),
]  # fmt: skip


@each(
    ("content", "size"), KEPT, ids=[f"{c}-{s['walkers']}x{s['days']}" for c, s in KEPT]
)
def test_a_report_reads_as_it_was_kept(content: str, size: dict[str, Any]) -> None:
    file = FOLDER / f"{content}-{size['walkers']}x{size['days']}.txt"
    text = render(sample_plan(**size), content, "text").decode()
    if os.environ.get("OATSACK_RENEW"):
        FOLDER.mkdir(exist_ok=True)
        file.write_text(text, encoding="utf-8")
    assert text == file.read_text(encoding="utf-8")
