"""A hand-built plan that hangs together, for tests of whatever only reads plans.

It is no answer of the program: menus are dealt out by rote, needs are round numbers. Sums are done
here from the portions (once more, apart from the program), so that bags, sacks and totals agree.
Places and people are invented.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import cache
from typing import Any, Literal
from zoneinfo import ZoneInfo

from oatsack.values.flags import Flag
from oatsack.values.food import Food, Keep, Meal, Nutrients, Pouch, Prep, Stock
from oatsack.values.kit import Container, Kit
from oatsack.values.kitchen import (
    CookStep,
    DosePrice,
    FuelPlan,
    KitchenLedger,
    MealLedger,
    WaterCarry,
    WaterDay,
)
from oatsack.values.menu import Menu, Pool, Portion, Slot
from oatsack.values.pack import Bag, Box, Buy, Item, Night, Packed, Rubbish, Sack
from oatsack.values.plan import (
    FORMAT,
    Assumption,
    Chosen,
    Consequence,
    DayNeed,
    DayTotal,
    Hour,
    Late,
    Made,
    Plan,
    Totals,
    Yardsticks,
)
from oatsack.values.route import Day, Stretch, WaterPlace
from oatsack.values.trip import HandDay, RouteSpec, Rules, Trip
from oatsack.values.walker import Avoid, Walker

ZONE = ZoneInfo("Europe/Vienna")
START = dt.datetime(2027, 6, 10, 9, 0, tzinfo=ZONE)
FREE = dict.fromkeys(
    ("milk", "egg", "fish", "crustacean", "tree_nut", "peanut", "wheat", "soy", "sesame", "gluten"),
    "free",
)
GERMAN = (
    "Hartkäsewürfel vom Bergbauernhof, luftgetrocknet und gewürzt",
    "Haferflockenmischung mit Äpfeln und gerösteten Haselnüssen",
    "Linsen-Süßkartoffel-Eintopf mit Kokosmilch, gefriergetrocknet",
)
NAMES = (
    "Anna", "Ben", "Clara", "Dov", "Edda", "Finn", "Greta", "Hal", "Ida", "Jon", "Kaja", "Lars",
)  # fmt: skip


def _food(id: str, name: str, per: tuple[float, float, float, float, float], **more: Any) -> Food:
    kcal, protein, fat, carb, sodium = per
    nutrients = Nutrients(
        energy_kcal=kcal, protein_g=protein, fat_g=fat, carb_g=carb, fibre_g=more.pop("fibre", 4.0),
        sodium_mg=sodium, caffeine_mg=more.pop("caffeine", 0.0),
    )  # fmt: skip
    allergens = {**FREE, **more.pop("allergens", {})}
    return Food(id=id, name=name, per_100g=nutrients, allergens=allergens, **more)


@cache
def sample_foods(*, long_names: bool = False) -> dict[str, Food]:
    """Foods in the style of the bundled larder; `long_names` gives some of them 60 characters."""
    cheese, oats, stew = GERMAN if long_names else ("Hard cheese", "Oat cereal", "Lentil stew")
    pouch = Pouch(stands=True, closes=True, holds_ml=650, flat_ml=250, puffed_ml=600)
    foods = (
        _food("oatmeal", "Maple oatmeal packet", (369, 9, 5, 76, 500), category="breakfast",
              pack_g=344, doses_per_pack=8, dose_g=43, dose_name="packet", role="main",
              carry="sealed", taste="sweet", meals=frozenset({"breakfast"}), wrap_g=24,
              prep=Prep(kind="boil", water_ml=160, wait_min=2, from_bag=True), pack_ml=900,
              price=3.2, allergens={"gluten": "contains", "wheat": "may"}, diet="vegan"),
        _food("oats", oats, (390, 12, 9, 66, 15), category="breakfast", pack_g=500,
              doses_per_pack=8, dose_g=62.5, role="main", meals=frozenset({"breakfast"}),
              prep=Prep(kind="soak", water_ml=120, wait_min=5), pack_ml=1100, wrap_g=12, price=4.1,
              allergens={"gluten": "contains", "tree_nut": "contains"}, diet="vegan"),
        _food("milk-powder", "Whole milk powder", (496, 26, 27, 38, 371), category="dairy",
              pack_g=400, doses_per_pack=16, dose_g=25, role="side", pack_ml=800, wrap_g=40,
              prep=Prep(kind="soak", water_ml=100), price=5.9, meals=frozenset({"breakfast"}),
              allergens={"milk": "contains"}, diet="vegetarian", stock=Stock(packs=1)),
        _food("crackers", "Rye crackers", (366, 9, 2, 82, 640), category="bread", pack_g=250,
              doses_per_pack=10, dose_g=25, role="main", carry="repack", taste="salty",
              meals=frozenset({"lunch"}), pack_ml=900, wrap_g=14, price=2.1, fibre=16.0,
              allergens={"gluten": "contains"}, diet="vegan", keep=Keep(crushes=True)),
        _food("cheese", cheese, (410, 27, 33, 1, 690), category="dairy", pack_g=200,
              doses_per_pack=5, dose_g=40, role="topping", carry="repack", taste="salty",
              meals=frozenset({"lunch"}), pack_ml=190, wrap_g=8, price=4.6, fibre=0.0,
              allergens={"milk": "contains"}, diet="vegetarian",
              keep=Keep(opened_days=5, warm_days=6)),
        _food("tuna", "Tuna pouch", (116, 26, 1, 0, 350), category="protein", pack_g=80,
              doses_per_pack=1, dose_g=80, dose_name="pouch", role="side", carry="sealed",
              taste="salty", meals=frozenset({"lunch"}), pack_ml=110, wrap_g=6, price=2.4,
              allergens={"fish": "contains"}, diet="fish", fibre=0.0),
        _food("bar", "Fruit and seed bar", (440, 9, 19, 58, 60), category="snack", pack_g=300,
              doses_per_pack=6, dose_g=50, dose_name="bar", role="snack", carry="sealed",
              taste="sweet", meals=frozenset({"lunch", "move"}), pack_ml=480, wrap_g=18, price=5.4,
              allergens={"sesame": "contains", "tree_nut": "may"}, diet="vegan",
              every_day_fine=True),
        _food("nuts", "Nut and fruit mix", (520, 15, 34, 42, 110), category="nut", pack_g=170,
              doses_per_pack=4, dose_g=42.5, role="snack", carry="bag", taste="salty",
              meals=frozenset({"move"}), pack_ml=330, wrap_g=7, resealable=True, price=3.9,
              allergens={"tree_nut": "contains", "peanut": "contains"}, diet="vegan"),
        _food("stew", stew, (440, 17, 14, 62, 820), category="meal", pack_g=125, doses_per_pack=1,
              dose_g=125, dose_name="pouch", role="main", carry="sealed", taste="salty",
              meals=frozenset({"dinner"}), pack_ml=420, wrap_g=14, price=8.5, shop="outdoor",
              prep=Prep(kind="boil", water_ml=400, wait_min=10, from_bag=True), pouch=pouch,
              diet="vegan"),
        _food("rice", "Chicken rice", (455, 20, 15, 60, 900), category="meal", pack_g=130,
              doses_per_pack=1, dose_g=130, dose_name="pouch", role="main", carry="sealed",
              taste="salty", meals=frozenset({"dinner"}), pack_ml=430, wrap_g=14, price=8.9,
              shop="outdoor", prep=Prep(kind="boil", water_ml=380, wait_min=10, from_bag=True),
              pouch=pouch, allergens={"soy": "contains"}, diet="meat"),
        _food("oil", "Olive oil", (884, 0, 100, 0, 2), category="fat", pack_g=230,
              doses_per_pack=17, dose_g=13.5, dose_name="spoon", role="topping",
              meals=frozenset({"dinner"}), pack_ml=260, wrap_g=30, price=3.6, diet="vegan",
              fibre=0.0),
        _food("coffee", "Instant coffee stick", (353, 12, 0, 75, 37), category="drink", pack_g=20,
              doses_per_pack=10, dose_g=2, dose_name="stick", role="drink", carry="sealed",
              taste="neutral", meals=frozenset({"drinks"}), pack_ml=60, wrap_g=6, price=2.5,
              prep=Prep(kind="boil", water_ml=250), caffeine=3140.0, diet="vegan"),
        _food("tablet", "Effervescent tablet", (210, 0, 0, 50, 8600), category="small", pack_g=48,
              doses_per_pack=12, dose_g=4, dose_name="tablet", role="small", carry="repack",
              meals=frozenset({"move"}), pack_ml=60, wrap_g=14, price=4.9, shop="chemist",
              diet="vegan", fibre=0.0),
    )  # fmt: skip
    return {food.id: food for food in foods}


def sample_plan(*, walkers: int = 2, days: int = 3, units: Literal["metric", "us"] = "metric",
                long_names: bool = False, legs: int = 1) -> Plan:  # fmt: skip
    """A plan for so many walkers and days; two legs bring a box."""
    foods = sample_foods(long_names=long_names)
    people = _people(walkers, long_names=long_names)
    route = tuple(_day(n, days, legs) for n in range(1, days + 1))
    trip = _trip(people, days, units)
    slots = _slots(people, route)
    portions, pools = _menu(people, route, foods)
    spare = tuple(
        Portion(walker=w.id, day=0, meal="move", food="bar", doses=1, why="chosen") for w in people
    )
    menu = Menu(portions=portions, pools=pools, spare=spare, aim=9000.0, bound=8960.0)
    ledger = _ledger(people, route, portions, foods)
    packed = _packed(people, route, menu, foods)
    need = {w.id: {str(d.number): _need(w, d) for d in route} for w in people}
    eaten = {w.id: {str(d.number): _eaten(w, d, portions, foods) for d in route} for w in people}
    return Plan(
        format=FORMAT, trip=trip, foods=foods, days=route, slots=slots, need=need,
        target={w: {d: round(t.energy_kcal, -1) for d, t in of.items()} for w, of in eaten.items()},
        chosen={w.id: _chosen(w, route, need, eaten) for w in people},
        menu=menu, prices=_prices(foods, route), eaten=eaten, kitchen=ledger, packed=packed,
        backs={
            w.id: {str(d.number): tuple(13.0 for _ in d.stretches) for d in route} for w in people
        },
        timeline={w.id: _timeline(w, route, need, eaten, packed) for w in people},
        totals=_totals(people, route, menu, foods, packed, ledger, eaten),
        yardsticks=_yardsticks(packed), consequence=_consequence(people, need, eaten),
        late=_late(people, eaten, ledger), assumptions=ASSUMPTIONS, made=MADE,
        sources=(), flags=_flags(people),
    )  # fmt: skip


ASSUMPTIONS = (
    Assumption(key="target", path="walkers[0].target", value=0.85, effect_kcal=900.0),
    Assumption(key="body", path="walkers[0].age", value="40 years", effect_kcal=350.0),
    Assumption(key="terrain", path="route.terrain", value=1.1, effect_kcal=220.0),
    Assumption(key="base-weight", path="walkers[1].base_weight", value=8.0, effect_kcal=130.0),
    Assumption(key="spare", path="rules.spare", value="meal", effect_kcal=440.0),
)
MADE = Made(
    oatsack="0.1.0", seed=0, rounds=2, residual_kcal=18.0, ended="proved", gap=0.004,
    trip_hash="3f9c21aa77e0d4b1", larder_hash="b77a10c3f29e5d04", today="2027-05-28",
)  # fmt: skip


def _people(count: int, *, long_names: bool) -> tuple[Walker, ...]:
    out = []
    for i in range(count):
        name = NAMES[i % len(NAMES)]
        if long_names and i == 0:
            name = "Annegret-Friederike von Hohenstein-Waldburg zu Oberwiesenthal"
        out.append(
            Walker(
                id=NAMES[i % len(NAMES)].lower(), name=name, mass_kg=62.0 if i % 2 == 0 else 84.0,
                sex="female" if i % 2 == 0 else "male", age_years=38.0,
                eats="vegetarian" if i % 2 == 0 else "anything",
                avoids=(Avoid(allergen="peanut", scope="plate"),) if i == 2 else (),
                capacity=1.0 if i % 2 == 0 else 1.3,
            )
        )  # fmt: skip
    return tuple(out)


def _day(number: int, days: int, legs: int) -> Day:
    last, climb = number == days, 700.0 + 50.0 * (number % 4)
    begin = 540.0 if number == 1 else 510.0
    top = 900.0 + 120.0 * number
    walk = tuple(
        Stretch(kind="walk", start_min=begin + 60 * h, end_min=begin + 60 * (h + 1),
                distance_m=2500.0, grade_pct=8.0 if h < 3 else -8.0,
                height_m=top + (h if h < 3 else 6 - h) * climb / 3)
        for h in range(6)
    )  # fmt: skip
    end = begin + 360.0
    camp = () if last else (
        Stretch(kind="camp", start_min=end, end_min=1320.0, height_m=top),
        Stretch(kind="sleep", start_min=1320.0, end_min=1860.0, height_m=top),
    )  # fmt: skip
    return Day(
        number=number, date=START.date() + dt.timedelta(days=number - 1), stretches=walk + camp,
        distance_m=15000.0, ascent_m=climb, descent_m=climb, highest_m=top + climb,
        camp_m=None if last else top, camp_name="" if last else f"Heron Tarn {number}",
        camp_dry=number == 2, leg=1 + (number - 1) * legs // days, warm_c=17.0, cold_c=5.0,
        water=(WaterPlace(name="Mill Beck", at_min=begin + 150.0, distance_m=6200.0),),
    )  # fmt: skip


def _trip(people: tuple[Walker, ...], days: int, units: Literal["metric", "us"]) -> Trip:
    end = (START + dt.timedelta(days=days - 1)).replace(hour=15)
    box = Container(name="hard container", volume_ml=11500.0, mass_g=1150.0, carrier=people[-1].id)
    return Trip(
        title="Heron Tarns round", begin=START, end=end, zone="Europe/Vienna", walkers=people,
        route=RouteSpec(usual_day=HandDay(distance_m=15000.0, ascent_m=750.0)),
        kit=Kit(containers=(box,)), rules=Rules(budget=150.0), units=units,
        defaults=frozenset({"walkers[0].age", "route.terrain"}),
    )  # fmt: skip


def meals_of(day: Day) -> tuple[Meal, ...]:
    """The meals inside the walk: it starts after breakfast and ends before dinner."""
    first, last = day.number == 1, day.camp_m is None
    meals: tuple[Meal, ...] = ("breakfast", "lunch", "move", "dinner", "drinks")
    gone = ({"breakfast"} if first else set()) | ({"dinner"} if last else set())
    return tuple(m for m in meals if m not in gone)


CLOCK: Mapping[Meal, float] = {
    "breakfast": 420.0, "lunch": 750.0, "move": 660.0, "dinner": 1110.0, "drinks": 1140.0,
}  # fmt: skip


def _slots(people: tuple[Walker, ...], days: tuple[Day, ...]) -> tuple[Slot, ...]:
    return tuple(
        Slot(walker=w.id, day=d.number, date=d.date, meal=m, clock_min=CLOCK[m],
             hot=m in ("breakfast", "dinner", "drinks"), carry_days=d.number - 1, leg=d.leg)
        for w in people for d in days for m in meals_of(d)
    )  # fmt: skip


def _dealt(walker: Walker, day: Day, meal: Meal) -> dict[str, float]:
    big, meat = walker.mass_kg > 70.0, walker.eats == "anything"
    dealt: dict[Meal, dict[str, float]] = {
        "breakfast": {"oatmeal": 3.0 if big else 2.0, "milk-powder": 1.0} if day.number % 2 == 0
        else {"oats": 1.5 if big else 1.0, "milk-powder": 1.0},
        "lunch": {"crackers": 3.0 if big else 2.0} | ({"tuna": 1.0} if meat and day.number % 2
                  else {"cheese": 1.0}),
        "move": {"bar": 3.0 if big else 2.0, "tablet": 2.0},
        "dinner": {"rice" if meat and day.number % 2 else "stew": 1.0, "oil": 1.0},
        "drinks": {"coffee": 1.0 if day.camp_m is None else 2.0},
    }  # fmt: skip
    return dealt[meal]


def _menu(people: tuple[Walker, ...], days: tuple[Day, ...],
          foods: Mapping[str, Food]) -> tuple[tuple[Portion, ...], tuple[Pool, ...]]:  # fmt: skip
    portions = [
        Portion(walker=w.id, day=d.number, meal=m, food=food, doses=doses,
                why="count" if food in ("tablet", "coffee") else "chosen")
        for w in people for d in days for m in meals_of(d)
        for food, doses in _dealt(w, d, m).items()
    ]  # fmt: skip
    pools = []
    for w in people:
        if w.avoids:
            continue
        for leg in sorted({d.leg for d in days}):
            mine = [d.number for d in days if d.leg == leg]
            packs = max(1, round(len(mine) / 3))
            grams = packs * foods["nuts"].pack_g / len(mine)
            pools.append(
                Pool(
                    walker=w.id,
                    food="nuts",
                    packs=packs,
                    open_day=mine[0],
                    last_day=mine[-1],
                    by_day_g=dict.fromkeys(mine, grams),
                )
            )
            portions += [
                Portion(walker=w.id, day=n, meal="move", food="nuts",
                        doses=grams / foods["nuts"].dose_g, why="bag") for n in mine
            ]  # fmt: skip
    return tuple(portions), tuple(pools)


def _water(portion: Portion, foods: Mapping[str, Food]) -> float:
    return portion.doses * foods[portion.food].prep.water_ml


def _ledger(people: tuple[Walker, ...], days: tuple[Day, ...], portions: tuple[Portion, ...],
            foods: Mapping[str, Food]) -> KitchenLedger:  # fmt: skip
    meals: list[MealLedger] = []
    for d in days:
        for m in ("breakfast", "dinner"):
            with_drinks = (m, "drinks") if m == "dinner" else (m,)
            mine = [p for p in portions if p.day == d.number and p.meal in with_drinks]
            boiled = sum(_water(p, foods) for p in mine if foods[p.food].prep.kind == "boil")
            cold = sum(_water(p, foods) for p in mine if foods[p.food].prep.kind == "soak")
            if m in meals_of(d):
                meals.append(_meal(d, m, people, boiled, cold))
    by_day = {str(d.number): sum(m.fuel_g for m in meals if m.day == d.number) for d in days}
    burnt = sum(by_day.values())
    need = burnt * 1.1 + 7.5
    cans = ((230.0, max(1, round(need / 230.0 + 0.5))),)
    fuel = FuelPlan(kind="gas", by_day_g=by_day, burnt_g=burnt, reserve_g=need - burnt, need_g=need,
                    cans=cans, carried_g=230.0 * cans[0][1], gross_g=380.0 * cans[0][1],
                    left_g=230.0 * cans[0][1] - burnt)  # fmt: skip
    water = {w.id: {str(d.number): _water_day(w, d, portions, foods) for d in days} for w in people}
    carries = tuple(
        WaterCarry(day=d.number, start="camp", end="Mill Beck", distance_m=6200.0, minutes=150.0,
                   carry_ml=1250.0, why="walking") for d in days
    )  # fmt: skip
    return KitchenLedger(meals=tuple(meals), fuel=fuel, water=water, carries=carries)


def _meal(
    day: Day, meal: Meal, people: tuple[Walker, ...], boiled: float, cold: float
) -> MealLedger:
    fuel = boiled * 0.015
    steps = (
        CookStep(kind="boil", start_min=0, end_min=boiled / 250.0, pot="pot", water_ml=boiled,
                 fuel_g=fuel),
        CookStep(kind="pour", start_min=boiled / 250.0, end_min=boiled / 250.0 + 1, food="stew"),
        CookStep(kind="wait", start_min=boiled / 250.0 + 1, end_min=boiled / 250.0 + 11,
                 food="stew"),
    )  # fmt: skip
    return MealLedger(day=day.number, meal=meal, walkers=tuple(w.id for w in people),
                      boiled_ml=boiled, cold_ml=cold, wash_ml=0.0, heat_kj=boiled * 0.38,
                      fuel_g=fuel, minutes=boiled / 250.0 + 11, batches=1 + int(boiled // 900),
                      boiling_c=96.4, steps=steps)  # fmt: skip


def _water_day(walker: Walker, day: Day, portions: tuple[Portion, ...],
               foods: Mapping[str, Food]) -> WaterDay:  # fmt: skip
    mine = [p for p in portions if p.walker == walker.id and p.day == day.number]
    drinks = sum(_water(p, foods) for p in mine if p.meal == "drinks")
    cooking = sum(_water(p, foods) for p in mine) - drinks
    return WaterDay(walking_suggested_ml=3000.0, sweat_low_ml=1800.0, sweat_high_ml=4200.0,
                    cooking_ml=cooking, washing_ml=200.0, camp_drinks_ml=drinks + 500.0,
                    hour_cap_ml=1000.0, day_cap_ml=8000.0)  # fmt: skip


def _packed(people: tuple[Walker, ...], days: tuple[Day, ...], menu: Menu,
            foods: Mapping[str, Food]) -> Packed:  # fmt: skip
    bags = _bags(people, days, menu, foods)
    sacks = tuple(
        _sack(w, leg, [b for b in bags if b.carrier == w.id and b.leg == leg], days, people)
        for w in people for leg in sorted({d.leg for d in days})
    )  # fmt: skip
    nights = tuple(
        Night(day=d.number, needed_low_ml=7000.0 - 900 * d.number,
              needed_ml=8200.0 - 900 * d.number, needed_high_ml=9700.0 - 900 * d.number,
              room_ml=10500.0, verdict="likely", outside=()) for d in days if d.camp_m is not None
    )  # fmt: skip
    rubbish = tuple(Rubbish(day=d.number, mass_g=45.0 * d.number, volume_ml=300.0 * d.number)
                    for d in days)  # fmt: skip
    return Packed(buy=_buy(days, menu, foods), bags=bags, sacks=sacks, nights=nights,
                  rubbish=rubbish, boxes=_boxes(days, bags))  # fmt: skip


def _item(portion: Portion, foods: Mapping[str, Food]) -> Item:
    net_g = portion.doses * foods[portion.food].dose_g
    return Item(food=portion.food, doses=portion.doses, net_g=net_g, walker=portion.walker,
                day=portion.day, meal=portion.meal)  # fmt: skip


def _bags(people: tuple[Walker, ...], days: tuple[Day, ...], menu: Menu,
          foods: Mapping[str, Food]) -> tuple[Bag, ...]:  # fmt: skip
    found: list[dict[str, Any]] = []
    of_day = {d.number: d for d in days}
    for w in people:
        for leg in sorted({d.leg for d in days}):
            for kind in ("breakfast", "lunch", "move", "dinner", "drinks", "spare"):
                source = menu.spare if kind == "spare" else menu.portions
                items = [
                    _item(p, foods) for p in source if p.walker == w.id
                    and ((kind == "spare" and leg == 1) or (p.meal == kind and p.day in of_day
                         and of_day[p.day].leg == leg))
                ]  # fmt: skip
                if items:
                    found.append(_bag(w, leg, kind, items, foods))
    return tuple(
        Bag(id=f"b{n}", number=n, of=len(found), **fields) for n, fields in enumerate(found, 1)
    )


def _bag(walker: Walker, leg: int, kind: str, items: list[Item],
         foods: Mapping[str, Food]) -> dict[str, Any]:  # fmt: skip
    net = sum(i.net_g for i in items)
    wrap = 4.0 + sum(i.doses * foods[i.food].dose_wrap_g for i in items)
    days = [i.day for i in items if i.day]
    allergens = {
        a: state for i in items for a, state in foods[i.food].allergens.items() if state != "free"
    }
    return {
        "label": kind, "items": tuple(items), "net_g": net, "wrap_g": wrap, "volume_ml": net * 2.1,
        "group": walker.id, "carrier": walker.id, "open_day": min(days, default=1),
        "empty_day": max(days, default=3), "allergens": allergens, "leg": leg,
        "water_ml": sum(i.doses * foods[i.food].prep.water_ml for i in items),
        "wait_min": max((foods[i.food].prep.wait_min for i in items), default=0.0),
        "eat_by_day": 5 if any(i.food == "cheese" for i in items) else None,
    }  # fmt: skip


def _sack(walker: Walker, leg: int, bags: list[Bag], days: tuple[Day, ...],
          people: tuple[Walker, ...]) -> Sack:  # fmt: skip
    mine = [d.number for d in days if d.leg == leg]
    left = {
        str(n): sum(b.wrap_g + sum(i.net_g for i in b.items if i.day == 0 or i.day >= n)
                    for b in bags)
        for n in mine
    }  # fmt: skip
    common = {"fuel": 230.0, "can": 150.0} if walker == people[0] else {"container": 1150.0}
    return Sack(walker=walker.id, leg=leg, bags=tuple(b.id for b in bags),
                start_g=sum(b.gross_g for b in bags), by_day_g=left,
                wrappers_by_day_g={str(n): 12.0 * k for k, n in enumerate(mine)},
                common_g=common if walker in (people[0], people[-1]) else {},
                kg_days=sum(left.values()) / 1000.0)  # fmt: skip


def _buy(days: tuple[Day, ...], menu: Menu, foods: Mapping[str, Food]) -> tuple[Buy, ...]:
    out = []
    for food in foods.values():
        grams = (
            sum(p.doses for p in (*menu.portions, *menu.spare) if p.food == food.id) * food.dose_g
        )
        home = min(grams, food.stock.packs * food.pack_g)
        packs = -(-(grams - home) // food.pack_g)
        if grams > 0:
            out.append(
                Buy(food=food.id, shop=food.shop, need_g=grams, from_home_g=home, packs=packs,
                    pack_g=food.pack_g, price=None if food.price is None else packs * food.price,
                    left_g=home + packs * food.pack_g - grams,
                    when="day before" if food.id == "cheese" else "weeks before")
            )  # fmt: skip
    return tuple(out)


def _boxes(days: tuple[Day, ...], bags: tuple[Bag, ...]) -> tuple[Box, ...]:
    out = []
    for leg in sorted({d.leg for d in days} - {1}):
        mine = [b for b in bags if b.leg == leg]
        first = min(d.number for d in days if d.leg == leg)
        out.append(Box(leg=leg, place=f"Fern Ford {leg}", arrive_day=first - 1,
                       bags=tuple(b.id for b in mine),
                       gross_g=sum(b.gross_g for b in mine), **_posting(days[first - 2].date)))
    return tuple(out)


def _posting(comes: dt.date) -> dict[str, Any]:
    """When a box is posted for a day of arrival, and the chances that go with it."""
    def on(days: int) -> dt.date:
        return comes + dt.timedelta(days=days)

    return {"post_from": on(-15), "post_until": on(-7), "post_on": on(-11), "early": on(-1),
            "late": on(3), "open_chance": 0.75, "wait_days": 2, "box_chance": 1.0,
            "shut": (on(2), on(3))}  # fmt: skip


def _need(walker: Walker, day: Day) -> DayNeed:
    inside = day.inside_min / 1440.0
    rest = 22.0 * walker.mass_kg * inside
    walking = walker.mass_kg * 28.0
    thermic = 0.1 * (rest + walking)
    likely = rest + walking + thermic
    return DayNeed(energy_kcal=likely, low_kcal=0.8 * likely, high_kcal=1.2 * likely,
                   walking_kcal=walking, camp_kcal=0.4 * rest, rest_kcal=0.2 * rest,
                   sleep_kcal=0.4 * rest, thermic_kcal=thermic, walking_h=6.0,
                   pack_start_kg=14.0, pack_end_kg=13.2)  # fmt: skip


def _chosen(walker: Walker, days: tuple[Day, ...], need: Mapping[str, Mapping[str, DayNeed]],
            eaten: Mapping[str, Mapping[str, DayTotal]]) -> Chosen:  # fmt: skip
    full = max(n.energy_kcal for n in need[walker.id].values())
    base = max(t.energy_kcal for t in eaten[walker.id].values())
    return Chosen(how="typed", base_kcal=base, full_day_kcal=full, factor=base / full,
                  ramp={str(d.number): 1.0 for d in days},
                  share={k: t.energy_kcal / base for k, t in eaten[walker.id].items()})  # fmt: skip


def _eaten(walker: Walker, day: Day, portions: tuple[Portion, ...],
           foods: Mapping[str, Food]) -> DayTotal:  # fmt: skip
    mine = [p for p in portions if p.walker == walker.id and p.day == day.number]

    def total(name: str) -> float:
        return sum(p.doses * (foods[p.food].per_dose(name) or 0.0) for p in mine)

    kcal = total("energy_kcal")
    return DayTotal(
        target_kcal=round(kcal, -1), energy_kcal=kcal,
        mass_g=sum(p.doses * foods[p.food].dose_g for p in mine), protein_g=total("protein_g"),
        fat_g=total("fat_g"), carb_g=total("carb_g"), fibre_g=total("fibre_g"),
        sodium_mg=total("sodium_mg"), caffeine_mg=total("caffeine_mg"), minutes=26.0,
    )  # fmt: skip


def _prices(foods: Mapping[str, Food], days: tuple[Day, ...]) -> dict[str, dict[str, DosePrice]]:
    return {
        f.id: {
            str(d.number): DosePrice(water_ml=f.prep.water_ml, boiled_ml=f.prep.water_ml,
                                     heat_kj=0.38 * f.prep.water_ml,
                                     fuel_g=0.015 * f.prep.water_ml) for d in days
        }
        for f in foods.values() if f.prep.kind == "boil"
    }  # fmt: skip


def _timeline(walker: Walker, days: tuple[Day, ...], need: Mapping[str, Mapping[str, DayNeed]],
              eaten: Mapping[str, Mapping[str, DayTotal]],
              packed: Packed) -> tuple[Hour, ...]:  # fmt: skip
    out = []
    for d in days:
        n, minutes = need[walker.id][str(d.number)], d.inside_min
        sack = next(s for s in packed.sacks if s.walker == walker.id and s.leg == d.leg)
        for s in d.stretches:
            share = s.minutes / minutes
            out.append(
                Hour(day=d.number, start_min=s.start_min, minutes=s.minutes,
                     walk_min=s.minutes if s.kind == "walk" else 0.0, distance_m=s.distance_m,
                     height_m=s.height_m, pack_kg=10.0 + sack.by_day_g[str(d.number)] / 1000.0,
                     need_low_kcal=n.low_kcal * share, need_kcal=n.energy_kcal * share,
                     need_high_kcal=n.high_kcal * share,
                     eaten_kcal=eaten[walker.id][str(d.number)].energy_kcal * share)
            )  # fmt: skip
    return tuple(out)


def _totals(people: tuple[Walker, ...], days: tuple[Day, ...], menu: Menu,
            foods: Mapping[str, Food], packed: Packed, ledger: KitchenLedger,
            eaten: Mapping[str, Mapping[str, DayTotal]]) -> Totals:  # fmt: skip
    rows = [t for of in eaten.values() for t in of.values()]
    kcal, net = sum(t.energy_kcal for t in rows), sum(t.mass_g for t in rows)
    person_days = len(people) * sum(d.inside_min for d in days) / 1440.0
    bar = foods["bar"]
    return Totals(
        person_days=person_days, energy_kcal=kcal, net_g=net,
        gross_g=sum(b.gross_g for b in packed.bags),
        start_kg=sum(s.start_g for s in packed.sacks if s.leg == 1) / 1000.0,
        kcal_per_100g=100.0 * kcal / net, g_per_person_day=net / person_days,
        protein_g_per_kg_day=sum(t.protein_g for t in rows) / person_days / 73.0,
        sodium_mg_day=sum(t.sodium_mg for t in rows) / person_days,
        fibre_g_day=sum(t.fibre_g for t in rows) / person_days,
        caffeine_mg_day=sum(t.caffeine_mg for t in rows) / person_days,
        fat_share=9.0 * sum(t.fat_g for t in rows) / kcal, cook_minutes_day=26.0,
        boiled_ml_day=sum(m.boiled_ml for m in ledger.meals) / len(days),
        fuel_g=ledger.fuel.burnt_g if ledger.fuel else 0.0,
        rubbish_g=max(r.mass_g for r in packed.rubbish),
        volume_ml=sum(b.volume_ml for b in packed.bags),
        kg_days=sum(s.kg_days for s in packed.sacks),
        price=sum(b.price or 0.0 for b in packed.buy),
        spare_g=sum(p.doses for p in menu.spare) * bar.dose_g,
        spare_kcal=sum(p.doses for p in menu.spare) * bar.dose_kcal,
    )  # fmt: skip


def _yardsticks(packed: Packed) -> Yardsticks:
    kg = sum(b.gross_g for b in packed.bags) / 1000.0
    parts = (1.15 * kg, 0.95 * kg, 1.02 * kg, 1.2 * kg)
    return Yardsticks(by_mass_kg=parts[0], by_energy_kg=parts[1], by_meals_kg=parts[2],
                      by_volume_kg=parts[3], plan_kg=kg,
                      spread=(max(parts) - min(parts)) * 4 / sum(parts))  # fmt: skip


def _consequence(people: tuple[Walker, ...], need: Mapping[str, Mapping[str, DayNeed]],
                 eaten: Mapping[str, Mapping[str, DayTotal]]
                 ) -> dict[str, Consequence]:  # fmt: skip
    out = {}
    for w in people:
        gap = sum(n.energy_kcal for n in need[w.id].values())
        gap -= sum(t.energy_kcal for t in eaten[w.id].values())
        gap = max(gap, 0.0)
        out[w.id] = Consequence(deficit_kcal=gap, tissue_low_kg=gap / 9000.0,
                                tissue_kg=gap / 7500.0,
                                tissue_high_kg=gap / 6000.0, water_low_kg=0.1, water_high_kg=0.6,
                                share_of_mass=gap / 7500.0 / w.mass_kg)  # fmt: skip
    return out


def _late(people: tuple[Walker, ...], eaten: Mapping[str, Mapping[str, DayTotal]],
          ledger: KitchenLedger) -> tuple[Late, ...]:  # fmt: skip
    out = []
    for days in (1, 2, 3):
        share = {w.id: 2.0 / (2.0 + days) for w in people}
        kcal = {w.id: sum(t.energy_kcal for t in eaten[w.id].values()) * 0.6 for w in people}
        out.append(Late(days=days, left_kcal=kcal, share=share,
                        kcal_day={w: kcal[w] / (2.0 + days) for w in kcal},
                        fuel_left_g=140.0, fuel_needed_g=60.0 + 30.0 * days))  # fmt: skip
    return tuple(out)


def _flags(people: tuple[Walker, ...]) -> tuple[Flag, ...]:
    first = people[0].id
    return (
        Flag(key="sample.soft", level="quiet", scope=f"eaten/{first}/2", values={"fibre_g": 19.0}),
        Flag(key="sample.note", level="note", values={"water_kg": 1.0}),
    )
