"""Exchanges: takes a few portions of neighbouring days off a menu, puts back what is cheapest, and
keeps what is better.

No engine is asked. What a menu costs is summed row by row: what a row asks for a miss where it may
be missed, so much that nobody pays it where it may not. A try takes a few thousandths of a second,
so that many small changes at once are tried which a step of the engine never frees together. What
is kept in the end is checked on the exact matrix. Shared dishes and whole packs bought stay.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from oatsack.menu.frame import Option
from oatsack.menu.improve import State, mean_day
from oatsack.menu.price import Engine
from oatsack.menu.reprice import Matrix, matrix_of
from oatsack.menu.structure import Mask, completed
from oatsack.values.problem import Floats, Ints, activity

BROKEN = 1e5
"""What a row costs that must hold and does not, for so much of it as its largest entry brings."""
MOST_OFF, MOST_BACK = 4, 16
"""Most portions taken off at once, and most changes that put some back; ours, measured."""
LEEWAY = 0.004
"""A menu is gone on from that is this share of a mean day above the best; ours, measured."""
BACK_AFTER = 400
"""Tries without anything better after which the best is gone on from again; ours."""
ASKED = 50
"""Tries between asking whether that is enough; ours."""
NO_MATTER = 1e-9
Dice = np.random.Generator


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """What every row asks: its ends, and the cost of a unit short of or over them."""

    low: Floats
    high: Floats
    short: Floats
    over: Floats

    def missed(self, brings: Floats) -> Floats:
        """What each row costs where so much is brought."""
        short = self.short * np.maximum(self.low - brings, 0.0)
        return np.asarray(short + self.over * np.maximum(brings - self.high, 0.0))

    def of(self, rows: Ints) -> Rows:
        """The same of these rows."""
        return Rows(low=self.low[rows], high=self.high[rows], short=self.short[rows],
                    over=self.over[rows])  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """What is changed as one: a food at a meal of a walker with its use, or an open bag."""

    eat: int
    use: int
    """Column of its use; -1 where it is the same or stays."""
    doses: tuple[float, ...]
    """Everything it may be."""
    walker: str
    days: tuple[int, int]
    """The first and the last."""
    rows: Ints
    asks: Rows
    per_dose: Floats
    per_use: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """Every choice for the units of one walker over some days, entry by entry."""

    unit: Ints
    dose: Floats
    cost_dose: Floats
    cost_use: Floats
    choice: Ints
    """By entry: the number of its choice."""
    first: Ints
    """By choice: the number of its first entry."""
    rows: Ints
    """All rows that any of them touches, and by entry which of these it is."""
    row: Ints
    per_dose: Floats
    per_use: Floats
    asks: Rows
    ends: Rows
    """What is asked, by row and by entry."""

    def changes(self, doses: Floats, brings: Floats) -> Floats:
        """What the whole would cost more with each choice; infinite for what is chosen now."""
        now = doses[self.unit]
        more = self.dose - now
        used = (self.dose > 0.0).astype(float) - (now > 0.0)
        before = brings[self.rows]
        after = before[self.row] + self.per_dose * more[self.choice]
        after += self.per_use * used[self.choice]
        missed = self.ends.missed(after) - self.asks.missed(before)[self.row]
        out = np.add.reduceat(missed, self.first) + self.cost_dose * more + self.cost_use * used
        return np.asarray(np.where(more == 0.0, np.inf, out))


@dataclass(slots=True)
class Tried:
    """A menu in the making: doses by unit, what every row gets, and the aim."""

    doses: Floats
    brings: Floats
    aim: float

    def copy(self) -> Tried:
        """The same, to be changed."""
        return Tried(self.doses.copy(), self.brings.copy(), self.aim)


@dataclass(slots=True)
class Exchange:
    """The units of a menu problem, and tries among them; `tries` counts all so far."""

    state: State
    matrix: Matrix
    units: Sequence[Unit]
    asks: Rows
    patches: dict[tuple[str, int, int], Patch] = field(default_factory=dict)
    tries: int = 0

    def better(
        self, engine: Engine, *, tries: int, stop: Callable[[], bool] = lambda: False
    ) -> bool:  # fmt: skip
        """Tries so many exchanges from where the menu stands, or fewer where `stop`, asked now and
        then, says so; True when it got better."""
        best = now = self._begin()
        dice, since = np.random.default_rng([self.state.seed, self.tries]), 0
        leeway = LEEWAY * mean_day(self.state)
        self.tries += tries
        for n in range(tries if self.units else 0):
            if n % ASKED == 0 and stop():
                break
            other = self._other(now, dice)
            since = 0 if other is not None and other.aim < best.aim - 1e-6 else since + 1
            if other is not None and other.aim <= best.aim + leeway:
                now = other
            if since == 0 and other is not None:
                best = other
            elif since % BACK_AFTER == 0:
                now = best
        return best.aim < self.state.aim - 1e-6 and self._kept(best, engine)

    def _begin(self) -> Tried:
        problem, x = self.state.problem, self.state.x
        brings = activity(problem, np.where(measuring(self.matrix), 0.0, x))
        doses = np.round(x[[u.eat for u in self.units]]) if self.units else np.zeros(0)
        return Tried(doses, brings, self.state.aim)

    def _kept(self, best: Tried, engine: Engine) -> bool:
        x = self.state.x.copy()
        for unit, dose in zip(self.units, best.doses, strict=True):
            x[unit.eat] = dose
            if unit.use >= 0:
                x[unit.use] = float(dose > 0.0)
        done = completed(self.state.problem, engine, x)
        if done is None or done[1] >= self.state.aim:
            return False
        self.state.x, self.state.aim = done
        return True

    def _other(self, now: Tried, dice: Dice) -> Tried | None:
        """The menu after one exchange; None where nothing can be taken off."""
        off = self._off(now, dice)
        if not off:
            return None
        out = now.copy()
        for number in off:
            self._set(out, number, 0.0)
        barred = off[: 1 + int(dice.integers(len(off)))]
        days = [d for number in off for d in self.units[number].days]
        patch = self._patch(self.units[off[0]].walker, min(days), max(days))
        stays = np.isin(patch.unit, barred)
        for step in range(MOST_BACK):
            changes = patch.changes(out.doses, out.brings)
            if step <= len(off):
                changes[stays] = np.inf
            at = int(np.argmin(changes))
            if changes[at] < -NO_MATTER:
                self._set(out, int(patch.unit[at]), float(patch.dose[at]))
            elif step > len(off):
                break
        return out

    def _off(self, now: Tried, dice: Dice) -> list[int]:
        """A portion, and a few more of the same walker on the days next to it."""
        on = np.flatnonzero(now.doses > 0.0).tolist()
        there = [n for n in on if 0.0 in self.units[n].doses]
        if not there:
            return []
        first = there[int(dice.integers(len(there)))]
        one = self.units[first]
        near = [n for n in there if n != first and _next_to(self.units[n], one)]
        more = dice.permutation(len(near))[: int(dice.integers(MOST_OFF))]
        return [first, *(near[int(n)] for n in more)]

    def _set(self, out: Tried, number: int, dose: float) -> None:
        """Changes one unit, and the aim by what that costs exactly."""
        unit, problem = self.units[number], self.state.problem
        now = out.doses[number]
        more, used = dose - now, float(dose > 0.0) - float(now > 0.0)
        before = out.brings[unit.rows]
        after = before + unit.per_dose * more + unit.per_use * used
        missed = unit.asks.missed(after) - unit.asks.missed(before)
        out.aim += float(missed.sum()) + float(problem.cost[unit.eat]) * more
        if unit.use >= 0:
            out.aim += float(problem.cost[unit.use]) * used
        out.brings[unit.rows] = after
        out.doses[number] = dose

    def _patch(self, walker: str, first: int, last: int) -> Patch:
        at = (walker, first, last)
        if at not in self.patches:
            chosen = [
                n for n, u in enumerate(self.units)
                if u.walker == walker and u.days[0] <= last and u.days[1] >= first
            ]  # fmt: skip
            self.patches[at] = patch_of(self.units, chosen, self.asks, self.state.problem.cost)
        return self.patches[at]


def _next_to(one: Unit, other: Unit) -> bool:
    apart = max(one.days[0] - other.days[1], other.days[0] - one.days[1])
    return one.walker == other.walker and apart <= 1


def exchange_of(state: State) -> Exchange:
    """Everything that may be exchanged in a menu: what stands on it, and what is not too dear in
    the relaxed answer to stand on a better one."""
    matrix = matrix_of(state.problem)
    asks = _asks(matrix)
    units = tuple(_units(state, matrix, asks))
    return Exchange(state=state, matrix=matrix, units=units, asks=asks)


def measuring(matrix: Matrix) -> Mask:
    """Columns that only measure how far one row is missed."""
    p = matrix.problem
    alone = np.bincount(p.index, minlength=len(p.columns)) == 1
    return np.asarray(alone & ~p.integer & (p.cost > 0.0))


def _asks(matrix: Matrix) -> Rows:
    p = matrix.problem
    largest = np.zeros(len(p.rows))
    np.maximum.at(largest, matrix.rows, np.abs(p.value))
    broken = BROKEN / np.where(largest > 0.0, largest, 1.0)
    return Rows(
        low=np.where(np.isfinite(p.row_low), p.row_low, -1e18),
        high=np.where(np.isfinite(p.row_high), p.row_high, 1e18),
        short=np.where(np.isfinite(matrix.short), matrix.short, broken),
        over=np.where(np.isfinite(matrix.over), matrix.over, broken),
    )  # fmt: skip


def _units(state: State, matrix: Matrix, asks: Rows) -> Iterator[Unit]:
    rank, room = state.relaxed.prices.rank, state.aim - state.bound
    for (walker, day, _), options in state.frame.options.items():
        for o in options:
            shared = o.use in state.frame.sharers
            use = -1 if o.use == o.eat or shared else o.use
            cost = rank[o.eat] * o.least + (rank[use] if use >= 0 else 0.0)
            there = state.x[o.eat] > 0.5
            if o.use >= 0 and (there or (cost <= room and not shared)):
                at = (walker, day, day)
                yield _unit(matrix, asks, (o.eat, use), _doses(o, shared), at)
    for walker, bags in state.frame.bags.items():
        for b in bags:
            if not b.fixed and (state.x[b.column] > 0.5 or rank[b.column] <= room):
                days = (walker, b.bag.days[0], b.bag.days[-1])
                yield _unit(matrix, asks, (b.column, -1), (0.0, 1.0), days)


def _doses(o: Option, shared: bool) -> tuple[float, ...]:
    """All doses of an option; of a shared dish, which stays, never none."""
    some = tuple(float(n) for n in range(int(o.least), int(o.most) + 1))
    return some if shared else (0.0, *some)


def _unit(
    matrix: Matrix, asks: Rows, columns: tuple[int, int], doses: tuple[float, ...],
    where: tuple[str, int, int],
) -> Unit:  # fmt: skip
    eat, use = columns
    own = matrix.entries(np.array([eat], np.int64))
    uses = matrix.entries(np.array([use] if use >= 0 else [], np.int64))
    rows = np.union1d(matrix.rows[own], matrix.rows[uses]).astype(np.int64)
    per_dose, per_use = np.zeros(len(rows)), np.zeros(len(rows))
    per_dose[np.searchsorted(rows, matrix.rows[own])] = matrix.problem.value[own]
    per_use[np.searchsorted(rows, matrix.rows[uses])] = matrix.problem.value[uses]
    walker, first, last = where
    return Unit(eat=eat, use=use, doses=doses, walker=walker, days=(first, last), rows=rows,
                asks=asks.of(rows), per_dose=per_dose, per_use=per_use)  # fmt: skip


def patch_of(units: Sequence[Unit], chosen: Sequence[int], asks: Rows, cost: Floats) -> Patch:
    """The choices for these units, those of one unit after each other."""
    every = [(n, dose) for n in chosen for dose in units[n].doses]
    lengths = np.array([len(units[n].rows) for n, _ in every])
    rows = np.concatenate([units[n].rows for n, _ in every])
    touched, row = np.unique(rows, return_inverse=True)
    return Patch(
        unit=np.array([n for n, _ in every], np.int64), dose=np.array([d for _, d in every]),
        cost_dose=np.array([cost[units[n].eat] for n, _ in every]),
        cost_use=np.array([cost[units[n].use] if units[n].use >= 0 else 0.0 for n, _ in every]),
        choice=np.repeat(np.arange(len(every)), lengths),
        first=np.concatenate([[0], np.cumsum(lengths)[:-1]]).astype(np.int64),
        rows=touched, row=np.asarray(row, np.int64),
        per_dose=np.concatenate([units[n].per_dose for n, _ in every]),
        per_use=np.concatenate([units[n].per_use for n, _ in every]),
        asks=asks.of(touched), ends=asks.of(rows),
    )  # fmt: skip
