"""What a person should hear about the kitchen of a walk: flags, each from one small function.

Sparing on purpose: a caution is said once per walk, not once per meal; a quiet plan stays quiet.
To add a remark, write a function like its neighbours and name it in `REMARKS`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from oatsack.kitchen.caffeine import caffeine_flags
from oatsack.kitchen.canister import PUSH_KPA, push_kpa
from oatsack.kitchen.cosy import LUKEWARM_C, Bagged
from oatsack.kitchen.drinking import boil_minutes
from oatsack.kitchen.frost import frost_flags
from oatsack.kitchen.fuels import stove_row
from oatsack.kitchen.heat import soak_factor, staple_factor
from oatsack.kitchen.keeping import keeping_flags, soak_clock
from oatsack.kitchen.occasions import Helping
from oatsack.kitchen.price import conditions_of, in_mug, in_pot
from oatsack.kitchen.salt import sodium_days, sodium_flags
from oatsack.kitchen.sweat import AIR_C
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kit import Kit
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu
from oatsack.values.pots import pot_mates
from oatsack.values.route import Day
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid, Walker

HIGH_BOILING_C = 95.0
"""Below this, about 1,500 m up, waits are worth a word. Ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """All that a remark may look at."""

    ledger: KitchenLedger
    served: Sequence[Helping]
    menu: Menu
    foods: Mapping[str, Food]
    days: Sequence[Day]
    walkers: Sequence[Walker]
    kit: Kit
    rules: Rules

    @property
    def flame(self) -> bool:
        """Whether anything is lit."""
        return self.ledger.fuel is not None


def needs_flame(view: View) -> Iterator[Flag]:
    """Food that cannot be eaten without a flame, where there is none."""
    for h in view.served:
        if not h.cold or h.food.prep.cold_soak_min is not None:
            continue
        if in_mug(h.food):
            yield Flag(
                key="kitchen.cold-drink", level="quiet", scope=f"menu/{h.walker}",
                values={"food": h.food.id},
            )  # fmt: skip
        else:
            yield Flag(
                key="kitchen.needs-flame", level="block", scope=f"menu/{h.walker}/{h.day}",
                values={"food": h.food.id, "meal": h.meal},
            )  # fmt: skip


def fuel_amount(view: View) -> Iterator[Flag]:
    """Fuel that does not last, or hardly."""
    fuel = view.ledger.fuel
    if fuel is None:
        return
    values = {"need_g": fuel.need_g, "carried_g": fuel.carried_g, "burnt_g": fuel.burnt_g}
    if fuel.carried_g < fuel.burnt_g:
        yield Flag(key="kitchen.fuel-short", level="block", scope="kitchen/fuel", values=values)
    elif fuel.carried_g < fuel.need_g - 1e-6:
        over = {"over_g": fuel.carried_g - fuel.burnt_g}
        yield Flag(
            key="kitchen.fuel-thin", level="caution", scope="kitchen/fuel", values=values | over
        )


def flame_rules(view: View) -> Iterator[Flag]:
    """Fire rules, fumes, flights: once each, and only where something is lit."""
    if not view.flame or view.kit.stove is None:
        return
    row = stove_row(view.kit.stove.kind)
    open_flame = row.fire_rule == "open"
    yield Flag(
        key="kitchen.fire-open" if open_flame else "kitchen.fire-valve",
        level="caution" if open_flame else "note",
        scope="kitchen/fuel",
        source="common practice",
    )
    yield Flag(key="kitchen.fumes", level="note", scope="kitchen/fuel", source="Thomassen2004")
    yield Flag(key="kitchen.no-flight", level="note", scope="kitchen/fuel", source="FAAPackSafe")
    for caution in row.cautions:
        yield Flag(key=f"kitchen.stove-{caution}", level="note", scope="kitchen/fuel")


def cold_gas(view: View) -> Iterator[Flag]:
    """Gas that hardly leaves a can near its end, on the coldest of the days concerned."""
    if not view.flame or view.kit.stove is None or view.kit.stove.fuel != "gas":
        return
    places = [(day, conditions_of(day)) for day in view.days if day.camp_m is not None]
    weak = [(push_kpa(at.air_c, at.height_m), at.air_c, d.number) for d, at in places]
    weak = [one for one in weak if one[0] < PUSH_KPA]
    if weak:
        push, air_c, day = min(weak)
        yield Flag(
            key="kitchen.cold-gas", level="quiet", scope=f"kitchen/days/{day}",
            values={"air_c": air_c, "push_kpa": round(push, 1), "day": day, "nights": len(weak)},
        )  # fmt: skip


