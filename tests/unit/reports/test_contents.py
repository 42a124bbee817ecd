"""What each report says, figure by figure, against the plan it tells."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from typing import Any

import pytest

from oatsack.reports import document_of, render
from oatsack.reports.contents import bags, first_screen, labels, menu, sheet
from oatsack.reports.contents.cook_cards import forbidden
from oatsack.reports.contents.first_screen import assumption_text, open_lines
from oatsack.reports.document import Card, Cards, Note, Table, tables_of
from oatsack.reports.telling import (
    Telling,
    counted,
    headline,
    mains,
    neutral_line,
    pieces,
    portions_at,
    telling,
    together,
    version,
)
from oatsack.values.flags import Flag
from oatsack.values.menu import Portion
from oatsack.values.pack import Bag, Night
from oatsack.values.plan import Assumption, Chosen, Plan
from oatsack.values.route import WaterPlace
from oatsack.values.walker import Avoid
from support.sample_plan import meals_of, sample_plan


def text(content: str, plan: Plan | None = None) -> str:
    """A report's words on one line, whatever the folding."""
    return " ".join(render(plan or sample_plan(), content, "text", width=200).decode().split())


def told(**size: Any) -> Telling:
    return telling(sample_plan(**size))


def cards_of(plan: Plan, content: str) -> tuple[Card, ...]:
    (block,) = document_of(plan, content).blocks
    assert isinstance(block, Cards)
    return block.cards


def values(table: Table, column: int, kind: str = "row") -> list[float]:
    return [r.cells[column].value or 0.0 for r in table.rows if r.kind == kind]


class TestNames:
    def test_a_voice_knows_walkers_foods_and_days(self) -> None:
        t = told()
        assert t.name("ben") == "Ben"
        assert t.voice.shown("stew", "food") == "Lentil stew"
        assert t.voice.shown(2, "day") == "Fri 11"

    def test_a_group_is_named_by_its_walkers_or_as_all(self) -> None:
        t = told(walkers=3)
        assert t.group("anna") == "Anna"
        assert t.group("anna+ben") == "Anna + Ben"
        assert t.group("anna+ben+clara") == "for all"
        assert t.group("") == "for all"
        assert told(walkers=1).group("anna") == "Anna"

    def test_the_version_changes_with_what_is_eaten_and_with_nothing_else(self) -> None:
        plan = sample_plan()
        first, *rest = plan.menu.portions
        other = replace(plan.menu, portions=(replace(first, doses=first.doses + 1), *rest))
        assert version(plan) == version(sample_plan())
        assert version(plan) != version(replace(plan, menu=other))
        assert version(plan) == version(replace(plan, flags=()))
        assert re.fullmatch(r"[0-9a-f]{6}", version(plan))

    def test_a_bag_is_named_by_number_kind_and_eater(self) -> None:
        t = told()
        assert t.voice.shown("b2", "bag") == "2 (lunch for Anna)"
        assert t.voice.shown("b99", "bag") == "b99"

    def test_a_food_that_is_not_in_the_plan_stands_for_itself(self) -> None:
        assert told().shared("mystery", 10.0, 1.0) == "mystery"


