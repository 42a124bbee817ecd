"""A plan ready to be told: its names, its voice, and the lookups that every report needs.

It adds nothing up that the plan does not hold, apart from grouping portions by meal and food; what
it returns are texts and small tuples. Contents build their documents from it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from oatsack.reports.measures import Measures, measures_of
from oatsack.reports.words import Voice
from oatsack.values.flags import Flag
from oatsack.values.food import MEALS, Food, Meal
from oatsack.values.frozen import dataclass
from oatsack.values.menu import Portion
from oatsack.values.pack import Bag
from oatsack.values.plan import Plan
from oatsack.values.route import Day
from oatsack.values.walker import Walker

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
"""Our own names of days and months: the machine's locale must not change a report."""


@dataclass(frozen=True, slots=True)
class Telling:
    """A plan with the voice that tells it."""

    plan: Plan
    voice: Voice

    @property
    def m(self) -> Measures:
        """The measures of the trip."""
        return self.voice.measures

    def say(self, key: str, /, **values: Any) -> str:
        """A sentence in the trip's own units."""
        return self.voice.say(key, **values)

    def flag(self, flag: Flag) -> str:
        """A flag's sentence, its first letter a capital."""
        text = self.voice.flag(flag)
        return text[:1].upper() + text[1:]

    def name(self, walker: str) -> str:
        """A walker's name by id."""
        return self.voice.walkers.get(walker, walker)

    def group(self, group: str) -> str:
        """For whom something is: a walker, several joined by a plus, or all."""
        ids = [word for word in group.split("+") if word]
        if not ids or len(ids) >= len(self.plan.trip.walkers) > 1:
            return self.say("bags.all")
        return " + ".join(self.name(word) for word in ids)

    def food(self, food: str) -> Food:
        """A food by id."""
        return self.plan.foods[food]

    def day(self, number: int) -> Day:
        """A day by number."""
        return self.plan.days[number - 1]

    def shared(self, food: str, grams: float, doses: float) -> str:
        """So much of a food as one says it: whole things counted behind the name, which so reads
        right in one number and the other ("Salt sachets × 1"); measured things in grams. Packs are
        counted before it ("3 × Salt sachets")."""
        known = self.plan.foods.get(food)
        if known is None:
            return food
        if counted(known):
            return f"{known.name} × {self.m.number(pieces(known, doses))}"
        return f"{known.name} {self.m.mass(grams)}"

    def shared_packs(self, food: str, packs: float) -> str:
        """Whole packs of a food; one needs no number."""
        name = self.plan.foods[food].name
        return name if packs == 1 else f"{self.m.number(packs)} × {name}"

    def portion(self, portion: Portion) -> str:
        """One portion as text; a share of an open bag is only named, never portioned."""
        food = self.plan.foods[portion.food]
        if portion.why == "bag":
            return food.name
        return self.shared(portion.food, portion.doses * food.dose_g, portion.doses)

    def price(self, price: float | None) -> str:
        """A price of all that is bought: at least so much where some price is not known (C2);
        nothing where none is."""
        if price is None:
            return ""
        missing = self.plan.totals.unpriced
        return self.say("price.least" if missing else "price.all", price=price, n=missing)

    def title_line(self) -> str:
        """How many, from when to when."""
        days = self.plan.days
        return self.say(
            "trip.line" if len(days) > 1 else "trip.line_day",
            walkers=len(self.plan.trip.walkers), days=len(days),
            nights=sum(d.camp_m is not None for d in days),
            first=long_date(days[0]), last=long_date(days[-1]),
        )  # fmt: skip

    def foot(self) -> str:
        """What stands at the foot of each page."""
        made = self.plan.made
        return self.say("trip.foot", title=self.plan.trip.title, hash=version(self.plan),
                        version=made.oatsack)  # fmt: skip


_LAST: list[Telling] = []
"""The plan that was told last: most of what is told of one follows at once."""


def telling(plan: Plan) -> Telling:
    """A plan made ready to be told, in the units of its trip."""
    for told in _LAST:
        if told.plan is plan:
            return told
    made = _telling(plan)
    _LAST[:] = [made]
    return made


def _telling(plan: Plan) -> Telling:
    trip = plan.trip
    voice = Voice(
        measures=measures_of(trip.units, trip.rules.currency),
        foods={**plan.names, **{food.id: food.name for food in plan.foods.values()}},
        walkers={walker.id: walker.name for walker in trip.walkers},
        days={str(day.number): short_date(day) for day in plan.days},
    )
    told = Telling(plan, voice)
    return Telling(plan, replace(voice, bags={b.id: _bag_named(told, b) for b in plan.packed.bags}))


