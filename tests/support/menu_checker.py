"""An independent checker of menus: written from the request, it imports nothing of the chooser.

It says what is wrong with a menu in words. It knows the hard rules only; the soft ones are wishes.
"""

from __future__ import annotations

from collections import defaultdict

from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest, Portion, Slot
from oatsack.values.walker import Walker

ORDER = {"vegan": 0, "vegetarian": 1, "fish": 2, "meat": 3, "check": 3}
REACH = {"vegan": 0, "vegetarian": 1, "fish": 2, "anything": 3}
CHOSEN = ("chosen", "bag")


def faults_of(asked: MenuRequest, menu: Menu) -> list[str]:
    """Every hard rule that the menu breaks; empty for a sound one."""
    check = _Check(asked, menu)
    if strangers := [p.food for p in menu.portions if p.food not in check.foods]:
        return [f"{name}: not in the larder" for name in strangers]
    out = check.portions() + check.energy() + check.meals() + check.bags() + check.limits()
    return out + check.cooking() + check.shared_dinners()


class _Check:
    def __init__(self, asked: MenuRequest, menu: Menu) -> None:
        self.asked, self.menu = asked, menu
        self.foods = {f.id: f for f in asked.foods}
        self.walkers = {w.id: w for w in asked.walkers}
        self.slots = {(s.walker, s.day, s.meal): s for s in asked.slots}
        self.at: dict[tuple[str, int, str], list[Portion]] = defaultdict(list)
        for p in menu.portions:
            self.at[(p.walker, p.day, p.meal)].append(p)

    def portions(self) -> list[str]:
        """Each portion by itself: place, wholeness, person, heat, keeping, bans."""
        out = []
        for p in self.menu.portions:
            slot, food = self.slots.get((p.walker, p.day, p.meal)), self.foods.get(p.food)
            if slot is None or food is None:
                out.append(f"{p}: no such meal or food")
                continue
            if p.doses <= 0:
                out.append(f"{p}: nothing")
            if p.why == "chosen" and abs(p.doses - round(p.doses)) > 1e-6:
                out.append(f"{p}: broken dose")
            out += [f"{p}: {why}" for why in self._person(food, self.walkers[p.walker])]
            if p.why in CHOSEN:
                out += [f"{p}: {why}" for why in self._place(food, slot)]
        return out

    def _person(self, food: Food, walker: Walker) -> list[str]:
        out = []
        if ORDER[food.diet] > REACH[walker.eats]:
            out.append("diet")
        for avoid in walker.avoids:
            state = food.allergens.get(avoid.allergen, "unknown")
            if state != "free" and not (state == "may" and avoid.traces):
                out.append(f"allergen {avoid.allergen}")
        for other in self.walkers.values():
            for avoid in other.avoids:
                state = food.allergens.get(avoid.allergen, "unknown")
                met = state != "free" and not (state == "may" and avoid.traces)
                if met and avoid.scope == "party":
                    out.append(f"allergen {avoid.allergen} of {other.id}, whole party")
                if met and avoid.scope == "pot" and food.carry == "repack":
                    out.append(f"allergen {avoid.allergen} of {other.id}, repacked")
        return out

    def _place(self, food: Food, slot: Slot) -> list[str]:
        out = []
        if food.per_100g.energy_kcal is None:
            out.append("no stated energy")
        if slot.meal not in food.meals:
            out.append("wrong meal")
        heat = food.prep.kind in ("boil", "simmer") and food.prep.cold_soak_min is None
        if heat and not slot.hot:
            out.append("needs a flame")
        warm = [t for d, t in self.asked.temperatures_c.items() if d <= slot.day]
        if food.keep.melts and max(warm, default=0.0) >= 26:
            out.append("melts")
        if food.keep.warm_days is not None and slot.carry_days > food.keep.warm_days:
            out.append("spoils")
        for h in self.asked.rules.holds:
            here = h.walker in (None, slot.walker) and h.date in (None, slot.date)
            if h.count <= 0 and h.food == food.id and here and h.meal in (None, slot.meal):
                out.append("banned")
        dislikes = self.walkers[slot.walker].dislikes
        if food.id in dislikes or food.category in dislikes:
            out.append("disliked")
        return out

    def energy(self) -> list[str]:
        """Each day and the trip within their windows, unless picks alone are above."""
        out = []
        rules = self.asked.rules
        for walker, days in self.asked.target_kcal.items():
            got = {d: self._kcal(walker, d, all_of=True) for d in days}
            picked = {d: self._kcal(walker, d, all_of=False) for d in days}
            for d, target in days.items():
                open_day = any(p.why in CHOSEN for k, ps in self.at.items()
                               if k[:2] == (walker, d) for p in ps)  # fmt: skip
                high = max(target * (1 + rules.day_window), picked[d])
                if got[d] > high + 1e-3:
                    out.append(f"{walker} day {d}: {got[d]:.0f} above {high:.0f}")
                if open_day and got[d] < target * (1 - rules.day_window) - 1e-3:
                    out.append(f"{walker} day {d}: {got[d]:.0f} below the window of {target:.0f}")
            mine = {p.why for p in self.menu.portions if p.walker == walker}
            off, whole = sum(got.values()) - sum(days.values()), sum(days.values())
            if mine == {"chosen"} and abs(off) > rules.trip_window * whole + 1e-3:
                out.append(f"{walker}: {off:+.0f} over the trip of {whole:.0f}")
        return out

    def _kcal(self, walker: str, day: int, *, all_of: bool) -> float:
        total = 0.0
        for (w, d, _), portions in self.at.items():
            if (w, d) == (walker, day):
                total += sum(
                    p.doses * self.foods[p.food].dose_kcal for p in portions
                    if all_of or p.why != "chosen"
                )  # fmt: skip
        return total

    def meals(self) -> list[str]:
        """One main at breakfast and dinner; toppings carried; bread and plain grain in company."""
        out = []
        for key, portions in self.at.items():
            chosen = [p for p in portions if p.why == "chosen"]
            if not chosen or key[2] in ("drinks", "move"):
                continue
            roles = [self.foods[p.food].role for p in portions]
            if key[2] in ("breakfast", "dinner") and roles.count("main") > 1:
                out.append(f"{key}: {roles.count('main')} mains")
            toppings = [p for p in chosen if self.foods[p.food].role == "topping"]
            if toppings and not set(roles) & {"main", "side"}:
                out.append(f"{key}: a topping with nothing under it")
            bread = [p for p in chosen if self.foods[p.food].category == "bread"]
            if bread and len(portions) == 1:
                out.append(f"{key}: dry bread")
            names = [p.food for p in chosen]
            if len(names) != len(set(names)):
                out.append(f"{key}: a food twice")
        return out

    def bags(self) -> list[str]:
        """Chosen bags are whole packs, and their shares are what the portions say."""
        out = []
        shares: dict[tuple[str, str, int], float] = defaultdict(float)
        for pool in self.menu.pools:
            food = self.foods[pool.food]
            grams = sum(pool.by_day_g.values())
            if abs(grams - pool.packs * food.doses_per_pack * food.dose_g) > 1e-3:
                out.append(f"{pool.food}: {grams} g of {pool.packs} packs")
            for day, g in pool.by_day_g.items():
                shares[(pool.walker, pool.food, day)] += g
                if not pool.open_day <= day <= pool.last_day:
                    out.append(f"{pool.food}: nibbled on day {day} while closed")
        for p in self.menu.portions:
            if p.why == "bag":
                shares[(p.walker, p.food, p.day)] -= p.doses * self.foods[p.food].dose_g
        return out + [f"{k}: {v} g differ" for k, v in shares.items() if abs(v) > 1e-3]

    def limits(self) -> list[str]:
        """Money for whole packs, and room in the container on the first night."""
        out = []
        doses: dict[str, float] = defaultdict(float)
        for p in (*self.menu.portions, *self.menu.spare):
            doses[p.food] += p.doses
        budget = self.asked.rules.budget
        if budget is not None:
            cost = 0.0
            for name, n in doses.items():
                food = self.foods[name]
                packs = max(0.0, n / food.doses_per_pack - food.stock.packs)
                cost += -(-round(packs, 6) // 1) * (food.price or 40.0 * food.pack_g / 1000)
            if cost > budget + 1e-6:
                out.append(f"costs {cost} of {budget}")
        if self.asked.container_ml is not None:
            first: dict[int, int] = {}
            for s in self.asked.slots:
                first[s.leg] = min(s.day, first.get(s.leg, s.day))
            for leg, day in first.items():
                room = self._room(leg, day)
                if room > self.asked.container_ml + 1e-3:
                    out.append(f"leg {leg}: {room:.0f} ml on the first night")
        return out

    def _room(self, leg: int, first: int) -> float:
        """Room of what is eaten after the first day, which fills nine tenths of it, or seven where
        it stays sealed; of that day's wrappers, crushed to 10 ml a gram; and of the spare food."""
        room = 0.5 * sum(self.asked.spare_kcal.values())
        fills = {"sealed": 0.7}
        for p in self.menu.portions:
            slot, food = self.slots[(p.walker, p.day, p.meal)], self.foods[p.food]
            if slot.leg == leg and p.day > first and p.why != "bag":
                ml = food.dose_ml if food.dose_ml is not None else 0.0
                room += p.doses * ml / fills.get(food.carry, 0.9)
            if slot.leg == leg and p.day == first and p.why != "bag":
                room += 10.0 * p.doses * food.dose_wrap_g
        for pool in self.menu.pools:
            leg_of = {s.day: s.leg for s in self.asked.slots}
            if pool.last_day > first and leg_of[pool.open_day] == leg:
                food = self.foods[pool.food]
                room += pool.packs * (food.pack_ml or 0.0) / fills.get(food.carry, 0.9)
        return room

    def cooking(self) -> list[str]:
        """Of who walks alone: minutes at the stove, the main's wait with them, and room in the
        largest pot, three quarters full."""
        out: list[str] = []
        if len(self.walkers) > 1:
            return out
        pot = max((p.volume_ml for p in self.asked.kit.pots), default=0.0)
        for key, portions in self.at.items():
            chosen = [(p, self.foods[p.food]) for p in portions if p.why in CHOSEN]
            cooked = [(p, f, self.asked.prices.get((f.id, key[1]))) for p, f in chosen
                      if f.prep.kind != "none"]  # fmt: skip
            minutes = sum(at.flame_min * p.doses for p, _, at in cooked if at)
            minutes += sum(at.wait_min for _, f, at in cooked if at and f.role == "main")
            limit = self.slots[key].minutes_limit if key in self.slots else None
            if limit is not None and minutes > limit + 1e-6:
                out.append(f"{key}: {minutes:.1f} of {limit:.1f} minutes")
            room = sum(at.pot_ml * p.doses for p, f, at in cooked if at and f.prep.needs_pot)
            if room > 0.75 * pot + 1e-6:
                out.append(f"{key}: {room:.0f} ml in a pot of {pot:.0f}")
        return out

    def shared_dinners(self) -> list[str]:
        """Two walkers with equal limits and nothing picked eat one dish."""
        out = []
        by_day: dict[int, list[tuple[Walker, str]]] = defaultdict(list)
        for (w, d, meal), portions in self.at.items():
            if meal == "dinner" and all(p.why == "chosen" for p in portions):
                by_day[d] += [(self.walkers[w], p.food) for p in portions
                              if self.foods[p.food].role == "main"]  # fmt: skip
        if not self.asked.rules.mains_shared or len(self.walkers) > 6:
            return out
        for d, eaters in by_day.items():
            for a, dish in eaters:
                for b, other in eaters:
                    alike = (a.eats, frozenset(a.avoids)) == (b.eats, frozenset(b.avoids))
                    if alike and dish != other:
                        out.append(f"day {d}: {a.id} and {b.id} eat different dinners")
        return out
