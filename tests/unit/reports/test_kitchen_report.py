"""The kitchen's pages: ledger by camp, small things, bags without a flame, pots and kit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from oatsack.kitchen.flamefree import Swap, Twin
from oatsack.kitchen.keeping import SoakClock
from oatsack.reports.contents import flameless, kit, kitchen, small_things
from oatsack.reports.document import Block, Heading, Para, Table, tables_of
from oatsack.reports.telling import telling
from oatsack.values.kit import FuelCan, Pot, Stove
from oatsack.values.kitchen import CaffeineLine, CookStep, CountLine, KeepLine, MealLedger
from oatsack.values.plan import Plan
from oatsack.why import why
from oatsack.why.tree import find
from support.plans import short_plan


def with_kitchen(**parts: Any) -> Plan:
    plan = short_plan()
    return replace(plan, kitchen=replace(plan.kitchen, **parts))


def with_kit(**parts: Any) -> Plan:
    plan = short_plan()
    return replace(plan, trip=replace(plan.trip, kit=replace(plan.trip.kit, **parts)))


def rows_of(table: Table) -> list[list[str]]:
    return [[cell.text for cell in row.cells] for row in table.rows]


def table_called(blocks: tuple[Block, ...] | list[Block], caption: str) -> Table:
    return next(t for t in tables_of(blocks) if t.caption == caption)


def said(blocks: tuple[Block, ...] | list[Block]) -> str:
    return " ".join(b.text for b in blocks if isinstance(b, Para | Heading))


@pytest.mark.slow
def test_the_fuel_comes_first_and_adds_up() -> None:
    plan = short_plan()
    fuel = plan.kitchen.fuel
    assert fuel is not None
    first = kitchen.blocks(telling(plan))[0]
    assert isinstance(first, Para)
    for grams in (fuel.burnt_g, fuel.reserve_g, fuel.need_g, fuel.gross_g, fuel.left_g):
        assert f"{grams:.0f} g" in first.text
    assert fuel.carried_g == fuel.left_g + fuel.burnt_g


def test_an_opened_can_is_told_by_what_it_holds() -> None:
    plan = with_kit(cans=(FuelCan(net_g=230.0, empty_g=150.0, gross_now_g=262.0),))
    told = telling(replace(plan, kitchen=replace(plan.kitchen, fuel=replace(
        plan.kitchen.fuel, cans=((112.0, 1), (100.0, 2)),  # type: ignore[type-var]
    ))))  # fmt: skip
    text = kitchen.cans_text(told, told.plan.kitchen.fuel)  # type: ignore[arg-type]
    assert text == "the opened one with 112 g in it + 2 cans of 100 g"


def test_liquid_fuel_comes_in_bottles() -> None:
    fuel = replace(short_plan().kitchen.fuel, kind="ethanol", cans=((405.0, 2),))  # type: ignore[type-var]
    told = telling(with_kitchen(fuel=fuel))
    assert kitchen.cans_text(told, fuel) == "2 bottles of 405 g"


def test_a_column_that_holds_nothing_on_the_whole_walk_is_left_out() -> None:
    plan = short_plan()
    cold = tuple(
        replace(m, boiled_ml=0.0, batches=0, minutes=0.0, fuel_g=0.0, left_ml=0.0, cold_ml=300.0,
                wash_ml=50.0 * m.day)
        for m in plan.kitchen.meals
    )
    blocks = kitchen.blocks(telling(with_kitchen(meals=cold, fuel=None)))
    camps = [t for t in tables_of(blocks) if t.columns[0].title == "meal"]
    titles = {column.title for t in camps for column in t.columns}
    assert titles == {"meal", "cold: need", "wash"}


def test_without_a_flame_nobody_is_told_to_take_a_lighter() -> None:
    def ticked(plan: Plan) -> list[str]:
        blocks = kit.document(telling(plan)).blocks
        return [i for b in blocks if getattr(b, "ticks", False) for i in b.items]  # type: ignore[union-attr]

    assert {"lighter", "pot grip", "spoon"} <= set(ticked(short_plan()))
    assert "lighter" not in ticked(with_kitchen(fuel=None)) and "spoon" in ticked(
        with_kitchen(fuel=None)
    )


def test_every_meal_stands_under_its_camp() -> None:
    plan = short_plan()
    blocks = kitchen.blocks(telling(plan))
    camps = [t for t in tables_of(blocks) if t.columns[0].title == "meal"]
    assert sum(len(t.rows) for t in camps) == len(plan.kitchen.meals)
    assert [t.caption.split(":")[0] for t in camps] == ["Fri 3", "Sat 4", "Sun 5"]
    assert "camp 1" in camps[0].caption and "way out" in camps[-1].caption


def test_every_number_of_the_ledger_can_be_opened() -> None:
    plan = with_kitchen(
        keeping={"fd-mac-cheese": KeepLine(last_day=2, until_day=1)},
        caffeine={"ben": CaffeineLine(most_mg=90.0, most_day=1, day_cap_mg=400.0, single_mg=45.0,
                                      single_cap_mg=200.0)},
    )  # fmt: skip
    cells = [
        cell
        for table in tables_of(kitchen.blocks(telling(plan))) for row in table.rows
        for cell in row.cells if cell.value is not None
    ]  # fmt: skip
    assert len(cells) > 40
    assert [cell.text for cell in cells if cell.text and not cell.address] == []
    wrong = [c.address for c in cells if c.address and find(plan, c.address) != c.value]
    assert wrong == []
    assert all(why(plan, c.address).formula for c in cells if c.address)


def test_of_a_large_party_water_is_one_row_a_day() -> None:
    plan = short_plan()
    (of,) = (plan.kitchen.water["anna"],)
    many = {f"w{i}": of for i in range(5)}
    crowd = replace(plan, kitchen=replace(plan.kitchen, water=many))
    table = table_called(kitchen.blocks(telling(crowd)), "Water for each")
    assert len(table.rows) == len(plan.days)
    assert all(row[0] and "–" in row[-1] for row in rows_of(table))


def meal(*steps: CookStep, walkers: tuple[str, ...] = ("anna", "ben")) -> MealLedger:
    return MealLedger(day=1, meal="drinks", walkers=walkers, boiled_ml=1000.0, cold_ml=0.0,
                      wash_ml=0.0, heat_kj=1.0, fuel_g=1.0, minutes=1.0, steps=steps)  # fmt: skip


def test_water_made_in_camp_is_named_by_what_is_done_to_it() -> None:
    melt = CookStep(kind="melt", start_min=0.0, end_min=1.0)
    boil = CookStep(kind="boil", start_min=0.0, end_min=1.0)
    pour = CookStep(kind="pour", start_min=1.0, end_min=2.0)
    told = telling(short_plan())
    assert kitchen.occasion(told, meal(melt)) == "snow melted"
    assert kitchen.occasion(told, meal(boil)) == "boiled safe"
    assert kitchen.occasion(told, meal(melt, boil, pour)) == "hot drinks"


def test_kitchens_that_cook_apart_say_for_whom() -> None:
    pour = CookStep(kind="pour", start_min=1.0, end_min=2.0)
    one, two = meal(pour, walkers=("anna",)), meal(pour, walkers=("ben",))
    told = telling(with_kitchen(meals=(one, two)))
    assert [kitchen.occasion(told, m) for m in (one, two)] == [
        "hot drinks, Anna", "hot drinks, Ben",
    ]  # fmt: skip


def test_large_groups_that_cook_apart_bear_letters() -> None:
    pour = CookStep(kind="pour", start_min=1.0, end_min=2.0)
    one, two = meal(pour, walkers=("anna", "c")), meal(pour, walkers=("ben",))
    told = telling(with_kitchen(meals=(one, two), groups=(("anna", "c", "d"), ("ben",))))
    assert [kitchen.occasion(told, m) for m in (one, two)] == ["hot drinks, A", "hot drinks, B"]
    items = [i for b in kitchen.blocks(told) for i in getattr(b, "items", ())]
    assert "A: Anna, c, d" in items and "B: Ben" in items


def test_a_bottle_says_which_and_how_strong() -> None:
    weak = CountLine(per="bottle", each=1.0, by_day={"1": 2.0}, take=2.0, bottle_ml=1000.0,
                     made_for_ml=500.0)  # fmt: skip
    right = replace(weak, each=2.0)
    told = telling(with_kitchen(counts={"anna": {"electrolyte-tablet": weak}}))
    (row,) = rows_of(table_called(small_things.small_things(told), "Counted by habit"))
    assert "first bottle (1.0 l)" in row[2] and "50 % strong" in row[2] and row[3] == "2"
    told = telling(with_kitchen(counts={"anna": {"electrolyte-tablet": right}}))
    (row,) = rows_of(table_called(small_things.small_things(told), "Counted by habit"))
    assert "strong" not in row[2]


def test_what_does_not_keep_is_told_with_its_last_day() -> None:
    line = KeepLine(last_day=3, until_day=2, opened_day=1, opened_until_day=2)
    told = telling(with_kitchen(keeping={"fd-mac-cheese": line}))
    (row,) = rows_of(table_called(small_things.eat_first(told), "Eat first"))
    assert row[1:] == ["Sat 4", "Fri 3 to Sat 4", "Sun 5"]


def test_the_two_hour_rule_names_the_hot_days() -> None:
    def line(**wet: float) -> str:
        days = {name.removeprefix("d"): minutes for name, minutes in wet.items()}
        return small_things.wet_line(telling(with_kitchen(wet_min=days)))

    assert "within 2 hours, cold soaks too; in doubt" in line(d1=120.0, d2=120.0)
    hot = line(d1=120.0, d2=60.0, d3=60.0)
    assert "within 2 hours" in hot and "within 1 hour on hot days (Sat 4, Sun 5)" in hot
    assert "within 1 hour," in line(d1=60.0)
    assert "fridge" in line()


def twin(food: str, verdict: str, **rest: Any) -> Twin:
    given = {"walker": "anna", "day": 1, "meal": "dinner", "doses": 1.0}
    return Twin(food=food, verdict=verdict, **(given | rest))  # type: ignore[arg-type]


def test_without_a_flame_meals_are_counted_and_hot_drinks_stand_apart() -> None:
    told = telling(short_plan())
    found = [twin("fd-mac-cheese", "soak", clock=SoakClock(ready_min=30.0, eat_within_min=120.0)),
             twin("fd-lasagna-veg", "no", day=2),
             twin("instant-coffee", "no", meal="drinks")]  # fmt: skip
    text = said(flameless.document(told, found).blocks)
    assert "1 of 2 meals can be eaten without a flame" in text


def test_what_cannot_be_eaten_cold_says_what_to_take_instead() -> None:
    told = telling(short_plan())
    swap = Swap(food="couscous", doses=2.0, energy_kcal=700.0, off_kcal=-40.0)
    other = told.plan.foods["fd-mac-cheese"]
    found = [twin("fd-lasagna-veg", "no", swap=swap), twin("fd-lasagna-veg", "no", day=2)]
    doc = flameless.document(told, found, larder={"couscous": replace(other, name="Couscous")})
    rows = rows_of(table_called(doc.blocks, "Not without a flame"))
    assert rows[0][1:] == ["Fri 3 dinner", "Couscous × 2", "-40 kcal"]
    assert rows[1][2].startswith("nothing there fits")


def test_a_soak_that_outlasts_its_clock_is_only_for_a_cold_night() -> None:
    told = telling(short_plan())
    slow = SoakClock(ready_min=240.0, eat_within_min=120.0)
    rows = rows_of(tables_of(flameless.document(told, [
        twin("fd-mac-cheese", "soak", clock=slow)]).blocks)[0])  # fmt: skip
    assert rows[0][2:] == ["4 h 00", "2 h 00: only in a cold night"]
    cold = SoakClock(ready_min=30.0, eat_within_min=None)
    rows = rows_of(tables_of(flameless.document(told, [
        twin("fd-mac-cheese", "soak", clock=cold)]).blocks)[0])  # fmt: skip
    assert rows[0][3] == "as cold as a fridge"


def test_the_sheet_tells_the_twin_only_where_a_flame_was_planned() -> None:
    assert flameless.brief(telling(short_plan()))
    assert flameless.brief(telling(with_kitchen(fuel=None))) == []


def test_a_pot_is_full_at_three_quarters_with_food_and_85_percent_with_water() -> None:
    told = telling(with_kit(pots=(Pot(name="pot", volume_ml=800.0),)))
    (row,) = rows_of(table_called(kit.document(told).blocks, "How full"))
    assert row == ["pot", "for all", "800 ml", "600 ml", "680 ml"]


def test_water_is_told_in_mugs_and_as_a_mark_where_the_pot_is_known() -> None:
    known = with_kit(pots=(Pot(name="pot", volume_ml=800.0, diameter_mm=100.0),), mug_ml=300.0)
    title = "Water for one portion, by the mug"
    table = table_called(kit.document(telling(known)).blocks, title)
    by_name = {row[0]: row[1:] for row in rows_of(table)}
    # the coffee takes 250 ml: a mug of 300 ml to three quarters and a bit; 4 V / (pi d^2) = 32 mm
    assert by_name["Instant coffee sticks"] == ["250 ml", "¾", "32 mm"]
    unknown = table_called(kit.document(telling(with_kit(pots=(Pot(),)))).blocks, title)
    assert {row[3] for row in rows_of(unknown)} == {""}


def test_the_kit_says_what_goes_into_the_pot_and_what_stays_outside() -> None:
    # hand case: a can of 90 x 65 mm leaves 33.8 mm in a pot of 95 x 98.8 mm; a burner of 33 x 85
    # lies across it, and the lighter has no room left
    can = FuelCan(net_g=100.0, empty_g=100.0, diameter_mm=90.0, height_mm=65.0)
    plan = with_kit(
        pots=(Pot(name="pot", volume_ml=700.0, diameter_mm=95.0),), cans=(can,),
        stove=Stove(diameter_mm=33.0, length_mm=85.0),
    )  # fmt: skip
    fuel = replace(plan.kitchen.fuel, cans=((100.0, 1),))  # type: ignore[type-var]
    told = telling(replace(plan, kitchen=replace(plan.kitchen, fuel=fuel)))
    text = " ".join(
        item for b in kit.document(told).blocks for item in getattr(b, "items", ())
    )
    assert "can of 100 g upright, then stove lying; 1 mm are left" in text
    assert "Outside: lighter." in text


def test_an_unknown_width_asks_for_it() -> None:
    told = telling(with_kit(pots=(Pot(name="billy"),)))
    text = " ".join(item for b in kit.document(told).blocks for item in getattr(b, "items", ()))
    assert 'billy: its width is not stated; write under [[kit.pots]]' in text


def test_the_phone_has_what_is_asked_at_the_stove() -> None:
    told = telling(short_plan())
    whole, few = kitchen.blocks(told), kitchen.essentials(told)
    assert set(map(repr, few)) <= set(map(repr, whole))
    captions = {t.caption for t in tables_of(few)}
    assert any(c.startswith("Fri 3") for c in captions) and "Water to carry, suggested" in captions
