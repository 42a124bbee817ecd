"""The panel over many default plans: seeded parties of every kind, size, length and hunger.

The everyday run takes a dozen and a half. ``OATSACK_PANEL=60 pytest`` this file for a larger one;
what it found stands in bench/README.md with its date.
"""

from __future__ import annotations

import os
from collections import Counter
from functools import cache

import pytest

from oatsack.menu.choose import choose
from oatsack.solve.highs import solve
from support.each import each
from support.menu_checker import faults_of as hard_faults
from support.parties import KINDS, SIZES, Party, party
from support.would_eat import PANEL, faults_of

HOW_MANY = int(os.environ.get("OATSACK_PANEL", "18"))
RARELY = frozenset({"nibbles_all_sweet", "sweet_lunch", "lunch_of_next_to_nothing",
                    "dinner_of_next_to_nothing", "one_sauce_every_evening"})  # fmt: skip
"""What is wished only, and what a search that ends early leaves here and there: in one plan of so
many at most. Everything else is in none."""
ONE_IN = 9

pytestmark = pytest.mark.slow


@cache
def seen(seed: int) -> tuple[Party, dict[str, list[str]], list[str]]:
    one = party(seed)
    menu = choose(one.request, solve)
    return one, faults_of(one.request, menu), hard_faults(one.request, menu)


def test_parties_are_of_every_kind_and_size() -> None:
    asked = [party(seed).request for seed in range(len(KINDS) * len(SIZES))]
    assert {len(one.walkers) for one in asked} == set(SIZES)
    assert {w.eats for one in asked for w in one.walkers} == {"anything", "vegetarian", "vegan"}
    avoided = {a.allergen for one in asked for w in one.walkers for a in w.avoids}
    assert avoided == {"gluten", "wheat", "tree_nut", "peanut", "milk"}
    assert len({max(s.day for s in one.slots) for one in asked}) > 4
    assert party(5) == party(5)


@each("seed", range(HOW_MANY))
def test_a_default_plan_is_one_that_a_walker_would_eat(seed: int) -> None:
    one, faults, _ = seen(seed)
    assert {name: f for name, f in faults.items() if name not in RARELY} == {}, one.title


def test_what_is_only_wished_is_missed_in_few_plans() -> None:
    plans = Counter(name for seed in range(HOW_MANY) for name in seen(seed)[1])
    assert {name: n for name, n in plans.items() if n > -(-HOW_MANY // ONE_IN)} == {}
    assert {check.__name__ for check in PANEL} >= RARELY


@each("seed", range(HOW_MANY))
def test_every_one_of_them_keeps_every_hard_rule(seed: int) -> None:
    one, _, faults = seen(seed)
    assert faults == [], one.title