class TestAmounts:
    @pytest.mark.parametrize(
        ("food", "doses", "shown"),
        [("bar", 2, "Fruit and seed bar × 2"), ("crackers", 3, "Rye crackers 75 g"),
         ("oil", 1, "Olive oil 14 g"), ("tablet", 2, "Effervescent tablet × 2"),
         ("stew", 0.5, "Lentil stew × ½")],
    )  # fmt: skip
    def test_whole_things_are_counted_and_measured_ones_weighed(
        self, food: str, doses: float, shown: str
    ) -> None:
        t = told()
        assert t.shared(food, doses * t.food(food).dose_g, doses) == shown

    @pytest.mark.parametrize(
        ("dose", "carry", "is_counted", "things"),
        [("pair", "sealed", True, 4.0), ("half pouch", "sealed", True, 1.0),
         ("scoop", "repack", False, 2.0), ("slice", "bag", True, 2.0),
         ("handful", "bag", False, 2.0), ("piece", "bag", False, 2.0),
         ("row", "bag", False, 2.0), ("piece", "repack", True, 2.0),
         ("two slices", "sealed", True, 4.0)],
    )  # fmt: skip
    def test_a_dose_says_whether_it_is_counted_and_how_many_things_it_is(
        self, dose: str, carry: Any, is_counted: bool, things: float
    ) -> None:
        food = replace(told().food("crackers"), dose_name=dose, carry=carry)
        assert counted(food) is is_counted
        assert pieces(food, 2.0) == things

    def test_portions_of_one_food_are_put_together_and_none_is_lost(self) -> None:
        plan = sample_plan(walkers=4)
        every = portions_at(plan, 1, "lunch")
        whole = together(every)
        assert len({p.food for p in whole}) == len(whole)
        assert sum(p.doses for p in whole) == sum(p.doses for p in every)

    def test_mains_come_before_what_goes_with_them(self) -> None:
        plan = sample_plan()
        roles = [plan.foods[p.food].role for p in portions_at(plan, 2, "dinner", "anna")]
        assert roles == ["main", "topping"]

    def test_a_day_is_named_by_its_dinner_else_by_what_carries_another_meal(self) -> None:
        t = told()
        assert headline(t, 2) == "Lentil stew"
        assert mains(t, 3) == ""
        assert headline(t, 3) == "Rye crackers"

    def test_a_day_with_only_snacks_is_named_by_one_of_them(self) -> None:
        plan = sample_plan()
        snack = (Portion(walker="anna", day=1, meal="move", food="bar", doses=1),)
        bare = replace(plan, menu=replace(plan.menu, portions=snack))
        assert headline(telling(bare), 1) == "Fruit and seed bar"
        assert headline(telling(bare), 2) == ""


class TestNeutralLine:
    def line(self, plan: Plan, **change: Any) -> str:
        return neutral_line(telling(plan), replace(plan.trip.walkers[0], **change))

    def test_it_names_choice_range_and_what_follows_once(self) -> None:
        line = self.line(sample_plan(days=5))
        assert re.search(r"you chose about [\d,]+ kcal; a full day uses about [\d,]+ \(", line)
        assert "off, part of it water" in line
        assert line.count("Over 5 days") == 1

    def test_its_figures_are_those_of_the_full_days(self) -> None:
        plan = sample_plan(days=5)
        full = [str(d.number) for d in plan.days[1:-1]]
        need = sum(plan.need["anna"][d].energy_kcal for d in full) / len(full)
        assert f"a full day uses about {round(need, -2):,.0f}" in self.line(plan)

    def test_where_the_food_covers_the_need_no_loss_is_spoken_of(self) -> None:
        plan = sample_plan()
        calm = {w: replace(c, deficit_kcal=0.0) for w, c in plan.consequence.items()}
        line = self.line(replace(plan, consequence=calm))
        assert "The food covers it." in line and "off" not in line

    @pytest.mark.parametrize(
        "change", [{"age_years": 17.9}, {"condition": "pregnant"}, {"condition": "ill"}]
    )
    def test_the_young_the_pregnant_and_the_ill_get_full_food_and_no_deficit(
        self, change: dict[str, Any]
    ) -> None:
        line = self.line(sample_plan(), **change)
        assert "full food" in line and "uses" not in line and "off" not in line

    def test_who_was_not_asked_is_told_so_first(self) -> None:
        plan = sample_plan()
        not_asked = Chosen(how="nobody-asked", base_kcal=2500, full_day_kcal=3000, factor=0.85,
                           ramp={}, share={})  # fmt: skip
        line = self.line(replace(plan, chosen={**plan.chosen, "anna": not_asked}))
        assert line.startswith("Anna: the usual 85 % is planned")
        assert "you chose" not in line

    def test_the_loss_is_a_range_of_tissue_and_water_together(self) -> None:
        plan = sample_plan()
        known = plan.consequence["anna"]
        wide = replace(known, tissue_low_kg=0.4, tissue_high_kg=0.9, water_low_kg=0.1,
                       water_high_kg=0.6)  # fmt: skip
        line = self.line(replace(plan, consequence={**plan.consequence, "anna": wide}))
        assert "expect 0.5 kg to 1.5 kg off" in line


