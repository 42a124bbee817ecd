"""A camp simulated tick by tick, by someone who knows only how people cook. The kitchen's judge.

It imports nothing of the kitchen. The cook looks at the stove every few tenths of a second: a free
burner takes the next thing in the queue, water warms by the heat that reaches it, snow first melts,
a boiling pot is poured out portion by portion, food stands, coffee comes last. Water is 4.19 kJ a
kilogram and kelvin, and boils at 99.974 - 0.003342 z.
"""

from __future__ import annotations

from dataclasses import dataclass, field

TICK_MIN = 0.004
WATER_C = 4.19
ICE_C = 2.05
MELT = 333.43
POT_C = {"aluminium": 0.897, "steel": 0.50, "titanium": 0.52}


@dataclass
class Want:
    """One food to be made: so much boiling water for so many bags, bowls or mugs."""

    name: str
    water_ml: float
    portions: int = 1
    wait_min: float = 0.0
    mug: bool = False
    in_pot: bool = False
    dry_g: float = 0.0
    simmer_min: float = 0.0


@dataclass
class SlowPot:
    """A pot as the cook sees it."""

    volume_ml: float
    mass_g: float
    material: str
    state: str = "free"
    """free, heating, simmering, standing, pouring, washing."""
    until: float = 0.0
    water_ml: float = 0.0
    snow_g: float = 0.0
    celsius: float = 0.0
    dirty: str = ""
    fed: bool = False
    """Whether the dry food of this fill went in."""
    load: list[tuple[Want, float]] = field(default_factory=list)


@dataclass
class Result:
    """What the simulation saw."""

    minutes: float = 0.0
    boiled_ml: float = 0.0
    poured_ml: float = 0.0
    washed_ml: float = 0.0
    fuel_g: float = 0.0
    fills: int = 0
    ready: dict[str, float] = field(default_factory=dict)


