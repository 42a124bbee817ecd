"""Makes a menu better: fixes most of it, lets the engine choose the rest anew, and goes round.

Every step is solved on the exact matrix, so a menu never gets worse and never breaks a rule. How
much is done is counted in steps, not seconds, so that equal work gives equal menus.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from oatsack.menu.frame import Frame, Option
from oatsack.menu.meals import rank_of
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.structure import Mask, fixed_outside
from oatsack.menu.usual import Key
from oatsack.values.food import Meal
from oatsack.values.problem import Floats, Problem, Work

SHORT = 7
"""Foods of each meal that a step may choose from, besides those already there; ours, measured."""
BAGS_SHORT = 10
STEP_NODES = 20
STEP_SECONDS = 10.0
ENOUGH_GAP = 0.015
"""A step ends when it is this close to its own best, as a share of a mean day; ours, measured."""
Step = Callable[[], Mask]
"""Says what is free, at the time it is asked."""
_ROUNDS: tuple[Meal, ...] = ("lunch", "breakfast")


@dataclass(slots=True)
class State:
    """The best answer so far."""

    frame: Frame
    problem: Problem
    relaxed: Relaxed
    x: Floats
    aim: float
    bound: float
    steps: int = 0
    seed: int = 0


def improve(
    state: State, engine: Engine, *, steps: int, done_gap: float, stop: Callable[[State], bool]
) -> str:  # fmt: skip
    """Takes steps until the work is done, nothing helps any more, or `stop`, asked after every
    step, says so."""
    idle, plan = 0, Neighbourhoods(state)
    for neighbourhood in plan.forever():
        if state.aim - state.bound <= done_gap * abs(state.aim):
            return "proved"
        if state.steps >= steps or idle > plan.count:
            return "work"
        state.steps += 1
        idle = 0 if step(state, engine, neighbourhood()) else idle + 1
        if stop(state):
            return "stopped"
    return "work"


def step(state: State, engine: Engine, free: Mask) -> bool:
    """Chooses the free columns anew, all others fixed; True when the menu got better."""
    part, numbers = fixed_outside(state.problem, free, state.x)
    work = Work(
        nodes=STEP_NODES, seconds=STEP_SECONDS, gap_abs=ENOUGH_GAP * mean_day(state),
        seed=state.seed, hint=state.x[numbers],
    )  # fmt: skip
    answer = engine(part, work)
    if answer.x is None or answer.aim > state.aim - 1e-6 * max(1.0, abs(state.aim)):
        return False
    state.x[numbers] = answer.x
    state.aim = float(state.problem.cost @ state.x) + state.problem.offset
    return True


def mean_day(state: State) -> float:
    """What a walker's day is of the aim, on the mean."""
    return abs(state.aim) / max(1, len(state.frame.day_keys))


class Neighbourhoods:
    """What is freed together, in a fixed order: days, then one meal on all days, then pairs."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.frame = state.frame
        self.measures = ~state.problem.integer
        self.dishes = frozenset(
            o.use for options in self.frame.options.values() for o in options
            if o.use >= 0 and state.problem.columns[o.use].startswith("dish/")
        )  # fmt: skip
        self.short = {key: self._short(key) for key in self.frame.slots}
        self.count = max(1, sum(1 for _ in self.once()))

    def _short(self, key: Key) -> list[Option]:
        options = [o for o in self.frame.options.get(key, ()) if o.use >= 0]
        prices = self.state.relaxed.prices
        ranked = sorted(options, key=lambda o: (rank_of(self.frame, prices, o), o.food.id))
        mains = [o for o in ranked if o.food.role == "main"][: SHORT - 2]
        return mains + [o for o in ranked if o.food.role != "main"][:SHORT]

    def forever(self) -> Iterator[Step]:
        """The same order again and again."""
        while True:
            yield from self.once()

    def once(self) -> Iterator[Step]:
        """One round of all neighbourhoods."""
        frame = self.frame
        for group in frame.groups:
            days = sorted({d for w in group.walkers for d in frame.days.get(w, ())})
            for day in days:
                for walker in group.walkers:
                    if (walker, day) in frame.day_keys:
                        yield partial(self.days, [(walker, day)], dinners=False)
            for i in range(0, len(days), 2):
                keys: list[Key] = [(w, d, "dinner") for w in group.walkers for d in days[i : i + 3]]
                yield partial(self._meals, keys)
            for walker in group.walkers:
                yield from self._walker(walker, days)

    def _walker(self, walker: str, days: list[int]) -> Iterator[Step]:
        for i in range(0, len(days), 3):
            some = days[i : i + 4]
            yield partial(self._bags, walker, some)
            for meal in _ROUNDS:
                keys: list[Key] = [(walker, d, meal) for d in some]
                yield partial(self._meals, keys)
        for a, b in pairwise(days):
            yield partial(self.days, [(walker, a), (walker, b)], dinners=True)

    def days(self, pairs: list[tuple[str, int]], *, dinners: bool) -> Mask:
        """These walker-days; shared dishes only with `dinners`, bags only over several days."""
        free = self.measures.copy()
        shared = self.dishes if not dinners else frozenset()
        for walker, day in pairs:
            for key in self.frame.day_keys[(walker, day)]:
                self._free(free, key, keep=shared)
        if len(pairs) > 1:
            self._free_bags(free, pairs[0][0], {day for _, day in pairs})
        return free

    def _meals(self, keys: list[Key]) -> Mask:
        free = self.measures.copy()
        for key in keys:
            if key in self.frame.slots:
                self._free(free, key)
        return free

    def _bags(self, walker: str, days: list[int]) -> Mask:
        free = self.measures.copy()
        for day in days:
            if (walker, day, "move") in self.frame.slots:
                self._free(free, (walker, day, "move"))
        self._free_bags(free, walker, set(days))
        return free

    def _free(self, free: Mask, key: Key, *, keep: frozenset[int] = frozenset()) -> None:
        x = self.state.x
        there = [o for o in self.frame.options.get(key, ()) if o.use >= 0 and x[o.use] > 0.5]
        for o in [*self.short[key], *there]:
            free[o.eat] = True
            free[o.use] = o.use not in keep
            self._free_packs(free, o.food.id)
        for o in there:
            free[o.eat] = True

    def _free_packs(self, free: Mask, food: str) -> None:
        """Packs bought of what may change; all others stay bought."""
        if food in self.frame.buy:
            free[self.frame.buy[food]] = True

    def _free_bags(self, free: Mask, walker: str, days: set[int]) -> None:
        bags = [b for b in self.frame.bags.get(walker, ()) if days.issuperset(b.bag.days)]
        rank = self.state.relaxed.prices.rank
        for b in sorted(bags, key=lambda b: (rank[b.column], b.column))[:BAGS_SHORT]:
            free[b.column] = True
            self._free_packs(free, b.bag.food.id)
        for b in bags:
            free[b.column] |= self.state.x[b.column] > 0.5
