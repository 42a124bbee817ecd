"""The rows of each rule as text, frozen: they guard against change and prove nothing by themselves.

To accept a change on purpose, delete the file under tests/snapshots/menu and run again: a missing
file is written and the test fails once.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from oatsack.menu.aims import AIMS
from oatsack.menu.problem import build, text_of
from oatsack.menu.rules import RULES
from oatsack.values.food import Stock
from oatsack.values.kit import Kit, Pot
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Rules
from support.menus import boiled, food, request, walker

SNAPSHOTS = Path(__file__).resolve().parents[2] / "snapshots" / "menu"
STEW = food("stew", role="main", meals="dinner", category="grain", dose_g=30, taste="salty",
            prep=boiled(needs_pot=True))  # fmt: skip
CURRY = food("curry", role="main", meals="dinner", category="meal", dose_g=120, prep=boiled())
CHEESE = food("cheese", role="topping", meals="dinner lunch", category="dairy", dose_g=20,
              taste="salty")  # fmt: skip
OIL = food("oil", role="topping", meals="dinner", category="fat", dose_g=10, kcal=880, fat_g=100)
BREAD = food("bread", role="side", meals="lunch", category="bread", dose_g=50)
OATS = food("oats", role="main", meals="breakfast", category="breakfast", dose_g=80)
BAR = food("bar", meals="lunch move", dose_g=60, stock=Stock(packs=1.0))
NUTS = food("nuts", meals="move", category="nut", carry="bag", kcal=600, dose_g=30, doses=3)
RAISINS = food("raisins", meals="breakfast move", category="fruit", dose_g=30, taste="sweet")
MUESLI = food("muesli", role="main", meals="breakfast", category="breakfast", dose_g=60,
              carry="repack")  # fmt: skip
TEA = food("tea", role="drink", meals="drinks", category="drink", dose_g=2, kcal=0, prep=boiled())
LARDER = (STEW, CURRY, CHEESE, OIL, BREAD, OATS, MUESLI, BAR, NUTS, RAISINS, TEA)


def asked() -> MenuRequest:
    """Two walkers, two days, every rule with something to say."""
    party = [walker(caffeine_mg_day=100.0), walker("ben", 80.0)]
    rules = Rules(budget=90.0, minutes={"dinner": 30.0})
    one = request(LARDER, party, count=2, rules=rules, container_ml=4000.0)
    cooked = [f for f in LARDER if f.prep.kind != "none"]
    price = DosePrice(water_ml=200.0, boiled_ml=200.0, flame_min=2.0, wait_min=5.0, pot_ml=250.0)
    prices = {(f.id, day): price for f in cooked for day in (1, 2)}
    few = {"items.move": 1.0, "items.lunch": 2.0}
    hours = {w.id: {1: 5.0, 2: 6.0} for w in party}
    return replace(one, prices=prices, kit=Kit(pots=(Pot(volume_ml=1000.0),)), settings=few,
                   walking_h=hours)  # fmt: skip


@pytest.mark.parametrize("name", [rule.name for rule in RULES])
def test_the_rows_of_a_rule_stand_as_they_were_seen(name: str) -> None:
    _, problem = build(asked())
    text = text_of(problem, only=f"{name}/") + "\n"
    path = SNAPSHOTS / f"{name}.txt"
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        pytest.fail(f"{path.name} was missing and has been written: look at it")
    assert text == path.read_text(encoding="utf-8")


def test_every_rule_writes_rows_here_so_that_no_snapshot_is_empty() -> None:
    _, problem = build(asked())
    rules = {row.split("/")[0] for row in problem.rows}
    assert rules == {rule.name for rule in RULES}


def test_rows_and_columns_have_names_of_their_own() -> None:
    _, problem = build(asked())
    assert len(set(problem.rows)) == len(problem.rows)
    assert len(set(problem.columns)) == len(problem.columns)


def test_every_setting_has_a_unit_a_default_and_a_help() -> None:
    for rule in RULES:
        assert rule.help.endswith(".")
        assert rule.holds_back == f"rule.{rule.name}.holds-back"
        assert rule.by_how_much == f"rule.{rule.name}.by-how-much"
        for setting in rule.settings:
            assert setting.help
            assert setting.default > 0


def test_every_rule_says_its_two_sentences() -> None:
    words = pytest.importorskip("oatsack.reports.words")
    keys = words.sentences()
    missing = [k for r in RULES for k in (r.holds_back, r.by_how_much) if k not in keys]
    assert missing == []


def test_a_setting_can_be_turned_by_its_full_name() -> None:
    one = asked()
    before = text_of(build(one)[1], only="protein/anna")
    after = text_of(build(replace(one, settings={"protein.g_per_kg": 2.2}))[1], only="protein/anna")
    assert before != after
    low_before, low_after = (float(t.split(": ")[1].split(" <=")[0]) for t in (before, after))
    assert low_after == pytest.approx(2 * low_before, rel=1e-4)


def test_aims_have_names_units_and_a_price_in_grams() -> None:
    assert len({aim.name for aim in AIMS}) == len(AIMS) == 8
    for aim in AIMS:
        assert aim.unit
        assert aim.grams > 0
        assert aim.help.endswith(".")


@pytest.mark.parametrize("name", ["mass", "rubbish", "left-over", "minutes", "steps"])
def test_an_aim_that_is_turned_up_prices_something(name: str) -> None:
    one = asked()
    base = build(replace(one, settings={f"aim.{name}": 0.0}))[1].cost
    more = build(replace(one, settings={f"aim.{name}": 3.0}))[1].cost
    assert (more != base).any()


def test_kg_days_price_mass_with_wrapping_times_days() -> None:
    rules = Rules(weight_liking=0.0, weight_price=0.0)
    one = request((BAR,), count=3, rules=rules, keep="lunch")
    _, problem = build(replace(one, settings={"aim.minutes": 0.0, "aim.steps": 0.0}))
    costs = [problem.cost[problem.columns.index(f"eat/anna/{d}/lunch/bar")] for d in (1, 2, 3)]
    assert costs == pytest.approx([61.0, 122.0, 183.0])
