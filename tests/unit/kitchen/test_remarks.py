"""What a person hears about the kitchen: when, how loud, and never twice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from oatsack.cite import cite
from oatsack.kitchen.fuels import stoves
from oatsack.kitchen.ledger import ledger
from oatsack.reports.words import say_flag, sentences
from oatsack.values.flags import Flag
from oatsack.values.food import Nutrients, Prep
from oatsack.values.kit import Kit, Pot, Stove
from oatsack.values.menu import Menu
from oatsack.values.route import Day
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid
from support.each import each
from support.kitchen import (
    FOODS,
    RICE,
    day,
    days,
    food,
    menu_of,
    portion,
    simple_menu,
    walker,
    walkers,
)


def heard(stretch: Sequence[Day] | None = None, kit: Kit | None = None, menu: Menu | None = None,
          foods=FOODS, count: int = 1, rules: Rules | None = None) -> dict[str, Flag]:  # fmt: skip
    people = walkers(count)
    stretch = days(3) if stretch is None else stretch
    told = ledger(
        menu if menu is not None else simple_menu(people, stretch), foods, stretch, people,
        kit or Kit(), rules or Rules(),
    ).flags  # fmt: skip
    assert len({(f.key, f.scope, str(f.values.get("food"))) for f in told}) == len(told)
    return {f.key.removeprefix("kitchen."): f for f in told}


def stove(kind: str) -> Kit:
    return Kit(stove=Stove(kind=kind, fuel=stoves()[kind].fuel))  # type: ignore[arg-type]


def test_gas_on_a_mild_walk_gives_notes_only() -> None:
    told = heard()
    assert {f.level for f in told.values()} == {"note"}
    assert {"fire-valve", "fumes", "no-flight", "water-filter", "to-thirst"} <= set(told)


@each("kind", sorted(stoves()))
def test_every_stove_says_whether_a_fire_ban_allows_it(kind: str) -> None:
    # common practice: bans usually still allow stoves that can be shut off
    told = heard(kit=stove(kind))
    open_flame = stoves()[kind].fire_rule == "open"
    assert ("fire-open" in told) == open_flame
    assert ("fire-valve" in told) != open_flame
    if open_flame:
        assert told["fire-open"].level == "caution"


@each("kind", sorted(stoves()))
def test_every_caution_of_a_stove_has_a_sentence(kind: str) -> None:
    for caution in stoves()[kind].cautions:
        assert f"flags.kitchen.stove-{caution}" in sentences()
        assert f"stove-{caution}" in heard(kit=stove(kind))


def test_nothing_lit_nothing_warned_of_flames() -> None:
    told = heard(kit=Kit(stove=None), menu=menu_of([portion("w00", 1, "dinner", "couscous")]))
    assert not {"fumes", "no-flight", "fire-valve", "fire-open", "cold-gas"} & set(told)


def test_gas_in_the_cold_is_one_quiet_line_for_the_worst_night() -> None:
    stretch = [day(1, cold_c=-7.0), day(2, cold_c=-9.0), day(3, cold_c=4.0, last=True)]
    told = heard(stretch)["cold-gas"]
    assert told.level == "quiet"
    assert (told.values["air_c"], told.values["day"], told.values["nights"]) == (-9.0, 2, 2)


def test_white_gas_does_not_mind_the_cold() -> None:
    stretch = days(3, cold_c=-9.0)
    assert "cold-gas" in heard(stretch)
    assert "cold-gas" not in heard(stretch, kit=stove("white-gas"))


def test_height_is_a_short_line_with_the_minutes() -> None:
    told = heard(days(3, height_m=3000.0))["altitude-wait"]
    assert told.values["boiling_c"] == pytest.approx(89.98, abs=0.01)
    assert told.values["longer_min"] == pytest.approx(5.0, abs=0.1)  # ten minutes, half the excess
    assert "altitude-wait" not in heard(days(3, height_m=1000.0))


def test_the_sentence_of_height_is_short() -> None:
    told = heard(days(3, height_m=3000.0))["altitude-wait"]
    assert say_flag(told) == "Water boils at 90 °C here: wait about 5 min longer."


def test_a_dish_that_simmers_on_spirit_is_said() -> None:
    people, stretch = walkers(1), days(2)
    rice = simple_menu(people, stretch, dinner="rice")
    assert "cannot-simmer" in heard(stretch, stove("spirit-open"), rice)
    assert "cannot-simmer" not in heard(stretch, stove("gas-open"), rice)
    assert "cannot-simmer" not in heard(stretch, stove("open-fire"), rice)


@each("how", ["filter", "chemical", "uv", "boil", "none"])
def test_every_treatment_says_what_it_does_not_do(how: str) -> None:
    told = heard(kit=Kit(treatment=how))  # type: ignore[arg-type]
    flag = told[f"water-{how}"]
    assert flag.level == ("caution" if how == "none" else "note")
    if how != "none":
        assert "chemicals" in say_flag(flag)


def test_boiling_names_its_minutes_by_height() -> None:
    low = heard(days(3, height_m=900.0), Kit(treatment="boil"))["water-boil"]
    high = heard(days(3, height_m=2600.0), Kit(treatment="boil"))["water-boil"]
    assert (low.values["minutes"], high.values["minutes"]) == (1.0, 3.0)
    assert "3 min" in say_flag(high)


def test_thirst_leads_and_the_caps_are_named() -> None:
    text = say_flag(heard()["to-thirst"])
    assert "drink to thirst" in text
    assert "1.4 l" in text and "11.4 l" in text


def test_heat_that_no_water_mends_is_a_caution() -> None:
    steep = [replace(s, grade_pct=22.0) for s in day(1).stretches]
    hot = [day(1, warm_c=35.0, stretches=tuple(steep)), day(2, last=True, warm_c=35.0)]
    assert heard(hot)["too-hot"].level == "caution"
    assert "too-hot" not in heard(days(2, warm_c=35.0))


def test_sweat_from_beyond_its_range_is_noted_once_per_quantity() -> None:
    told = [f for f in ledger(
        menu_of([]), FOODS, days(3, warm_c=8.0), walkers(2), Kit(), Rules()
    ).flags if f.key.startswith("kitchen.sweat-outside")]  # fmt: skip
    whats = [f.key.rsplit("-", 1)[-1] for f in told]
    assert "air_c" in whats
    assert len(whats) == len(set(whats))


def test_a_small_pot_for_many_is_said_once() -> None:
    people, stretch = walkers(6), days(3)
    told = heard(stretch, Kit(pots=(Pot(volume_ml=700.0),)), simple_menu(people, stretch), count=6)
    assert told["batches"].level == "quiet"
    assert told["batches"].values["batches"] >= 4


def test_a_warm_slow_soak_is_said() -> None:
    oats = menu_of([portion("w00", 2, "breakfast", "oats")])
    slow = replace(FOODS["oats"], prep=replace(FOODS["oats"].prep, cold_soak_min=300.0))
    foods = FOODS | {"oats": slow}
    rules = Rules(no_flame=True)
    assert "soak-warm" in heard(days(3), menu=oats, foods=foods, rules=rules)
    assert "soak-warm" not in heard(days(3, cold_c=3.0), menu=oats, foods=foods, rules=rules)
    assert "soak-warm" not in heard(days(3), menu=oats, foods=foods)


def test_a_hot_day_without_salt_is_said() -> None:
    bland = food("bland", per_100g=Nutrients(energy_kcal=400.0, sodium_mg=10.0))
    steep = [replace(s, grade_pct=10.0, terrain=1.5) for s in day(1).stretches]
    hot = [day(1, warm_c=35.0, stretches=tuple(steep)), day(2, last=True)]
    menu = menu_of([portion("w00", 1, "lunch", "bland")])
    told = heard(hot, menu=menu, foods=FOODS | {"bland": bland})
    assert told["salt"].level == "quiet"
    assert told["salt"].values["low_mg"] > 1500.0


def test_snow_that_was_guessed_is_said_and_snow_that_was_stated_is_not() -> None:
    frost = days(3, warm_c=-3.0)
    assert heard(frost)["snow-assumed"].values["days"] == 3
    assert "snow-assumed" not in heard([replace(d, snow=True) for d in frost])


def test_caffeine_reaches_the_ledger() -> None:
    people, stretch = walkers(1), days(4)
    told = heard(stretch, menu=simple_menu(people, stretch, coffees=8.0))
    assert told["caffeine-day"].values["limit_mg"] == 400.0


def test_a_powder_with_unknown_caffeine_makes_no_noise() -> None:
    plain = food("plain", role="drink", prep=Prep(kind="boil", water_ml=200.0))
    menu = menu_of([portion("w00", 1, "drinks", "plain", 20.0)])
    assert not {k for k in heard(menu=menu, foods=FOODS | {"plain": plain}) if "caffeine" in k}


def everything() -> list[Flag]:
    """As many different flags as one can get together."""
    found: dict[str, Flag] = {}
    people = [walker("w00", caffeine_mg_day=300.0)]
    for kind in stoves():
        for stretch in (days(3), days(3, warm_c=-4.0, cold_c=-12.0, height_m=3200.0),
                        days(3, warm_c=36.0, camp_dry=True)):  # fmt: skip
            for dinner in ("rice", "pouch", "couscous"):
                for no_flame in (False, True):
                    for flag in ledger(
                        simple_menu(people, stretch, dinner=dinner, coffees=0), FOODS, stretch,
                        people, stove(kind), Rules(no_flame=no_flame, minutes={"dinner": 3.0}),
                    ).flags:  # fmt: skip
                        found.setdefault(flag.key, flag)
    return list(found.values())


def test_every_remark_can_be_said_and_its_source_resolves() -> None:
    flags = everything()
    assert len(flags) >= 18
    for flag in flags:
        text = say_flag(flag)
        assert not text.startswith("kitchen."), flag
        assert "?" not in text and "None" not in text, text
        assert len(text) < 240
        if flag.source:
            assert cite(flag.source)


def test_hot_drinks_without_a_flame_are_one_quiet_line_and_block_nothing() -> None:
    stretch = days(3)
    told = heard(stretch, Kit(stove=None), simple_menu(walkers(1), stretch, dinner="couscous"))
    assert told["cold-drink"].level == "quiet"
    assert "needs-flame" not in told
    rice = heard(stretch, Kit(stove=None), simple_menu(walkers(1), stretch, dinner="rice"))
    assert rice["needs-flame"].level == "block"


MILKY = replace(RICE, id="milky", allergens={"milk": "contains"})
SURE = replace(RICE, id="sure", allergens={"milk": "free"})


def pot_told(dish: str, pots: tuple[Pot, ...], groups: list[list[str]] | None = None) -> list[Flag]:
    """What is said when w00, who keeps milk out of the pot, walks with w01, who eats a dish."""
    people = [walker("w00", avoids=(Avoid(allergen="milk", scope="pot"),)), walker("w01")]
    book = ledger(
        menu_of([portion("w01", 1, "dinner", dish)]), FOODS | {"milky": MILKY, "sure": SURE},
        days(2), people, Kit(pots=pots), Rules(), groups=groups,
    )  # fmt: skip
    return [f for f in book.flags if f.key == "kitchen.pot-allergen"]


def test_what_someone_keeps_out_of_the_pot_blocks_a_plan_that_cooks_it_there() -> None:
    red = Pot(name="red", walkers=("w00",))
    (flag,) = pot_told("milky", (Pot(),))
    assert (flag.level, flag.values["walker"], flag.values["food"]) == ("block", "w00", "milky")
    assert pot_told("sure", (Pot(),)) == []
    assert pot_told("milky", (Pot(), red)) == [], "a pot of their own"
    assert pot_told("milky", (Pot(), red), [["w00", "w01"]]), "but one dish is one dish"
    assert pot_told("rice", (Pot(),)), "unknown counts as contains (C10)"