class TestFirstScreen:
    def test_open_bags_say_how_much_when_opened_and_how_long_they_last(self) -> None:
        plan = sample_plan()
        (anna, ben) = open_lines(telling(plan))
        pool = plan.menu.pools[0]
        kcal = sum(pool.by_day_g.values()) / 3 * 5.2
        assert anna.startswith(f"Anna: nibble about {round(kcal / 50) * 50:.0f} kcal a day")
        assert "Nut and fruit mix (Thu–Sat)" in anna
        assert ben.startswith("Ben: ")

    def test_one_walker_is_not_named_in_every_line(self) -> None:
        (line,) = open_lines(told(walkers=1))
        assert line.startswith("nibble about")

    def test_a_party_has_one_line_for_all_open_bags(self) -> None:
        (line,) = open_lines(told(walkers=6))
        assert line.startswith("each: nibble") and "5 bags" in line  # one must avoid nuts

    def test_without_open_bags_there_is_no_line(self) -> None:
        plan = sample_plan()
        assert open_lines(telling(replace(plan, menu=replace(plan.menu, pools=())))) == []

    @pytest.mark.parametrize(
        ("key", "value", "shown"),
        [("target", 0.85, "you eat 85 % of what a day uses"), ("age", 40.0, "age 40"),
         ("height", 168.0, "height 168 cm"), ("base-weight", 8.0, "sack without food 8.0 kg"),
         ("terrain", 1.1, "ground factor 1.1"), ("made-up", "x", "some.path: x")],
    )  # fmt: skip
    def test_an_assumption_is_said_with_its_value(
        self, key: str, value: float | str, shown: str
    ) -> None:
        quiet = Assumption(key=key, path="some.path", value=value, effect_kcal=0.0)
        assert assumption_text(told(), quiet) == shown
        loud = replace(quiet, effect_kcal=220.0)
        assert assumption_text(told(), loud) == f"{shown} (± 200 kcal)"

    def test_what_stays_outside_on_the_first_night_is_named_once(self) -> None:
        plan = sample_plan()
        first, *rest = plan.packed.nights
        outside = replace(first, verdict="no", outside=("b1", "b7", "b2"))
        packed = replace(plan.packed, nights=(outside, *rest))
        plan = replace(plan, packed=packed)
        said = " ".join(render(plan, "first", "text", width=80).decode().split())
        assert "does not close on the first night" in said
        assert "outside on the first day: Breakfast, Lunch" in said
        told_ = telling(replace(plan, packed=packed))
        page = first_screen.night_line(told_, first_screen.UNCUT)
        assert "Rye crackers, Hard cheese (lunch)" in page, "a page says which things"
        night = replace(outside, outside=("b4",))
        few = replace(plan, packed=replace(plan.packed, nights=(night,)))
        assert "Lentil stew, Olive oil (dinner)" in text("first", few)


