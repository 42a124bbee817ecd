"""Whether a food may stand at a meal at all: the gates, each a named reason to say no.

A gate reads one food, one slot and the people it concerns; it never weighs anything. Gates are
hard, and those named in `NEVER_BENT` are bent by nothing (C11). Rows stand in `menu/rules`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from oatsack.values.classes import high_of
from oatsack.values.food import Food, Meal
from oatsack.values.menu import MenuRequest, Slot
from oatsack.values.trip import Hold
from oatsack.values.walker import Avoid, Walker

DIETS: Mapping[str, frozenset[str]] = {
    "vegan": frozenset({"vegan"}),
    "vegetarian": frozenset({"vegan", "vegetarian"}),
    "fish": frozenset({"vegan", "vegetarian", "fish"}),
    "anything": frozenset({"vegan", "vegetarian", "fish", "meat", "check"}),
}
HOT_DAY_C = 26.0
"""From this air on, chocolate and the like melt. Source: common practice."""
WARM_DAY_C = 25.0
"""Above this, what keeps in the warm keeps half as long; ours."""
CHILD_UNDER = 16.0
CAFFEINE_MG = 20.0
"""So much in a dose is a coffee or a strong tea; ours."""
SOAK_MEALS: frozenset[Meal] = frozenset({"breakfast", "dinner"})
"""Where there is time to wait for a cold soak."""
SHORT_SOAK_MIN = 5.0
FROM_THE_HAND = frozenset({"protein", "dairy"})
"""Toppings that are eaten by themselves: cheese, dried sausage."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """What the gates know besides the food and the slot."""

    request: MenuRequest
    walkers: Mapping[str, Walker]
    mates: Mapping[str, frozenset[str]]
    """Walker -> everyone who eats the same dish, the walker included."""
    pot_mates: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Walker -> everyone whose food goes into the same pots; empty: the mates."""


NamedGate = tuple[str, Callable[[Gate, Food, Slot], bool]]


def reason_against(gate: Gate, food: Food, slot: Slot) -> str | None:
    """The name of the first gate that refuses this food here; None when it may stand here."""
    return _first(GATES, gate, food, slot)


def _first(gates: Iterable[NamedGate], gate: Gate, food: Food, slot: Slot) -> str | None:
    return next((name for name, refuses in gates if refuses(gate, food, slot)), None)


def reason_any_day(gate: Gate, food: Food, slot: Slot) -> str | None:
    """The first gate that refuses this food at this meal whatever the day: the same for all slots
    of one walker, meal and heat."""
    return _first(ANY_DAY, gate, food, slot)


def reason_on_day(gate: Gate, food: Food, slot: Slot) -> str | None:
    """The first gate that refuses this food because of the day."""
    return _first(ON_DAY, gate, food, slot)


def suits_plate(walker: Walker, food: Food) -> bool:
    """Whether a walker's own diet and allergies allow a food on the plate."""
    return food.diet in DIETS[walker.eats] and not any(_hits(a, food) for a in walker.avoids)


def _hits(avoid: Avoid, food: Food) -> bool:
    """Unknown counts as contains; traces count unless the walker allows them (C10)."""
    state = food.state(avoid.allergen)
    return state in ("contains", "unknown") or (state == "may" and not avoid.traces)


def touches_tools(food: Food) -> bool:
    """Whether it is cooked, or repacked at home with the same tools as everything else."""
    return food.prep.kind != "none" or food.carry == "repack"


def _no_energy(gate: Gate, food: Food, slot: Slot) -> bool:
    return food.per_100g.energy_kcal is None


def _wrong_meal(gate: Gate, food: Food, slot: Slot) -> bool:
    if slot.meal not in food.meals or food.role == "small":
        return True
    if slot.meal == "drinks":
        return food.role != "drink" or (slot.hot and food.prep.kind != "boil")
    if food.role == "drink":
        return slot.meal != "move" or food.prep.kind == "boil"
    return slot.meal == "move" and food.role == "topping" and food.category not in FROM_THE_HAND


def _diet(gate: Gate, food: Food, slot: Slot) -> bool:
    return food.diet not in DIETS[gate.walkers[slot.walker].eats]


def _allergen_plate(gate: Gate, food: Food, slot: Slot) -> bool:
    return any(_hits(a, food) for a in gate.walkers[slot.walker].avoids)


def _allergen_pot(gate: Gate, food: Food, slot: Slot) -> bool:
    """Kept over the pot mates for what is cooked, over the whole party for what is repacked."""
    if not touches_tools(food):
        return False
    everyone = food.carry == "repack"
    others = gate.walkers.values() if everyone else _mates(gate, slot)
    return any(a.scope == "pot" and _hits(a, food) for w in others for a in w.avoids)


