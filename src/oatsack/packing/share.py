"""Who carries what: fair by capacity over the whole leg, and safe against the loss of one pack.

The measure is kg-days: a bag eaten on the first evening weighs little over a leg, one for the last
night weighs a lot. Each walker's fair part is capacity over the party's sum. What
one eats on the move stays on one's own back. `spread` is the everyday way (largest first, then
moves and exchanges while they help); `exact` asks an engine for the proven best.

The aim is the largest excess over a fair part, in kg-days; limits are shares of what a single lost
pack may take away. Does not know bags' contents beyond the numbers it is given (see `loss`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from oatsack.values.problem import Answer, Builder, Floats, Problem, Work

Indices = npt.NDArray[np.int64]
Engine = Callable[[Problem, Work], Answer]
NOBODY = -1
FAIR_ENOUGH = 0.03
"""An earlier sharing is kept while nobody is above a fair part by more than this share (ours)."""
ROUNDS = 400
"""Most moves and exchanges tried in a row; each one strictly lowers the aim."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharing:
    """A question of who carries what. Bags are rows, walkers columns.

    `fair` sums to 1. Each limit is a pair of amounts by bag and the most of it that one walker may
    carry. `own[b]` is the only walker who may carry bag b, or NOBODY for anyone.
    """

    kg_days: Floats
    fair: Floats
    already: Floats
    """Kg-days on each back before any bag is given out: fuel, cans."""
    own: Indices
    limits: tuple[tuple[Floats, Floats], ...] = ()
    """(amount by bag, cap by walker)."""
    names: tuple[str, ...] = field(default=())

    @property
    def parts(self) -> Floats:
        """The fair part of each walker [kg d]."""
        whole = float(self.kg_days.sum() + self.already.sum())
        return np.asarray(self.fair * whole, float)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """Who carries each bag, how far the worst is above the fair part, and what is proven of it."""

    carrier: Indices
    excess: float
    """Largest excess over a fair part [kg d]."""
    bound: float
    """No sharing has a smaller one."""
    part: float
    """The mean fair part [kg d], to read the others by."""
    breach: float
    """By how much a limit is broken, in its own unit over its cap; 0 where all hold."""


def spread(ask: Sharing, *, before: Indices | None = None) -> Shared:
    """A fair sharing, fast and the same every time: largest first, then improved.

    With `before` (who carried each bag in an earlier sharing, or NOBODY) as many as can stay where
    they are: improvement stops as soon as it is fair enough.
    """
    kept = ask if before is None else replace(
        ask, own=np.where(ask.own == NOBODY, before, ask.own))  # fmt: skip
    state = _State(ask, _largest_first(kept))
    enough = -np.inf if before is None else lower_bound(ask) + FAIR_ENOUGH * ask.parts.mean()
    for _ in range(ROUNDS):
        if state.breach() <= 0.0 and (state.load - ask.parts).max() <= enough:
            break
        if not (_move(state) or _exchange(state)):
            break
    return _judged(ask, state.carrier)


def _judged(ask: Sharing, carrier: Indices, bound: float | None = None) -> Shared:
    state = _State(ask, carrier)
    excess = float((state.load - ask.parts).max())
    low = lower_bound(ask) if bound is None else bound
    return Shared(carrier=carrier, excess=excess, bound=min(low, excess),
                  part=float(ask.parts.mean()), breach=state.breach())  # fmt: skip


def lower_bound(ask: Sharing) -> float:
    """A simple bound: nobody's own bags can be taken off their back, and parts sum to the whole."""
    fixed = ask.already.copy()
    held = ask.own != NOBODY
    np.add.at(fixed, ask.own[held], ask.kg_days[held])
    return max(0.0, float((fixed - ask.parts).max()))


def _largest_first(ask: Sharing) -> Indices:
    carrier = ask.own.copy()
    load = ask.already.copy()
    used = [np.zeros(len(ask.fair)) for _ in ask.limits]
    for bag in np.argsort(-ask.kg_days, kind="stable"):
        if carrier[bag] == NOBODY:
            over = sum(
                np.maximum(0.0, have + amount[bag] - cap) / np.maximum(cap, 1e-9)
                for have, (amount, cap) in zip(used, ask.limits, strict=True)
            )
            after = (load + ask.kg_days[bag]) / np.maximum(ask.fair, 1e-9)
            carrier[bag] = int(np.lexsort((after, np.broadcast_to(over, after.shape)))[0])
        load[carrier[bag]] += ask.kg_days[bag]
        for have, (amount, _) in zip(used, ask.limits, strict=True):
            have[carrier[bag]] += amount[bag]
    return carrier