class TestMenu:
    def test_every_portion_of_every_walker_is_on_the_menu(self) -> None:
        plan = sample_plan(days=4)
        t = telling(plan)
        for walker in plan.trip.walkers:
            for day in plan.days:
                for meal in meals_of(day):
                    texts = " ".join(menu.meal_texts(t, day.number, meal, walker.id))
                    for p in portions_at(plan, day.number, meal, walker.id):
                        assert plan.foods[p.food].name in texts

    def test_the_sums_of_each_day_are_the_plans(self) -> None:
        plan = sample_plan()
        tables = tables_of(document_of(plan, "menu").blocks)
        for day, found in zip(plan.days, tables, strict=False):
            sums = [values(found, c, "total")[0] for c in (1, 2)]
            eaten = [plan.eaten[w.id][str(day.number)].energy_kcal for w in plan.trip.walkers]
            assert sums == eaten

    def test_a_large_party_has_one_column_with_numbers_of_eaters(self) -> None:
        said = text("menu", sample_plan(walkers=6))
        assert "(for 6)" in said and "(for 3)" in said

    def test_open_bags_are_named_together_and_never_portioned(self) -> None:
        t = told()
        texts = menu.meal_texts(t, 1, "move", "anna")
        assert texts[-1] == "nibble from Nut and fruit mix"
        assert not any("g Nut" in line or "Nut and fruit mix 5" in line for line in texts)

    def test_the_table_of_open_bags_has_each_with_its_days(self) -> None:
        plan = sample_plan(days=6, legs=2)
        found = next(x for x in tables_of(document_of(plan, "menu").blocks)
                     if x.caption == "Open bags")  # fmt: skip
        assert len(found.rows) == len(plan.menu.pools) == 4

    def test_spare_food_stands_apart(self) -> None:
        said = text("menu")
        assert "Spare, apart from the plan Fruit and seed bar × 2 (440 kcal in all)" in said
        assert "Not part of any day" in said

    def test_a_dry_camp_is_named(self) -> None:
        assert "night at Heron Tarn 2, 1,140 m, no water there" in text("menu")

    def test_a_day_of_rest_is_called_one(self) -> None:
        plan = sample_plan()
        rest = replace(plan.days[1], distance_m=0.0)
        assert "rest day" in text("menu", replace(plan, days=(plan.days[0], rest, plan.days[2])))


class TestShopping:
    def test_lists_are_by_time_and_shop_and_hold_whole_packs(self) -> None:
        plan = sample_plan()
        tables = tables_of(document_of(plan, "shopping").blocks)
        packs = sum(sum(values(x, 1)) for x in tables if len(x.columns) == 6)
        assert packs == sum(b.packs for b in plan.packed.buy)
        captions = [x.caption for x in tables]
        assert captions.index("supermarket, weeks before") < captions.index(
            "supermarket, the day before"
        )

    def test_what_is_at_home_is_a_list_of_its_own(self) -> None:
        tables = tables_of(document_of(sample_plan(), "shopping").blocks)
        assert [r.cells[1].text for r in tables[-1].rows] == ["Whole milk powder"]

    def test_unknown_prices_are_said_and_not_counted_as_nothing(self) -> None:
        plan = sample_plan()
        first, *rest = plan.packed.buy
        packed = replace(plan.packed, buy=(replace(first, price=None), *rest))
        totals = replace(plan.totals, unpriced=1)
        said = text("shopping", replace(plan, packed=packed, totals=totals))
        assert "In all at least" in said
        assert "one thing has no known price" in said

    def test_a_later_leg_is_a_list_of_its_own(self) -> None:
        plan = sample_plan()
        first, *rest = plan.packed.buy
        packed = replace(plan.packed, buy=(replace(first, leg=2, when="on the way"), *rest))
        assert "Leg 2: supermarket, on the way" in text("shopping", replace(plan, packed=packed))


class TestBags:
    def test_each_sack_is_the_sum_of_its_bags(self) -> None:
        plan = sample_plan(walkers=3, days=6, legs=2)
        for found in tables_of(document_of(plan, "bags").blocks):
            for column in (4, 5):
                assert values(found, column, "total") == [pytest.approx(sum(values(found, column)))]

    def test_all_bags_together_are_what_is_carried(self) -> None:
        plan = sample_plan(walkers=3, days=6, legs=2)
        net = sum(sum(values(x, 4)) for x in tables_of(document_of(plan, "bags").blocks))
        assert net == pytest.approx(sum(b.net_g for b in plan.packed.bags))

    def sealed(self, **change: Any) -> Bag:
        bag = sample_plan().packed.bags[2]
        one = tuple(i for i in bag.items if i.food == "bar")[:1]
        return replace(bag, items=one, sealed=True, **change)

    def test_what_is_carried_as_bought_bears_its_own_name_and_no_number(self) -> None:
        bag = self.sealed()
        assert bags.bag_name(told(), bag) == "Fruit and seed bar"
        assert bags.number(bag) == ""
        assert bags.number(replace(bag, sealed=False)) == "3"

    def test_numbered_bags_come_first(self) -> None:
        plain = sample_plan().packed.bags
        mixed = [self.sealed(number=1), *plain[:3]]
        assert [b.sealed for b in bags.in_order(mixed)] == [False, False, False, True]

    def test_a_whole_open_bag_is_one_and_a_part_of_it_is_weighed(self) -> None:
        t = told()
        bag = next(b for b in t.plan.packed.bags if b.label == "move")
        assert "1 open bag of Nut and fruit mix" in bags.contents(t, bag)
        some = tuple(i for i in bag.items if i.food == "nuts")[:1]
        assert bags.contents(t, replace(bag, items=some)) == ["Nut and fruit mix 57 g"]


