"""Who eats from which pot: names at the pots first, then a pot to a cook group, else all share."""

from __future__ import annotations

from oatsack.values.kit import Pot
from oatsack.values.pots import parties, pot_mates

WHO = ["a", "b", "c", "d"]
LARGE, SMALL = Pot(name="large", volume_ml=3000.0), Pot(name="small", volume_ml=1000.0)


def split(pots: list[Pot], groups: list[list[str]] | None = None) -> list[tuple[str, str]]:
    """Walkers and pots of each party, as words."""
    return [
        ("".join(p.walkers), " ".join(pots[i].name for i in p.pots))
        for p in parties(pots, WHO, groups or [])
    ]


def test_with_one_pot_everyone_eats_from_it() -> None:
    assert split([LARGE]) == [("abcd", "large")]
    assert split([LARGE], [["a"], ["b", "c", "d"]]) == [("abcd", "large")]


def test_a_named_pot_is_theirs_alone_and_the_rest_share_the_nameless() -> None:
    red = Pot(name="red", walkers=("b", "d"))
    assert split([LARGE, red, SMALL]) == [("ac", "large small"), ("bd", "red")]
    assert split([LARGE, red], [["a", "b"], ["c", "d"]]) == [("ac", "large"), ("bd", "red")]


def test_whom_no_pot_names_eats_from_all_where_none_is_nameless() -> None:
    red, blue = Pot(name="red", walkers=("a",)), Pot(name="blue", walkers=("b",))
    assert split([red, blue])[2:] == [("cd", "red blue")]


def test_each_cook_group_has_its_pots_where_there_are_enough_the_larger_the_larger() -> None:
    assert split([SMALL, LARGE], [["a"], ["b", "c", "d"]]) == [("a", "small"), ("bcd", "large")]
    third = Pot(name="third", volume_ml=500.0)
    got = split([SMALL, LARGE, third], [["a"], ["b", "c", "d"]])
    assert got == [("a", "small"), ("bcd", "large third")]


def test_every_walker_is_in_exactly_one_part_and_every_pot_of_a_part_exists() -> None:
    kits = [[LARGE], [LARGE, SMALL], [Pot(walkers=("a",)), LARGE], []]
    groupings = [[], [["a", "b"], ["c", "d"]], [["a"], ["b"], ["c"], ["d"]], [["a", "b"]]]
    wrong = [
        (pots, groups)
        for pots in kits for groups in groupings for found in [parties(pots, WHO, groups)]
        if sorted(w for p in found for w in p.walkers) != WHO
        or any(i >= len(pots) for p in found for i in p.pots)
    ]  # fmt: skip
    assert wrong == []


def test_pot_mates_are_those_of_one_pot_and_of_one_dish() -> None:
    red = Pot(name="red", walkers=("b",))
    apart = pot_mates([LARGE, red], WHO)
    assert apart["b"] == {"b"} and apart["a"] == {"a", "c", "d"}
    dish = pot_mates([LARGE, red], WHO, [["a", "b"], ["c", "d"]])
    assert dish["b"] == {"a", "b"}, "who eats one dish meets it, whatever the pots"


def test_with_one_pot_cook_groups_meet_in_it() -> None:
    met = pot_mates([LARGE], WHO, [["a", "b"], ["c", "d"]])
    assert all(met[w] == set(WHO) for w in WHO)
