"""`oatsack foods [WORDS]`: what the larder holds."""

from __future__ import annotations

from pathlib import Path


def foods(*words: str, larder: Path | None = None, limit: int = 20) -> int:
    """Search the larder by name, id, class or allergen.

    Parameters
    ----------
    words
        What to look for; a slip of the key is forgiven. Nothing: everything.
    larder
        A larder file of yours; the bundled larder otherwise.
    limit
        How many to show at most.
    """
    from oatsack.errors import UsageError
    from oatsack.files.larder import bundled, read_larder
    from oatsack.larder.search import find

    if limit < 1:
        raise UsageError(_told("cli.limit", limit=limit))
    if larder is not None and not larder.is_file():
        raise UsageError(_told("cli.no-larder", larder=larder))
    rows = read_larder(larder.read_bytes(), larder.name) if larder else bundled()
    found = find(rows, words) if words else rows
    if not found:
        print(_told("cli.nothing-like", words=repr(" ".join(words))))
        return 0
    print(f"{'id':<26} {'name':<38} {'dose':>6} {'kcal':>5} {'pack':>6}  suits")
    for food in found[:limit]:
        suits = ", ".join(m for m in ("breakfast", "lunch", "move", "dinner", "drinks")
                          if m in food.meals)  # fmt: skip
        print(f"{food.id:<26} {food.name[:38]:<38} {food.dose_g:>4.0f} g {food.dose_kcal:>5.0f} "
              f"{food.pack_g:>4.0f} g  {suits}")  # fmt: skip
    if len(found) > limit:
        print(f"... and {len(found) - limit} more (--limit {len(found)})")
    return 0


def _told(key: str, **values: object) -> str:
    """What is wrong, in words; a search that finds something needs none."""
    from oatsack.reports.words import say

    return say(key, **values)