class TestLabels:
    def test_only_our_own_bags_are_labelled(self) -> None:
        plan = sample_plan()
        first, *rest = plan.packed.bags
        packed = replace(plan.packed, bags=(replace(first, sealed=True), *rest))
        assert len(cards_of(replace(plan, packed=packed), "labels")) == len(rest)

    def test_a_label_says_water_in_millilitres_and_mugs_and_the_wait(self) -> None:
        t = told()
        assert labels.prep_text(t, t.food("stew")) == (
            "Lentil stew: needs 400 ml boiling (1¼ mugs) to each, wait 10 min"
        )
        assert labels.prep_text(t, t.food("oats")) == (
            "Oat cereal: needs 120 ml cold (½ mug) to 62 g, 5 min"
        )

    def test_simmering_is_said_as_simmering(self) -> None:
        t = told()
        pot = replace(t.food("stew").prep, kind="simmer", simmer_min=8.0)
        said = labels.prep_text(t, replace(t.food("stew"), prep=pot))
        assert "simmer 8 min" in said and "boiling" not in said

    def test_nothing_is_said_of_water_where_none_is_added(self) -> None:
        t = told()
        lunch = next(b for b in t.plan.packed.bags if b.label == "lunch")
        assert labels.how_to(t, lunch) == []

    def test_allergens_are_contained_possible_or_unread(self) -> None:
        t = told()
        bag = replace(t.plan.packed.bags[0],
                      allergens={"milk": "contains", "egg": "may", "soy": "unknown"})  # fmt: skip
        assert labels.allergens(t, bag) == (
            "Contains milk. May contain egg. Label not read, counted as containing: soy."
        )

    def test_an_unread_label_counts_for_whoever_must_avoid_it(self) -> None:
        plan = sample_plan()
        anna = replace(plan.trip.walkers[0], avoids=(Avoid(allergen="celery"),))
        plan = replace(plan, trip=replace(plan.trip, walkers=(anna, plan.trip.walkers[1])))
        said = labels.allergens(telling(plan), plan.packed.bags[1])
        assert "Label not read, counted as containing: celery." in said

    def test_a_bag_that_must_be_eaten_soon_says_by_when(self) -> None:
        t = told(days=6)
        lunch = next(b for b in t.plan.packed.bags if b.label == "lunch")
        assert labels.days_text(t, lunch).endswith("eat by Mon 14")


