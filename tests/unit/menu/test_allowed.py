"""The gates: what may stand at a meal at all, and what bends and what never does."""

from __future__ import annotations

from dataclasses import replace

from oatsack.menu.allowed import NEVER_BENT, Gate, reason_against, unsafe
from oatsack.values.food import Nutrients, Prep
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Avoid
from support.each import each
from support.menus import FREE, START, boiled, food, keeps, request, slot_of, walker

BAR = food("bar", meals="move lunch")


def gate(asked: MenuRequest) -> Gate:
    everyone = frozenset(w.id for w in asked.walkers)
    return Gate(
        request=asked, walkers={w.id: w for w in asked.walkers},
        mates=dict.fromkeys(everyone, everyone),
    )  # fmt: skip


def why(item, asked: MenuRequest, meal: str = "move", day: int = 1) -> str | None:  # type: ignore[no-untyped-def]
    return reason_against(gate(asked), item, slot_of(asked, meal, day))  # type: ignore[arg-type]


def test_a_plain_bar_may_stand_where_its_row_says() -> None:
    asked = request([BAR])
    assert why(BAR, asked) is None
    assert why(BAR, asked, "dinner") == "meal"


def test_a_food_without_energy_enters_no_menu() -> None:
    blank = replace(BAR, per_100g=Nutrients())
    assert why(blank, request([blank])) == "no-energy"


@each(
    ("eats", "diet", "fits"),
    [("vegan", "vegan", True), ("vegan", "vegetarian", False), ("vegetarian", "vegetarian", True),
     ("vegetarian", "fish", False), ("fish", "fish", True), ("fish", "meat", False),
     ("anything", "meat", True), ("anything", "check", True), ("vegetarian", "check", False)],
)  # fmt: skip
def test_diets(eats: str, diet: str, fits: bool) -> None:
    item = replace(BAR, diet=diet)
    assert (why(item, request([item], [walker(eats=eats)])) is None) == fits


@each(
    ("state", "traces", "fits"),
    [("contains", False, False), ("contains", True, False), ("may", False, False),
     ("may", True, True), ("free", False, True), ("unknown", False, False),
     ("unknown", True, False)],
)  # fmt: skip
def test_unknown_counts_as_contains_and_traces_are_the_walkers_word(
    state: str, traces: bool, fits: bool
) -> None:
    item = replace(BAR, allergens={**FREE, "milk": state})
    person = walker(avoids=(Avoid(allergen="milk", traces=traces),))
    assert (why(item, request([item], [person])) is None) == fits


def test_an_allergen_that_is_missing_is_unknown() -> None:
    item = replace(BAR, allergens={})
    assert why(item, request([item], [walker(avoids=(Avoid(allergen="soy"),))])) == "allergen-plate"


def test_the_scope_of_an_allergy_reaches_plate_pot_or_party() -> None:
    nut = {**FREE, "peanut": "contains"}
    sealed = replace(BAR, allergens=nut)
    loose = replace(BAR, id="loose", allergens=nut, carry="repack")
    cooked = food("stew", role="main", meals="dinner", prep=boiled(), allergens=nut)
    for scope, refused in (("plate", ()), ("pot", ("loose", "stew")),
                           ("party", ("bar", "loose", "stew"))):  # fmt: skip
        careful = walker("ben", avoids=(Avoid(allergen="peanut", scope=scope),))
        asked = request([sealed, loose, cooked], [walker(), careful])
        got = {i.id for i, m in ((sealed, "move"), (loose, "move"), (cooked, "dinner"))
               if why(i, asked, m) is not None}  # fmt: skip
        assert got == set(refused), scope


def test_no_flame_leaves_what_is_eaten_as_it_is_or_soaks() -> None:
    stew = food("stew", role="main", meals="dinner", prep=boiled())
    soak = food("soak", role="main", meals="dinner", prep=boiled(cold_soak_min=40.0))
    cold = food("cold", role="main", meals="dinner")
    asked = request([stew, soak, cold], rules=Rules(no_flame=True))
    assert [why(f, asked, "dinner") for f in (stew, soak, cold)] == ["flame", None, None]


def test_no_cooking_at_midday_and_no_time_for_a_long_soak() -> None:
    stew = food("stew", role="main", meals="lunch", prep=boiled())
    soak = food("soak", role="main", meals="lunch", prep=Prep(kind="soak", cold_soak_min=60.0))
    assert why(stew, request([stew]), "lunch") == "flame"
    assert why(soak, request([soak]), "lunch") == "flame"
    assert why(stew, request([stew], rules=Rules(cook_midday=True)), "lunch") is None


def test_chocolate_melts_from_the_first_hot_day_on() -> None:
    choc = replace(BAR, keep=keeps(melts=True))
    asked = request([choc], count=3, temperatures_c={1: 20.0, 2: 30.0, 3: 20.0})
    assert [why(choc, asked, day=d) for d in (1, 2, 3)] == [None, "melts", "melts"]


def test_what_spoils_is_eaten_in_time_and_sooner_when_it_is_warm() -> None:
    cheese = replace(BAR, keep=keeps(warm_days=4.0))
    cool = request([cheese], count=6, temperatures_c=dict.fromkeys(range(1, 7), 15.0))
    warm = request([cheese], count=6, temperatures_c=dict.fromkeys(range(1, 7), 28.0))
    assert [why(cheese, cool, day=d) for d in range(1, 7)] == [None] * 4 + ["spoils"] * 2
    assert [why(cheese, warm, day=d) for d in range(1, 7)] == [None] * 2 + ["spoils"] * 4


def test_what_is_repacked_stands_open_from_the_first_day() -> None:
    jam = replace(BAR, carry="repack", keep=keeps(opened_days=2.0))
    asked = request([jam], count=4)
    assert [why(jam, asked, day=d) for d in (1, 2, 3)] == [None, None, "opened"]


def test_bans_and_dislikes() -> None:
    ban = Hold(food="bar", date=START, count=0)
    asked = request([BAR], count=2, rules=Rules(holds=(ban,)))
    assert [why(BAR, asked, day=d) for d in (1, 2)] == ["banned", None]
    assert why(BAR, request([BAR], [walker(dislikes=frozenset({"snack"}))])) == "disliked"
    assert why(BAR, request([BAR], [walker(dislikes=frozenset({"bar"}))])) == "disliked"


def test_only_safety_stops_the_walkers_own_pick() -> None:
    item = replace(BAR, allergens={})
    asked = request([item], [walker(dislikes=frozenset({"bar"}))])
    assert unsafe(gate(asked), item, slot_of(asked, "dinner")) is None
    careful = request([item], [walker(avoids=(Avoid(allergen="egg"),))])
    assert unsafe(gate(careful), item, slot_of(careful, "move")) == "allergen-plate"
    assert {"diet", "allergen-plate", "allergen-pot", "allergen-party"} == NEVER_BENT