def _bag_named(told: Telling, bag: Bag) -> str:
    """A bag as a sentence names it: its number where it bears one, its kind, for whom."""
    foods = {item.food for item in bag.items}
    alone = bag.sealed and len(foods) == 1
    kind = told.food(next(iter(foods))).name if alone else told.say(f"meals.{bag.label}")
    key = "bags.named" if bag.sealed else "bags.named_numbered"
    who = told.group(bag.group or bag.carrier)
    everyone = who == told.say("bags.all")
    return told.say(
        key, n=bag.number, kind=kind, who=told.say("bags.everyone") if everyone else who
    )


def version(plan: Plan) -> str:
    """Six signs that tell one version of a plan from another, for labels and sheets."""
    import hashlib

    made = plan.made
    menu = ";".join(f"{p.walker}{p.day}{p.meal}{p.food}{p.doses:g}" for p in plan.menu.portions)
    text = f"{made.trip_hash}|{made.larder_hash}|{made.near_hash}|{menu}"
    return hashlib.sha256(text.encode()).hexdigest()[:6]


def short_date(day: Day) -> str:
    """ "Thu 10" """
    return f"{WEEKDAYS[day.date.weekday()]} {day.date.day}"


def long_date(day: Day) -> str:
    """ "Thu 10 June" """
    return f"{short_date(day)} {MONTHS[day.date.month - 1]}"


LOOSE = frozenset(
    {"serving", "spoon", "spoonful", "two spoons", "half", "g", "gram", "dose", "portion", "step",
     "scoop", "handful", "half portion", "squeeze", "pinch", "two eggs"}
)  # fmt: skip
"""Doses that are measured, so that a report says their mass."""
THINGS = frozenset({"slice", "tortilla", "cookie", "bread", "bagel", "two sweets", "three sweets"})
"""Doses that are whole things in an open bag; a piece of a block or a row of a bar is measured."""
PIECES = {"pair": 2.0, "two slices": 2.0, "two sheets": 2.0, "two sweets": 2.0, "three sweets": 3.0,
          "ten sheets": 10.0, "half pouch": 0.5}  # fmt: skip
"""Doses of several things, or of a part of one, so that a report counts the things."""


def counted(food: Food) -> bool:
    """Whether a food is handed out in whole things rather than weighed."""
    if food.carry == "bag":
        return food.dose_name in THINGS
    return food.carry == "sealed" or food.role == "small" or food.dose_name not in LOOSE


def pieces(food: Food, doses: float) -> float:
    """How many things so many doses are."""
    return doses * PIECES.get(food.dose_name, 1.0)


def portions_at(plan: Plan, day: int, meal: Meal, walker: str | None = None) -> list[Portion]:
    """The portions of one meal, of one walker or of all, mains first."""
    mine = [
        p for p in plan.menu.portions
        if p.day == day and p.meal == meal and walker in (None, p.walker)
    ]  # fmt: skip
    order = ("main", "side", "topping", "snack", "drink", "small")
    return sorted(mine, key=lambda p: (order.index(plan.foods[p.food].role), p.food, p.walker))


def together(portions: Iterable[Portion]) -> list[Portion]:
    """Portions of the same food put together; the walker of the first stands for all."""
    found: dict[str, Portion] = {}
    for p in portions:
        had = found.get(p.food)
        doses = p.doses + (had.doses if had else 0.0)
        found[p.food] = Portion(walker=p.walker, day=p.day, meal=p.meal, food=p.food, doses=doses,
                                why=p.why)  # fmt: skip
    return list(found.values())


def meals_of(plan: Plan, day: int) -> list[Meal]:
    """The meals of a day at which anyone eats something."""
    return [meal for meal in MEALS if portions_at(plan, day, meal)]


BETWEEN_DISHES = " · "


def mains(told: Telling, day: int, meal: Meal = "dinner") -> str:
    """What carries a meal, by name, everyone's: "Lentil stew · Chicken rice"."""
    found = [p for p in portions_at(told.plan, day, meal) if told.food(p.food).role == "main"]
    names = dict.fromkeys(told.food(p.food).name for p in found)
    return BETWEEN_DISHES.join(names)


def headline(told: Telling, day: int) -> str:
    """What a day's line names: its dinner, else what carries another meal, else anything."""
    for meal in ("dinner", "lunch", "breakfast"):
        found = mains(told, day, meal)
        if found:
            return found
    rest = [p.food for m in meals_of(told.plan, day) for p in portions_at(told.plan, day, m)]
    return told.food(rest[0]).name if rest else ""