def altitude_wait(view: View) -> Iterator[Flag]:
    """Longer waits in high camps, said once for the highest."""
    waits = [
        (m.boiling_c, m.day, (s.end_min - s.start_min) * (1.0 - 1.0 / slower(m.boiling_c)))
        for m in view.ledger.meals
        for s in m.steps
        for slower in [staple_factor if s.kind == "simmer" else soak_factor]
        if s.kind in ("wait", "simmer") and s.food
    ]
    if waits and min(waits)[0] < HIGH_BOILING_C:
        boiling, day, _ = min(waits)
        yield Flag(
            key="kitchen.altitude-wait", level="quiet", scope=f"kitchen/days/{day}",
            values={"boiling_c": boiling, "day": day,
                    "longer_min": max(longer for _, on, longer in waits if on == day)},
        )  # fmt: skip


def cooling(view: View) -> Iterator[Flag]:
    """A bag that is lukewarm before its wait is over, for want of a cosy; the coldest one."""
    if view.kit.cosy or not view.flame:
        return
    air = {day.number: day.cold_c for day in view.days}
    boiling = {m.day: m.boiling_c for m in view.ledger.meals}
    ends = []
    for h in view.served:
        if h.hot and h.food.prep.from_bag and h.food.prep.wait_min > 0:
            bag = Bagged(water_g=h.water_ml, water_c=boiling[h.day],
                         food_g=h.doses * h.food.dose_g, food_c=air[h.day])  # fmt: skip
            wait = h.food.prep.wait_min * soak_factor(boiling[h.day])
            ends.append((bag.after_c(wait, air[h.day], cosy=False), h.day, h.food.id))
    if ends and min(ends)[0] < LUKEWARM_C:
        end_c, day, food = min(ends)
        yield Flag(
            key="kitchen.cosy", level="quiet", scope=f"kitchen/days/{day}",
            values={"food": food, "end_c": end_c, "day": day},
        )  # fmt: skip


def snow(view: View) -> Iterator[Flag]:
    """Snow taken for the only water although nobody said so."""
    guessed = [d.number for d in view.days if d.snow is None and conditions_of(d).snow]
    if guessed and view.flame:
        yield Flag(
            key="kitchen.snow-assumed", level="quiet", scope=f"kitchen/days/{guessed[0]}",
            values={"days": len(guessed)},
        )  # fmt: skip


def treatment(view: View) -> Iterator[Flag]:
    """How water from the way is made safe, and what that does not cover."""
    how = view.kit.treatment
    high = max((d.camp_m or 0.0 for d in view.days), default=0.0)
    level = "caution" if how == "none" else "note"
    values = {"minutes": boil_minutes(high), "height_m": high}
    yield Flag(
        key=f"kitchen.water-{how}", level=level, scope="kitchen/water",  # type: ignore[arg-type]
        values=values, source="CDCBoil",
    )  # fmt: skip


def drink(view: View) -> Iterator[Flag]:
    """Thirst leads; heat that no water mends; figures from beyond a model's range (C7)."""
    yield from _sweated(view.ledger)


def _sweated(book: KitchenLedger) -> Iterator[Flag]:
    said = {word for w in book.water.values() for d in w.values() for word in d.sweat_models}
    if said:
        yield Flag(
            key="kitchen.to-thirst", level="note", scope="kitchen/water", source="WMSSodium2019",
            values={"hour_cap_ml": 1420.0, "day_cap_ml": 11360.0},
        )  # fmt: skip
    if "too-hot" in said:
        yield Flag(key="kitchen.too-hot", level="caution", scope="kitchen/water")
    for word in sorted(w for w in said if w.startswith("outside")):
        yield Flag(
            key=f"kitchen.sweat-outside-{word.removeprefix('outside ')}", level="note",
            scope="kitchen/water", values={"low": AIR_C[0], "high": AIR_C[-1]},
        )  # fmt: skip


def bottles(view: View) -> Iterator[Flag]:
    """More water to carry than the bottles hold, and days that name no water."""
    room = sum(view.kit.bottles_ml)
    worst = max(view.ledger.carries, key=lambda c: c.carry_ml, default=None)
    if worst is not None and worst.carry_ml > room + 1e-6:
        yield Flag(
            key="kitchen.bottles-short", level="caution", scope=f"kitchen/carries/{worst.day}",
            values={"carry_ml": worst.carry_ml, "bottles_ml": room, "start": worst.start,
                    "end": worst.end, "day": worst.day},
        )  # fmt: skip
    if any(c.why == "places-unknown" for c in view.ledger.carries):
        yield Flag(key="kitchen.places-unknown", level="note", scope="kitchen/water")


def minutes(view: View) -> Iterator[Flag]:
    """Meals that take longer than the walker allowed."""
    for m in view.ledger.meals:
        limit = view.rules.minutes.get(m.meal)
        if limit is not None and m.minutes > limit + 1e-6:
            yield Flag(
                key="kitchen.minutes", level="quiet", scope=f"kitchen/days/{m.day}",
                values={"meal": m.meal, "took_min": m.minutes, "limit_min": limit, "day": m.day},
            )  # fmt: skip


