"""The gates of the menu against the conventions written out once more, case by case (C10, C11).

Every mixture of what a label says, who avoids it how far, how the food is carried and cooked, and
who shares whose pot: a dozen short sentences here, the program's gates there, and no case apart.
"""

from __future__ import annotations

from itertools import product

from oatsack.menu.allowed import (
    CAFFEINE_MG,
    CHILD_UNDER,
    HOT_DAY_C,
    WARM_DAY_C,
    Gate,
    covers,
    reason_against,
    suits_plate,
    unsafe,
)
from oatsack.values.food import Food, Prep
from oatsack.values.trip import Hold
from oatsack.values.walker import Avoid, Walker
from support.amount import some
from support.menus import FREE, START, food, keeps, request, slot_of, walker

STATES = ("contains", "may", "free", "unknown")
SCOPES = ("plate", "pot", "party")
CARRIES = ("sealed", "bag", "repack")
KINDS = ("none", "soak", "boil", "simmer")
MEAL = {"none": "move", "soak": "dinner", "boil": "dinner", "simmer": "dinner"}


def labelled(state: str, carry: str = "sealed", kind: str = "none") -> Food:
    allergens = {**FREE, "egg": state}
    if state == "unknown":
        del allergens["egg"]
    role = "snack" if kind == "none" else "main"
    prep = Prep(kind=kind, water_ml=0.0 if kind == "none" else 200.0)  # type: ignore[arg-type]
    return food("it", meals=MEAL[kind], role=role, allergens=allergens, carry=carry, prep=prep)


def gated(eater: Walker, other: Walker, item: Food, *, together: bool) -> Gate:
    asked = request([item], [eater, other])
    groups = [{eater.id, other.id}] if together else [{eater.id}, {other.id}]
    mates = {w: frozenset(g) for g in groups for w in g}
    return Gate(request=asked, walkers={w.id: w for w in (eater, other)}, mates=mates)


def bad(state: str, *, traces: bool) -> bool:
    """Unknown counts as contains; a trace is allowed by whoever says so."""
    return state in ("contains", "unknown") or (state == "may" and not traces)


def refused(state: str, avoid: Avoid, *, own: bool, together: bool, carry: str, kind: str) -> bool:
    """My plate: what I eat. Shared pot and tools: what is cooked in a pot of mine, and whatever
    anybody repacks at home. Whole party: anything that anybody eats."""
    if not bad(state, traces=avoid.traces):
        return False
    if own or avoid.scope == "party":
        return True
    if avoid.scope == "pot":
        return carry == "repack" or (together and kind != "none")
    return False


def test_every_mixture_of_label_scope_carry_and_pot_is_gated_as_written() -> None:
    wrong = []
    both = (False, True)
    for case in some(product(STATES, SCOPES, both, CARRIES, KINDS, both, both), 7):
        state, scope, traces, carry, kind, own, together = case
        avoid = Avoid(allergen="egg", scope=scope, traces=traces)
        careful, plain = walker("ben", avoids=(avoid,)), walker("anna")
        eater, other = (careful, plain) if own else (plain, careful)
        item = labelled(state, carry, kind)
        gate = gated(eater, other, item, together=together)
        slot = slot_of(gate.request, MEAL[kind])  # type: ignore[arg-type]
        wanted = refused(state, avoid, own=own, together=together, carry=carry, kind=kind)
        safe = unsafe(gate, item, slot)
        told = reason_against(gate, item, slot)
        if (safe is not None) != wanted or (wanted and told != safe):
            wrong.append((case, safe, told))
        if own and suits_plate(careful, item) == bad(state, traces=traces):
            wrong.append((case, "plate"))
    assert wrong == []


def test_of_several_avoids_one_is_enough_and_the_other_allergens_do_not_matter() -> None:
    two = walker(avoids=(Avoid(allergen="milk"), Avoid(allergen="egg", traces=True)))
    for milk, egg in product(STATES, STATES):
        item = food("it", allergens={**FREE, "milk": milk, "egg": egg, "soy": "contains"})
        assert suits_plate(two, item) == (
            not bad(milk, traces=False) and not bad(egg, traces=True)
        )


