"""Puts an occasion on the clock: which pot goes on which burner when, and who waits for what.

The order is the one of common practice: water for bags and bowls first, then what is made in a
pot, coffee last, while the food stands. A pot that is too small is filled again. Each kitchen has
one queue; the next job takes whichever pot and burner are free first, of the pots its eaters use.
Knows nothing of fuel cans or days: `ledger` adds those up.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import ceil

from oatsack.kitchen.heat import pot_kj
from oatsack.kitchen.occasions import Dish, Occasion, Pour
from oatsack.kitchen.price import FOOD_FILL, KEEP_BOIL_W, WATER_FILL, Flame
from oatsack.values.kit import Pot
from oatsack.values.kitchen import CookStep, MealLedger, StepKind

POUR_MIN = 0.5
"""To open, pour and stir one portion. Ours, planning prior."""
WASH_MIN = 2.0
WASH_POT_ML = 250.0
WASH_BOWL_ML = 50.0
"""A cup of water wipes a pot clean, a mouthful rinses a bowl. Common practice."""
MARK_ML = 50.0
"""Water is measured by the marks of a pot or mug: the last boil goes up to the next one. Ours."""
DUST_ML = 1e-6


@dataclass(slots=True)
class _Hob:
    """One pot: when it is free, and what it is dirty with."""

    pot: Pot
    free: float = 0.0
    dirty: str = ""
    used: bool = False
    """Whether food was made in it."""


@dataclass(slots=True)
class _Bowl:
    """What is still to be poured of one food."""

    pour: Pour
    left_ml: float


@dataclass(slots=True)
class Camp:
    """The clock of one occasion: pots, burners, and the steps done so far."""

    flame: Flame
    pots: list[_Hob]
    burners: list[float]
    priming_g: float = 0.0
    steps: list[CookStep] = field(default_factory=list)
    heat_kj: float = 0.0
    boiled_ml: float = 0.0
    left_ml: float = 0.0
    batches: int = 0
    served: float = 0.0
    """When the last bag or bowl was poured: mugs come after."""
    lit: set[int] = field(default_factory=set)

    def add(self, kind: StepKind, start: float, minutes: float, *, pot: str = "", food: str = "",
            water_ml: float = 0.0, fuel_g: float = 0.0) -> float:  # fmt: skip
        """Writes one step down; gives its end."""
        end = start + minutes
        self.steps.append(
            CookStep(kind=kind, start_min=start, end_min=end, pot=pot, food=food,
                     water_ml=water_ml, fuel_g=fuel_g)
        )  # fmt: skip
        return end

    def usable(self, pots: tuple[int, ...]) -> list[_Hob]:
        """The pots of these places, or all."""
        return [self.pots[i] for i in pots] or self.pots

    def next_free(self, pots: tuple[int, ...] = ()) -> tuple[_Hob, int]:
        """The clean pot and burner that can start first; of equals the larger pot."""
        burner = min(range(len(self.burners)), key=lambda b: self.burners[b])

        def start(hob: _Hob) -> float:
            return max(self.burners[burner], hob.free + (WASH_MIN if hob.dirty else 0.0))

        found = self.usable(pots)
        return min(found, key=lambda hob: (start(hob), -hob.pot.volume_ml)), burner

    def ready(self, hob: _Hob, food: str = "") -> None:
        """Washes a pot that is dirty with something else."""
        if hob.dirty and hob.dirty != food:
            hob.free = self.add("wash", hob.free, WASH_MIN, pot=hob.pot.name, water_ml=WASH_POT_ML)
            hob.dirty = ""

    def boil(self, hob: _Hob, burner: int, water_ml: float, *, extra_kj: float = 0.0,
             food: str = "") -> float:  # fmt: skip
        """Melts if it must, and brings water to the boil; gives the end."""
        at = max(self.burners[burner], hob.free)
        warm = pot_kj(hob.pot.mass_g, hob.pot.material, self.flame.rise_k) + extra_kj
        melt = water_ml / 1000.0 * self.flame.melt_kj_kg
        whole = water_ml / 1000.0 * self.flame.boil_kj_kg + warm
        priming = 0.0 if burner in self.lit else self.priming_g
        self.lit.add(burner)
        if melt > 0:
            at = self.add("melt", at, melt * self.flame.minutes_kj, pot=hob.pot.name,
                          water_ml=water_ml, fuel_g=melt * self.flame.fuel_g_kj)  # fmt: skip
        rest = whole - melt
        end = self.add("boil", at, rest * self.flame.minutes_kj, pot=hob.pot.name, food=food,
                       water_ml=water_ml, fuel_g=rest * self.flame.fuel_g_kj + priming)  # fmt: skip
        self.heat_kj += whole
        self.boiled_ml += water_ml
        self.batches += 1
        hob.free = self.burners[burner] = end
        return end


def pour_all(camp: Camp, pours: Sequence[Pour]) -> None:
    """Boils clear water batch by batch, and pours each batch out in order."""
    for pots in dict.fromkeys(pour.pots for pour in pours):
        _pour_from(camp, [pour for pour in pours if pour.pots == pots], pots)


def _pour_from(camp: Camp, pours: Sequence[Pour], pots: tuple[int, ...]) -> None:
    queue = [_Bowl(pour, pour.water_ml) for pour in pours if pour.water_ml > 0]
    while queue:
        hob, burner = camp.next_free(pots)
        camp.ready(hob)
        wanted = sum(bowl.left_ml for bowl in queue)
        water = min(_to_mark(wanted), WATER_FILL * hob.pot.volume_ml)
        end = camp.boil(hob, burner, water)
        poured, hob.free = _pour_batch(camp, hob, queue, water=water, at=end)
        camp.left_ml += water - poured
        queue = [bowl for bowl in queue if bowl.left_ml > DUST_ML]


def _to_mark(water_ml: float) -> float:
    return ceil(water_ml / MARK_ML - 1e-9) * MARK_ML


def _pour_batch(
    camp: Camp, hob: _Hob, queue: Iterable[_Bowl], *, water: float, at: float
) -> tuple[float, float]:
    """Pours one batch out; gives what was poured and when the pot is empty."""
    room = water
    for bowl in queue:
        amount = min(room, bowl.left_ml)
        if amount <= DUST_ML:
            continue
        share = amount / bowl.pour.water_ml
        at = max(at, camp.served) if bowl.pour.mug else at
        at = camp.add("pour", at, POUR_MIN * bowl.pour.portions * share, pot=hob.pot.name,
                      food=bowl.pour.food, water_ml=amount)  # fmt: skip
        camp.served = camp.served if bowl.pour.mug else max(camp.served, at)
        if bowl.pour.wait_min > 0:
            camp.add("wait", at, bowl.pour.wait_min * camp.flame.soak_factor, food=bowl.pour.food)
        bowl.left_ml -= amount
        room -= amount
    return water - room, at


def make_dish(camp: Camp, dish: Dish) -> None:
    """Makes a dish in the largest pot, in as many equal batches as it takes.

    Where more pots and burners at once need fewer rounds, each takes a share by its size.
    """
    pots = sorted(camp.usable(dish.pots), key=lambda h: -h.pot.volume_ml)
    alone = _rounds(dish, pots[:1])
    team = pots[: len(camp.burners)]
    rounds = _rounds(dish, team)
    if rounds == alone:
        team = pots[:1]
    whole = sum(hob.pot.volume_ml for hob in team)
    for _ in range(rounds):
        for hob in team:
            _dish_batch(camp, dish, hob, hob.pot.volume_ml / whole / rounds)


def _rounds(dish: Dish, pots: Sequence[_Hob]) -> int:
    """How often these pots must be filled together."""
    held = FOOD_FILL * sum(hob.pot.volume_ml for hob in pots)
    return max(1, ceil(dish.room_ml / held - 1e-9))


def _dish_batch(camp: Camp, dish: Dish, hob: _Hob, share: float) -> None:
    camp.ready(hob, dish.food)
    burner = min(range(len(camp.burners)), key=lambda b: camp.burners[b])
    flame, name = camp.flame, hob.pot.name
    food_kj = dish.solids_g * share * flame.food_kj_g
    at = camp.boil(hob, burner, dish.water_ml * share, extra_kj=food_kj, food=dish.food)
    minutes = dish.simmer_min * flame.simmer_factor
    if minutes > 0:
        at = camp.add("simmer", at, minutes, pot=name, food=dish.food,
                      fuel_g=minutes * flame.simmer_g_min)  # fmt: skip
        camp.heat_kj += minutes * KEEP_BOIL_W * 0.06
        camp.burners[burner] = at
    if dish.wait_min > 0:
        at = camp.add("wait", at, dish.wait_min * flame.soak_factor, pot=name, food=dish.food)
    hob.free = camp.add("pour", at, POUR_MIN * dish.portions * share, pot=name,
                        food=dish.food, water_ml=dish.water_ml * share)  # fmt: skip
    hob.dirty, hob.used = dish.food, True


def one_boil(camp: Camp, meals: Sequence[Pour], mugs: Sequence[Pour]) -> bool:
    """Whether meals and mugs share one boil: it fits, and the food would not stand that long."""
    water = sum(p.water_ml for p in (*meals, *mugs))
    if not meals or not mugs or len({p.pots for p in (*meals, *mugs)}) > 1:
        return False
    if water > WATER_FILL * max(h.pot.volume_ml for h in camp.usable(meals[0].pots)):
        return False
    own = sum(p.water_ml for p in mugs) / 1000.0 * camp.flame.boil_kj_kg * camp.flame.minutes_kj
    return max(p.wait_min for p in meals) * camp.flame.soak_factor < own


def cook(
    occasion: Occasion, flame: Flame, *, pots: Sequence[Pot], burners: int, priming_g: float = 0.0
) -> MealLedger:
    """One occasion on the clock, from lighting the stove: steps, water, heat, fuel, minutes.

    Soaking in cold water runs before minute 0, washing up after the last portion or mug; neither
    counts in `minutes`.
    """
    camp = Camp(
        flame=flame,
        pots=[_Hob(pot) for pot in pots],
        burners=[0.0] * burners,
        priming_g=priming_g,
    )
    meals = [p for p in occasion.pours if not p.mug]
    mugs = [p for p in occasion.pours if p.mug]
    shared = not occasion.dishes and one_boil(camp, meals, mugs)
    pour_all(camp, (*meals, *mugs) if shared else meals)
    for dish in occasion.dishes:
        make_dish(camp, dish)
    pour_all(camp, () if shared else mugs)
    minutes = max((s.end_min for s in camp.steps if s.kind != "wash"), default=0.0)
    for soak in occasion.soaks:
        camp.add("soak", -soak.wait_min, soak.wait_min, food=soak.food, water_ml=soak.water_ml)
    dirty = _wash_up(camp, occasion.bowls, minutes)
    return _ledger(camp, occasion, minutes, dirty)


def _wash_up(camp: Camp, bowls: int, at: float) -> int:
    """Washes what is still dirty after the meal; gives how many pots had food in them."""
    for hob in camp.pots:
        hob.free = max(hob.free, at)
        camp.ready(hob)
    if bowls > 0:
        camp.add("wash", at, 0.0, water_ml=WASH_BOWL_ML * bowls)
    return sum(hob.used for hob in camp.pots)


def _ledger(camp: Camp, occasion: Occasion, minutes: float, dirty: int) -> MealLedger:
    return MealLedger(
        day=occasion.day,
        meal=occasion.meal,
        walkers=occasion.walkers,
        boiled_ml=camp.boiled_ml,
        cold_ml=sum(soak.water_ml for soak in occasion.soaks),
        wash_ml=sum(s.water_ml for s in camp.steps if s.kind == "wash"),
        heat_kj=camp.heat_kj,
        fuel_g=sum(s.fuel_g for s in camp.steps),
        minutes=minutes,
        batches=camp.batches,
        boiling_c=camp.flame.boiling_c,
        steps=tuple(sorted(camp.steps, key=lambda s: (s.start_min, s.end_min))),
        left_ml=camp.left_ml,
        dirty_pots=dirty,
        bowls=occasion.pouch_bowls,
    )


def critical(meal: MealLedger) -> tuple[CookStep, ...]:
    """The steps one really waits for, end to end: their minutes add up to the meal's minutes."""
    chain: list[CookStep] = []
    at = meal.minutes
    candidates = [s for s in meal.steps if s.kind != "soak" and s.end_min > s.start_min]
    while at > 1e-9:
        step = next(s for s in candidates if abs(s.end_min - at) < 1e-9)
        chain.append(step)
        at = step.start_min
    return tuple(reversed(chain))