def batches(view: View) -> Iterator[Flag]:
    """A pot that must be filled again and again, said once for the worst meal."""
    meals = (m for m in view.ledger.meals if m.meal != "drinks")
    worst = max(meals, key=lambda m: m.batches, default=None)
    if worst is not None and worst.batches >= 4:
        yield Flag(
            key="kitchen.batches", level="quiet", scope=f"kitchen/days/{worst.day}",
            values={"batches": worst.batches, "meal": worst.meal, "day": worst.day},
        )  # fmt: skip


def caffeine(view: View) -> Iterator[Flag]:
    """Caffeine beyond what is held harmless, and habits broken off."""
    yield from caffeine_flags(view.menu, view.foods, walkers=view.walkers, days=view.days)


def cannot_simmer(view: View) -> Iterator[Flag]:
    """Dishes that simmer, on a flame that cannot be turned down."""
    stove = view.kit.stove
    if stove is None or stove.fuel == "wood" or stove_row(stove.kind).fire_rule == "valve":
        return
    for h in view.served:
        if h.hot and h.food.prep.simmer_min > 0:
            yield Flag(
                key="kitchen.cannot-simmer", level="quiet", scope="kitchen/fuel",
                values={"food": h.food.id},
            )  # fmt: skip


def soaking(view: View) -> Iterator[Flag]:
    """Cold soaks that are ready only after they should have been eaten."""
    warm = {day.number: day for day in view.days}
    for h in view.served:
        if h.hot:
            continue
        day = warm[h.day]
        clock = soak_clock(h.food, day.warm_c if h.meal in ("lunch", "move") else day.cold_c)
        if clock is not None and not clock.safe:
            yield Flag(
                key="kitchen.soak-warm", level="quiet", scope="kitchen/soaks",
                values={"food": h.food.id, "ready_min": clock.ready_min,
                        "within_min": clock.eat_within_min or 0.0},
                source="FSISDanger",
            )  # fmt: skip


def pot_allergens(view: View) -> Iterator[Flag]:
    """Food made in a pot from which someone eats who must keep it out of pots (C10)."""
    names = [w.id for w in view.walkers]
    mates = pot_mates(view.kit.pots, names, view.ledger.groups)
    for h in view.served:
        if not (h.hot and in_pot(h.food)):
            continue
        for walker in view.walkers:
            strict = [a for a in walker.avoids if a.scope != "plate"]
            if walker.id in mates[h.walker] and any(meets(h.food, a) for a in strict):
                yield Flag(
                    key="kitchen.pot-allergen", level="block", scope=f"menu/{walker.id}/{h.day}",
                    values={"food": h.food.id, "walker": walker.id, "day": h.day},
                )  # fmt: skip


def meets(food: Food, avoid: Avoid) -> bool:
    """Whether a food holds what someone avoids; unknown counts as contains (C10)."""
    state = food.state(avoid.allergen)
    return state in ("contains", "unknown") or (state == "may" and not avoid.traces)


def salt(view: View) -> Iterator[Flag]:
    """Hot days on which far more salt is lost than eaten."""
    yield from sodium_flags(sodium_days(view.menu, view.foods, view.ledger.water))


def keeping(view: View) -> Iterator[Flag]:
    """What is eaten after it keeps."""
    yield from keeping_flags(view.menu, view.foods, view.days)


def frost(view: View) -> Iterator[Flag]:
    """What freezes too hard to bite."""
    yield from frost_flags(view.menu, view.foods, view.days)


REMARKS: tuple[Callable[[View], Iterator[Flag]], ...] = (
    needs_flame, pot_allergens, fuel_amount, bottles, drink, cold_gas, altitude_wait, cooling,
    snow, minutes, batches, treatment, flame_rules, cannot_simmer, soaking, keeping, salt, caffeine,
    frost,
)  # fmt: skip


SWEATED = ("kitchen.to-thirst", "kitchen.too-hot", "kitchen.sweat-outside-air_c",
           "kitchen.sweat-outside-work_w_m2", "kitchen.salt")  # fmt: skip
"""Remarks that follow from sweat."""


def resweated(
    book: KitchenLedger, menu: Menu, foods: Mapping[str, Food]
) -> tuple[Flag, ...]:
    """The flags of a ledger whose sweat was worked out anew; the others stay as they are."""
    kept = [flag for flag in book.flags if flag.key not in SWEATED]
    return (*kept, *_sweated(book), *sodium_flags(sodium_days(menu, foods, book.water)))


def remarks(view: View) -> tuple[Flag, ...]:
    """All remarks, in the order of `REMARKS`, none twice."""
    seen: dict[tuple[str, str, str], Flag] = {}
    for one in REMARKS:
        for flag in one(view):
            seen.setdefault((flag.key, flag.scope, str(flag.values.get("food", ""))), flag)
    return tuple(seen.values())
