"""What a walker picked is taken as given: rotated, laid out, counted, and never swapped."""

from __future__ import annotations

import datetime as dt

from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.menu.usual import lay_out
from oatsack.solve.highs import solve
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Avoid, Choice, Count, Pick, Usual
from support.each import each
from support.menu_checker import faults_of
from support.menus import FREE, START, boiled, food, request, walker

OATS = food("oats", role="main", meals="breakfast", category="breakfast", dose_g=80, prep=boiled())
MUESLI = food("muesli", role="main", meals="breakfast", category="breakfast", dose_g=90)
STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=120, prep=boiled())
RICE = food("rice-meal", role="main", meals="dinner", category="meal", dose_g=120, prep=boiled())
BAR = food("bar", meals="move lunch", dose_g=60, every_day_fine=True)
CHIPS = food("chips", meals="move lunch", dose_g=50, taste="salty", every_day_fine=True)
NUTS = food("nuts", meals="move", category="nut", carry="bag", kcal=600, dose_g=30, doses=6)
COFFEE = food("coffee", role="drink", meals="drinks", category="drink", dose_g=3, kcal=10,
              prep=boiled(0.0), caffeine_mg=2000.0, fat_g=0.0)  # fmt: skip
SUGAR = food("sugar", role="small", meals="drinks", category="small", dose_g=4, kcal=400,
             fat_g=0.0)  # fmt: skip
TABLET = food("tablet", role="small", meals="move", category="small", dose_g=4, kcal=0)
LARDER = (OATS, MUESLI, STEW, RICE, BAR, CHIPS, NUTS, COFFEE, SUGAR, TABLET)


def pick(*names: str) -> Choice:
    return Choice(picks=tuple(Pick(food=n) for n in names))


def eaten(menu, meal: str) -> dict[int, list[tuple[str, float, str]]]:  # type: ignore[no-untyped-def]
    out: dict[int, list[tuple[str, float, str]]] = {}
    for p in menu.portions:
        if p.meal == meal:
            out.setdefault(p.day, []).append((p.food, p.doses, p.why))
    return out


def chosen(usual: Usual, count: int = 4, **more):  # type: ignore[no-untyped-def]
    asked = request(LARDER, [walker(usual=usual)], count=count, **more)
    menu = choose(asked, solve)
    assert faults_of(asked, menu) == []
    return menu


def test_two_dinners_rotate_and_nothing_is_added_to_them() -> None:
    menu = chosen(Usual(meals={"dinner": (pick("stew"), pick("rice-meal"))}))
    got = eaten(menu, "dinner")
    assert [got[d] for d in (1, 2, 3, 4)] == [
        [("stew", 1.0, "usual")], [("rice-meal", 1.0, "usual")],
        [("stew", 1.0, "usual")], [("rice-meal", 1.0, "usual")],
    ]  # fmt: skip


def test_counts_of_a_pick_are_kept_to_the_half_dose() -> None:
    half = Choice(picks=(Pick(food="oats", count=1.5), Pick(food="muesli", count=0.5)))
    got = eaten(chosen(Usual(meals={"breakfast": (half,)})), "breakfast")
    assert got[2] == [("oats", 1.5, "usual"), ("muesli", 0.5, "usual")]


def test_a_bag_of_stated_packs_lasts_over_all_days() -> None:
    menu = chosen(Usual(bags=(Pick(food="nuts", count=2),)))
    mine = [p for p in menu.pools if p.food == "nuts"]
    first_two = sorted((p.open_day, p.last_day, p.packs) for p in mine)[:2]
    assert first_two[0][0] == 1
    assert sum(p.packs for p in mine) >= 2.0


