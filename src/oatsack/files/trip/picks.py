"""The small languages inside a trip file's texts: picks, bags, counts, target, spare, terrain.

``2 maple-oatmeal + 1 milk-powder``, ``2 instant-coffee a day``, ``85%``. Whether a food exists is
not known here (see `foods`).
"""

from __future__ import annotations

import re

from oatsack import units
from oatsack.errors import UnitError
from oatsack.files.trip.kinds import Kind, need_text, plain, quoted
from oatsack.units.numbers import leading, tidy
from oatsack.values.food import ALLERGENS
from oatsack.values.walker import Choice, Count, Pick, Target

FOOD_ID = re.compile(r"(?=.*[a-z])[a-z0-9]+(?:[-_][a-z0-9]+)*")
_PER = re.compile(
    r"(?P<pick>.*?)\s*(?:\b(?:an?|per|every|each|for the|in the)\s+|/\s*)"
    r"(?P<per>day|mug|bottle|trip)s?\s*"
)
MOST = 999.0

EAT_WORDS = {"light": 0.70, "usual": None, "hungry": 1.00}
"""Eating words as shares of the likely need (our choice); usual is what stands if nobody asks."""

ALLERGEN_HINTS = {
    "nut": '"tree_nut", "peanut", or both', "nuts": '"tree_nut", "peanut", or both',
    "treenut": '"tree_nut"', "tree nut": '"tree_nut"', "tree nuts": '"tree_nut"',
    "tree-nut": '"tree_nut"', "peanuts": '"peanut"', "eggs": '"egg"', "dairy": '"milk"',
    "lactose": '"milk"', "coeliac": '"gluten"', "celiac": '"gluten"', "soya": '"soy"',
    "shellfish": '"crustacean", "mollusc", or both', "sulfites": '"sulphites"',
    "sulphite": '"sulphites"',
}  # fmt: skip


def food_id(text: str) -> str:
    """The id of a food; a name with blanks or capitals is refused with its likely id."""
    if FOOD_ID.fullmatch(text):
        return text
    likely = re.sub(r"[^a-z0-9]+", "-", text.casefold()).strip("-")
    hint = f'write "{likely}", or ' if likely else ""
    raise UnitError(f'"{text}" is no food id', instead=f"{hint}look it up with: oatsack foods")


def counted(text: str) -> tuple[float | None, str]:
    """A count, where one is written, and a food: ``2 oats``, ``2x oats``, ``oats``."""
    clean = tidy(text)
    found = None if clean.startswith("-") else leading(clean, 0, decimal=None)
    rest = re.fullmatch(r"\s*[x×]?\s+(\S.*)", clean[found[1] :]) if found else None
    if not clean or (found and found[1] == len(clean)):
        raise UnitError("no food", instead='write for example "2 maple-oatmeal"')
    if found is None or rest is None:
        return None, food_id(clean)
    if not 0 < found[0] <= MOST:
        raise UnitError(
            f"{plain(found[0])} of a food", instead=f"write a count up to {plain(MOST)}"
        )
    return found[0], food_id(rest[1])


def pick(text: str) -> Pick:
    """``2 maple-oatmeal``, ``½ granola``, ``granola``."""
    count, food = counted(text)
    return Pick(food=food, count=1.0 if count is None else count)


def _read_choice(value: object) -> Choice:
    text = need_text(value, "foods", '"2 maple-oatmeal + 1 milk-powder"')
    return Choice(picks=tuple(pick(part) for part in text.split("+")))


def _read_bag(value: object) -> Pick:
    """``trail-mix`` lets the plan say how many packs; ``2 beef-jerky`` says it."""
    count, food = counted(need_text(value, "a food", '"trail-mix"'))
    return Pick(food=food, count=count or 0.0)


def _read_count(value: object) -> Count:
    text = need_text(value, "a count", '"2 instant-coffee a day"').strip()
    found = _PER.fullmatch(text)
    if found is None:
        likely = pick(text)
        one = f"{plain(likely.count)} {likely.food}"
        raise UnitError(
            "a count with two readings, a day or for the trip",
            instead=f'write "{one} a day", "a mug", "a bottle" or "a trip"',
        )
    taken = pick(found["pick"])
    return Count(food=taken.food, count=taken.count, per=found["per"])  # type: ignore[arg-type]


def _read_food(value: object) -> str:
    return food_id(need_text(value, "a food id", '"trail-mix"').strip())