def _mates(gate: Gate, slot: Slot) -> list[Walker]:
    mates = gate.pot_mates or gate.mates
    return [gate.walkers[name] for name in mates.get(slot.walker, frozenset({slot.walker}))]


def _allergen_party(gate: Gate, food: Food, slot: Slot) -> bool:
    party = gate.walkers.values()
    return any(a.scope == "party" and _hits(a, food) for w in party for a in w.avoids)


def _flame(gate: Gate, food: Food, slot: Slot) -> bool:
    """Heat where none may be; a cold soak where there is no time for it."""
    kind, soak = food.prep.kind, food.prep.cold_soak_min
    if slot.hot and kind != "soak":
        return False
    if kind == "none":
        return False
    if kind == "soak" and soak is None:
        soak = food.prep.wait_min
    if soak is None:
        return True
    return slot.meal not in SOAK_MEALS and soak > SHORT_SOAK_MIN


def warmth(request: MenuRequest, slot: Slot) -> tuple[bool, bool]:
    """Whether it was hot enough until then for chocolate to melt, and for food to keep half as
    long."""
    days = [t for day, t in request.temperatures_c.items() if day <= slot.day]
    warmest = max(days, default=-99.0)
    return warmest >= HOT_DAY_C, warmest > WARM_DAY_C


def _melts(gate: Gate, food: Food, slot: Slot) -> bool:
    return food.keep.melts and warmth(gate.request, slot)[0]


def _spoils(gate: Gate, food: Food, slot: Slot) -> bool:
    days = food.keep.warm_days
    if days is None:
        return False
    warm = warmth(gate.request, slot)[1]
    return slot.carry_days > (days / 2.0 if warm else days)


def _opened(gate: Gate, food: Food, slot: Slot) -> bool:
    """Repacked at home, it stands open from the first day on."""
    days = food.keep.opened_days
    return food.carry == "repack" and days is not None and slot.carry_days > days


def _coffee(gate: Gate, food: Food, slot: Slot) -> bool:
    """Nothing with much caffeine is proposed to a child; their own picks stand. A blank counts as
    the high value of its class (C2)."""
    age = gate.walkers[slot.walker].age_years
    if age is None or age >= CHILD_UNDER:
        return False
    blank = high_of(food, "caffeine_mg") * food.dose_g / 100.0
    stated = food.per_dose("caffeine_mg")
    return (blank if stated is None else stated) >= CAFFEINE_MG


def _banned(gate: Gate, food: Food, slot: Slot) -> bool:
    return forbidden(gate.request, food.id, slot)


def forbidden(request: MenuRequest, food: str, slot: Slot) -> bool:
    """Whether someone has said never to this food in this slot."""
    return any(h.count <= 0 and h.food == food and covers(h, slot) for h in request.rules.holds)


def covers(hold: Hold, slot: Slot) -> bool:
    """Whether a hold or ban speaks of this slot; what it leaves open covers everything."""
    return (
        hold.walker in (None, slot.walker)
        and hold.date in (None, slot.date)
        and hold.meal in (None, slot.meal)
    )


def _disliked(gate: Gate, food: Food, slot: Slot) -> bool:
    walker = gate.walkers[slot.walker]
    return bool(walker.dislikes & {food.id, food.category})


GATES: tuple[NamedGate, ...] = (
    ("no-energy", _no_energy),
    ("meal", _wrong_meal),
    ("diet", _diet),
    ("allergen-plate", _allergen_plate),
    ("allergen-pot", _allergen_pot),
    ("allergen-party", _allergen_party),
    ("flame", _flame),
    ("melts", _melts),
    ("spoils", _spoils),
    ("opened", _opened),
    ("coffee", _coffee),
    ("banned", _banned),
    ("disliked", _disliked),
)
DATED = frozenset({"melts", "spoils", "opened", "banned"})
"""Gates that look at the slot's day; all others only at its walker, meal and heat."""
ANY_DAY = tuple((name, gate) for name, gate in GATES if name not in DATED)
ON_DAY = tuple((name, gate) for name, gate in GATES if name in DATED)
NEVER_BENT = frozenset({"diet", "allergen-plate", "allergen-pot", "allergen-party"})
"""Gates that no way out, dial or swap opens (C11)."""
SAFETY = tuple((name, gate) for name, gate in GATES if name in NEVER_BENT)


def unsafe(gate: Gate, food: Food, slot: Slot) -> str | None:
    """The name of the safety gate that refuses even the walker's own pick."""
    return _first(SAFETY, gate, food, slot)
