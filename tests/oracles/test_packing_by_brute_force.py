"""Sharing and repacking against every possible answer, on cases small enough to try them all."""

from __future__ import annotations

import itertools
from collections import deque
from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.packing.matching import cheapest
from oatsack.packing.repack import contents, heading, repack
from oatsack.packing.share import NOBODY, Sharing, exact, spread
from oatsack.values.pack import Bag
from oatsack.values.problem import Answer, Problem, Work, worst_breach
from support.amount import examples
from support.packs import bag

# ---- matching


@settings(max_examples=examples(150))
@given(st.integers(1, 5), st.randoms(use_true_random=False))
def test_the_matching_is_the_cheapest_of_all(size: int, dice) -> None:
    cost = np.array([[dice.randint(0, 9) for _ in range(size)] for _ in range(size)], float)
    found = cheapest(cost)
    assert sorted(found) == list(range(size))
    best = min(
        sum(cost[i, p[i]] for i in range(size)) for p in itertools.permutations(range(size))
    )
    assert sum(cost[i, found[i]] for i in range(size)) == pytest.approx(best)


@pytest.mark.slow
def test_the_matching_agrees_with_a_reference_library_where_it_is_installed() -> None:
    scipy = pytest.importorskip("scipy.optimize", reason="scipy is not installed")
    rng = np.random.default_rng(7)
    for size in (10, 40, 90):
        cost = rng.uniform(0.0, 100.0, (size, size))
        rows, columns = scipy.linear_sum_assignment(cost)
        ours = cost[np.arange(size), cheapest(cost)].sum()
        assert ours == pytest.approx(cost[rows, columns].sum())


# ---- sharing


def best_excess(ask: Sharing) -> float:
    """The least largest excess over all sharings that keep the limits; inf where none does."""
    walkers = range(len(ask.fair))
    best = np.inf
    for carrier in itertools.product(walkers, repeat=len(ask.kg_days)):
        if any(o not in (NOBODY, c) for o, c in zip(ask.own, carrier, strict=True)):
            continue
        used = [np.bincount(carrier, a, len(ask.fair)) for a, _ in ask.limits]
        if all((u <= cap + 1e-9).all() for u, (_, cap) in zip(used, ask.limits, strict=True)):
            load = ask.already + np.bincount(carrier, ask.kg_days, len(ask.fair))
            best = min(best, float((load - ask.parts).max()))
    return best


def a_question(dice, bags: int, walkers: int, *, limited: bool) -> Sharing:
    kg_days = np.array([dice.randint(1, 40) / 10.0 for _ in range(bags)])
    weight = np.array([dice.randint(8, 14) / 10.0 for _ in range(walkers)])
    own = np.array([dice.choice([NOBODY, NOBODY, NOBODY, dice.randrange(walkers)])
                    for _ in range(bags)], np.int64)  # fmt: skip
    energy = np.array([dice.randint(1, 9) for _ in range(bags)], float)
    limits = ((energy, np.full(walkers, 0.75 * energy.sum())),) if limited else ()
    already = np.array([dice.randint(0, 10) / 10.0 for _ in range(walkers)])
    return Sharing(kg_days=kg_days, fair=weight / weight.sum(), already=already, own=own,
                   limits=limits)  # fmt: skip