def bags_of(plan: Plan, walker: str, leg: int | None = None) -> list[Bag]:
    """The bags a walker carries."""
    return [b for b in plan.packed.bags if b.carrier == walker and leg in (None, b.leg)]


def full_days(plan: Plan, walker: str) -> list[str]:
    """Days between the first and the last, which lie wholly inside the walk; of a shorter walk all
    of them (for "a full day uses")."""
    whole = [str(d.number) for d in plan.days[1:-1]]
    return whole or list(plan.need[walker])


def mean(values: Iterable[float]) -> float:
    """The mean; 0 of nothing."""
    listed = list(values)
    return sum(listed) / len(listed) if listed else 0.0


OUTSIDE = ("need.outside-", "need.frost", "need.height")
"""What a need's flags begin with where it lies beyond what was measured."""


def is_outside(flag: Flag) -> bool:
    """Whether a flag says that a need lies beyond what its models were measured for (C7)."""
    return flag.key.startswith(OUTSIDE)


def outsiders(plan: Plan) -> frozenset[str]:
    """Walkers whose need lies partly beyond what its models were measured for."""
    scopes = (f.scope.split("/") for f in plan.flags if is_outside(f))
    return frozenset(parts[1] for parts in scopes if len(parts) > 1)


def beyond(told: Telling, line: str, walker: str | None = None) -> str:
    """The line, and that the need it tells lies partly beyond what was measured, where it does."""
    whom = outsiders(told.plan)
    concerned = bool(whom) if walker is None else walker in whom
    return told.say("need.outside", line=line) if concerned else line


def neutral_line(told: Telling, walker: Walker, *, name: str = "", short: bool = False) -> str:
    """The one neutral line on need and choice, with a range (C11); `name` and `short` where space
    is short.

    It says so where the need lies beyond what its models were measured for.
    """
    return beyond(told, _line(told, walker, name, short), walker.id)


def flag_opens(told: Telling, flag: Flag) -> tuple[tuple[str, str], ...]:
    """The numbers in a flag's sentence as they are shown, each with where it is opened."""
    if flag not in told.plan.flags:
        return ()
    at = f"flags/{told.plan.flags.index(flag)}/values"
    return tuple((shown, f"{at}/{name}") for name, shown in told.voice.values(flag))


PARTLY = {1: "the_day", 2: "each_day"}
"""Walks by days on which no day lies wholly inside."""
NEUTRAL = "body.shortfall"
"""The flag that says in a list of flags what the neutral line says of each walker (C11)."""
MOST_LINES_APART = 2
"""Parties up to this have each walker's neutral line on the first screen."""


def each_line_on_top(told: Telling) -> bool:
    """Whether the first screen tells each walker's neutral line, so that nothing below need."""
    return len(told.plan.trip.walkers) <= MOST_LINES_APART


def _line(told: Telling, walker: Walker, name: str, short: bool) -> str:
    plan = told.plan
    if walker.condition != "none" or (walker.age_years is not None and walker.age_years < 18):
        return told.say("need.full", walker=name or walker.name, eats=_eats(plan, walker.id))
    days = full_days(plan, walker.id)
    need = [plan.need[walker.id][d] for d in days]
    values: dict[str, Any] = {
        "walker": name or walker.name, "eats": _eats(plan, walker.id),
        "need": mean(n.energy_kcal for n in need),
        "low": mean(n.low_kcal for n in need), "high": mean(n.high_kcal for n in need),
        "days": len(plan.days),
        "full": told.say(f"need.{PARTLY.get(len(plan.days), 'full_day')}"),
    }  # fmt: skip
    chosen = plan.chosen.get(walker.id)
    asked = chosen is None or chosen.how != "nobody-asked"
    values["how"] = told.say(
        "need.chose" if asked else "need.not_asked",
        **values,
        share=(chosen.factor if chosen else 1.0),
    )
    told_of = plan.consequence.get(walker.id)
    if told_of is None or told_of.deficit_kcal <= 0:
        return told.say("need.enough", **values)
    values["loss_low"] = told_of.tissue_low_kg + told_of.water_low_kg
    values["loss_high"] = told_of.tissue_high_kg + told_of.water_high_kg
    return told.say("need.brief" if short else "need.short", **values)


def _eats(plan: Plan, walker: str) -> float:
    chosen = plan.target[walker]
    return mean(chosen[d] for d in full_days(plan, walker) if d in chosen)