class SlowCamp:
    """One burner, some pots, a queue of wants."""

    def __init__(
        self, pots: list[SlowPot], *, height_m: float, water_c: float, air_c: float, snow: bool,
        power_w: float, efficiency: float, lhv_mj_kg: float,
    ) -> None:  # fmt: skip
        self.pots = pots
        self.boil_c = 99.974 - 0.003342 * height_m
        self.water_c, self.air_c, self.snow = water_c, air_c, snow
        self.power_w, self.efficiency, self.lhv = power_w, efficiency, lhv_mj_kg
        self.staple = 2.0 ** (max(0.0, 99.97 - self.boil_c) / 10.0)
        self.soak = 1.0 + (self.staple - 1.0) / 2.0
        self.now = 0.0
        self.burner: SlowPot | None = None
        self.out = Result()

    def run(self, wants: list[Want]) -> Result:
        """Cooks everything, in the order: bags and bowls, then the pot, then mugs."""
        meals = [[w, w.water_ml] for w in wants if not w.in_pot and not w.mug]
        mugs = [[w, w.water_ml] for w in wants if w.mug]
        self.clear(meals)
        for dish in (w for w in wants if w.in_pot):
            self.dish(dish)
        self.clear(mugs)
        while any(p.state != "free" for p in self.pots):
            self.tick()
        self.out.minutes = max(self.out.ready.values(), default=0.0)
        for pot in self.pots:
            if pot.dirty:
                self.out.washed_ml += 250.0
        return self.out

    def clear(self, queue: list[list]) -> None:
        """Clear water for a queue of [want, millilitres still wanted]."""
        while sum(left for _, left in queue) > 1e-6:
            pot = self.wait_for_pot()
            wanted = sum(left for _, left in queue)
            marks = 0
            while marks * 50.0 < wanted - 1e-6:
                marks += 1
            fill = min(marks * 50.0, 0.85 * pot.volume_ml)
            load, room = [], fill
            for item in queue:
                part = min(room, item[1])
                if part > 1e-6:
                    load.append((item[0], part))
                    item[1] -= part
                    room -= part
            self.light(pot, fill, load)

    def dish(self, want: Want) -> None:
        """One dish in the largest pot, in equal fills."""
        pot = max(self.pots, key=lambda p: p.volume_ml)
        room = want.water_ml + want.dry_g / 1.3
        fills = 1
        while room / fills > 0.75 * pot.volume_ml + 1e-6:
            fills += 1
        for _ in range(fills):
            while pot.state != "free" or self.burner is not None:
                self.tick()
            if pot.dirty and pot.dirty != want.name:
                self.wash(pot)
            self.light(pot, want.water_ml / fills, [(want, 1.0 / fills)])

    def wait_for_pot(self) -> SlowPot:
        """The pot a sensible cook takes next: clean and free first, else the soonest one ready."""
        while self.burner is not None:
            self.tick()

        def soonest(pot: SlowPot) -> tuple[float, float]:
            free_at = self.free_at(pot) + (2.0 if self.dirt(pot) else 0.0)
            return (max(self.now, round(free_at, 1)), -pot.volume_ml)

        pot = min(self.pots, key=soonest)
        if self.dirt(pot):
            while pot.state != "free":
                self.tick()
            self.wash(pot)
        while pot.state != "free":
            self.tick()
        return pot

    def dirt(self, pot: SlowPot) -> str:
        """What a pot is, or will be, dirty with."""
        dish = [want.name for want, _ in pot.load if want.in_pot]
        return dish[0] if dish else pot.dirty

    def free_at(self, pot: SlowPot) -> float:
        """When a pot that is off the flame will be free, as the cook knows by now."""
        if pot.state == "free":
            return pot.until
        serve = sum(0.5 * w.portions * s for w, s in pot.load) if pot.state == "standing" else 0.0
        return pot.until + serve

    def wash(self, pot: SlowPot) -> None:
        """Two minutes and a cup of water; the cook started as soon as the pot was empty."""
        done = pot.until + 2.0
        pot.dirty, pot.state, pot.until = "", "washing", done
        self.out.washed_ml += 250.0
        while pot.state != "free":
            self.tick()

    def light(self, pot: SlowPot, fill_ml: float, load: list[tuple[Want, float]]) -> None:
        """Puts a pot on the flame."""
        pot.water_ml, pot.load, pot.state = fill_ml, load, "heating"
        pot.fed = False
        pot.snow_g = fill_ml if self.snow else 0.0
        pot.celsius = min(0.0, self.air_c) if self.snow else self.water_c
        self.burner = pot
        self.out.boiled_ml += fill_ml
        self.out.fills += 1

    def tick(self) -> None:
        """A moment passes."""
        self.now += TICK_MIN
        if self.burner is not None and self.burner.state == "heating":
            self.heat(self.burner)
        for pot in self.pots:
            if pot.state in ("simmering", "standing", "pouring", "washing") and pot.until <= (
                self.now + 1e-9
            ):
                self.next_state(pot)

    def heat(self, pot: SlowPot) -> None:
        kj = self.power_w * self.efficiency * TICK_MIN * 60.0 / 1000.0
        self.out.fuel_g += self.power_w * TICK_MIN * 60.0 / 1e6 / self.lhv * 1000.0
        pot_kj_k = pot.mass_g / 1000.0 * POT_C[pot.material]
        dish = next((want for want, _ in pot.load if want.in_pot), None)
        kilos = pot.water_ml / 1000.0
        if pot.snow_g > 0 and pot.celsius < 0.0:
            pot.celsius += kj / (kilos * ICE_C + pot_kj_k)
            return
        if pot.snow_g > 0:
            pot.snow_g -= kj / MELT * 1000.0
            return
        pot.celsius += kj / (kilos * WATER_C + pot_kj_k)
        if pot.celsius >= self.boil_c and dish is not None and dish.dry_g > 0 and not pot.fed:
            share = pot.load[0][1]
            pot.celsius -= (
                dish.dry_g * share / 1000.0 * 1.8 * (self.boil_c - self.air_c)
            ) / (kilos * WATER_C + pot_kj_k)
            pot.dirty, pot.fed = dish.name, True
            return
        if pot.celsius >= self.boil_c:
            self.boiled(pot, dish)

    def boiled(self, pot: SlowPot, dish: Want | None) -> None:
        if dish is not None and dish.simmer_min > 0:
            minutes = dish.simmer_min * self.staple
            pot.state, pot.until = "simmering", self.now + minutes
            self.out.fuel_g += minutes * 60.0 * 150.0 / 1e6 / self.efficiency / self.lhv * 1000.0
        elif dish is not None:
            self.burner = None
            pot.state, pot.until = "standing", self.now + dish.wait_min * self.soak
        else:
            self.burner = None
            self.pour(pot)

    def pour(self, pot: SlowPot) -> None:
        """Pours clear water out, portion by portion."""
        at = self.now
        for want, amount in pot.load:
            at += 0.5 * want.portions * amount / want.water_ml
            self.out.poured_ml += amount
            done = at + want.wait_min * self.soak
            self.out.ready[want.name] = max(done, self.out.ready.get(want.name, 0.0))
        pot.state, pot.until = "pouring", at

    def next_state(self, pot: SlowPot) -> None:
        if pot.state == "simmering":
            self.burner = None
            (dish, _), = pot.load
            pot.state, pot.until = "standing", pot.until + dish.wait_min * self.soak
        elif pot.state == "standing":
            (dish, share), = pot.load
            pot.until += 0.5 * dish.portions * share
            pot.state = "pouring"
            self.out.poured_ml += dish.water_ml * share
            self.out.ready[dish.name] = max(pot.until, self.out.ready.get(dish.name, 0.0))
        else:
            pot.state, pot.load = "free", []
