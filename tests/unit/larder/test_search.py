"""Foods are found by words, parts of words and misspelt words."""

from __future__ import annotations

from oatsack.files.larder import bundled
from oatsack.larder.search import MISS, distance, find, score
from oatsack.values.food import ALLERGENS, Food
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


def named(name: str, **more: str) -> Food:
    return label(kcal=1, of_g=1.0, **({"name": name, "id": name.lower().replace(" ", "-")} | more))


@each(
    ("name", "word", "badness"),
    [
        # One slip from four letters on, two from seven on; the first two letters must share one.
        ("Nut", "nit", MISS),
        ("Nuts", "nuts", 0),
        ("Beans", "beens", 3),
        ("Bean", "beam", 3),
        ("Cheese", "chesse", 3),
        ("Cheese", "chasse", MISS),
        ("Noodles", "nodlles", 4),
        ("Noodles", "nodles", 3),
        ("Noodles", "nooddle", 3),
        ("Noodles", "nddle", MISS),
        ("Tortilla", "totila", MISS),
        ("Tortilla", "totilla", 3),
        ("Tortilla", "totttilla", 4),
        ("Tortilla", "tatttila", MISS),
        ("Raisins", "xeisins", MISS),
        ("Raisins", "arisins", 3),
        ("Porridge oats", "porrigde", 3),
        ("Chocolate", "choco", 1),
        ("Chocolate", "chcoo", 3),  # a slip in the start of a word
        ("Chocolate", "chco", 3),
        ("Chocolate", "chxo", 3),
        ("Chocolate", "chc", MISS),
    ],
)
def test_longer_words_forgive_more_slips(name: str, word: str, badness: int) -> None:
    assert score(named(name), word, strict=False) == badness
    if badness > 2:
        assert score(named(name), word, strict=True) == MISS


@each(
    ("word", "badness"),
    [
        ("free:milk", 0), ("free:soy", MISS), ("free:egg", MISS), ("free:wheat", MISS),
        ("contains:soy", 0), ("contains:egg", 0), ("contains:wheat", 0), ("contains:milk", MISS),
        ("category:snack", 0), ("category:nut", MISS),
        ("diet:vegetarian", 0), ("diet:vegan", MISS), ("diet:pescetarian", 0),
        ("vegetarian", 2), ("pescetarian", 2), ("vegan", MISS),
        ("soy", 2), ("snack", 2), ("snacks", 2), ("move", 2),
        ("wheat", MISS),  # a trace is not what someone looks for by its name
        ("egg", MISS),  # nor what nobody stated
        ("colour:soy", MISS), ("free", MISS), ("free:", MISS),
    ],
)  # fmt: skip
def test_each_question_about_one_food(word: str, badness: int) -> None:
    states = {"milk": "free", "soy": "contains", "wheat": "may"}
    food = label(kcal=1, of_g=1.0, id="bar", name="Bar", category="snack", diet="vegetarian",
                 allergens=states, meals=frozenset({"move"}))  # fmt: skip
    assert score(food, word, strict=True) == badness


def test_a_word_of_a_question_without_its_colon_is_a_plain_word() -> None:
    foods = [named("Diet cola"), named("Sugar free sweets"), named("Category five sauce")]
    for word, food in zip(("diet", "free", "category"), foods, strict=True):
        assert find(foods, [word]) == (food,)


def test_the_whole_id_comes_before_an_id_that_begins_with_it() -> None:
    foods = [named("Longer", id="oat-bar-dark"), named("Short", id="oat-bar")]
    assert [food.id for food in find(foods, ["oat-bar"])] == ["oat-bar", "oat-bar-dark"]
    assert [food.id for food in find(foods, ["oat-bar-d"])] == ["oat-bar-dark"]


def test_equal_matches_keep_the_order_of_the_larder() -> None:
    foods = [named("Oat z"), named("Oat a"), named("Oat m")]
    assert find(foods, ["oat"]) == tuple(foods)
    assert find(reversed(foods), ["oat"]) == tuple(reversed(foods))


def test_commas_and_blanks_between_words_ask_for_nothing() -> None:
    foods = [named("Oat bar"), named("Nut bar")]
    assert find(foods, [" , oat ,", ","]) == (foods[0],)
