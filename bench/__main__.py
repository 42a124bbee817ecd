"""Runs the subjects and keeps the run: `python -m bench [--full] [SUBJECT ...]`."""

from __future__ import annotations

import csv
import datetime as dt
import importlib
import os
import platform
import sys
import time
from pathlib import Path
from typing import Any

SUBJECTS = ("start", "energy", "kitchen", "packing", "menu", "rivals", "plan", "web")
RUNS = Path(__file__).parent / "runs"
COLUMNS = ("subject", "what", "value", "unit", "bar", "holds")


def main(arguments: list[str]) -> int:
    if {"-h", "--help"} & set(arguments):
        print(f"{__doc__}\n\nSubjects: {', '.join(SUBJECTS)}")
        return 0
    full = "--full" in arguments
    wanted = [word for word in arguments if not word.startswith("-")] or list(SUBJECTS)
    rows: list[dict[str, Any]] = []
    for name in wanted:
        begin = time.perf_counter()
        found = importlib.import_module(f"bench.subjects.{name}").run(full)
        rows += [{**row, "subject": name} for row in found]
        print(f"-- {name}: {time.perf_counter() - begin:.1f} s")
        for row in found:
            show(row)
    keep(rows, full)
    return 0 if all(row.get("holds", True) for row in rows) else 1


def show(row: dict[str, Any]) -> None:
    bar = "" if row.get("bar") is None else f"   bar {row['bar']:g}"
    mark = "" if row.get("holds", True) else "   MISSED"
    print(f"   {row['what']:<58} {row['value']:>10.4g} {row.get('unit', ''):<6}{bar}{mark}")


def keep(rows: list[dict[str, Any]], full: bool) -> None:
    machine = f"{platform.system()}-{platform.machine()}-{os.cpu_count()}cores".lower()
    folder = RUNS / f"{dt.date.today().isoformat()}-{machine}"
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / ("full.csv" if full else "subset.csv")
    kept = [*_others(path, {row["subject"] for row in rows}), *rows]
    with path.open("w", newline="", encoding="utf-8") as out:
        writer = csv.DictWriter(out, COLUMNS, extrasaction="ignore", lineterminator="\n")
        writer.writeheader()
        writer.writerows(kept)
    note = folder / "README.md"
    old = note.read_text(encoding="utf-8") if note.exists() else ""
    note.write_text(noted(old, rows, path.name), encoding="utf-8")
    print(f"kept in {path.relative_to(RUNS.parent.parent)}")


def noted(old: str, rows: list[dict[str, Any]], file: str) -> str:
    """The note beside the rows: the machine, and for each subject how busy it was when measured;
    what was noted of other subjects stays."""
    head = (f"Python {platform.python_version()}, {platform.platform(terse=True)}, "
            f"{os.cpu_count()} cores.\n")  # fmt: skip
    load = os.getloadavg()[0]
    lines = {line.split(":")[0]: line for line in old.splitlines() if line.startswith("- ")}
    for name in sorted({row["subject"] for row in rows}):
        mark = f"- {name} in {file}"
        lines[mark] = f"{mark}: load {load:.1f} at the end of the run"
    return head + "\n" + "".join(f"{lines[mark]}\n" for mark in sorted(lines))


def _others(path: Path, measured: set[str]) -> list[dict[str, Any]]:
    """Rows of an earlier run of the day whose subjects were not measured again."""
    if not path.exists():
        return []
    with path.open(newline="", encoding="utf-8") as kept:
        return [row for row in csv.DictReader(kept) if row["subject"] not in measured]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
