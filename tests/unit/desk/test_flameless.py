"""Swaps for a trip without a flame: from the larder, and only what each may eat in this party."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from oatsack.cli.main import run
from oatsack.desk.flameless import allowed_in, twins
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump
from oatsack.menu.allowed import suits_plate
from oatsack.values.food import Food, Prep
from oatsack.values.walker import Avoid, Walker
from support.kitchen import food
from support.plans import short_plan

FREE = {"peanut": "free", "milk": "free"}
ANNA = Walker(id="anna", name="Anna", mass_kg=60.0)
BEN = Walker(id="ben", name="Ben", mass_kg=80.0)


def snack(name: str, **rest: object) -> Food:
    return food(name, allergens={**FREE, **rest.pop("allergens", {})}, diet="vegan", **rest)  # type: ignore[dict-item, arg-type]


BAR = snack("bar")
NUTTY = snack("nutty", allergens={"peanut": "contains"}, carry="sealed")
NUTTY_BAG = snack("nutty-bag", allergens={"peanut": "contains"}, carry="repack")
NUTTY_SOAK = snack("nutty-soak", allergens={"peanut": "contains"}, carry="sealed",
                   prep=Prep(kind="soak", water_ml=100.0))  # fmt: skip
UNKNOWN = food("unknown", diet="vegan")


def lets(scope: str) -> dict[str, bool]:
    """What Ben may eat beside Anna, who keeps peanut away so far."""
    anna = replace(ANNA, avoids=(Avoid(allergen="peanut", scope=scope),))  # type: ignore[arg-type]
    allowed = allowed_in([anna, BEN])
    return {f.id: allowed("ben", f) for f in (BAR, NUTTY, NUTTY_BAG, NUTTY_SOAK, UNKNOWN)}


def test_how_far_an_allergen_stays_away_decides_what_others_may_swap_in() -> None:
    every = {"bar": True, "nutty": True, "nutty-bag": True, "nutty-soak": True, "unknown": True}
    assert lets("plate") == every
    assert lets("pot") == every | {"nutty-bag": False, "nutty-soak": False, "unknown": False}
    assert lets("party") == {name: name == "bar" for name in every}


def test_nobody_is_swapped_what_their_own_plate_forbids() -> None:
    anna = replace(ANNA, eats="vegan", avoids=(Avoid(allergen="peanut"),))
    allowed = allowed_in([anna])
    meat = replace(BAR, id="meat", diet="meat")
    assert [allowed("anna", f) for f in (BAR, NUTTY, meat, UNKNOWN)] == [True, False, False, False]


@pytest.mark.slow
def test_every_swap_of_a_real_plan_is_cold_and_suits_its_eater() -> None:
    plan, larder = short_plan(), {f.id: f for f in bundled()}
    found = twins(plan, larder.values())
    assert len(found) == len(plan.menu.portions)
    people = {w.id: w for w in plan.trip.walkers}
    swaps = [(t.walker, larder[t.swap.food]) for t in found if t.swap is not None]
    assert swaps
    wrong = [
        (walker, f.id) for walker, f in swaps
        if not suits_plate(people[walker], f) or (f.prep.kind in ("boil", "simmer")
        and f.prep.cold_soak_min is None)
    ]  # fmt: skip
    assert wrong == []


@pytest.fixture
def plan_file(tmp_path: Path) -> Path:
    path = tmp_path / "plan.json"
    path.write_bytes(dump(short_plan()))
    return path


def test_the_verb_shows_ledger_twin_and_kit(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    heads = {(): "Camp by camp", ("--no-flame",): "Soak in cold water", ("--kit",): "How full"}
    for words, head in heads.items():
        assert run(["kitchen", str(plan_file), *words]) == 0
        assert head in capsys.readouterr().out


def test_both_options_of_the_verb_show_both_and_neither_is_passed_over(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for words in (["--kit", "--no-flame"], ["--no-flame", "--kit"]):
        assert run(["kitchen", str(plan_file), *words]) == 0
        shown = capsys.readouterr().out
        assert "Soak in cold water" in shown
        assert "How full" in shown
        assert "Camp by camp" not in shown
