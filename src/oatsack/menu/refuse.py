"""Why no menu fits: the smallest set of wishes that must give, by how much, and a menu to show it.

First the limits that reach over the whole trip may give, each relative to itself, on the relaxed
problem; only where that is not enough, what a day or a meal asks may give as well, and wishes that
need not give are taken back one by one. Then a menu of whole things is made in which only those
give, so that what is said is what a menu really breaks. Safety rules never give (C11): that a
container does not close is told, with the room it lacks, but no way out goes round it.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.blend import blend
from oatsack.menu.build import first_plan
from oatsack.menu.frame import Frame
from oatsack.menu.improve import State, improve
from oatsack.menu.price import Engine, Relaxed, price, walker_columns
from oatsack.menu.rounded import rounded
from oatsack.menu.rules import RULES
from oatsack.menu.structure import completed, projected, relaxed
from oatsack.menu.thin import thinned
from oatsack.values.flags import Flag
from oatsack.values.problem import Floats, Problem, Work

SMALL = 1e-6
GIVING = {"energy-day", "energy-trip", "mains", "items", "minutes", "pot", "packs"}
"""Rules whose rows may give; see `may_give`."""
BUDGET = "packs/budget"
FAR = (BUDGET, "container/")
"""Limits over the whole trip: asked first, since one of them alone explains most refusals."""
RELUCTANCE: Mapping[str, float] = {
    "mains": 20.0, "items": 20.0, "energy-day": 3.0, "energy-trip": 3.0, "container": 1.0,
}  # fmt: skip
"""How much rather another wish gives than this one; ours. What is not named counts 1."""
MOST_TAKEN_BACK = 12
EXACT_COLUMNS, EXACT_NODES, EXACT_SECONDS = 600, 20, 20.0
"""Up to so many columns the engine says the amounts itself; ours."""
DEAR = 25.0
"""All of a limit costs so many times the usual aim of a whole trip; ours."""
USUAL_G = 800.0
"""What a day's food about weighs, for that price only; ours."""
FIRM = 10.0
"""What is to hold in the end costs so many times more while the menu is mended; ours."""
MENDING_STEPS, MENDING_MORE = 12, 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Give:
    """One row that must give: by how much below its low or above its high end."""

    row: str
    short: float = 0.0
    over: float = 0.0
    low: float = 0.0
    high: float = 0.0

    @property
    def share(self) -> float:
        """How much gives, relative to the limit itself."""
        ends = [abs(v) for v in (self.low, self.high) if np.isfinite(v)]
        return (self.short + self.over) / max([1.0, *ends])

    @property
    def group(self) -> str:
        """Rule and whom it concerns: rows of one group are told together."""
        parts = self.row.split("/")
        return "/".join(parts[:2]) if parts[0] in ("energy-day", "energy-trip") else parts[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """What must give; and a menu in which nothing else does, in the columns of the problem."""

    gives: tuple[Give, ...] = ()
    menu: Floats | None = None


def may_give(row: str) -> bool:
    """Whether a way out may touch this row."""
    rule = row.split("/")[0]
    bends = {r.name for r in RULES if r.hard and r.bends}
    measured = row.startswith(("energy-day/near/", "packs/")) and row != BUDGET
    return rule in bends & GIVING and not measured


def may_be_named(row: str) -> bool:
    """Whether a refusal may say that this row gives: wishes, and the room in the container."""
    return may_give(row) or row.startswith("container/")


def clash(
    frame: Frame, problem: Problem, engine: Engine, broken: Sequence[Give] = ()
) -> Clash:  # fmt: skip
    """Why there is no menu; `broken` is what the nearest try of a relaxed answer still breaks.

    Where nothing gives after all, the menu that comes with it is a menu of the problem itself.
    """
    rows = _rows_of(problem, _named(problem), {g.group for g in broken})
    found: Sequence[Give] = broken
    if rows:
        rows = sorted({*rows, *_far(problem)})
    else:
        far = _far(problem)
        menu = menu_giving(frame, problem, engine, far, most=0.0) if far else None
        if menu is not None:
            return _shown(problem, far, menu)
        rows, found = relaxed_clash(frame, problem, engine)
    if not rows:
        rows = _named(problem)
    menu = menu_giving(frame, problem, engine, rows, most=np.inf if broken else 0.0)
    return Clash(gives=tuple(found)) if menu is None else _shown(problem, rows, menu)


def _shown(problem: Problem, rows: Sequence[int], menu: Floats) -> Clash:
    """What gives in a menu of the elastic problem, and the menu."""
    return Clash(gives=tuple(giving(problem, rows, menu)), menu=menu[: len(problem.columns)])


def relaxed_clash(
    frame: Frame, problem: Problem, engine: Engine
) -> tuple[list[int], list[Give]]:  # fmt: skip
    """Rows of the groups that must give even without whole numbers, and by how much then."""
    far = _far(problem)
    for rows in (far, _named(problem)):
        found = _gives(frame, problem, engine, rows) if rows else None
        if found:
            if len({g.group for g in found}) > 1 and rows is not far:
                return _fewest(frame, problem, engine, rows, found)
            return _rows_of(problem, rows, {g.group for g in found}), found
    return [], []


def _far(problem: Problem) -> list[int]:
    return [i for i in _named(problem) if problem.rows[i].startswith(FAR)]


def _named(problem: Problem) -> list[int]:
    return [i for i, name in enumerate(problem.rows) if may_be_named(name)]


def _gives(
    frame: Frame, problem: Problem, engine: Engine, rows: Sequence[int]
) -> list[Give] | None:  # fmt: skip
    """What of these rows gives on the relaxed problem; None where that is not enough."""
    easy = elastic(frame, problem, rows)
    thin = thinned(easy, frame.buy)
    answer = engine(relaxed(easy if thin is None else thin.problem), Work())
    return None if answer.x is None else giving(problem, rows, answer.x)


def menu_giving(
    frame: Frame, problem: Problem, engine: Engine, rows: Sequence[int], *, most: float = np.inf
) -> Floats | None:  # fmt: skip
    """A menu of whole things in which only these rows give, and little: built and mended, and of a
    small problem the engine's own where that gives less."""
    every = [*rows, *(i for i in _named(problem) if i not in set(rows))]
    firm = len(every) - len(rows)
    easy = elastic(frame, problem, every, firm=firm)
    tight = {problem.rows[i] for i in rows if problem.rows[i] == BUDGET}
    state = mended(frame, easy, engine, firm=firm, tight=tight, most=most)
    found = None if state is None else state.x[: len(problem.columns) + 2 * len(rows)]
    if len(problem.columns) > EXACT_COLUMNS:
        return found
    small = elastic(frame, problem, rows)
    if found is not None and _share(frame, small, found) <= SMALL:
        return found
    work = Work(nodes=EXACT_NODES, seconds=EXACT_SECONDS, gap_rel=0.05, hint=found)
    both = [x for x in (found, engine(small, work).x) if x is not None]
    return min(both, key=lambda x: _share(frame, small, x), default=None)


def mended(frame: Frame, easy: Problem, engine: Engine, *, firm: int,
           tight: Collection[str] = (), most: float = np.inf) -> State | None:  # fmt: skip
    """A menu of an elastic problem in which little gives: near its relaxed answer, else the first
    plan; and a few steps on where no more than `most` of a limit gives. None where one of the last
    `firm` rows still gives.

    What uses the `tight` rows is priced as if nothing of them were there: a relaxed menu keeps a
    budget that whole packs burst, and would call the dear food cheap.
    """
    high = np.where([name in tight for name in easy.rows], 0.0, easy.row_high)
    found: Relaxed = price(frame, replace(easy, row_high=high), engine)
    if not found.fits or (tight and _firm(found.x, firm) > SMALL):
        return None
    near = rounded(frame, easy, engine, found.x) if _firm(found.x, firm) <= SMALL else None
    done = near or completed(easy, engine, first_plan(frame, easy, found))
    if done is None:
        return None
    x, aim = done
    bound = easy.offset if tight else found.bound
    state = State(frame=frame, problem=easy, relaxed=found, x=x, aim=aim, bound=bound)
    if near is None:
        blend(state, engine, more=MENDING_MORE)
    _lessened(state, engine, firm=firm, most=most)
    return state if _firm(state.x, firm) <= SMALL else None


def _firm(x: Floats, firm: int) -> float:
    """The most that one of the last `firm` rows gives."""
    return float(x[len(x) - 2 * firm :].max()) if firm else 0.0


def _share(frame: Frame, easy: Problem, x: Floats) -> float:
    """How much gives in all, each limit relative to itself and to how gladly it gives."""
    gives = sum(name.startswith("give/") for name in easy.columns)
    costs = float(easy.cost[-gives:] @ x[-gives:]) if gives else 0.0
    return costs / _all_of_a_limit(frame)


def _lessened(state: State, engine: Engine, *, firm: int, most: float) -> None:
    """Steps that make less of it give: until nothing does, or only what may give, too far."""

    def enough(now: State) -> bool:
        share = _share(now.frame, now.problem, now.x)
        return share <= SMALL or (share > most and _firm(now.x, firm) <= SMALL)

    if not enough(state):
        blend(state, engine, more=MENDING_MORE)
    if not enough(state):
        improve(state, engine, steps=MENDING_STEPS, done_gap=0.02, stop=enough)
    if not enough(state):
        blend(state, engine, more=MENDING_MORE)


def elastic(frame: Frame, problem: Problem, rows: Sequence[int], *, firm: int = 0) -> Problem:
    """The problem in which only these rows may give, dearly: two more columns for each, for what
    it is short and what it is over. The last `firm` rows give only on the way to a better menu."""
    count, more = len(problem.columns), 2 * len(rows)
    scale = np.array([_scale(problem, i) for i in rows])
    dear = np.array([RELUCTANCE.get(problem.rows[i].split("/")[0], 1.0) for i in rows])
    dear[len(rows) - firm :] *= FIRM
    chosen = np.array(rows, np.int64)
    order = np.argsort(chosen, kind="stable")
    ends = np.repeat(problem.start[chosen[order] + 1], 2)
    numbers = count + (2 * order[:, None] + np.arange(2)).ravel()
    lengths = np.diff(problem.start)
    lengths[chosen] += 2
    return replace(
        problem,
        columns=problem.columns + tuple(f"give/{n}" for n in range(more)),
        cost=np.concatenate([problem.cost, np.repeat(_all_of_a_limit(frame) * dear / scale, 2)]),
        low=np.concatenate([problem.low, np.zeros(more)]),
        high=np.concatenate([problem.high, np.full(more, np.inf)]),
        integer=np.concatenate([problem.integer, np.zeros(more, bool)]),
        start=np.concatenate([[0], np.cumsum(lengths)]).astype(np.int64),
        index=np.insert(problem.index, ends, numbers),
        value=np.insert(problem.value, ends, np.tile([1.0, -1.0], len(rows))),
    )  # fmt: skip


def _all_of_a_limit(frame: Frame) -> float:
    """What all of a limit costs where it gives."""
    return DEAR * USUAL_G * frame.mean_carry * max(1, len(frame.day_keys))


def _scale(problem: Problem, row: int) -> float:
    ends = [abs(v) for v in (problem.row_low[row], problem.row_high[row]) if np.isfinite(v)]
    return float(max([1.0, *ends]))


def giving(problem: Problem, rows: Sequence[int], x: Floats) -> list[Give]:
    """The rows that give in an answer of the elastic problem."""
    out, count = [], len(problem.columns)
    for n, i in enumerate(rows):
        short, over = float(x[count + 2 * n]), float(x[count + 2 * n + 1])
        if max(short, over) > SMALL * _scale(problem, i):
            low, high = float(problem.row_low[i]), float(problem.row_high[i])
            row = problem.rows[i]
            out.append(Give(row=row, short=short, over=over, low=low, high=high))
    return out


def _fewest(
    frame: Frame, problem: Problem, engine: Engine, rows: Sequence[int], found: list[Give]
) -> tuple[list[int], list[Give]]:  # fmt: skip
    """Rows of the groups that must give: groups that can be spared are taken back, least first."""
    total: dict[str, float] = {}
    for give in found:
        total[give.group] = total.get(give.group, 0.0) + give.share
    groups = sorted(total, key=lambda g: total[g])
    kept = set(groups)
    for group in groups[:MOST_TAKEN_BACK]:
        if len(kept) == 1:
            break
        trial = _rows_of(problem, rows, kept - {group})
        if _needed(frame, problem, engine, trial, group):
            continue
        less = _gives(frame, problem, engine, trial)
        if less is not None:
            found = less
            kept.discard(group)
    return _rows_of(problem, rows, kept), found


def _needed(
    frame: Frame, problem: Problem, engine: Engine, rows: Sequence[int], group: str
) -> bool:  # fmt: skip
    """Whether these rows are not enough for the walker of the group even if nobody else ate: a
    small question that spares most of the large ones."""
    walker = group.partition("/")[2]
    if not walker or len(frame.days) < 2:
        return False
    easy = elastic(frame, problem, rows)
    theirs = walker_columns(frame, easy, walker)
    theirs[len(problem.columns) :] = True
    return engine(relaxed(projected(easy, theirs)[0]), Work()).x is None


def _rows_of(problem: Problem, rows: Sequence[int], groups: set[str]) -> list[int]:
    return [i for i in rows if Give(row=problem.rows[i]).group in groups]


def flags_of(gives: Sequence[Give], units: Mapping[str, str]) -> tuple[Flag, ...]:
    """One flag per group of rows that must give: the rule, whom, on which days, by how much."""
    groups: dict[str, list[Give]] = {}
    for give in gives:
        groups.setdefault(give.group, []).append(give)
    return tuple(_flag(group, found, units) for group, found in groups.items())


def _flag(group: str, found: Sequence[Give], units: Mapping[str, str]) -> Flag:
    rule, *whom = group.split("/")
    worst = max(found, key=lambda g: max(g.short, g.over))
    parts = worst.row.split("/")
    unit = units.get(rule, "n")
    values: dict[str, float | int | str] = {
        "rule": rule, "rows": len(found), f"short_{unit}": worst.short, f"over_{unit}": worst.over,
        f"limit_{unit}": worst.low if worst.short > worst.over else worst.high,
    }  # fmt: skip
    if whom:
        values["walker"] = whom[0]
    if rule == "packs":
        values |= {"over_money": worst.over, "limit_money": worst.high}
    if len(parts) > 2 and parts[2].isdigit():
        values["day"] = int(parts[2])
    if len(parts) > 3:
        values["meal"] = parts[3]
    side = "over" if worst.over > worst.short else "short"
    return Flag(key=f"no-plan.{rule}-{side}", level="block", scope=worst.row, values=values)
