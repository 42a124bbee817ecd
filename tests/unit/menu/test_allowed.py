"""The gates: what may stand at a meal at all, and what bends and what never does."""

from __future__ import annotations

from dataclasses import replace

from oatsack.menu.allowed import NEVER_BENT, Gate, reason_against, unsafe
from oatsack.values.classes import high_of
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


def test_every_border_of_the_gates_is_where_it_is_said_to_be() -> None:
    """At the border and just beyond it, one gate at a time; our choices and common practice."""
    melts = replace(BAR, keep=keeps(melts=True))
    keeping = replace(BAR, keep=keeps(warm_days=2.0))
    coffee = food("coffee", role="drink", meals="drinks", prep=boiled(), dose_g=2.0, kcal=0.0)
    soaks = food("couscous", meals="lunch", prep=boiled(cold_soak_min=5.0))

    def warm(*celsius: float) -> MenuRequest:
        return request([BAR], count=3, temperatures_c=dict(enumerate(celsius, 1)))

    def young(age: float) -> MenuRequest:
        return request([coffee], [walker(age_years=age)])

    def strong(mg: float) -> object:
        return replace(coffee, per_100g=replace(coffee.per_100g, caffeine_mg=mg * 50.0))

    def soaked(minutes: float) -> object:
        return replace(soaks, prep=boiled(cold_soak_min=minutes))

    found = {
        "chocolate at 25.9": why(melts, warm(25.9)),
        "chocolate at 26.0": why(melts, warm(26.0)),
        "chocolate after the heat": why(melts, warm(20.0, 30.0, 12.0), day=3),
        "chocolate before it": why(melts, warm(20.0, 30.0, 12.0), day=1),
        "two days of warmth at 25.0": why(keeping, warm(25.0, 25.0), day=2),
        "two days above, kept half as long": why(keeping, warm(25.1, 25.0), day=2),
        "one day above": why(keeping, warm(25.1), day=1),
        "coffee at 15.9 years": why(strong(20.0), young(15.9), "drinks"),
        "coffee at 16": why(strong(20.0), young(16.0), "drinks"),
        "weak tea at 12": why(strong(19.9), young(12.0), "drinks"),
        "five minutes cold at noon": why(soaked(5.0), request([soaks]), "lunch"),
        "six": why(soaked(6.0), request([soaks]), "lunch"),
    }  # fmt: skip
    assert found == {
        "chocolate at 25.9": None, "chocolate at 26.0": "melts",
        "chocolate after the heat": "melts", "chocolate before it": None,
        "two days of warmth at 25.0": None, "two days above, kept half as long": "spoils",
        "one day above": None, "coffee at 15.9 years": "coffee", "coffee at 16": None,
        "weak tea at 12": None, "five minutes cold at noon": None, "six": "flame",
    }  # fmt: skip


def test_caffeine_that_no_label_states_counts_as_high_for_a_child_and_for_nobody_else() -> None:
    """C2: against a ceiling a blank is the high value of its class. Of a drink in general 240 mg
    in 100 g, so that 8 g may hold 19 and 9 g may hold 22."""
    blank = food("cup", role="drink", meals="drinks", category="drink", prep=boiled(),
                 caffeine_mg=None)  # fmt: skip
    child, grown = (request([blank], [walker(age_years=age)]) for age in (9.0, 30.0))
    assert high_of(blank, "caffeine_mg") == 240.0
    assert why(replace(blank, dose_g=8.0), child, "drinks") is None
    assert why(replace(blank, dose_g=9.0), child, "drinks") == "coffee"
    assert why(replace(blank, dose_g=9.0), grown, "drinks") is None


def test_what_is_repacked_is_asked_of_the_party_and_what_is_cooked_of_the_pot() -> None:
    """Ben's allergy of the pot: Anna's own stew only where they share one, her loose nuts ever."""
    nut = {**FREE, "peanut": "contains"}
    cooked = food("stew", role="main", meals="dinner", prep=boiled(), allergens=nut)
    loose = replace(BAR, id="loose", allergens=nut, carry="repack")
    ben = walker("ben", avoids=(Avoid(allergen="peanut", scope="pot"),))
    asked = request([cooked, loose], [walker("anna"), ben])
    both = frozenset({"anna", "ben"})
    apart = {"anna": frozenset({"anna"}), "ben": frozenset({"ben"})}
    for mates, stew in (({"anna": both, "ben": both}, "allergen-pot"), (apart, None)):
        one = replace(gate(asked), mates=mates)
        assert reason_against(one, cooked, slot_of(asked, "dinner")) == stew
        assert reason_against(one, loose, slot_of(asked, "move")) == "allergen-pot"


def test_drinks_and_toppings_on_the_way() -> None:
    squash = food("squash", role="drink", meals="move drinks", category="drink")
    tea = food("tea", role="drink", meals="move drinks", category="drink", prep=boiled())
    soaked = food("oats", meals="breakfast", prep=Prep(kind="soak", cold_soak_min=30.0))
    found = {
        "squash on the move": why(squash, request([squash])),
        "squash among the hot drinks": why(squash, request([squash]), "drinks"),
        "squash at noon": why(replace(squash, meals=frozenset({"lunch"})), request([squash]),
                              "lunch"),
        "tea on the move": why(tea, request([tea])),
        "tea at the camp": why(tea, request([tea]), "drinks"),
        "what only soaks, though there is a flame": why(soaked, request([soaked]), "breakfast"),
        "and half an hour at a hot noon": why(
            replace(soaked, meals=frozenset({"lunch"})),
            request([soaked], rules=Rules(cook_midday=True)), "lunch"),
    } | {
        category: why(food(category, role="topping", category=category), request([BAR]))
        for category in ("protein", "dairy", "fat")
    }  # fmt: skip
    assert found == {
        "squash on the move": None, "squash among the hot drinks": "meal",
        "squash at noon": "meal", "tea on the move": "meal", "tea at the camp": None,
        "what only soaks, though there is a flame": None,
        "and half an hour at a hot noon": "flame",
        "protein": None, "dairy": None, "fat": "meal",
    }  # fmt: skip


def test_who_eats_fish_eats_what_has_no_meat() -> None:
    for diet in ("vegan", "vegetarian", "fish"):
        item = replace(BAR, diet=diet)  # type: ignore[arg-type]
        assert why(item, request([item], [walker(eats="fish")])) is None, diet
