"""Laws of packing over random menus: nothing is lost, nothing is invented."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.packing.repack import contents, repack
from oatsack.packing.sacks import at_waking_g
from oatsack.packing.share import NOBODY, Sharing, spread
from oatsack.values.food import Stock
from oatsack.values.kit import Container, Kit
from oatsack.values.menu import Menu, Pool, Portion
from oatsack.values.pack import Packed
from oatsack.values.trip import Rules
from oatsack.values.walker import Walker
from support.amount import examples
from support.packs import BEGIN, LARDER, eat, grams_of_menu, packed, people

WALKERS = ("a", "b", "c", "d", "e")
MEALS = ("breakfast", "lunch", "move", "dinner", "drinks")
PLAIN = tuple(f for f in LARDER if LARDER[f].carry != "bag")


@st.composite
def portions(draw: st.DrawFn, walkers: tuple[str, ...], days: int) -> Portion:
    return eat(
        draw(st.sampled_from(walkers)), draw(st.integers(1, days)), draw(st.sampled_from(MEALS)),
        draw(st.sampled_from(PLAIN)), float(draw(st.integers(1, 6))),
    )  # fmt: skip


@st.composite
def trips(draw: st.DrawFn) -> tuple[tuple[Walker, ...], int, Menu, Rules]:
    party = people(draw(st.integers(1, 5)))
    days = draw(st.integers(1, 6))
    ids = tuple(w.id for w in party)
    eaten = draw(st.lists(portions(ids, days), min_size=1, max_size=30))
    pools = []
    for w in ids:
        if draw(st.booleans()):
            packs = draw(st.integers(1, 2))
            pools.append(Pool(
                walker=w, food="nuts", packs=float(packs), open_day=1, last_day=days,
                by_day_g=dict.fromkeys(range(1, days + 1), packs * 200.0 / days),
            ))  # fmt: skip
    spare = tuple(eat(w, 0, "move", "bar", float(draw(st.integers(0, 3)))) for w in ids)
    menu = Menu(portions=tuple(eaten), pools=tuple(pools),
                spare=tuple(p for p in spare if p.doses > 0))  # fmt: skip
    return party, days, menu, Rules(bags=draw(st.sampled_from(["meal", "day", "group"])))


@given(trips())
def test_total_mass_is_the_sum_of_sacks_is_the_sum_of_bags(trip) -> None:
    party, days, menu, rules = trip
    plan = packed(party, days, menu=menu, rules=rules)
    gross = sum(b.gross_g for b in plan.bags)
    assert sum(s.start_g for s in plan.sacks) == pytest.approx(gross)
    assert sum(b.net_g for b in plan.bags) == pytest.approx(grams_of_menu(menu, LARDER))
    assert sum(i.net_g for b in plan.bags for i in b.items) == pytest.approx(gross - sum(
        b.wrap_g for b in plan.bags))  # fmt: skip


@given(trips())
def test_food_in_is_food_eaten_left_and_spare(trip) -> None:
    party, days, menu, rules = trip
    plan = packed(party, days, menu=menu, rules=rules)
    items = [i for b in plan.bags for i in b.items]
    eaten = sum(i.net_g for i in items if i.day > 0)
    spare = sum(i.net_g for i in items if i.meal == "spare")
    open_left = sum(i.net_g for i in items if i.meal == "left")
    bought = sum(r.packs * r.pack_g + r.from_home_g for r in plan.buy)
    at_home = sum(r.left_g for r in plan.buy)
    assert bought == pytest.approx(eaten + spare + open_left + at_home)


@given(trips())
def test_what_leaves_a_sack_in_a_day_is_what_was_eaten_from_it(trip) -> None:
    party, days, menu, rules = trip
    plan = packed(party, days, menu=menu, rules=rules)
    bags = {b.id: b for b in plan.bags}
    for sack in plan.sacks:
        for day in range(1, days):
            fell = sack.by_day_g[str(day)] - sack.by_day_g[str(day + 1)]
            eaten = sum(i.net_g for b in sack.bags for i in bags[b].items if i.day == day)
            assert fell == pytest.approx(eaten, abs=1e-6)


@given(trips())
def test_after_the_last_meal_a_sack_holds_wrappers_spare_and_what_was_left(trip) -> None:
    party, days, menu, rules = trip
    plan = packed(party, days, menu=menu, rules=rules)
    for b in plan.bags:
        kept = sum(i.net_g for i in b.items if i.day <= 0)
        assert at_waking_g(b, days + 1) == pytest.approx(b.wrap_g + kept)


@given(trips())
def test_nobody_finds_in_their_own_bag_what_only_others_eat(trip) -> None:
    party, days, menu, rules = trip
    plan = packed(party, days, menu=menu, rules=rules)
    ids = {w.id for w in party}
    for b in plan.bags:
        if b.group in ids:
            assert {i.walker for i in b.items} == {b.group}
        if b.label in ("breakfast", "lunch", "dinner") and not b.sealed:
            by_food = {}
            for i in b.items:
                by_food.setdefault((i.food, i.day, i.meal), set()).add(i.walker)
            assert len(set(map(frozenset, by_food.values()))) == 1


@given(trips())
def test_merged_allergens_are_never_milder_than_any_food_in_the_bag(trip) -> None:
    party, days, menu, rules = trip
    states = ["contains", "unknown", "may", "free"]
    odd = {"oats": "may", "cheese": "contains", "sauce": "unknown"}
    foods = {
        f: replace(row, allergens={**row.allergens, "milk": odd[f]}) if odd.get(f) in
        ("may", "contains") else (replace(row, allergens={}) if f in odd else row)
        for f, row in LARDER.items()
    }  # fmt: skip
    plan = packed(party, days, menu=menu, rules=rules, foods=foods)
    for b in plan.bags:
        worst = min(states.index(foods[i.food].state("milk")) for i in b.items)
        assert states.index(b.allergens.get("milk", "unknown")) <= worst


@given(trips(), st.integers(0, 8), st.integers(0, 7))
def test_stock_only_ever_lowers_what_is_bought(trip, packs: int, day: int) -> None:
    party, days, menu, rules = trip
    best = BEGIN + dt.timedelta(days=day)
    stocked = {f: replace(r, stock=Stock(packs=float(packs), best_before=best))
               for f, r in LARDER.items()}  # fmt: skip
    without = {r.food: r.packs for r in packed(party, days, menu=menu, rules=rules).buy}
    for row in packed(party, days, menu=menu, rules=rules, foods=stocked).buy:
        assert row.packs <= without[row.food]
        assert row.from_home_g <= packs * row.pack_g + 1e-6
        assert row.from_home_g + row.packs * row.pack_g >= row.need_g - 1e-6


@given(trips())
def test_a_larger_container_never_closes_worse(trip) -> None:
    party, days, menu, rules = trip
    verdicts = ["closes", "likely", "unlikely", "no"]
    before: Packed | None = None
    for room in (2_000.0, 6_000.0, 12_000.0):
        kit = Kit(containers=(Container(volume_ml=room),))
        plan = packed(party, days, menu=menu, rules=rules, kit=kit)
        for old, new in zip(before.nights if before else (), plan.nights, strict=False):
            assert verdicts.index(new.verdict) <= verdicts.index(old.verdict)
            assert (new.chance or 0.0) >= (old.chance or 0.0) - 1e-12
        before = plan


@settings(max_examples=examples(50))
@given(trips(), trips())
def test_repacking_ends_with_what_is_planned(one, two) -> None:
    _, _, menu_a, _ = one
    party, days, menu_b, rules = two
    try:
        old = packed(people(5), 6, menu=menu_a, rules=rules).bags
    except ValueError:
        return
    new = packed(party, days, menu=menu_b, rules=rules).bags
    done = repack(old, new)
    untouched = set(done.kept)
    assert untouched | {s.becomes for s in done.steps if s.becomes} == {b.id for b in new}
    worst = sum(len(contents(b)) + 1 for b in new) + len(old)
    assert len(done.steps) <= worst


@settings(max_examples=examples(60))
@given(st.integers(1, 60), st.integers(1, 8), st.integers(0, 10_000))
def test_sharing_is_complete_and_within_the_largest_bag_of_fair(
    bags: int, walkers: int, seed: int
) -> None:
    rng = np.random.default_rng(seed)
    ask = Sharing(
        kg_days=rng.uniform(0.05, 2.0, bags), fair=np.full(walkers, 1.0 / walkers),
        already=np.zeros(walkers), own=np.full(bags, NOBODY, np.int64),
    )  # fmt: skip
    answer = spread(ask)
    assert len(answer.carrier) == bags
    assert set(answer.carrier) <= set(range(walkers))
    assert answer.excess <= float(ask.kg_days.max()) + 1e-9
    assert answer.bound <= answer.excess + 1e-9