class TestSheet:
    def test_two_who_share_have_it_food_by_food(self) -> None:
        assert sheet.meal_text(told(), 2, "dinner") == "Lentil stew × 1 each\n14 g Olive oil each"

    def test_two_who_eat_apart_have_it_walker_by_walker(self) -> None:
        lines = sheet.meal_text(told(), 1, "lunch").split("\n")
        assert [line.split(":")[0] for line in lines] == ["Anna", "Ben"]

    def test_one_walker_needs_no_name(self) -> None:
        assert sheet.meal_text(told(walkers=1), 2, "dinner") == "Lentil stew × 1\n14 g Olive oil"

    def test_water_at_camp_is_that_of_all(self) -> None:
        plan = sample_plan()
        day = plan.days[0]
        water = [of["1"] for of in plan.kitchen.water.values()]
        expected = sum(w.cooking_ml + w.washing_ml + w.camp_drinks_ml for w in water)
        assert sheet.camp_water(telling(plan), day) == pytest.approx(expected)

    def test_small_things_are_counted_for_the_trip_and_the_day(self) -> None:
        assert sheet.small_things(told()) == "Effervescent tablet × 12 (2 a day each)"

    def test_units_are_said_once_where_both_share_them(self) -> None:
        assert sheet._common(["50 g", "75 g"]) == ["50", "75 g"]
        assert sheet._common(["900 g", "1.2 kg"]) == ["900 g", "1.2 kg"]
        assert sheet._common(["2 lb 3 oz", "1 lb 2 oz"]) == ["2 lb 3 oz", "1 lb 2 oz"]


class TestKitchenAndNights:
    def test_fuel_by_day_sums_to_what_is_burnt(self) -> None:
        plan = sample_plan(days=6)
        fuel = plan.kitchen.fuel
        assert fuel is not None
        found = next(x for x in tables_of(document_of(plan, "kitchen").blocks)
                     if x.caption == "Fuel")  # fmt: skip
        assert sum(values(found, 1)) == pytest.approx(fuel.burnt_g)
        assert values(found, 1, "total")[0] == pytest.approx(fuel.burnt_g)

    def test_without_a_stove_it_says_so(self) -> None:
        plan = sample_plan()
        cold = replace(plan.kitchen, meals=(), fuel=None)
        assert "nothing is heated" in text("kitchen", replace(plan, kitchen=cold))

    def test_water_is_a_suggestion_and_to_thirst(self) -> None:
        said = text("kitchen")
        assert "Suggested is what to have at hand; drink to thirst." in said
        assert "Hard limits: never more than" in said

    def test_each_night_has_its_range_its_room_and_a_word(self) -> None:
        plan = sample_plan()
        (found,) = tables_of(document_of(plan, "container").blocks)
        assert len(found.rows) == 2
        assert [c.text for c in found.rows[0].cells] == [
            "Thu 10", "6.1 l to 8.8 l", "10.5 l", "likely", "",
        ]  # fmt: skip

    def test_the_rules_of_the_place_come_first(self) -> None:
        assert "The rules of the place come first" in text("container")

    def test_without_a_container_it_says_so(self) -> None:
        plan = sample_plan()
        assert "No container was named." in text(
            "container", replace(plan, packed=replace(plan.packed, nights=()))
        )

    @pytest.mark.parametrize("verdict", ["closes", "likely", "unlikely", "no"])
    def test_every_verdict_has_a_word(self, verdict: Any) -> None:
        plan = sample_plan()
        night: Night = replace(plan.packed.nights[0], verdict=verdict)
        packed = replace(plan.packed, nights=(night,))
        assert "?" not in text("container", replace(plan, packed=packed))
        assert "first night" in text("first", replace(plan, packed=packed))


