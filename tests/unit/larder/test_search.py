"""Foods are found by words, parts of words and misspelt words."""

from __future__ import annotations

from oatsack.files.larder import bundled
from oatsack.larder.search import distance, find
from oatsack.values.food import ALLERGENS
from support.each import each
from support.foods import label


def ids(*words: str) -> list[str]:
    return [food.id for food in find(bundled(), words)]


@each(
    ("words", "wanted"),
    [
        (("oatmeal",), "instant-oatmeal-maple"),
        (("maple", "oat"), "instant-oatmeal-maple"),
        (("Peanut  Butter",), "peanut-butter"),
        (("rolled-oats",), "rolled-oats"),
        (("jekry",), "beef-jerky"),
        (("penut", "buter"), "peanut-butter"),
        (("cofee",), "instant-coffee"),
        (("choclate",), "dark-chocolate"),
        (("tortila",), "flour-tortilla"),
        (("lasagna",), "fd-lasagna-veg"),
        (("tablet",), "electrolyte-tablet"),
    ],
)
def test_words_find_what_is_meant(words: tuple[str, ...], wanted: str) -> None:
    assert wanted in ids(*words)


def test_no_words_find_everything_in_order() -> None:
    assert ids() == [food.id for food in bundled()]
    assert ids("", " ") == ids()


@each("word", ["xyzzy", "zz", "free:dragon", "category:stone"])
def test_nothing_like_it_finds_nothing(word: str) -> None:
    assert ids(word) == []


def test_all_words_must_match() -> None:
    assert set(ids("chocolate", "bar")) < set(ids("chocolate"))
    assert ids("jerky", "coffee") == []


def test_exact_words_come_before_parts_and_parts_before_classes() -> None:
    foods = [
        label(kcal=1, of_g=1.0, id="a", name="Thing", category="nut"),
        label(kcal=1, of_g=1.0, id="b", name="Nutty bar"),
        label(kcal=1, of_g=1.0, id="c", name="Nut mix"),
    ]
    assert [food.id for food in find(foods, ["nut"])] == ["c", "b", "a"]


def test_right_spelling_shuts_out_misspelt_matches() -> None:
    foods = [
        label(kcal=1, of_g=1.0, id="a", name="Bread"),
        label(kcal=1, of_g=1.0, id="b", name="Dread"),
    ]
    assert [food.id for food in find(foods, ["bread"])] == ["a"]


def test_classes_meals_and_allergens_are_words_too() -> None:
    assert {food.category for food in find(bundled(), ["category:soup"])} == {"soup"}
    assert all("breakfast" in food.meals or food.category == "breakfast"
               for food in find(bundled(), ["breakfast", "main"]))  # fmt: skip
    assert "trail-mix" in ids("tree_nut")


@each("allergen", ALLERGENS)
def test_free_of_an_allergen_fails_closed(allergen: str) -> None:
    free = find(bundled(), [f"free:{allergen}"])
    held = find(bundled(), [f"contains:{allergen}"])
    assert {food.state(allergen) for food in free} <= {"free"}
    assert "free" not in {food.state(allergen) for food in held}
    assert len(free) + len(held) == len(bundled())


def test_diets_include_the_stricter_ones() -> None:
    assert {food.diet for food in find(bundled(), ["vegetarian"])} == {"vegan", "vegetarian"}
    assert {food.diet for food in find(bundled(), ["vegan"])} == {"vegan"}
    assert {food.diet for food in find(bundled(), ["diet:meat"])} == {"meat"}


@each(
    ("one", "other", "steps"),
    [("", "", 0), ("", "abc", 3), ("nut", "nut", 0), ("nut", "nuts", 1), ("nut", "net", 1),
     ("nut", "ntu", 1), ("jerky", "jekry", 1), ("kitten", "sitting", 3), ("ca", "abc", 3)],
)  # fmt: skip
def test_distance_counts_slips_of_the_finger_both_ways(one: str, other: str, steps: int) -> None:
    assert distance(one, other) == distance(other, one) == steps
