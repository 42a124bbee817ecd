"""Whose food meets in a pot: one pot joins cook groups, a pot with names keeps them apart (C10)."""

from __future__ import annotations

from dataclasses import replace

from oatsack.menu.allowed import reason_against
from oatsack.menu.frame import Frame, lay
from oatsack.menu.groups import cook_groups
from oatsack.values.kit import Kit, Pot
from oatsack.values.menu import MenuRequest
from oatsack.values.walker import Avoid
from support.menus import FREE, boiled, food, request, walker

ALLERGIC = walker("ana", avoids=(Avoid(allergen="milk", scope="pot"),))
OTHERS = [walker("bo"), walker("cy")]
SAFE = [
    food(f"safe-{n}", meals="dinner", role="main", prep=boiled(), allergens=FREE) for n in range(2)
]
MILKY = food("milky", meals="dinner", role="main", prep=boiled(), carry="sealed",
             allergens=FREE | {"milk": "contains"})  # fmt: skip


def asked(*pots: Pot) -> MenuRequest:
    """Three walkers, one of whom keeps milk out of the pot; too few dishes suit all to share."""
    made = request([*SAFE, MILKY], [ALLERGIC, *OTHERS])
    return replace(made, kit=Kit(pots=pots or (Pot(),)))


def refused(frame: Frame, who: str) -> str | None:
    slot = next(s for s in frame.request.slots if (s.walker, s.meal) == (who, "dinner"))
    return reason_against(frame.gate, MILKY, slot)


def groups_of(made: MenuRequest) -> list[str]:
    return ["+".join(g.walkers) for g in cook_groups(made)]


def test_two_cook_groups_with_one_pot_meet_in_it() -> None:
    made = asked()
    assert groups_of(made) == ["ana", "bo+cy"]
    frame = lay(made)
    assert refused(frame, "bo") == "allergen-pot"
    assert refused(frame, "ana") == "allergen-plate"


def test_with_a_pot_for_each_group_the_others_cook_what_they_like() -> None:
    frame = lay(asked(Pot(name="large", volume_ml=2000.0), Pot(name="small")))
    assert refused(frame, "bo") is None


def test_a_pot_with_names_parts_the_groups_and_keeps_the_rest_apart() -> None:
    made = asked(Pot(name="red", walkers=("ana", "bo")), Pot(name="blue"))
    assert {w for g in cook_groups(made) for w in g.walkers} == {"ana", "bo", "cy"}
    assert not any({"cy"} < set(g.walkers) for g in cook_groups(made))
    frame = lay(made)
    assert refused(frame, "bo") == "allergen-pot", "who eats from Ana's pot keeps it clean"
    assert refused(frame, "cy") is None


def test_named_pots_part_even_those_whom_one_dish_would_suit() -> None:
    many = [food(f"d{n}", meals="dinner", role="main", prep=boiled(), allergens=FREE)
            for n in range(6)]  # fmt: skip
    made = request(many, [walker("bo"), walker("cy")])
    assert groups_of(made) == ["bo+cy"]
    pots = (Pot(name="red", walkers=("bo",)), Pot(name="blue"))
    assert groups_of(replace(made, kit=Kit(pots=pots))) == ["bo", "cy"]