class TestCards:
    def test_a_cook_card_is_made_for_each_cooked_meal(self) -> None:
        plan = sample_plan(days=5)
        assert len(cards_of(plan, "cook-cards")) == len(plan.kitchen.meals)

    def test_a_cook_card_lists_all_that_is_eaten_then(self) -> None:
        plan = sample_plan()
        said = text("cook-cards", plan)
        for food in ("Chicken rice", "Lentil stew", "Olive oil", "Instant coffee stick"):
            assert food in said

    def test_a_cook_card_warns_of_what_someone_must_not_eat(self) -> None:
        plan = sample_plan()
        ben = replace(plan.trip.walkers[1], avoids=(Avoid(allergen="milk"),))
        plan = replace(plan, trip=replace(plan.trip, walkers=(plan.trip.walkers[0], ben)))
        card = next(c for c in cards_of(plan, "cook-cards") if "breakfast" in c.title)
        assert card.allergens == "Not for Ben: Whole milk powder."

    def test_who_avoids_two_things_is_named_once_on_a_card(self) -> None:
        plan = sample_plan()
        both = (Avoid(allergen="milk"), Avoid(allergen="gluten"))
        ben = replace(plan.trip.walkers[1], avoids=both)
        plan = replace(plan, trip=replace(plan.trip, walkers=(plan.trip.walkers[0], ben)))
        card = next(c for c in cards_of(plan, "cook-cards") if "breakfast" in c.title)
        assert card.allergens.count("Ben") == 1
        assert "Maple oatmeal packet" in card.allergens and "milk powder" in card.allergens

    @pytest.mark.parametrize(
        ("allergen", "traces", "is_forbidden"),
        [("sesame", False, True), ("sesame", True, True), ("tree_nut", False, True),
         ("tree_nut", True, False), ("milk", False, False), ("celery", True, True)],
    )  # fmt: skip
    def test_unread_counts_as_containing_and_traces_only_where_allowed(
        self, allergen: str, traces: bool, is_forbidden: bool
    ) -> None:
        bar = told().food("bar")
        assert forbidden(bar, Avoid(allergen=allergen, traces=traces)) is is_forbidden

    def test_day_cards_say_water_and_what_is_unsure_of_it(self) -> None:
        plan = sample_plan()
        dry = WaterPlace(name="Old Well", at_min=600, distance_m=3000, reliability="doubtful")
        first = replace(plan.days[0], water=(dry,))
        card = cards_of(replace(plan, days=(first, *plan.days[1:])), "cards")[0]
        assert "Old Well at 3.0 km (doubtful)" in str(card.blocks)

    def test_day_cards_say_which_bags_to_open(self) -> None:
        assert "Open today: 2 lunch" in str(cards_of(sample_plan(), "cards")[0].blocks)


class TestParty:
    def test_the_allergy_sheet_names_food_person_and_scope(self) -> None:
        plan = sample_plan(walkers=3)
        said = text("allergy", plan)
        assert "Clara must avoid peanut (not on the plate)." in said
        assert "Nut and fruit mix; carried for Anna, Ben" in said
        assert "In the food of others:" in said and "Clara's own food" not in said

    def test_what_an_avoider_eats_in_spite_of_a_label_stands_apart_in_bold(self) -> None:
        plan = sample_plan()
        ben = replace(plan.trip.walkers[1], avoids=(Avoid(allergen="tree_nut", traces=True),))
        plan = replace(plan, trip=replace(plan.trip, walkers=(plan.trip.walkers[0], ben)))
        said = text("allergy", plan)
        assert "traces are allowed, by Ben's own word" in said
        own, _, others = said.partition("In the food of others:")
        assert "In Ben's own food, by its label:" in own
        assert "Fruit and seed bar (may contain)" in own
        assert "carried for Anna" in others and "Ben" not in others.split("signs")[0]

    def test_a_walker_whose_food_is_all_free_is_told_so(self) -> None:
        plan = sample_plan()
        ben = replace(plan.trip.walkers[1], avoids=(Avoid(allergen="crustacean", scope="party"),))
        plan = replace(plan, trip=replace(plan.trip, walkers=(plan.trip.walkers[0], ben)))
        said = text("allergy", plan)
        assert "not in the party at all" in said
        assert "None of the packed food holds it" in said

    def test_an_unread_label_is_said_to_count_as_containing(self) -> None:
        plan = sample_plan()
        ben = replace(plan.trip.walkers[1], avoids=(Avoid(allergen="celery"),))
        plan = replace(plan, trip=replace(plan.trip, walkers=(plan.trip.walkers[0], ben)))
        assert "label not read: counted as containing" in text("allergy", plan)

    def test_backs_by_day_sum_to_the_party(self) -> None:
        plan = sample_plan(walkers=4)
        said = text("carriers", plan)
        for day in ("1", "2", "3"):
            kg = sum(s.by_day_g[day] for s in plan.packed.sacks) / 1000.0
            assert f"{kg:.1f} kg" in said

    def test_common_things_are_named_and_counted(self) -> None:
        said = text("carriers")
        assert "fuel can, empty" in said and "container" in said

    def test_pack_out_has_a_line_for_each_bag_and_the_rubbish_by_day(self) -> None:
        plan = sample_plan()
        first, second = tables_of(document_of(plan, "pack-out").blocks)
        assert len(first.rows) == len(plan.packed.bags)
        assert values(second, 1) == [r.mass_g for r in plan.packed.rubbish]

    def test_boxes_say_what_is_not_inside(self) -> None:
        said = text("boxes", sample_plan(days=6, legs=2))
        assert "Fern Ford 2, box 1 of 1, for leg 2" in said
        assert "Not inside: fuel, water, fresh bread" in said
        assert "no resupply" in text("boxes")

    def test_the_tally_has_a_box_for_each_eater_of_each_meal(self) -> None:
        plan = sample_plan()
        found = tables_of(document_of(plan, "tally").blocks)[0]
        boxes = sum(c.text.count("☐") for r in found.rows for c in r.cells)
        occasions = {(p.walker, p.day, p.meal) for p in plan.menu.portions}
        assert boxes == len(occasions)