def _read_allergen(value: object) -> str:
    text = need_text(value, "an allergen", '"peanut"').strip().casefold()
    if text in ALLERGENS:
        return text
    if text in ALLERGEN_HINTS:
        raise UnitError("no allergen we know", instead=f"write {ALLERGEN_HINTS[text]}")
    listed = ", ".join(f'"{name}"' for name in ALLERGENS)
    raise UnitError("no allergen we know", instead=f"known: {listed}")


def _read_target(value: object) -> Target:
    text = need_text(value, "a target", '"2200 kcal" or "85%"').strip()
    if text in EAT_WORDS:
        return Target(share=EAT_WORDS[text])
    if re.search(r"%|/|^0?[.,]", text) and "k" not in text.casefold():
        share = units.share(text)
        return Target(share=_within(share, 0.2, 2.0, "20% to 200%"))
    return Target(kcal=_within(units.energy_kcal(text), 300.0, 12_000.0, "300 to 12000 kcal"))


def _within(value: float, low: float, high: float, span: str) -> float:
    if value < 0:
        raise UnitError("negative", instead=f"write {span}")
    if not low <= value <= high:
        raise UnitError("out of range", instead=f"write {span}")
    return value


def _show_target(target: Target) -> str:
    if target.kcal is not None:
        return quoted(units.show_energy(target.kcal))
    return quoted("usual" if target.share is None else units.show_share(target.share))


def _read_spare(value: object) -> str | float:
    text = need_text(value, "spare food", '"meal", "day", "none" or "500 kcal"').strip()
    if text in ("none", "meal", "day"):
        return text
    if not re.match(r"[\d.,]", text):
        raise UnitError(
            "no spare food we know", instead='write "none", "meal", "day" or "500 kcal"'
        )
    return _within(units.energy_kcal(text), 0.0, 20_000.0, "0 to 20000 kcal")


SNOW = re.compile(r"(.*?\S)\s+(?:of\s+)?snow")
"""Fresh snow by its depth; packed snow is a surface of its own."""


def _read_terrain(value: object) -> float:
    """A factor, the name of a surface, or how deep the snow is."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _within(float(value), 1.0, 8.0, "a factor from 1 to 8")
    from oatsack.walker.terrain import FACTORS, snow_factor

    listed = ", ".join(f'"{name}"' for name in FACTORS)
    text = need_text(value, "a terrain", '1.1, or "dirt"')
    if snow := SNOW.fullmatch(text):
        depth_cm = _within(units.length_cm(snow[1]), 0.0, 500.0, "up to 5 m of snow")
        return float(snow_factor(depth_cm))
    if text not in FACTORS:
        raise UnitError(
            "no terrain we know",
            instead=f'write a factor from 1 to 8, "10 cm snow", or one of {listed}',
        )
    return FACTORS[text]


def _read_money(value: object) -> tuple[float, str]:
    amount, currency = units.money(need_text(value, "an amount of money", '"80 EUR"'))
    return _within(amount, 0.0, 1e6, "an amount of nothing or more"), currency


def _show_count(count: Count) -> str:
    return quoted(f"{plain(count.count)} {count.food} a {count.per}")


def show_choice(choice: Choice) -> str:
    """A choice as it is written, without quotes."""
    return " + ".join(f"{plain(one.count)} {one.food}" for one in choice.picks)


FOOD = Kind("a food id", '"trail-mix"', _read_food, quoted)
CHOICE = Kind(
    "foods that go together",
    '"2 maple-oatmeal + 1 milk-powder"', _read_choice, lambda one: quoted(show_choice(one)),
)  # fmt: skip
BAG = Kind(
    "a food, with the number of packs if you know it", '"trail-mix"', _read_bag,
    lambda one: quoted(f"{plain(one.count)} {one.food}" if one.count else one.food),
)  # fmt: skip
COUNT = Kind(
    "so many of a food a day, a mug, a bottle or a trip", '"2 instant-coffee a day"', _read_count,
    _show_count,
)  # fmt: skip
ALLERGEN = Kind("an allergen", '"peanut"', _read_allergen, quoted, lambda: ALLERGENS)
TARGET = Kind(
    'an energy a day, a share of the need, or "light" (70%), "usual", "hungry" (100%)',
    '"2200 kcal"', _read_target, _show_target,
)  # fmt: skip
SPARE = Kind(
    '"none", "meal" (one cold meal), "day", or an energy for each walker', '"meal"', _read_spare,
    lambda value: quoted(value if isinstance(value, str) else units.show_energy(value)),
)  # fmt: skip
TERRAIN = Kind("a factor from 1 to 8, a surface, or the depth of snow", "1.1", _read_terrain, plain)
MONEY = Kind(
    "an amount with its currency", '"80 EUR"', _read_money,
    lambda value: quoted(units.show_money(*value)),
)  # fmt: skip