class _State:
    """A sharing under improvement: loads, amounts against limits, and the potential."""

    def __init__(self, ask: Sharing, carrier: Indices) -> None:
        self.ask = ask
        self.carrier = carrier.copy()
        walkers = len(ask.fair)
        self.load = ask.already + np.bincount(carrier, ask.kg_days, walkers)
        self.used = np.array(
            [np.bincount(carrier, amount, walkers) for amount, _ in ask.limits]
        ).reshape(len(ask.limits), walkers)
        self.caps = np.array([cap for _, cap in ask.limits]).reshape(self.used.shape)
        self.amounts = np.array([amount for amount, _ in ask.limits]).reshape(
            len(ask.limits), len(carrier)
        )
        self.weight = 1.0 / np.maximum(ask.fair, 1e-9)
        self.movable = np.flatnonzero(ask.own == NOBODY)

    def breach(self) -> float:
        over = np.maximum(0.0, self.used - self.caps) / np.maximum(self.caps, 1e-9)
        return float(over.sum())

    def gain_of(self, give: Floats, bags_from: Indices, to: Indices,
                moved: Floats) -> Floats:  # fmt: skip
        """Fall of the potential when `give` kg-days and `moved` amounts go from one to another.

        The potential is the weighted sum of squared distances from the fair part, plus a heavy
        charge for broken limits.
        """
        part = self.ask.parts
        a, b = self.load[bags_from] - part[bags_from], self.load[to] - part[to]
        wa, wb = self.weight[bags_from], self.weight[to]
        fall = wa * (a**2 - (a - give) ** 2) + wb * (b**2 - (b + give) ** 2)
        if len(self.caps):
            fall = fall + 1e6 * (
                self._over(bags_from, 0.0) - self._over(bags_from, -moved)
                + self._over(to, 0.0) - self._over(to, moved)
            )  # fmt: skip
        return np.asarray(fall, float)

    def _over(self, who: Indices, change: Floats | float) -> Floats:
        used, caps = self.used[:, who], self.caps[:, who]
        over = np.maximum(0.0, used + change - caps) / np.maximum(caps, 1e-9)
        return np.asarray(over.sum(axis=0), float)

    def give(self, bag: int, to: int) -> None:
        old = self.carrier[bag]
        self.carrier[bag] = to
        self.load[old] -= self.ask.kg_days[bag]
        self.load[to] += self.ask.kg_days[bag]
        self.used[:, old] -= self.amounts[:, bag]
        self.used[:, to] += self.amounts[:, bag]


def _move(state: _State) -> bool:
    """Gives the one bag whose move helps most; False when none helps."""
    bags, walkers = state.movable, len(state.load)
    if not len(bags):
        return False
    bag = np.repeat(bags, walkers)
    to = np.tile(np.arange(walkers), len(bags))
    gain = state.gain_of(
        state.ask.kg_days[bag], state.carrier[bag], to, state.amounts[:, bag]
    )  # fmt: skip
    gain[state.carrier[bag] == to] = -np.inf
    best = int(np.argmax(gain))
    if gain[best] <= 1e-9:
        return False
    state.give(int(bag[best]), int(to[best]))
    return True


def _exchange(state: _State) -> bool:
    """Exchanges the two bags whose exchange helps most; False when none helps."""
    bags = state.movable
    if len(bags) < 2:
        return False
    i, j = np.triu_indices(len(bags), 1)
    one, two = bags[i], bags[j]
    apart = state.carrier[one] != state.carrier[two]
    one, two = one[apart], two[apart]
    if not len(one):
        return False
    gain = state.gain_of(
        state.ask.kg_days[one] - state.ask.kg_days[two], state.carrier[one], state.carrier[two],
        state.amounts[:, one] - state.amounts[:, two],
    )  # fmt: skip
    best = int(np.argmax(gain))
    if gain[best] <= 1e-9:
        return False
    a, b = int(one[best]), int(two[best])
    to_a, to_b = int(state.carrier[b]), int(state.carrier[a])
    state.give(a, to_a)
    state.give(b, to_b)
    return True


def exact(ask: Sharing, engine: Engine, work: Work) -> Shared:
    """The sharing with the least largest excess, proven by an engine; never worse than `spread`."""
    quick = spread(ask)
    answer = engine(problem_of(ask), work)
    if answer.x is None:
        return quick
    walkers = len(ask.fair)
    x = answer.x[: walkers * len(ask.kg_days)].reshape(-1, walkers)
    found = _judged(ask, np.asarray(x.argmax(axis=1), np.int64), max(0.0, answer.bound))
    better = (found.breach, found.excess) <= (quick.breach, quick.excess)
    return found if better else replace(quick, bound=found.bound)


def problem_of(ask: Sharing) -> Problem:
    """The sharing as a menu-solver problem: x[bag, walker] in {0, 1}, least largest excess."""
    build = Builder()
    names = ask.names or tuple(str(b) for b in range(len(ask.kg_days)))
    walkers = range(len(ask.fair))
    for bag, name in enumerate(names):
        for w in walkers:
            may = ask.own[bag] in (NOBODY, w)
            build.column(f"carry/{name}/{w}", high=1.0 if may else 0.0)
    excess = build.column("excess", integer=False, cost=1.0)
    for bag, name in enumerate(names):
        build.row(f"once/{name}", [(bag * len(walkers) + w, 1.0) for w in walkers], low=1, high=1)
    for w in walkers:
        terms = [(b * len(walkers) + w, float(k)) for b, k in enumerate(ask.kg_days)]
        most = float(ask.parts[w] - ask.already[w])
        build.row(f"fair/{w}", [*terms, (excess, -1.0)], high=most)
        for n, (amount, cap) in enumerate(ask.limits):
            terms = [(b * len(walkers) + w, float(a)) for b, a in enumerate(amount)]
            build.row(f"limit/{n}/{w}", terms, high=float(cap[w]))
    return build.done()


def fair_parts(capacity: Mapping[str, float], walkers: Sequence[str]) -> Floats:
    """Fair parts that sum to 1, in proportion to each walker's capacity."""
    weights = np.array([max(0.0, capacity[w]) for w in walkers])
    whole = float(weights.sum())
    return weights / whole if whole > 0 else np.full(len(walkers), 1.0 / len(walkers))
