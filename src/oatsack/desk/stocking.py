"""What is at home, in a folder's stock file: lots with dates, changed by a form; and likes.

Stock is only what the walker writes: a plan never takes from it until it is said to be packed
(C17). Likes are the walker's words and stand in the trip's own text (C12).
"""

from __future__ import annotations

import csv
import hashlib
import io
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from oatsack.desk.export import write_file
from oatsack.errors import UsageError
from oatsack.files.stock import STOCK_COLUMNS, read_stock, write_stock
from oatsack.larder.stock import Lot
from oatsack.reports.words import say
from oatsack.values.food import Food

FILE = "stock.csv"
STARS = ("", "1", "2", "3", "4", "5")


def lots(folder: Path, foods: Iterable[Food]) -> tuple[Lot, ...]:
    """The lots of the folder's stock file; none without one. Raises LarderError."""
    path = folder / FILE
    known = {food.id for food in foods}
    return read_stock(path.read_bytes(), FILE, known) if path.is_file() else ()


def state(folder: Path) -> str:
    """A mark of what the stock file holds now, by which a form knows whether it still stands."""
    path = folder / FILE
    return hashlib.sha256(path.read_bytes()).hexdigest()[:16] if path.is_file() else "none"


def keep(folder: Path, rows: Sequence[Mapping[str, str]], foods: Iterable[Food]) -> None:
    """The stock file written anew from typed rows; blank ones go, the older file is kept.

    Raises LarderError with every fault; its lines count the rows that are not blank, from 2.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(STOCK_COLUMNS)
    for row in filled(rows):
        writer.writerow([row.get(name, "").strip() for name in STOCK_COLUMNS])
    known = {food.id for food in foods}
    read = read_stock(out.getvalue().encode("utf-8"), FILE, known)
    write_file(folder / FILE, write_stock(read), often=True)


def filled(rows: Iterable[Mapping[str, str]]) -> list[Mapping[str, str]]:
    """The rows in which anything is written."""
    return [row for row in rows if any(str(text).strip() for text in row.values())]


def drawing(data: Mapping[str, Any], what: str) -> dict[str, object]:
    """The change that makes a trip draw on the folder's larder or stock; none where it does.

    Raises UsageError for anything else.
    """
    larder = data.get("larder", {})
    if what == "stock":
        return {} if larder.get("stock") == FILE else {"larder.stock": FILE}
    if what != "larder":
        raise UsageError(say("desk.draws"))
    given = larder.get("files", [])
    files = [given] if isinstance(given, str) else list(given)
    if "larder.csv" in files:
        return {}
    return {"larder.files": [*(files or ["bundled"]), "larder.csv"]}


def liked(data: Mapping[str, Any], sent: Mapping[str, str]) -> dict[str, object]:
    """The changes of a form of likes: ``0/food`` -> stars, blank for no word about it.

    Raises UsageError for a walker or stars that there are not.
    """
    out: dict[str, object] = {}
    walkers = data.get("walkers", [])
    for name, stars in sent.items():
        number, _, food = name.partition("/")
        if not number.isdecimal() or int(number) >= len(walkers) or stars not in STARS:
            raise UsageError(say("desk.stars"))
        now = walkers[int(number)].get("liking", {}).get(food)
        wanted = int(stars) if stars else None
        if wanted != now:
            out[f"walkers[{number}].liking.{food}"] = wanted
    return out
