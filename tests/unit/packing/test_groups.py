"""Cook groups and their short names."""

from __future__ import annotations

from oatsack.packing.groups import cook_groups, group_name, split
from oatsack.values.kitchen import KitchenLedger, MealLedger
from support.each import each

TWELVE = tuple("abcdefghijkl")


def occasion(*walkers: str, day: int = 1) -> MealLedger:
    return MealLedger(day=day, meal="dinner", walkers=walkers, boiled_ml=0, cold_ml=0, wash_ml=0,
                      heat_kj=0, fuel_g=0, minutes=0)  # fmt: skip


@each(
    ("count", "sizes"), [(1, [1]), (6, [6]), (8, [8]), (9, [4, 5]), (12, [6, 6]), (20, [5] * 4)]
)
def test_a_party_splits_into_even_groups_of_about_six(count: int, sizes: list[int]) -> None:
    """Common practice: best at six to eight; twelve are two groups of six."""
    groups = split([str(i) for i in range(count)])
    assert sorted(len(g) for g in groups) == sorted(sizes)


def test_the_kitchen_says_who_cooks_together() -> None:
    ledger = KitchenLedger(meals=(occasion("a", "c"), occasion("b", "d")))
    assert cook_groups(("a", "b", "c", "d"), ledger) == (("a", "c"), ("b", "d"))


def test_whoever_the_kitchen_forgets_is_in_a_group_too() -> None:
    groups = cook_groups(("a", "b", "c"), KitchenLedger(meals=(occasion("a", "b"),)))
    assert sorted(w for g in groups for w in g) == ["a", "b", "c"]


def test_nobody_is_in_two_groups() -> None:
    ledger = KitchenLedger(meals=(occasion("a", "b"), occasion("b", "c", day=2)))
    members = [w for g in cook_groups(("a", "b", "c"), ledger) for w in g]
    assert sorted(members) == ["a", "b", "c"]


def test_names_are_ids_for_a_few_and_a_letter_for_a_group() -> None:
    groups = (TWELVE[:6], TWELVE[6:])
    assert group_name(["b"], groups, TWELVE) == "b"
    assert group_name(["c", "a"], groups, TWELVE) == "a+c"
    assert group_name(TWELVE[6:], groups, TWELVE) == "B"
    assert group_name(TWELVE[:5], groups, TWELVE) == "A-f"
    assert group_name(TWELVE, groups, TWELVE) == "all"


def test_different_eaters_of_a_group_never_share_a_name() -> None:
    import itertools

    groups = (TWELVE[:6], TWELVE[6:])
    names = [
        group_name(who, groups, TWELVE)
        for n in range(1, 7)
        for who in itertools.combinations(TWELVE[:6], n)
    ]
    assert len(set(names)) == len(names)


def test_a_kitchen_that_names_one_pot_for_twelve_is_split_into_two_groups() -> None:
    """Common practice: ten at most eat from one pot."""
    groups = cook_groups(TWELVE, KitchenLedger(meals=(occasion(*TWELVE),)))
    assert groups == (TWELVE[:6], TWELVE[6:])
    ten = TWELVE[:10]
    assert cook_groups(ten, KitchenLedger(meals=(occasion(*ten),))) == (ten,)


def test_of_a_large_party_those_who_eat_the_same_dinners_cook_together() -> None:
    """Every third eats rice, the others pasta, and on one evening all eat lentils."""
    rice = frozenset({(1, "rice"), (2, "rice"), (3, "lentils")})
    pasta = frozenset({(1, "pasta"), (2, "pasta"), (3, "lentils")})
    dinners = {w: rice if i % 3 == 0 else pasta for i, w in enumerate(TWELVE)}
    groups = cook_groups(TWELVE, KitchenLedger(meals=(occasion(*TWELVE),)), dinners)
    assert groups == (tuple("adgj"), tuple("bcefhikl"))


def test_a_large_party_of_loners_is_split_by_number() -> None:
    dinners = {w: frozenset({(1, w)}) for w in TWELVE}
    assert cook_groups(TWELVE, KitchenLedger(), dinners) == (TWELVE[:6], TWELVE[6:])


def test_a_small_party_is_one_group_whatever_it_eats() -> None:
    dinners = {w: frozenset({(1, w)}) for w in TWELVE[:5]}
    assert cook_groups(TWELVE[:5], KitchenLedger(), dinners) == (TWELVE[:5],)


def test_couples_who_share_dishes_are_kept_together() -> None:
    dinners = {w: frozenset({(1, w), (2, str(i // 2)), (3, str(i // 2))})
               for i, w in enumerate(TWELVE)}  # fmt: skip
    groups = cook_groups(TWELVE, KitchenLedger(), dinners)
    assert groups == tuple((TWELVE[i], TWELVE[i + 1]) for i in range(0, 12, 2))
