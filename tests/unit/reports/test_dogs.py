"""What is said of a dog's own food, and what on a bag is not for it."""

from __future__ import annotations

from dataclasses import replace

from oatsack.packing.dogs import dog_bags
from oatsack.reports import render
from oatsack.reports.contents import dogs
from oatsack.reports.contents.labels import label
from oatsack.reports.document import Para
from oatsack.reports.telling import telling
from oatsack.values.dog import Dog
from oatsack.values.plan import Plan
from oatsack.why import find
from support.sample_plan import sample_plan

BO = Dog(id="bo", name="Bo", mass_kg=22.0)


def plan_with(*walking: Dog, legs: int = 1, name: str = "Milk chocolate") -> Plan:
    """A plan of the tests with dogs, and one of its foods so named."""
    plan = sample_plan(walkers=2, days=4, legs=legs)
    food = sorted({i.food for b in plan.packed.bags if not b.sealed for i in b.items})[0]
    trip = replace(plan.trip, dogs=walking)
    foods = plan.foods | {food: replace(plan.foods[food], name=name)}
    packed = replace(plan.packed, dogs=dog_bags(trip, plan.days))
    return replace(plan, trip=trip, foods=foods, packed=packed)


def text(plan: Plan, content: str) -> str:
    return render(plan, content, "text").decode()


def test_one_line_of_the_first_screen_says_it_apart() -> None:
    plan = plan_with(BO)
    (line,) = [one for one in text(plan, "first").splitlines() if one.startswith("dog ")]
    assert "Bo's own" in line
    assert "on the dog" in line
    assert "2 foods of yours marked not for the dog" in " ".join(text(plan, "first").split())
    assert len(text(plan, "first").splitlines()) <= 30


def test_without_a_dog_no_report_says_anything_of_one() -> None:
    plan = plan_with()
    for content in ("first", "bags", "labels", "carriers"):
        assert "dog" not in text(plan, content).lower().split(), content


def test_a_walker_who_carries_it_is_named() -> None:
    plan = plan_with(replace(BO, carrier=sample_plan(walkers=2, days=4).trip.walkers[1].id))
    told = telling(plan)
    (bag,) = plan.packed.dogs
    assert dogs.carrier(told, bag) == plan.trip.walkers[1].name
    assert plan.trip.walkers[1].name in dogs.first_line(told)


def test_its_bag_stands_in_a_table_of_its_own_and_every_number_opens() -> None:
    plan = plan_with(BO)
    told = telling(plan)
    (bag,) = plan.packed.dogs
    assert "The dog's own food" in text(plan, "bags")
    for what in ("ration_g", "net_g", "gross_g"):
        assert find(plan, f"{dogs.address(bag)}/{what}") == getattr(bag, what)
    assert dogs.blocks(telling(plan_with())) == []
    assert dogs.name_of(told, bag) == "Bo"


def test_each_leg_has_its_label_and_says_how_much_and_how_often() -> None:
    plan = plan_with(replace(BO, food_g_day=600.0), legs=2)
    told = telling(plan)
    cards = [dogs.label(told, bag) for bag in plan.packed.dogs]
    assert [card.title for card in cards] == ["Dog food · Bo, leg 1", "Dog food · Bo, leg 2"]
    for card, bag in zip(cards, plan.packed.dogs, strict=True):
        first = card.blocks[0]
        assert isinstance(first, Para)
        assert first.text.startswith("300 g at breakfast and at dinner")
        assert f"{bag.feeds:.0f} times" in first.text or bag.feeds == 1.0


def test_a_label_marks_what_is_not_for_the_dog_and_only_with_a_dog() -> None:
    marks = {}
    for name in ("Milk chocolate", "Raisins", "Onion flakes", "Rye crispbread"):
        plan = plan_with(BO, name=name)
        told = telling(plan)
        made = [dogs.not_for(told, b) for b in plan.packed.bags if not b.sealed]
        marks[name] = sorted({line for line in made if line} - {"Not for the dog (coffee)."})
    assert marks == {
        "Milk chocolate": ["Not for the dog (chocolate)."],
        "Raisins": ["Not for the dog (raisins)."],
        "Onion flakes": ["Not for the dog (onion or garlic)."],
        "Rye crispbread": [],
    }
    bare = telling(plan_with())
    assert {dogs.not_for(bare, b) for b in bare.plan.packed.bags} == {""}


def test_the_mark_is_in_bold_on_the_label() -> None:
    told = telling(plan_with(BO))
    bag = next(b for b in told.plan.packed.bags if dogs.not_for(told, b) and not b.sealed)
    strong = [b.text for b in label(told, bag).blocks if isinstance(b, Para) and b.tone == "strong"]
    assert "Not for the dog (chocolate)." in strong


def test_the_table_of_bags_has_a_row_for_it_without_any_food_of_ours() -> None:
    plan = plan_with(BO)
    rows = render(plan, "bags", "csv").decode("utf-8-sig").splitlines()
    (line,) = [row for row in rows if ",dog,1,bo,bo," in row]
    assert line.endswith(f"{plan.packed.dogs[0].gross_g:.3f}".rstrip("0").rstrip("."))


def test_the_pages_facts_hold_the_line_with_a_link_to_its_number() -> None:
    from oatsack.web.glance import facts

    plan = plan_with(BO)
    told = telling(plan)
    (line,) = [str(text) for name, text in facts(told, "/trip/walk/why/") if name == "dog"]
    assert "packed/dogs/1-bo/net_g" in line
    assert [name for name, _ in facts(telling(plan_with()), "/w/") if name == "dog"] == []
