"""Writes a plan and its papers into a folder. Nothing that stood there is lost (C12)."""

from __future__ import annotations

import gzip
import hashlib
import os
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from oatsack.errors import UsageError
from oatsack.reports.words import say

if TYPE_CHECKING:
    from oatsack.values.plan import Plan

EARLIER = "earlier"
OUT = "--out"
PLAIN_BYTES = 16_000
"""A larder or stock above this is packed in `earlier/`: each label kept is another copy of it."""
PAPERS: tuple[tuple[str, str, str], ...] = (
    ("plan.txt", "plan", "text"),
    ("shopping.csv", "shopping", "csv"),
    ("bags.csv", "bags", "csv"),
)
"""File, content and form of what every plan is written with, besides plan.json and the ribbon."""


def write_out(
    plan: Plan, folder: Path, *, decimal: Literal[".", ","] = "."
) -> tuple[Path, ...]:
    """Writes plan.json, the ribbon and the everyday papers; the paths, in order. `decimal` is the
    mark that the walker's sheet program writes."""
    from oatsack.files.planfile import dump  # a file of any kind is written without these
    from oatsack.reports import render
    from oatsack.reports.ribbon import ribbon_svg

    made = [("plan.json", dump(plan)), ("ribbon.svg", ribbon_svg(plan).encode("utf-8"))]
    for name, content, form in PAPERS:
        marked = {"decimal": decimal} if form == "csv" else {}
        made.append((name, render(plan, content, form, **marked)))
    return write_files(folder, made)


def write_files(folder: Path, files: Iterable[tuple[str, bytes]]) -> tuple[Path, ...]:
    """Writes files into a folder; one that stands there and differs moves to `earlier/`."""
    folder_for(folder)
    return tuple(write_file(folder / name, data) for name, data in files)


def write_file(path: Path, data: bytes, *, often: bool = False) -> Path:
    """Writes one file whole or not at all, keeping an older one that differs; packed where that
    happens `often` and it is large."""
    if path.is_file():
        old = path.read_bytes()
        if old == data:
            return path
        keep(path, old, pack=often and len(old) > PLAIN_BYTES)
    return replace_file(path, data)


def replace_file(path: Path, data: bytes) -> Path:
    """Writes one file whole or not at all. What stood there must be kept elsewhere (C12)."""
    with _said(path):
        _atomic(path, data)
    return path


@contextmanager
def _said(path: Path, option: str = OUT) -> Iterator[None]:
    """Turns what the system answers into a sentence: no traceback for a folder that is shut.
    `option` is where another may be named."""
    try:
        yield
    except OSError as error:
        why = error.strerror or str(error)
        raise UsageError(say("desk.no-write", path=path, why=why, option=option)) from None


def folder_for(folder: Path, *, option: str = OUT) -> Path:
    """The folder, made if it is not there. UsageError where it cannot be written to."""
    with _said(folder, option):
        folder.mkdir(parents=True, exist_ok=True)
        tempfile.TemporaryFile(dir=folder).close()
    return folder


def place_for(file: Path, *, option: str) -> Path:
    """A file that is yet to be written, once its folder is known to let it be."""
    with _said(file, option):
        folder_of = file.absolute().parent
        folder_of.mkdir(parents=True, exist_ok=True)
        tempfile.TemporaryFile(dir=folder_of).close()
    return file


def keep(path: Path, data: bytes, *, pack: bool = False) -> Path:
    """Puts a copy of a file into `earlier/` beside it, named by its content; `pack`ed with gzip, a
    fifth or less of its size, which every system opens."""
    mark = hashlib.sha256(data).hexdigest()[:8]
    kept = path.parent / EARLIER / f"{path.stem}-{mark}{path.suffix}{'.gz' * pack}"
    with _said(kept):
        kept.parent.mkdir(exist_ok=True)
        if not kept.exists():
            _atomic(kept, gzip.compress(data, mtime=0) if pack else data)
    return kept


def _atomic(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