def by_trying_all(problem: Problem, work: Work) -> Answer:
    """An engine that tries every 0/1 vector of a sharing problem; only for tiny ones."""
    carry = [i for i, name in enumerate(problem.columns) if name.startswith("carry/")]
    walkers = len({name.rsplit("/", 1)[1] for name in problem.columns if name.startswith("carry/")})
    best, best_x = np.inf, None
    for choice in itertools.product(range(walkers), repeat=len(carry) // walkers):
        x = np.zeros(len(problem.columns))
        for bag_number, walker in enumerate(choice):
            x[bag_number * walkers + walker] = 1.0
        rows = [r for r, name in enumerate(problem.rows) if name.startswith("fair/")]
        sums = [float((problem.value[problem.start[r] : problem.start[r + 1] - 1]
                       * x[problem.index[problem.start[r] : problem.start[r + 1] - 1]]).sum())
                - problem.row_high[r] for r in rows]  # fmt: skip
        x[-1] = max(0.0, *sums)
        if worst_breach(problem, x) <= 1e-9 and x[-1] < best:
            best, best_x = x[-1], x
    if best_x is None:
        return Answer(status="infeasible", x=None, aim=np.inf, bound=np.inf)
    return Answer(status="optimal", x=best_x, aim=best, bound=best)


@settings(max_examples=examples(60))
@given(st.integers(1, 6), st.integers(1, 3), st.booleans(), st.randoms(use_true_random=False))
def test_the_problem_given_to_an_engine_has_the_best_sharing_as_its_answer(
    bags: int, walkers: int, limited: bool, dice
) -> None:
    ask = a_question(dice, bags, walkers, limited=limited)
    best = best_excess(ask)
    answer = exact(ask, by_trying_all, Work())
    if np.isfinite(best):
        assert answer.breach == 0.0
        assert max(0.0, answer.excess) == pytest.approx(max(0.0, best), abs=1e-6)
        assert answer.bound <= max(0.0, best) + 1e-9 or answer.bound <= answer.excess
    else:
        assert answer.breach > 0.0


@settings(max_examples=examples(80))
@given(st.integers(3, 7), st.integers(2, 3), st.randoms(use_true_random=False))
def test_the_everyday_sharing_is_never_better_than_the_best_and_its_bound_holds(
    bags: int, walkers: int, dice
) -> None:
    ask = a_question(dice, bags, walkers, limited=False)
    quick, best = spread(ask), best_excess(ask)
    assert quick.bound - 1e-9 <= best <= quick.excess + 1e-9


# ---- repacking

Amounts = tuple[int, ...]
State = tuple[tuple[tuple[str, int], Amounts], ...]
"""For each bag at hand its label (kind and day; ("", 0) for none) and amounts by food."""


def fewest_steps(old: list[Bag], new: list[Bag], foods: list[str]) -> int:
    """The least number of operations, by breadth-first search over everything hands could do:
    set the amount of one food in one bag, empty a bag, write a label. A label is only right if it
    was written after the last change of what is in the bag."""
    levels = sorted({0, *(round(g) for b in (*old, *new) for g in contents(b).values())})
    size = len(old) + len(new)
    fresh = (("", 0), (0,) * len(foods))
    begin = tuple(sorted([state_of(b, foods) for b in old] + [fresh] * (size - len(old))))
    goal = sorted(state_of(b, foods) for b in new)
    seen = {begin}
    queue: deque[tuple[State, int]] = deque([(begin, 0)])
    headings = sorted({state_of(b, foods)[0] for b in new})
    while queue:
        state, steps = queue.popleft()
        if is_done(state, goal):
            return steps
        for after in moves(state, levels, headings):
            if after not in seen:
                seen.add(after)
                queue.append((after, steps + 1))
    raise AssertionError("no way found")


def is_done(state: State, goal: list) -> bool:
    """All new bags are there, rightly labelled, and every other bag is empty."""
    return sorted(s for s in state if any(s[1])) == goal


def state_of(b: Bag, foods: list[str]) -> tuple[tuple[str, int], Amounts]:
    held: Mapping[str, float] = contents(b)
    label, _, day = heading(b)
    return (label, day), tuple(round(held.get(f, 0.0)) for f in foods)


def moves(state: State, levels: list[int], headings: list[tuple[str, int]]) -> list[State]:
    out = []
    for i, (label, amounts) in enumerate(state):
        changed = [tuple(v if k == j else a for k, a in enumerate(amounts))
                   for j in range(len(amounts)) for v in levels if v != amounts[j]]  # fmt: skip
        if any(amounts):
            changed.append((0,) * len(amounts))
        ways = [(("", 0), c) for c in changed] + [(h, amounts) for h in headings if h != label]
        out += [tuple(sorted((*state[:i], way, *state[i + 1 :]))) for way in ways]
    return out


def a_packing(dice, bags: int, foods: list[str], prefix: str) -> list[Bag]:
    out = []
    for n in range(bags):
        held = {f: float(dice.choice([0, 50, 90])) for f in foods}
        held = {f: g for f, g in held.items() if g} or {foods[0]: 50.0}
        out.append(bag(f"{prefix}{n}", held, day=dice.choice([1, 2])))
    return out


@pytest.mark.slow
@settings(max_examples=examples(40))
@given(st.integers(0, 2), st.integers(0, 2), st.integers(1, 2), st.randoms(use_true_random=False))
def test_the_list_of_bag_operations_is_the_shortest_there_is(
    before: int, after: int, kinds: int, dice
) -> None:
    foods = ["oats", "cheese", "sauce"][:kinds]
    old, new = a_packing(dice, before, foods, "o"), a_packing(dice, after, foods, "n")
    assert len(repack(old, new).steps) == fewest_steps(old, new, foods)


@pytest.mark.slow
@settings(max_examples=5)
@given(st.randoms(use_true_random=False))
def test_the_list_is_the_shortest_with_three_bags_too(dice) -> None:
    foods = ["oats", "cheese"]
    old, new = a_packing(dice, 3, foods, "o"), a_packing(dice, 2, foods, "n")
    assert len(repack(old, new).steps) == fewest_steps(old, new, foods)


@settings(max_examples=examples(60))
@given(st.integers(0, 3), st.integers(0, 3), st.randoms(use_true_random=False))
def test_pairing_unchanged_bags_first_loses_nothing(before: int, after: int, dice) -> None:
    """Against every pairing of old and new bags."""
    from oatsack.packing.repack import steps_between

    foods = ["oats", "cheese", "sauce"]
    old, new = a_packing(dice, before, foods, "o"), a_packing(dice, after, foods, "n")
    size = before + after
    a = [*old, *[None] * after]
    b = [*new, *[None] * before]
    best = min(
        sum(len(steps_between(a[i], b[p[i]])) for i in range(size) if a[i] or b[p[i]])
        for p in itertools.permutations(range(size))
    )
    assert len(repack(old, new).steps) == best