@each(
    ("count", "packs", "expected"),
    [(4, 2, [((1, 2), 1.0), ((3, 4), 1.0)]), (4, 1, [((1, 2, 3, 4), 1.0)]),
     (3, 5, [((1,), 1.0), ((2,), 2.0), ((3,), 2.0)]), (2, 2, [((1,), 1.0), ((2,), 1.0)])],
)  # fmt: skip
def test_packs_are_laid_over_the_days(count: int, packs: float, expected: object) -> None:
    assert lay_out(list(range(1, count + 1)), packs) == expected


def test_laid_out_packs_are_whole_and_all_there() -> None:
    for n in range(1, 9):
        for packs in range(1, 12):
            pieces = lay_out(list(range(n)), packs)
            assert sum(each for _, each in pieces) == packs
            assert all(each == int(each) and each >= 1 for _, each in pieces)


def test_counts_go_by_day_mug_bottle_and_trip() -> None:
    usual = Usual(
        counts=(Count(food="coffee", count=2), Count(food="sugar", count=1, per="mug"),
                Count(food="tablet", count=1, per="bottle"))
    )  # fmt: skip
    menu = chosen(usual)
    drinks, move = eaten(menu, "drinks"), eaten(menu, "move")
    assert ("coffee", 2.0, "count") in drinks[1]
    assert ("sugar", 2.0, "count") in drinks[1]
    assert ("tablet", 2.0, "count") in move[1]


def test_counted_coffee_is_one_of_the_hot_drinks() -> None:
    menu = chosen(Usual(counts=(Count(food="coffee", count=2),)))
    assert all(len(found) == 1 for found in eaten(menu, "drinks").values())


def test_a_count_per_trip_stands_once() -> None:
    menu = chosen(Usual(counts=(Count(food="sugar", count=5, per="trip"),)))
    found = [p for p in menu.portions if p.food == "sugar"]
    assert [(p.doses, p.why) for p in found] == [(5.0, "count")]


def test_a_pick_that_meets_an_allergy_is_left_out_and_said() -> None:
    bad = food("nutty", role="main", meals="dinner", category="meal", dose_g=120,
               allergens={**FREE, "peanut": "contains"})  # fmt: skip
    person = walker(avoids=(Avoid(allergen="peanut"),),
                    usual=Usual(meals={"dinner": (pick("nutty"),)}))  # fmt: skip
    menu = choose(request((*LARDER, bad), [person], need=1900.0), solve)
    assert "nutty" not in {p.food for p in menu.portions}
    flag = next(f for f in menu.flags if f.key == "menu.pick-refused")
    assert (flag.level, flag.values["why"]) == ("caution", "allergen-plate")
    assert any(p.meal == "dinner" and p.why == "chosen" for p in menu.portions)


def test_a_pick_that_the_larder_lacks_is_said() -> None:
    person = walker(usual=Usual(meals={"lunch": (pick("gone"),)}))
    menu = choose(request(LARDER, [person], need=1900.0), solve)
    flags = [f for f in menu.flags if f.key == "menu.pick-refused"]
    assert [f.values["food"] for f in flags] == ["gone"]


def test_a_held_dinner_stands_on_its_day_and_only_there() -> None:
    hold = Hold(food="rice-meal", walker="anna", date=START, meal="dinner", count=1)
    asked = request(LARDER, count=2, rules=Rules(holds=(hold,)))
    got = eaten(choose(asked, solve), "dinner")
    assert ("rice-meal", 1.0, "held") in got[1]
    assert sum(1 for name, _, _ in got[1] if name in ("stew", "rice-meal")) == 1


def test_a_hold_outranks_the_usual_of_that_meal() -> None:
    hold = Hold(food="rice-meal", walker="anna", date=START, meal="dinner", count=1)
    person = walker(usual=Usual(meals={"dinner": (pick("stew"),)}))
    asked = request(LARDER, [person], count=2, rules=Rules(holds=(hold,)))
    got = eaten(choose(asked, solve), "dinner")
    assert [name for name, _, _ in got[1] if name in ("stew", "rice-meal")] == ["rice-meal"]
    assert [name for name, _, _ in got[2]] == ["stew"]


