"""Makes a menu better: fixes most of it, lets the engine choose the rest anew, and goes round.

Every step is solved on the exact matrix, so a menu never gets worse and never breaks a rule. How
much is done is counted in steps, not seconds, so that equal work gives equal menus.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import islice, pairwise

from oatsack.menu.frame import Frame, Option
from oatsack.menu.lanes import AT_ONCE, Lanes
from oatsack.menu.meals import rank_of
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.structure import Mask, completed, fixed_outside
from oatsack.menu.usual import Key
from oatsack.values.food import Meal
from oatsack.values.problem import Floats, Ints, Problem, Work, aim_of

SHORT = 7
"""Foods of each meal that a step may choose from, besides those already there; ours, measured."""
BAGS_SHORT = 10
STEP_NODES = 20
STEP_SECONDS = 60.0
ENOUGH_GAP, FINEST = 0.03, 3
"""A step ends when it is this close to its own best, as a share of a mean day, and where nothing
helps any more twice as close, so many times over; ours, measured."""
MORE_SHORT, LONGEST = 3, 7
"""With every such time a step chooses from so many more foods and twice the bags, and what is
nibbled is chosen over so many days at once; ours, measured."""
STEPS_PER_WORK = 8
BETWEEN = 8
"""So many steps lie between other ways of search; ours, measured."""
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


Stop = Callable[[State], bool]
"""Is shown an answer, and says whether that is enough."""


def improve(
    state: State, engine: Engine, *, steps: int, done_gap: float, stop: Stop,
    between: Callable[[], bool] = lambda: False,
) -> str:  # fmt: skip
    """Takes steps until the work is done, nothing helps any more, or `stop`, asked after every
    step and while the engine is at work on one, says so. `between` is done before the first step
    and again after some, and says whether it helped."""
    plan, idle = Neighbourhoods(state), 0
    order = plan.forever()
    with Lanes(engine, lambda: stop(state)) as lanes:
        while not lanes.halted:
            if state.aim - state.bound <= done_gap * abs(state.aim):
                return "proved"
            if idle > plan.count and plan.finer < FINEST:
                plan, idle = Neighbourhoods(state, finer=plan.finer + 1), 0
                order = plan.forever()
            if state.steps >= steps or idle > plan.count:
                return "work"
            if state.steps % BETWEEN < AT_ONCE and between():
                idle = 0
            some = [step() for step in islice(order, min(AT_ONCE, steps - state.steps))]
            state.steps += len(some)
            better = stepped(state, lanes, some, enough=plan.enough, nodes=plan.nodes)
            idle = 0 if better else idle + len(some)
            lanes.halted = lanes.halted or stop(state)
    return "stopped"


def stepped(
    state: State, lanes: Lanes, some: Sequence[Mask], *, enough: float = ENOUGH_GAP,
    nodes: int = STEP_NODES,
) -> bool:  # fmt: skip
    """Chooses each of these anew from where the menu stands, all else fixed, and takes what is
    better, both where they go together; True when the menu got better. A step ends when it is
    `enough` of a mean day near to its own best."""
    parts = [fixed_outside(state.problem, free, state.x) for free in some]
    gap = enough * mean_day(state)
    answers = lanes.run([
        (part, Work(nodes=nodes, seconds=STEP_SECONDS, gap_abs=gap, seed=state.seed,
                    hint=state.x[numbers]))
        for part, numbers in parts
    ])  # fmt: skip
    least = state.aim - 1e-6 * max(1.0, abs(state.aim))
    found = [
        (answer.aim, numbers, answer.x)
        for (_, numbers), answer in zip(parts, answers, strict=True)
        if answer.x is not None and answer.aim <= least
    ]
    _taken(state, lanes.engine, sorted(found, key=lambda one: one[0]))
    return bool(found)


def _taken(state: State, engine: Engine, found: Sequence[tuple[float, Ints, Floats]]) -> None:
    """The best of these answers, and of the others what goes with it and makes it better."""
    before = state.x.copy()
    for n, (_, numbers, x) in enumerate(found):
        moved = x != before[numbers]
        trial = state.x.copy()
        trial[numbers[moved]] = x[moved]
        if n == 0:
            state.x, state.aim = trial, aim_of(state.problem, trial)
            continue
        done = completed(state.problem, engine, trial)
        if done is not None and done[1] < state.aim:
            state.x, state.aim = done


def mean_day(state: State) -> float:
    """What a walker's day is of the aim, on the mean."""
    return abs(state.aim) / max(1, len(state.frame.day_keys))


class Neighbourhoods:
    """What is freed together, in a fixed order: days, then one meal on all days, then pairs; what
    follows each other touches as little of the same as may be, for it is chosen side by side."""

    def __init__(self, state: State, *, finer: int = 0) -> None:
        self.finer, self.enough, self.nodes = finer, ENOUGH_GAP / 2**finer, STEP_NODES << finer
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
        most = SHORT + MORE_SHORT * self.finer
        mains = [o for o in ranked if o.food.role == "main"][: most - 2]
        return mains + [o for o in ranked if o.food.role != "main"][:most]

    def forever(self) -> Iterator[Step]:
        """The same order again and again."""
        while True:
            yield from self.once()

    def once(self) -> Iterator[Step]:
        """One round of all neighbourhoods."""
        frame = self.frame
        if self.finer:
            yield from self._nibbled()
        for group in frame.groups:
            days = sorted({d for w in group.walkers for d in frame.days.get(w, ())})
            for day in days:
                for walker in group.walkers:
                    if (walker, day) in frame.day_keys:
                        yield partial(self.days, [(walker, day)], dinners=False)
            for i in (*range(0, len(days), 4), *range(2, len(days), 4)):
                keys: list[Key] = [(w, d, "dinner") for w in group.walkers for d in days[i : i + 3]]
                yield partial(self._meals, keys)
            for walker in group.walkers:
                yield from self._walker(walker, days)

    def _nibbled(self) -> Iterator[Step]:
        """What each walker nibbles over many days."""
        for i in range(0, max(len(days) for days in self.frame.days.values()), LONGEST - 2):
            for walker, days in self.frame.days.items():
                if some := days[i : i + LONGEST]:
                    yield partial(self._bags, walker, some)

    def _walker(self, walker: str, days: list[int]) -> Iterator[Step]:
        for i in range(0, len(days), 3):
            some = days[i : i + 4]
            yield partial(self._bags, walker, some)
            for meal in _ROUNDS:
                keys: list[Key] = [(walker, d, meal) for d in some]
                yield partial(self._meals, keys)
        pairs = list(pairwise(days))
        for a, b in (*pairs[::2], *pairs[1::2]):
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
        most = BAGS_SHORT << self.finer
        for b in sorted(bags, key=lambda b: (rank[b.column], b.column))[:most]:
            free[b.column] = True
            self._free_packs(free, b.bag.food.id)
        for b in bags:
            free[b.column] |= self.state.x[b.column] > 0.5
