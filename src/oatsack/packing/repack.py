"""From the bags as packed to the bags as now planned: the shortest list of bag operations.

One operation is what two hands do at one bag: take some of a food out, put some in, empty it, write
its label. Which old bag becomes which new one is chosen so that the operations are fewest, exactly.
Unchanged bags keep their place and need nothing but, if the number moved, no new label either:
labels carry the plan's version, and only changed bags get new ones. What is carried as bought has
no label and is never filled with another food: it comes along or stays at home.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from oatsack.packing.matching import cheapest
from oatsack.values.pack import Bag
from oatsack.values.problem import Floats

SAME_G = 0.5
"""Two amounts closer than this are the same (a kitchen scale shows whole grams)."""
Contents = Mapping[str, float]
"""Food -> grams."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One operation at one bag. `bag` names the old bag (empty: a fresh one), `becomes` the new."""

    kind: Literal["take", "put", "empty", "label"]
    bag: str
    becomes: str
    food: str = ""
    grams: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Repack:
    """All operations, which bags get a new label, and which change hands."""

    steps: tuple[Step, ...]
    labels: tuple[str, ...]
    """New bags that need a new label."""
    handed: tuple[tuple[str, str, str], ...]
    """(new bag, from, to): bags that move to another back."""
    kept: tuple[str, ...]
    """Bags that stay as they are."""


def contents(bag: Bag) -> Contents:
    """Grams of each food in a bag."""
    out: dict[str, float] = defaultdict(float)
    for item in bag.items:
        out[item.food] += item.net_g
    return {food: grams for food, grams in sorted(out.items()) if grams > SAME_G / 10}


def heading(bag: Bag) -> tuple[str, str, int]:
    """What the label says besides the contents: kind, for whom, which day."""
    return bag.label, bag.group, bag.open_day


def repack(old: Sequence[Bag], new: Sequence[Bag]) -> Repack:
    """The shortest list of operations from one packing to another, and what it leaves alone.

    Labelled bags of one leg are matched among themselves, and so is each food carried as bought.
    """
    steps: list[Step] = []
    pairs: list[tuple[Bag | None, Bag | None]] = []
    for key in sorted({_kin(b) for b in (*old, *new)}):
        pairs += matched([b for b in old if _kin(b) == key], [b for b in new if _kin(b) == key])
    for a, b in pairs:
        steps += steps_between(a, b)
    changed = {s.becomes for s in steps if s.becomes}
    both = [(a, b) for a, b in pairs if a is not None and b is not None]
    return Repack(
        steps=tuple(sorted(steps, key=_order)),
        labels=tuple(s.becomes for s in steps if s.kind == "label"),
        handed=tuple((b.id, a.carrier, b.carrier) for a, b in both if a.carrier != b.carrier),
        kept=tuple(b.id for _, b in both if b.id not in changed),
    )


def _kin(bag: Bag) -> tuple[int, bool, tuple[str, ...]]:
    """Bags that can be made of each other: of one leg, and labelled or of the same food."""
    return bag.leg, bag.sealed, tuple(contents(bag)) if bag.sealed else ()


def _order(step: Step) -> tuple[int, str, str, str]:
    """First make room and take out, then put in, then write."""
    return ["empty", "take", "put", "label"].index(step.kind), step.bag, step.becomes, step.food


def matched(old: Sequence[Bag], new: Sequence[Bag]) -> list[tuple[Bag | None, Bag | None]]:
    """Pairs of old and new bags with the fewest operations in all; None for a bag too few.

    Bags that stay as they are pair first: operations obey the triangle inequality, so that no
    shorter list is lost by it.
    """
    same = _unchanged(old, new)
    gone, there = {a.id for a, _ in same}, {b.id for _, b in same}
    before = [a for a in old if a.id not in gone]
    after = [b for b in new if b.id not in there]
    out: list[tuple[Bag | None, Bag | None]] = list(same)
    for row, column in enumerate(cheapest(_costs(before, after))):
        a = before[row] if row < len(before) else None
        b = after[int(column)] if column < len(after) else None
        if a is not None or b is not None:
            out.append((a, b))
    return out


def _unchanged(old: Sequence[Bag], new: Sequence[Bag]) -> list[tuple[Bag, Bag]]:
    """Pairs that need no operation; by name first."""
    by_id = {b.id: b for b in new}
    pairs = [(a, by_id[a.id]) for a in old if a.id in by_id and not steps_between(a, by_id[a.id])]
    free = [b for b in new if b.id not in {b.id for _, b in pairs}]
    for a in old:
        if a.id not in {a.id for a, _ in pairs}:
            twin = next((b for b in free if not steps_between(a, b)), None)
            if twin is not None:
                pairs.append((a, twin))
                free.remove(twin)
    return pairs


def _costs(old: Sequence[Bag], new: Sequence[Bag]) -> Floats:
    """Operations between every two bags; further rows are fresh bags, further columns the bin.

    A hair is added where the id differs, so that of equally short lists the one that keeps bags
    under their name is chosen.
    """
    n, m = len(old), len(new)
    cost = np.zeros((n + m, n + m))
    for i, a in enumerate(old):
        for j, b in enumerate(new):
            cost[i, j] = len(steps_between(a, b)) + (0.0 if a.id == b.id else 1e-4)
    cost[n:, :m] = [len(steps_between(None, b)) + 1e-4 for b in new]
    cost[:n, m:] = np.array([len(steps_between(a, None)) + 1e-4 for a in old])[:, None]
    return cost


def steps_between(old: Bag | None, new: Bag | None) -> list[Step]:
    """The fewest operations that make one bag of another: food by food, or emptied and filled."""
    before = {} if old is None else contents(old)
    after = {} if new is None else contents(new)
    name, becomes = (old.id if old else ""), (new.id if new else "")
    if new is None:
        return [Step(kind="empty", bag=name, becomes="")] if before else []
    one_by_one = [
        _step(name, becomes, food, after.get(food, 0.0) - before.get(food, 0.0))
        for food in sorted({*before, *after})
        if abs(after.get(food, 0.0) - before.get(food, 0.0)) > SAME_G
    ]
    afresh = [Step(kind="empty", bag=name, becomes=becomes)] if before else []
    afresh += [_step(name, becomes, food, grams) for food, grams in after.items()]
    shorter = one_by_one if len(one_by_one) <= len(afresh) else afresh
    if new.sealed:
        return shorter
    if shorter or old is None or heading(old) != heading(new):
        shorter = [*shorter, Step(kind="label", bag=name, becomes=becomes)]
    return shorter


def _step(bag: str, becomes: str, food: str, grams: float) -> Step:
    return Step(kind="put" if grams > 0 else "take", bag=bag, becomes=becomes, food=food,
                grams=abs(grams))  # fmt: skip