def test_a_hold_that_no_longer_applies_is_reported_not_dropped() -> None:
    lost = Hold(food="stew", date=START.replace(year=2030), count=1)
    gone = Hold(food="gone", count=1)
    nobody = Hold(food="rice-meal", walker="carl", count=1)
    menu = choose(request(LARDER, rules=Rules(holds=(lost, gone, nobody)), need=1900.0), solve)
    said = {(f.values["food"], f.values["why"]) for f in menu.flags if f.key == "menu.hold-lost"}
    assert said == {("stew", "no-day"), ("gone", "unknown"), ("rice-meal", "nobody")}
    assert not [p for p in menu.portions if p.why == "held"]


def test_picks_are_columns_with_fixed_bounds_in_the_one_matrix() -> None:
    asked = request(LARDER, [walker(usual=Usual(meals={"dinner": (pick("stew"),)}))])
    _, problem = build(asked)
    column = problem.columns.index("usual/anna/1/dinner/stew")
    assert problem.low[column] == problem.high[column] == 1.0


def test_favourites_only_leaves_nothing_red() -> None:
    """Larkmoor: favourites everywhere, the same lunch daily, a number of one's own."""
    usual = Usual(
        meals={"breakfast": (pick("oats"),), "lunch": (pick("bar", "chips"),),
               "dinner": (pick("stew"), pick("rice-meal"))},
        bags=(Pick(food="nuts", count=0),), counts=(Count(food="coffee", count=2),),
    )  # fmt: skip
    menu = chosen(usual, count=5, need=2600.0)
    assert [f for f in menu.flags if f.level in ("block", "caution")] == []


NOON = START + dt.timedelta(days=1)


def never(name: str, **where: object) -> Rules:
    return Rules(holds=(Hold(food=name, count=0.0, **where),))  # type: ignore[arg-type]


def test_a_pick_that_is_taken_out_of_one_dinner_is_replaced_there_and_stands_elsewhere() -> None:
    menu = chosen(Usual(meals={"dinner": (pick("stew"),)}),
                  rules=never("stew", date=NOON, meal="dinner"))  # fmt: skip
    got = eaten(menu, "dinner")
    assert [name for name, _, _ in got[2]] == ["rice-meal"], "the chooser fills the gap"
    assert got[2][0][2] == "chosen"
    assert got[1] == got[3] == [("stew", 1.0, "usual")]


def test_of_picks_that_go_together_only_what_is_taken_out_goes() -> None:
    both = pick("oats", "muesli")
    menu = chosen(Usual(meals={"breakfast": (both,)}),
                  rules=never("muesli", date=NOON, meal="breakfast"))  # fmt: skip
    got = eaten(menu, "breakfast")
    assert got[2] == [("oats", 1.0, "usual")], "nothing is added to it"
    assert [name for name, _, _ in got[3]] == ["oats", "muesli"]


def test_never_takes_a_bag_and_what_is_counted_away_too() -> None:
    figs = food("figs", meals="move", category="fruit", carry="bag", kcal=300, dose_g=30, doses=6)
    usual = Usual(bags=(Pick(food="figs", count=2),),
                  counts=(Count(food="coffee", count=2.0, per="day"),))  # fmt: skip

    def menu(rules: Rules):  # type: ignore[no-untyped-def]
        asked = request((*LARDER, figs), [walker(usual=usual)], count=4, rules=rules)
        found = choose(asked, solve)
        assert faults_of(asked, found) == []
        return found

    assert "figs" in {p.food for p in menu(Rules()).pools}
    assert "figs" not in {p.food for p in menu(never("figs")).pools}
    counted = eaten(menu(never("coffee", date=NOON)), "drinks")
    assert [day for day in (1, 2, 3, 4)
            if ("coffee", 2.0, "count") in counted.get(day, [])] == [1, 3, 4]  # fmt: skip
