"""Addresses of a plan, patterns that cover it, and formulas worked out over named inputs."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.errors import OatsackError, UnknownAddress
from oatsack.values.pack import Night
from oatsack.values.plan import Plan
from oatsack.why.explainers import PARTS, explainers_of
from oatsack.why.explanation import Explanation, Input, evaluate
from oatsack.why.opening import matches, why
from oatsack.why.tree import find, leaves, number, steps
from support.each import each
from support.sample_plan import sample_plan

PLAN = sample_plan(walkers=3, days=4, legs=2)
WORD = st.text("abcxyz", min_size=1, max_size=3)
SAFE = st.floats(-1e6, 1e6, allow_nan=False)

EXPLAINERS = tuple(explainers_of())


def of(formula: str, **inputs: Any) -> float:
    """A formula worked out."""
    given_ = {name: Input(value=value, origin="here") for name, value in inputs.items()}
    return evaluate(Explanation(address="x", value=0.0, formula=formula, inputs=given_), {})


def test_every_number_has_a_name_of_its_own() -> None:
    names = [name for name, _ in leaves(PLAN)]
    assert len(names) == len(set(names)) > 500


def test_every_name_leads_back_to_its_number() -> None:
    for name, value in list(leaves(PLAN))[::7]:
        assert number(PLAN, name) == value


def test_equal_rows_are_told_apart_by_their_place() -> None:
    night = Night(day=2, needed_low_ml=1.0, needed_ml=2.0, needed_high_ml=3.0, room_ml=4.0,
                  verdict="closes")  # fmt: skip
    assert [name for name, _ in steps((night, night, night))] == ["2", "2~2", "2~3"]


def test_a_row_without_a_name_is_known_by_its_place() -> None:
    assert dict(steps((5.0, 6.0))) == {"0": 5.0, "1": 6.0}


def test_a_slash_in_the_name_of_a_row_does_not_split_its_address() -> None:
    bag = replace(PLAN.packed.bags[0], id="half/half")
    assert [name for name, _ in steps((bag,))] == ["half-half"]


def test_text_and_blanks_have_no_parts() -> None:
    assert list(steps("word")) == list(steps(None)) == list(steps(1.0)) == []


def test_yes_and_no_are_no_numbers() -> None:
    assert list(leaves({"yes": True, "two": 2})) == [("two", 2.0)]


def test_blanks_have_no_address() -> None:
    assert list(leaves({"price": None, "mass": 3.5})) == [("mass", 3.5)]


@given(st.recursive(SAFE, lambda inner: st.dictionaries(WORD, inner, max_size=4), max_leaves=12))
def test_a_tree_of_mappings_lists_each_of_its_numbers_once(tree: Any) -> None:
    def count(part: Any) -> int:
        return sum(map(count, part.values())) if isinstance(part, dict) else 1

    found = list(leaves(tree))
    assert len(found) == (count(tree) if isinstance(tree, dict) else 0)
    assert all(find(tree, name) == value for name, value in found)


def test_slashes_at_the_ends_do_not_matter() -> None:
    assert find(PLAN, "/totals/net_g/") == find(PLAN, "totals/net_g") == PLAN.totals.net_g


def test_a_wrong_first_word_names_near_ones() -> None:
    with pytest.raises(UnknownAddress, match="the plan has no 'total'; there is: totals"):
        find(PLAN, "total/net_g")


def test_a_wrong_later_word_says_how_far_the_address_led() -> None:
    with pytest.raises(UnknownAddress, match="totals has no 'net'"):
        find(PLAN, "totals/net")


def test_a_number_has_no_parts_to_step_into() -> None:
    with pytest.raises(UnknownAddress, match="has no parts"):
        find(PLAN, "totals/net_g/more")


def test_a_word_unlike_any_other_names_what_there_is() -> None:
    with pytest.raises(UnknownAddress, match="there is: format, trip"):
        find(PLAN, "qqqqqq")


@each(("address", "told"), [
    ("totals", "it holds: person_days"), ("trip/title", "'Heron Tarns round'"),
    ("trip/rules/hot_breakfast", "True"),
])  # fmt: skip
def test_what_is_no_number_says_what_it_is(address: str, told: str) -> None:
    with pytest.raises(UnknownAddress, match=told):
        number(PLAN, address)


@given(st.lists(WORD, max_size=5))
def test_an_address_follows_itself(words: list[str]) -> None:
    assert matches(words, words)
    assert matches(["*"] * len(words), words)
    assert matches(["**"], words)


@given(st.lists(WORD, min_size=1, max_size=5), st.integers(0, 4))
def test_one_star_is_one_word_and_never_two(words: list[str], place: int) -> None:
    pattern = list(words)
    pattern[place % len(words)] = "*"
    assert matches(pattern, words)
    assert not matches(pattern, [*words, "more"])
    assert not matches(pattern, words[:-1])


@given(st.lists(WORD, max_size=4), st.lists(WORD, max_size=4))
def test_two_stars_at_the_end_are_any_number_of_words(head: list[str], tail: list[str]) -> None:
    assert matches([*head, "**"], [*head, *tail])


@each(("pattern", "words"), [
    ("a/b", "a"), ("a", "a/b"), ("a/*/c", "a/b/d"), ("a/b/**", "a"), ("a/**", "b/c"), ("b", "a"),
])  # fmt: skip
def test_other_addresses_do_not_follow(pattern: str, words: str) -> None:
    assert not matches(pattern.split("/"), words.split("/"))


def test_nobody_but_the_last_explains_everything() -> None:
    assert [e.pattern for e in EXPLAINERS].index("**") == len(EXPLAINERS) - 1


def test_no_pattern_stands_twice() -> None:
    patterns = [e.pattern for e in EXPLAINERS]
    assert len(patterns) == len(set(patterns))


def test_every_pattern_begins_with_a_part_of_the_plan() -> None:
    parts = {f.name for f in fields(Plan)}
    assert {e.pattern.split("/")[0] for e in EXPLAINERS[:-1]} <= parts


@each("section", [
    "need", "target", "chosen", "backs", "timeline", "eaten", "kitchen", "packed", "late",
    "yardsticks", "consequence", "assumptions", "slots", "totals", "foods", "trip", "days",
])  # fmt: skip
def test_every_part_has_an_explainer_of_its_own(section: str) -> None:
    names = [name.split("/") for name, _ in leaves(PLAN) if name.split("/")[0] == section]
    assert names
    for words in names[::5]:
        assert any(matches(e.pattern.split("/"), words) for e in EXPLAINERS[:-1]), words


def test_the_particular_is_asked_before_the_general() -> None:
    order = [e.pattern for e in EXPLAINERS]
    assert order.index("need/*/*/energy_kcal") < order.index("need/*/*/*")
    assert order.index("packed/bags/*/net_g") < order.index("packed/**")


def test_a_simple_sum_is_opened_and_counted_again() -> None:
    found = why(PLAN, "totals/g_per_person_day")
    assert found.address == "totals/g_per_person_day"
    assert evaluate(found, {}) == pytest.approx(found.value)


def test_what_is_no_address_is_not_explained() -> None:
    with pytest.raises(UnknownAddress):
        why(PLAN, "totals/nothing")
    with pytest.raises(UnknownAddress):
        why(PLAN, "")


@given(SAFE, SAFE)
def test_sums_and_products_are_those_of_arithmetic(a: float, b: float) -> None:
    assert of("a + b", a=a, b=b) == a + b
    assert of("a - b", a=a, b=b) == a - b
    assert of("a * b", a=a, b=b) == a * b
    assert of("-a", a=a) == -a
    assert of("-(a + b) * 2", a=a, b=b) == -(a + b) * 2


@given(SAFE, st.floats(0.1, 1e3))
def test_shares_and_their_guarded_form_agree_where_there_is_a_whole(a: float, b: float) -> None:
    assert of("a / b", a=a, b=b) == of("over(a, b)", a=a, b=b) == a / b


@each("whole", [0.0, -3.0])
def test_a_share_of_nothing_is_nothing(whole: float) -> None:
    assert of("over(5, whole)", whole=whole) == 0.0


def test_powers_bind_tighter_than_products() -> None:
    assert of("2 * a ** 3", a=2.0) == 16.0


@given(st.lists(st.integers(-1000, 1000), min_size=1, max_size=9))
def test_plain_functions_count_rows(rows: list[int]) -> None:
    assert of("sum(rows)", rows=rows) == sum(rows)
    assert of("max(rows) - min(rows)", rows=rows) == max(rows) - min(rows)
    assert of("count(rows)", rows=rows) == len(rows)
    assert of("mean(rows)", rows=rows) == pytest.approx(sum(rows) / len(rows))


def test_a_mean_of_no_rows_is_nought() -> None:
    assert of("mean(rows)", rows=()) == 0.0


def test_roots_sizes_and_whole_packs() -> None:
    assert of("sqrt(a)", a=2.0) == math.sqrt(2.0)
    assert of("abs(a)", a=-4.0) == 4.0
    assert of("ceil(a / b)", a=7.0, b=2.0) == 4.0


def test_a_formula_may_name_a_function_it_is_given() -> None:
    found = Explanation(address="x", value=0.0, formula="twice(a)",
                        inputs={"a": Input(value=4.0, origin="here")})  # fmt: skip
    assert evaluate(found, {"twice": lambda v: 2 * v}) == 8.0


@each("formula", [
    "b", "unknown(a)", "a.real", "a[0]", "a > 1", "a if a else 1", "[a]", "not a", "a // 2",
    "sum(a, start=1)", "lambda: a", "(lambda: a)()", "a and 1", "{a}", "None", "a +", "", "a = 1",
])  # fmt: skip
def test_whatever_is_no_plain_formula_is_refused(formula: str) -> None:
    with pytest.raises(OatsackError):
        of(formula, a=1.0)


def test_every_explainer_stands_in_a_part_that_is_loaded_for_its_section() -> None:
    for explainer in EXPLAINERS:
        section = explainer.pattern.split("/")[0]
        if section != "**":
            assert explainer in tuple(explainers_of(section)), explainer.pattern


def test_every_file_of_explainers_is_a_part() -> None:
    from pathlib import Path

    from oatsack.why import explainers

    files = {path.stem for path in Path(explainers.__file__).parent.glob("*.py")}
    helpers = {"__init__", "base", "choosing"}  # what several explainers share
    assert files - helpers == {module for module, _, _ in PARTS}


def test_what_a_bag_weighs_with_its_wrapping_can_be_opened_though_no_file_holds_it() -> None:
    bag = PLAN.packed.bags[0]
    address = f"packed/bags/{bag.id}/gross_g"
    assert number(PLAN, address) == bag.gross_g == bag.net_g + bag.wrap_g
    found = why(PLAN, address)
    assert found.formula == "net_g + wrap_g" and evaluate(found, {}) == bag.gross_g
    assert address not in {name for name, _ in leaves(PLAN)}, "a plan file holds each number once"
    with pytest.raises(UnknownAddress, match="gross_g"):
        number(PLAN, f"packed/bags/{bag.id}/gros_g")
