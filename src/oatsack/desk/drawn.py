"""Which files the foods of a trip are read from, and how each stands: its larders, its stock, and
what is reserved of it. While none of them changes the foods are the same, whatever the trip says.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

from oatsack.desk.opening import BUNDLED, RESERVED, stock_folder
from oatsack.files.trip.toml import with_seconds

Stamp = tuple[str, int, int]
"""Name, time of the last change [ns] and bytes of a file."""
Stamps = tuple[Stamp, ...]


def read_from(file: Path, text: str) -> Stamps:
    """The files behind the foods of a trip's text in their order, each as it stands now; before
    them the trip itself, for what others reserve is not its own."""
    larder = tomllib.loads(with_seconds(text.removeprefix("\ufeff"))).get("larder", {})
    given, stock = larder.get("files", []), larder.get("stock")
    names = [given] if isinstance(given, str) else given
    beside = [file.parent / stock] if stock else []
    reserved = stock_folder(file.parent, stock) / RESERVED
    return (
        (str(file), 0, 0),
        *((BUNDLED, 0, 0) if one == BUNDLED else _stamp(file.parent / one) for one in names),
        *map(_stamp, (*beside, reserved)),
    )  # fmt: skip


def _stamp(path: Path) -> Stamp:
    try:
        found = path.stat()
    except OSError:
        return (str(path), 0, -1)
    return (str(path), found.st_mtime_ns, found.st_size)