def distil(
    day: int, walkers: tuple[str, ...], flame: Flame, *, pots: Sequence[Pot], water_ml: float,
    hold_min: float,
) -> MealLedger:  # fmt: skip
    """Drinking water melted, or boiled for `hold_min` to make it safe, in the largest pot.

    With `hold_min` 0 snow is only melted. Its minutes stand apart from any meal.
    """
    pot = max(pots, key=lambda p: p.volume_ml)
    batches = max(1, ceil(water_ml / (WATER_FILL * pot.volume_ml) - 1e-9))
    per_kg = flame.boil_kj_kg if hold_min > 0 else flame.melt_kj_kg
    warm = pot_kj(pot.mass_g, pot.material, flame.rise_k) if hold_min > 0 else 0.0
    kind: StepKind = "boil" if hold_min > 0 else "melt"
    steps, at = [], 0.0
    for _ in range(batches):
        kj = water_ml / batches / 1000.0 * per_kg + warm
        step = CookStep(kind=kind, start_min=at, end_min=at + kj * flame.minutes_kj, pot=pot.name,
                        water_ml=water_ml / batches, fuel_g=kj * flame.fuel_g_kj)  # fmt: skip
        steps.append(step)
        at = step.end_min
        if hold_min > 0:
            steps.append(CookStep(kind="simmer", start_min=at, end_min=at + hold_min, pot=pot.name,
                                  fuel_g=hold_min * flame.simmer_g_min))  # fmt: skip
            at += hold_min
    heat = water_ml / 1000.0 * per_kg + batches * (warm + hold_min * KEEP_BOIL_W * 0.06)
    return MealLedger(
        day=day, meal="drinks", walkers=walkers, boiled_ml=water_ml, cold_ml=0.0, wash_ml=0.0,
        heat_kj=heat, fuel_g=sum(s.fuel_g for s in steps), minutes=at, batches=batches,
        boiling_c=flame.boiling_c, steps=tuple(steps),
    )  # fmt: skip