def test_pot_mates_alone_say_whose_pot_it_is_where_the_kit_names_them() -> None:
    """Who eats the same dish may cook in another pot; then the pot decides, not the dish."""
    careful = walker("ben", avoids=(Avoid(allergen="egg", scope="pot"),))
    item = labelled("contains", "sealed", "boil")
    for together, pot, wanted in ((True, {"anna"}, None), (False, {"anna", "ben"}, "allergen-pot"),
                                  (True, {"anna", "ben"}, "allergen-pot")):  # fmt: skip
        gate = gated(walker("anna"), careful, item, together=together)
        potted = Gate(request=gate.request, walkers=gate.walkers, mates=gate.mates,
                      pot_mates={"anna": frozenset(pot)})  # fmt: skip
        assert unsafe(potted, item, slot_of(gate.request, "dinner")) == wanted


def test_food_keeps_so_many_days_and_half_of_them_above_the_warm_limit() -> None:
    for days, day, heat in product((1.0, 2.0, 3.0), range(1, 5), (WARM_DAY_C, WARM_DAY_C + 0.1)):
        item = food("it", keep=keeps(warm_days=days))
        asked = request([item], count=4, temperatures_c={1: heat, 2: 5.0, 3: 5.0, 4: 5.0})
        gate = Gate(request=asked, walkers={"anna": walker()}, mates={})
        spoilt = day > (days if heat <= WARM_DAY_C else days / 2.0)
        told = reason_against(gate, item, slot_of(asked, "move", day))
        assert told == ("spoils" if spoilt else None), (days, day, heat)


def test_days_open_count_for_what_is_repacked_and_for_nothing_else() -> None:
    for carry, opened, day in product(CARRIES, (None, 1.0, 2.0), range(1, 4)):
        item = food("it", carry=carry, keep=keeps(opened_days=opened))
        asked = request([item], count=3)
        gate = Gate(request=asked, walkers={"anna": walker()}, mates={})
        gone = carry == "repack" and opened is not None and day > opened
        told = reason_against(gate, item, slot_of(asked, "move", day))
        assert told == ("opened" if gone else None), (carry, opened, day)


def test_what_melts_is_refused_from_the_first_day_at_the_limit_on() -> None:
    item = food("it", keep=keeps(melts=True))
    for heat in (HOT_DAY_C - 0.1, HOT_DAY_C, HOT_DAY_C + 4.0):
        asked = request([item], count=3, temperatures_c={1: 10.0, 2: heat, 3: 10.0})
        gate = Gate(request=asked, walkers={"anna": walker()}, mates={})
        told = [reason_against(gate, item, slot_of(asked, "move", d)) for d in (1, 2, 3)]
        assert told == [None, *["melts" if heat >= HOT_DAY_C else None] * 2]
        unknown = request([item], count=1)
        assert reason_against(gate_of(unknown), item, slot_of(unknown, "move")) is None


def gate_of(asked):  # type: ignore[no-untyped-def]
    return Gate(request=asked, walkers={w.id: w for w in asked.walkers}, mates={})


def test_a_child_is_offered_no_coffee_and_an_adult_is() -> None:
    for age, mg, offered in (
        (CHILD_UNDER - 0.1, CAFFEINE_MG, False), (CHILD_UNDER - 0.1, CAFFEINE_MG - 0.1, True),
        (CHILD_UNDER, CAFFEINE_MG, True), (None, 80.0, True),
    ):  # fmt: skip
        item = food("it", dose_g=100.0, caffeine_mg=mg)
        asked = request([item], [walker(age_years=age)])
        told = reason_against(gate_of(asked), item, slot_of(asked, "move"))
        assert told == (None if offered else "coffee"), (age, mg)
        assert unsafe(gate_of(asked), item, slot_of(asked, "move")) is None, "one's own pick stands"


def test_a_hold_speaks_of_every_place_that_it_leaves_open() -> None:
    asked = request([food("it")], [walker("anna"), walker("ben")], count=2)
    for who, date, meal in product((None, "anna"), (None, START), (None, "move")):
        hold = Hold(food="it", walker=who, date=date, meal=meal, count=0)
        spoken = {(s.walker, s.day, s.meal) for s in asked.slots if covers(hold, s)}
        wanted = {
            (s.walker, s.day, s.meal) for s in asked.slots
            if (not who or s.walker == who) and (not date or s.day == 1)
            and (not meal or s.meal == meal)
        }  # fmt: skip
        assert spoken == wanted != set()
