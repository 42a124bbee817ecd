"""A plan whose menu was changed by hand: everything behind the menu is made anew, need and choice
stay as they were frozen (pure).

No menu is searched here, so nothing is proven about one changed by hand: its bound falls to
nothing, and the rules that only the chooser keeps are not asked again. Energy is: a day that leaves
its window is flagged.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from oatsack.kitchen.ledger import ledger
from oatsack.menu.near import moved
from oatsack.packing.pack import Aids, pack
from oatsack.provision.asking import kitchen_prices, request
from oatsack.provision.draft import Draft, Rounds, Setting
from oatsack.provision.finish import finish
from oatsack.provision.loads import weigh
from oatsack.provision.needs import Needs, Wanted, needs_of
from oatsack.provision.sums import budget_flag
from oatsack.route.flags import flags_of
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.plan import Plan
from oatsack.walker.target import Targets

KEPT = ("larder.", "provision.")
"""Flags of the earlier plan that the menu does not touch begin so."""


def replanned(plan: Plan, menu: Menu, foods: Iterable[Food] = (), *, flags: Sequence[Flag] = (),
              hashes: Mapping[str, str] | None = None, searched: bool = False) -> Plan:  # fmt: skip
    """The plan with another menu: kitchen, bags, loads, need under them, and totals made anew.

    `foods` are rows that the menu uses and the plan lacks, `flags` what is to be said of the
    change, `hashes` replaces those of what was read. `searched` menus keep what is proven of them.
    """
    rows = {**plan.foods, **{food.id: food for food in foods}}
    compared = _compared(menu, plan.menu)
    draft = drafted(plan, compared if searched else _unproven(compared), rows)
    after = needs_of(plan.trip, plan.days, draft.backs)
    rounds = Rounds(draft=draft, want=Wanted(after, _targets(plan)), after=after,
                    rounds=plan.made.rounds,
                    moved=plan.made.residual_kcal + _moved(plan, after))  # fmt: skip
    kept = [flag for flag in plan.flags if flag.key.startswith(KEPT)]
    told = (*flags_of(plan.days, plan.trip), *kept, *flags, *energy_flags(plan, menu, rows),
            *budget_flag(plan.trip, draft.packed))  # fmt: skip
    made = finish(plan.trip, plan.days, plan.slots, rounds, flags=told,
                  setting=_setting(plan, hashes or {}), names=plan.names)  # fmt: skip
    return replace(made, chosen=plan.chosen)


def asked_of(plan: Plan, rows: Mapping[str, Food]) -> MenuRequest:
    """The question that the plan's menu answers, with these foods to choose from."""
    trip, days = plan.trip, plan.days
    target = {w: {int(n): kcal for n, kcal in of.items()} for w, of in plan.target.items()}
    known = tuple(rows.values())
    walking = {w: {int(n): row.walking_h for n, row in of.items()} for w, of in plan.need.items()}
    return request(trip, days, plan.slots, known, target=target, walking_h=walking,
                   prices=kitchen_prices(known, days, trip.kit))  # fmt: skip


def drafted(plan: Plan, menu: Menu, rows: Mapping[str, Food]) -> Draft:
    """Kitchen, bags and loads of a menu under the plan's frozen choice."""
    trip, days = plan.trip, plan.days
    asked = asked_of(plan, rows)
    kitchen = ledger(menu, rows, days, trip.walkers, trip.kit, trip.rules,
                     groups=plan.kitchen.groups)  # fmt: skip
    packed = pack(menu, rows, days, trip, kitchen, aids=Aids(near=plan.packed))
    backs = weigh(trip.walkers, days, plan.slots, packed, kitchen)
    return Draft(asked=asked, menu=menu, kitchen=kitchen, packed=packed, backs=backs)


def _unproven(menu: Menu) -> Menu:
    """A menu that nobody searched for: no bound is known for it."""
    return replace(menu, bound=0.0, ended="stopped", binds=())


def _compared(menu: Menu, before: Menu) -> Menu:
    """The menu, with how many of its portions differ from the earlier one's."""
    return replace(menu, moved=moved(before, menu.portions))


def _targets(plan: Plan) -> Mapping[str, Targets]:
    return {
        w: Targets(kcal={int(n): kcal for n, kcal in of.items()},
                   base_kcal=plan.chosen[w].base_kcal, how=plan.chosen[w].how,
                   town_kcal={int(n): kcal for n, kcal in plan.chosen[w].town.items()})
        for w, of in plan.target.items()
    }  # fmt: skip


def _moved(plan: Plan, after: Needs) -> float:
    """The largest change of a day's likely need against the earlier plan [kcal]."""
    return max(
        abs(after[w].days[int(n)].energy_kcal - day.energy_kcal)
        for w, of in plan.need.items() for n, day in of.items()
    )  # fmt: skip


def _setting(plan: Plan, hashes: Mapping[str, str]) -> Setting:
    made = plan.made
    before = {"trip": made.trip_hash, "larder": made.larder_hash, "near": made.near_hash}
    return Setting(today=dt.date.fromisoformat(made.today), seed=made.seed,
                   hashes={**before, **hashes})  # fmt: skip


def energy_flags(plan: Plan, menu: Menu, rows: Mapping[str, Food]) -> Iterator[Flag]:
    """A caution for each day whose energy leaves its window; where only the whole trip leaves the
    narrower one of its own, for that."""
    rules = plan.trip.rules
    for walker, days in plan.target.items():
        eats = dict.fromkeys(days, 0.0)
        for p in menu.portions:
            if p.walker == walker:
                eats[str(p.day)] = eats.get(str(p.day), 0.0) + p.doses * rows[p.food].dose_kcal
        off = [n for n in days if abs(eats[n] - days[n]) > rules.day_window * days[n] + 1.0]
        yield from (_off("provision.energy-off", f"{walker}/{n}", eats[n], days[n]) for n in off)
        whole, wanted = sum(eats.values()), sum(days.values())
        if not off and abs(whole - wanted) > rules.trip_window * wanted + 1.0:
            yield _off("provision.energy-off-trip", walker, whole, wanted)


def _off(key: str, where: str, eats: float, wanted: float) -> Flag:
    return Flag(key=key, level="caution", scope=f"menu/{where}",
                values={"eats_kcal": eats, "target_kcal": wanted})  # fmt: skip
