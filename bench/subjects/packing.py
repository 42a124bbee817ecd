"""Packing: time and quality of sharing, repacking, check-weigh and the whole of it.

Every row says what was measured, the value with its unit, the bar it is held to (None: no bar), and
whether it holds. Parties and bags are drawn with fixed seeds.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from oatsack.packing.checkweigh import EQUAL_G, Piece, explain
from oatsack.packing.repack import repack
from oatsack.packing.share import NOBODY, Sharing, _judged, _largest_first, exact, spread
from oatsack.values.pack import Bag, Item
from oatsack.values.problem import Work

Row = dict[str, Any]


def run(full: bool = False) -> list[Row]:
    """All rows; `full` draws more cases."""
    cases = 5 if full else 2
    return [
        *sharing_rows(cases), *repack_rows(cases), *weigh_rows(1000 if full else 200),
    ]  # fmt: skip


def row(what: str, value: float, unit: str, *, most: float | None = None,
        least: float | None = None) -> Row:  # fmt: skip
    """One measured figure against its bar."""
    holds = (most is None or value <= most) and (least is None or value >= least)
    return {"subject": "packing", "what": what, "value": value, "unit": unit,
            "bar": most if most is not None else least, "holds": holds}  # fmt: skip


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    """Seconds that some work took, and its answer."""
    start = time.perf_counter()
    answer = work()
    return time.perf_counter() - start, answer


def party(seed: int, bags: int = 200, walkers: int = 12) -> Sharing:
    """A leg's sharing: a third of the bags are somebody's own, and no pack may hold more than four
    tenths of the energy."""
    rng = np.random.default_rng(seed)
    fair = rng.uniform(0.8, 1.2, walkers)
    energy = rng.uniform(50.0, 900.0, bags)
    own = np.where(rng.random(bags) < 1 / 3, np.arange(bags) % walkers, NOBODY)
    return Sharing(
        kg_days=rng.uniform(0.05, 3.0, bags), fair=fair / fair.sum(), already=np.zeros(walkers),
        own=own, limits=((energy, np.full(walkers, 0.4 * energy.sum())),),
    )  # fmt: skip


def sharing_rows(cases: int) -> list[Row]:
    """12 walkers and 200 bags: the everyday way, beside plain largest-first and a proven bound."""
    seconds, gaps, plain, proof = [], [], [], []
    for seed in range(cases):
        ask = party(seed)
        took, answer = timed(lambda ask=ask: spread(ask))
        seconds.append(took)
        part = float(ask.parts.mean())
        gaps.append((answer.excess - answer.bound) / part)
        first = _judged(ask, _largest_first(ask))
        plain.append((first.excess - first.bound) / part)
        proof.append(proven(ask))
    rows = [
        row("sharing 200 bags among 12, slowest", max(seconds), "s", most=2.0),
        row("sharing, proven gap over a fair part", max(gaps), "", most=0.01),
        row("the same, largest first only", max(plain), ""),
    ]
    if all(p is not None for p in proof):
        rows.append(row("sharing by an engine, slowest", max(t for t, _ in proof), "s", most=5.0))
        rows.append(row("what the engine gains over the everyday way",
                        max(g for _, g in proof), "kg d"))  # fmt: skip
    return rows


def proven(ask: Sharing) -> tuple[float, float] | None:
    """Seconds of an engine, and by how much it lowered the largest excess [kg d]."""
    try:
        from oatsack.solve import highs
    except ImportError:
        return None
    work = Work(nodes=200, seconds=2.0, gap_abs=0.005)
    took, best = timed(lambda: exact(ask, highs.solve, work))
    return took, spread(ask).excess - best.excess


def repack_rows(cases: int) -> list[Row]:
    """200 bags of which twenty change."""
    seconds = []
    for seed in range(cases):
        old = some_bags(seed)
        new = changed(old, seed)
        took, done = timed(lambda old=old, new=new: repack(old, new))
        seconds.append(took)
        if len(done.kept) < 150:
            return [row("repacking kept too few bags", len(done.kept), "", least=150)]
    return [row("repacking 200 bags, twenty changed, slowest", max(seconds), "s", most=2.0)]


def some_bags(seed: int) -> list[Bag]:
    """Two hundred bags of two to four foods."""
    rng = np.random.default_rng(seed)
    out = []
    for n in range(200):
        foods = rng.choice(30, size=int(rng.integers(2, 5)), replace=False)
        items = tuple(
            Item(food=f"food{f}", doses=1.0, net_g=float(rng.integers(5, 300)), day=n % 7 + 1)
            for f in foods
        )
        out.append(Bag(
            id=f"bag{n}", label="dinner", number=n, of=200, items=items, wrap_g=5.0,
            net_g=sum(i.net_g for i in items), volume_ml=300.0, open_day=n % 7 + 1,
        ))  # fmt: skip
    return out


def changed(bags: list[Bag], seed: int) -> list[Bag]:
    """The same bags, twenty of them with other amounts."""
    rng = np.random.default_rng(1000 + seed)
    which = set(rng.choice(len(bags), 20, replace=False).tolist())
    return [
        replace(b, items=tuple(replace(i, net_g=i.net_g + float(rng.integers(1, 90)))
                               for i in b.items))
        if n in which else b
        for n, b in enumerate(bags)
    ]  # fmt: skip


def weigh_rows(cases: int) -> list[Row]:
    """Shares of faults that stand among the first three answers, scale within 2 g."""
    bars = {1: 1.0, 2: 0.95}
    rows = [row(f"check-weigh, {n} fault(s) among the first three answers",
                found(n, cases, 0.0), "", least=bars[n]) for n in bars]  # fmt: skip
    rows += [row(f"the same with 2 % natural spread, {n} fault(s)", found(n, cases, 0.02), "")
             for n in bars]  # fmt: skip
    return rows


def found(faults: int, cases: int, natural: float) -> float:
    """Share of random bags whose true faults are named (equal masses are one answer)."""
    rng = np.random.default_rng(faults)
    hits = 0
    for _ in range(cases):
        pieces = [Piece(food=f"food{i}", grams=float(rng.integers(16, 521)) / 2.0)
                  for i in range(int(rng.integers(2, 9)))]  # fmt: skip
        which = rng.choice(len(pieces), size=faults, replace=False)
        truth = sum(float(rng.choice([-1.0, 1.0])) * pieces[int(i)].grams for i in which)
        noise = sum(rng.normal(0.0, natural * p.grams) for p in pieces) if natural else 0.0
        answers = explain(pieces, truth + noise + rng.uniform(-2.0, 2.0), spread=natural)[:3]
        hits += any(abs(a.grams - truth) <= EQUAL_G for a in answers)
    return hits / cases