class TestPlan:
    def test_loud_flags_come_before_quiet_ones_and_notes_fold_away(self) -> None:
        plan = sample_plan()
        flags = tuple(
            Flag(key=f"made.{level}", level=level)  # type: ignore[arg-type]
            for level in ("note", "quiet", "caution", "block")
        )
        made = document_of(replace(plan, flags=flags), "plan")
        assert [b.level for b in made.blocks if isinstance(b, Note)] == [
            "block", "caution", "quiet",
        ]  # fmt: skip

    def test_the_shortfall_is_not_said_twice(self) -> None:
        plan = sample_plan()
        flag = Flag(key="body.shortfall", level="quiet", scope="need/anna", values={"share": 0.8})
        once = text("plan", replace(plan, flags=(flag,)))
        assert "What is planned covers" not in once

    def test_one_sentence_about_many_is_said_once_with_their_names(self) -> None:
        plan = sample_plan(walkers=3)
        flags = tuple(
            Flag(key="made.up", level="quiet", scope=f"need/{w}") for w in ("anna", "ben")
        )
        said = text("plan", replace(plan, flags=flags))
        assert said.count("Made.up") == 1 and "Anna, Ben: Made.up" in said
        everyone = (*flags, Flag(key="made.up", level="quiet", scope="need/clara"))
        assert "Anna" not in text("plan", replace(plan, flags=everyone)).split("Made.up")[0][-30:]

    def test_a_caution_about_the_shortfall_is_said(self) -> None:
        plan = sample_plan()
        flag = Flag(key="body.shortfall", level="caution", scope="need/anna",
                    values={"share": 0.6, "n_days": 3, "low_kg": 1.0, "high_kg": 3.0})  # fmt: skip
        assert "Take care:" in text("plan", replace(plan, flags=(flag,)))

    def test_totals_and_yardsticks_are_the_plans(self) -> None:
        plan = sample_plan()
        said = text("plan")
        assert f"{round(plan.totals.energy_kcal, -1):,.0f} kcal" in said
        assert f"{plan.totals.kcal_per_100g:.0f} kcal per 100 g" in said
        assert f"this plan {plan.yardsticks.plan_kg:.1f} kg" in said

    def test_late_shares_are_of_ones_own_number(self) -> None:
        said = text("plan")
        assert "1 day 67 % each day 140 g left, 90 g needed" in said

    def test_sources_are_written_out_and_unknown_ones_kept(self) -> None:
        plan = replace(sample_plan(), sources=("Hall2007", "NoSuchKey9"))
        said = text("plan", plan)
        assert "Hall" in said and "(2007)" in said and "NoSuchKey9" in said

    def test_dates_do_not_follow_the_machines_language(self) -> None:
        day = replace(sample_plan().days[0], date=dt.date(2027, 12, 31))
        plan = sample_plan()
        assert "Fri 31 December" in text("menu", replace(plan, days=(day, *plan.days[1:])))
