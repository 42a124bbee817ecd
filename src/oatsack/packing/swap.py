"""A substitution at the shelf: what was planned is not there, something else is bought.

Swaps one food for another in a menu, by energy and in whole doses, and checks again what a shelf
does not say: allergens of everyone who would eat it (fail-closed, C10), diet, energy of each day,
sodium, water. It proposes; the dangerous swap is the one on shop day, so allergens block.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from oatsack.packing.loss import is_safe
from oatsack.values.flags import Flag
from oatsack.values.food import Diet, Food
from oatsack.values.menu import Menu, Pool, Portion
from oatsack.values.walker import Eats, Walker

By = Literal["energy", "mass", "doses"]
ENERGY_WINDOW = 0.12
"""A day's energy may move by so much before it is said (the everyday window)."""
SODIUM_MG_DAY = 500.0
WATER_ML_DAY = 250.0
"""Changes of a day's sodium and water worth a word (ours)."""
EATS: Mapping[Eats, frozenset[Diet]] = {
    "anything": frozenset({"vegan", "vegetarian", "fish", "meat", "check"}),
    "fish": frozenset({"vegan", "vegetarian", "fish"}),
    "vegetarian": frozenset({"vegan", "vegetarian"}),
    "vegan": frozenset({"vegan"}),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Swapped:
    """The menu after a swap, what it changes by walker and day, and what must be said."""

    menu: Menu
    energy_kcal: Mapping[tuple[str, int], float]
    """(walker, day) -> change of energy; spare is day 0."""
    mass_g: float
    """Change of net mass over the trip."""
    flags: tuple[Flag, ...]

    @property
    def allowed(self) -> bool:
        """Whether nothing hard is broken by it."""
        return not any(flag.level == "block" for flag in self.flags)


def swap(menu: Menu, old: Food, new: Food, walkers: Sequence[Walker], *, by: By = "energy",
         foods: Mapping[str, Food]) -> Swapped:  # fmt: skip
    """The menu with every portion of one food replaced by another.

    `by` says what stays equal: energy (to the nearest whole dose, at least one), mass, or doses.
    """
    ratio = doses_ratio(old, new, by)
    portions = tuple(_portion(p, old, new, ratio) for p in menu.portions)
    spare = tuple(_portion(p, old, new, ratio) for p in menu.spare)
    pools = tuple(_pool(p, old, new, ratio) for p in menu.pools)
    portions = _follow_pools(portions, pools, new)
    done = replace(menu, portions=portions, spare=spare, pools=pools)
    rows = {**foods, new.id: new}
    energy = _change(menu, done, rows, "energy_kcal")
    return Swapped(
        menu=done, energy_kcal=energy, mass_g=_mass(done, rows) - _mass(menu, rows),
        flags=tuple(_signs(menu, done, old, new, walkers, rows=rows)),
    )  # fmt: skip


def doses_ratio(old: Food, new: Food, by: By) -> float:
    """Doses of the new food for one dose of the old."""
    if by == "mass":
        return old.dose_g / new.dose_g
    if by == "energy" and new.dose_kcal > 0 and old.dose_kcal > 0:
        return old.dose_kcal / new.dose_kcal
    return 1.0


def _portion(portion: Portion, old: Food, new: Food, ratio: float) -> Portion:
    if portion.food != old.id:
        return portion
    return replace(portion, food=new.id, doses=max(1.0, round(portion.doses * ratio)))


def _pool(pool: Pool, old: Food, new: Food, ratio: float) -> Pool:
    """An open bag becomes whole packs of the new food, nibbled in the same proportions."""
    if pool.food != old.id:
        return pool
    grams = pool.packs * old.pack_g / old.dose_g * ratio * new.dose_g
    packs = max(1.0, float(round(grams / new.pack_g)))
    eaten = sum(pool.by_day_g.values()) or 1.0
    share = packs * new.pack_g / eaten
    return replace(pool, food=new.id, packs=packs,
                   by_day_g={d: g * share for d, g in pool.by_day_g.items()})  # fmt: skip


def _follow_pools(portions: Iterable[Portion], pools: Iterable[Pool],
                  new: Food) -> tuple[Portion, ...]:  # fmt: skip
    """Shares of an open bag are what the bag holds, not rounded doses."""
    day_g = {(p.walker, d): g for p in pools if p.food == new.id for d, g in p.by_day_g.items()}
    return tuple(
        replace(p, doses=day_g[p.walker, p.day] / new.dose_g)
        if p.food == new.id and p.why == "bag" and (p.walker, p.day) in day_g else p
        for p in portions
    )  # fmt: skip


def _mass(menu: Menu, rows: Mapping[str, Food]) -> float:
    return sum(p.doses * rows[p.food].dose_g for p in (*menu.portions, *menu.spare))


def _sums(menu: Menu, rows: Mapping[str, Food], what: str) -> dict[tuple[str, int], float]:
    out: dict[tuple[str, int], float] = {}
    for p in (*menu.portions, *menu.spare):
        food = rows[p.food]
        each = food.prep.water_ml if what == "water_ml" else (food.per_dose(what) or 0.0)
        out[p.walker, p.day] = out.get((p.walker, p.day), 0.0) + p.doses * each
    return out


def _change(before: Menu, after: Menu, rows: Mapping[str, Food],
            what: str) -> dict[tuple[str, int], float]:  # fmt: skip
    a, b = _sums(before, rows, what), _sums(after, rows, what)
    return {key: b.get(key, 0.0) - a.get(key, 0.0) for key in sorted({*a, *b})}


def _signs(before: Menu, after: Menu, old: Food, new: Food, walkers: Sequence[Walker], *,
           rows: Mapping[str, Food]) -> list[Flag]:  # fmt: skip
    eaters = {p.walker for p in (*before.portions, *before.spare) if p.food == old.id}
    return [
        *_eater_signs(eaters, new, walkers),
        *_energy_signs(before, after, rows),
        *_big_changes(before, after, rows, "sodium_mg", SODIUM_MG_DAY),
        *_big_changes(before, after, rows, "water_ml", WATER_ML_DAY),
    ]


def _eater_signs(eaters: Iterable[str], new: Food, walkers: Sequence[Walker]) -> list[Flag]:
    """Who may not eat it: an allergen of their own or of someone who shares the pot, a diet."""
    out = []
    who = set(eaters)
    for walker in walkers:
        near = walker.id in who or any(a.scope == "party" for a in walker.avoids)
        pot = any(a.scope == "pot" for a in walker.avoids) and new.prep.needs_pot
        if (near or pot) and not is_safe(new, walker):
            out.append(Flag(key="packing.swap.allergen", level="block", scope=f"menu/{walker.id}",
                            values={"walker": walker.id, "food": new.id}))  # fmt: skip
        if walker.id in who and new.diet not in EATS[walker.eats]:
            out.append(Flag(key="packing.swap.diet", level="block", scope=f"menu/{walker.id}",
                            values={"walker": walker.id, "food": new.id}))  # fmt: skip
    return out


def _energy_signs(before: Menu, after: Menu, rows: Mapping[str, Food]) -> list[Flag]:
    day = _sums(before, rows, "energy_kcal")
    return [
        Flag(key="packing.swap.energy", level="quiet", scope=f"menu/{w}/{d}",
             values={"walker": w, "day": d, "change_kcal": change})
        for (w, d), change in _change(before, after, rows, "energy_kcal").items()
        if d > 0 and abs(change) > ENERGY_WINDOW * day.get((w, d), 0.0)
    ]  # fmt: skip


def _big_changes(before: Menu, after: Menu, rows: Mapping[str, Food], what: str,
                 enough: float) -> list[Flag]:  # fmt: skip
    """The largest daily change of sodium or water, if it is worth a word."""
    changes = {k: c for k, c in _change(before, after, rows, what).items() if abs(c) > enough}
    if not changes:
        return []
    walker, day = max(changes, key=lambda k: abs(changes[k]))
    return [
        Flag(key=f"packing.swap.{what.split('_')[0]}", level="quiet", scope=f"menu/{walker}/{day}",
             values={"walker": walker, "day": day, "change": changes[walker, day]})
    ]  # fmt: skip
