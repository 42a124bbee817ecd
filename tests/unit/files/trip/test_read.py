"""Trip files that are fine: what four answers make, and what every table fills."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from oatsack.errors import TripFileError
from oatsack.files.trip import named_files, parse_trip, read_trip
from oatsack.values.kit import Container, FuelCan, Kit, Pot, Stove
from oatsack.values.trip import HandDay, HandStretch, HandWater, Hold, Now, RouteSpec, Rules, Trip
from oatsack.values.walker import Avoid, Choice, Count, Pick, Target, Usual, Walker
from support.each import each

FOUR_ANSWERS = """
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
target = "2200 kcal"
[route]
usual_day = { distance = "16 km", up = "700 m" }
"""


def read(more: str = "", *, base: str = FOUR_ANSWERS) -> Trip:
    return parse_trip(base + more, "trip.toml")


def test_four_answers_make_a_trip() -> None:
    trip = read()
    assert trip.walkers == (
        Walker(id="walker-1", name="Walker 1", mass_kg=68.0, target=Target(kcal=2200.0)),
    )
    assert trip.day_count == 4
    day = HandDay(distance_m=16_000.0, ascent_m=700.0, descent_m=700.0)
    assert trip.route == RouteSpec(usual_day=day)
    assert (trip.kit, trip.rules, trip.larders, trip.now) == (Kit(), Rules(), (), None)
    assert (trip.zone, trip.units) == ("UTC", "metric")
    assert trip.begin == dt.datetime(2026, 7, 2, 9, tzinfo=ZoneInfo("UTC"))
    assert trip.title == "Walk from 2 July to 5 July 2026"


def test_what_was_not_said_is_listed_and_what_was_said_has_its_line() -> None:
    trip = read()
    assert {"walkers[0].age", "walkers[0].usual.dinner", "kit.stove.kind", "rules.spare",
            "route.usual_day.down", "zone", "larder.files"} <= trip.defaults  # fmt: skip
    assert "walkers[0].mass" not in trip.defaults
    assert not any(path.startswith("now") for path in trip.defaults)
    assert trip.origins["walkers[0].mass"] == ("trip.toml", 5)
    assert trip.origins["route.usual_day.up"] == ("trip.toml", 8)


def test_us_units_are_read_anywhere_and_shown_again() -> None:
    text = """
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "150 lb"
height = "5 ft 10 in"
base_weight = "17 lb 8 oz"
pace = "2.8 mph"
[route]
usual_day = { distance = "9.9 mi", up = "2,300.0 ft" }
warm = "64 F"
cold = "-4 F"
[kit]
pots = "1.4 qt"
mug = "1½ cups"
containers = "700 in³"
"""
    trip = parse_trip(text, "trip.toml")
    (walker,) = trip.walkers
    assert trip.units == "us"
    assert walker.mass_kg == pytest.approx(68.0388555)
    assert walker.height_cm == pytest.approx(177.8)
    assert walker.base_weight_kg == pytest.approx(7.93786648)
    assert walker.pace_ms == pytest.approx(1.251712)
    assert trip.route.usual_day is not None
    assert trip.route.usual_day.distance_m == pytest.approx(15_932.5056)
    assert trip.route.usual_day.ascent_m == pytest.approx(701.04)
    assert (trip.route.warm_c, trip.route.cold_c) == (pytest.approx(160 / 9), -20.0)
    assert trip.kit.pots[0].volume_ml == pytest.approx(1324.894)
    assert trip.kit.mug_ml == pytest.approx(354.88235)
    assert trip.kit.containers[0].volume_ml == pytest.approx(11_470.9448)


def test_the_units_may_be_said() -> None:
    assert parse_trip('units = "us"\n' + FOUR_ANSWERS, "t").units == "us"


def test_a_walker_may_say_everything() -> None:
    text = """
name = "Änne Marie"
sex = "female"
age = 34
height = "166 cm"
base_weight = "7.5 kg"
eats = "vegetarian"
avoids = ["egg", { allergen = "peanut", scope = "party", traces = true }]
dislikes = ["sardines", "fruit"]
caffeine = "200 mg"
hot_drinks = 1.5
appetite = 1.1
condition = "nursing"
pace = "13 min/km"
capacity = 0.8
liking = { granola = 5, rice = 1 }
[walkers.usual]
breakfast = ["2 oats + 1 milk", "granola"]
dinner = "chili"
bags = ["nuts-mix", "2 jerky"]
counts = ["2 coffee a day", "1 tablet a bottle"]
"""
    base = FOUR_ANSWERS.replace('target = "2200 kcal"', 'target = "85%"' + text)
    (walker,) = parse_trip(base, "t").walkers
    assert walker == Walker(
        id="anne-marie", name="Änne Marie", mass_kg=68.0, sex="female", age_years=34.0,
        height_cm=166.0, base_weight_kg=7.5, eats="vegetarian",
        avoids=(Avoid(allergen="egg"), Avoid(allergen="peanut", scope="party", traces=True)),
        dislikes=frozenset({"sardines", "fruit"}), caffeine_mg_day=200.0, hot_drinks_day=1.5,
        target=Target(share=0.85), appetite=1.1, condition="nursing",
        pace_ms=walker.pace_ms, capacity=0.8, liking={"granola": 5.0, "rice": 1.0},
        usual=Usual(
            meals={
                "breakfast": (
                    Choice(picks=(Pick(food="oats", count=2), Pick(food="milk", count=1))),
                    Choice(picks=(Pick(food="granola", count=1),)),
                ),
                "dinner": (Choice(picks=(Pick(food="chili", count=1),)),),
            },
            bags=(Pick(food="nuts-mix", count=0), Pick(food="jerky", count=2)),
            counts=(
                Count(food="coffee", count=2, per="day"),
                Count(food="tablet", count=1, per="bottle"),
            ),
        ),
    )  # fmt: skip
    assert walker.pace_ms == pytest.approx(1000 / 780)


def test_walkers_without_names_are_numbered() -> None:
    text = FOUR_ANSWERS.replace("[route]", '[[walkers]]\nmass = "80 kg"\nname = "Бен"\n[route]')
    assert [(w.id, w.name) for w in parse_trip(text, "t").walkers] == [
        ("walker-1", "Walker 1"),
        ("walker-2", "Бен"),
    ]


def test_a_track_is_cut_into_equal_days_if_nothing_else_is_said() -> None:
    text = FOUR_ANSWERS.replace("usual_day", 'track = "a.gpx" #')
    route = parse_trip(text, "t").route
    assert (route.track, route.equal_days) == ("a.gpx", True)
    camps = parse_trip(
        text + 'camps = ["A", "B"]\ndry_camps = ["B"]\nresupply = ["A"]\n', "t"
    ).route
    assert (camps.camps, camps.equal_days) == (("A", "B"), False)
    assert (camps.dry_camps, camps.leg_ends) == (frozenset({"B"}), ("A",))
    assert parse_trip(text + 'cuts = ["9 km", "10 mi"]\n', "t").route.cuts_m == (9000.0, 16_093.44)


def test_days_are_typed_in_full() -> None:
    text = (
        FOUR_ANSWERS.replace("usual_day", "# usual_day")
        + """
[[route.days]]
distance = "12 km"
up = "800 m"
down = "300 m"
highest = "1900 m"
camp = "Tarn"
camp_height = "1500 m"
dry = true
chores = "2 h 30"
sleep = "9 h"
warm = "20 C"
cold = "2 C"
leg = 2
water = ["4 km", { name = "Spring", distance = "9 km", at = 12:30, reliability = "doubtful" }]
[[route.days]]
stretches = [
  { distance = "5 km", grade = "10%", speed = "3.6 km/h", terrain = "bog" },
  { distance = "3 km", grade = "-12,5 %" },
]
"""
    )
    first, second = parse_trip(text, "t").route.hand_days
    assert first == HandDay(
        distance_m=12_000.0, ascent_m=800.0, descent_m=300.0, highest_m=1900.0, camp_m=1500.0,
        camp_name="Tarn", camp_dry=True, camp_h=2.5, sleep_h=9.0, warm_c=20.0, cold_c=2.0, leg=2,
        water=(
            HandWater(distance_m=4000.0),
            HandWater(name="Spring", distance_m=9000.0, at_min=750.0, reliability="doubtful"),
        ),
    )  # fmt: skip
    assert second == HandDay(
        distance_m=8000.0,
        stretches=(
            HandStretch(distance_m=5000.0, grade_pct=10.0, speed_ms=1.0, terrain=1.8),
            HandStretch(distance_m=3000.0, grade_pct=-12.5),
        ),
    )


@each(("more", "down"), [("", 700.0), (', down = "0 m"', 0.0)])
def test_down_is_as_much_as_up_unless_said(more: str, down: float) -> None:
    text = FOUR_ANSWERS.replace(' up = "700 m"', f' up = "700 m"{more}')
    day = parse_trip(text, "t").route.usual_day
    assert day is not None
    assert day.descent_m == down


@each(
    ("text", "stove"),
    [
        ('stove = "none"', None),
        ('stove = "gas-exchanger"', Stove(kind="gas-exchanger", fuel="gas")),
        ('stove = "spirit-open"', Stove(kind="spirit-open", fuel="ethanol")),
        ('stove = { efficiency = "52%", power = "1.5 kW", burners = 2 }',
         Stove(efficiency=0.52, power_w=1500.0, burners=2)),
        ('stove = { kind = "twig" }', Stove(kind="twig", fuel="wood")),
    ],
)  # fmt: skip
def test_a_stove_brings_its_fuel(text: str, stove: Stove | None) -> None:
    assert read("[kit]\n" + text).kit.stove == stove


def test_the_kit_may_be_said_short_or_long() -> None:
    kit = read("""
[kit]
pots = ["1.3 l", { name = "small", volume = "600 ml", material = "steel", diameter = "110 mm" }]
cans = ["230 g", { net = "100 g", now = "150 g" }, { net = "7 oz", empty = "4 oz" }]
mug = "350 ml"
bottles = ["1 l", "0,5 l"]
containers = [{ volume = "9 l", shape = "soft", carrier = "Walker 1" }]
smellables = "0.5 l"
cosy = true
treatment = "boil"
""").kit
    assert kit.pots == (
        Pot(volume_ml=1300.0),
        Pot(name="small", volume_ml=600.0, material="steel", diameter_mm=110.0),
    )
    assert kit.cans[:2] == (
        FuelCan(net_g=230.0, empty_g=150.0),
        FuelCan(net_g=100.0, empty_g=100.0, gross_now_g=150.0),
    )
    assert kit.cans[2].empty_g == pytest.approx(113.3980925)
    assert kit.bottles_ml == (1000.0, 500.0)
    assert kit.containers == (Container(volume_ml=9000.0, shape="soft", carrier="walker-1"),)
    assert (kit.other_smellables_ml, kit.cosy, kit.treatment) == (500.0, True, "boil")


def test_no_pots_is_said_by_an_empty_list() -> None:
    assert read("[kit]\npots = []\n").kit.pots == ()


def test_rules_holds_and_bans() -> None:
    rules = read("""
[rules]
hot_breakfast = false
first_day = ["dinner"]
last_lunch = false
times = { breakfast = 06:30, dinner = "7 pm" }
minutes = { dinner = "45 min" }
dinner_apart = 3
day_window = "10%"
budget = "$ 80"
volume = "12 l"
spare = "500 kcal"
fat_ceiling = "40 %"
one_pot = false
weights = { price = 2 }
order = ["load", "price", "load"]
order_within = "4 %"
bags = "group"
water = "0.75 l"
bans = ["sardines", { food = "soup", walker = "walker 1", meal = "dinner" }]
[[rules.holds]]
food = "chili"
date = 2026-07-03
count = 2
""").rules
    assert (rules.hot_breakfast, rules.last_lunch, rules.mains_shared) == (False, False, False)
    assert rules.first_day_meals == frozenset({"dinner"})
    assert rules.meal_clock_min == {"breakfast": 390.0, "lunch": 750.0, "dinner": 1140.0}
    assert rules.minutes == {"dinner": 45.0}
    assert (rules.dinner_apart_days, rules.day_window, rules.trip_window) == (3, 0.1, 0.05)
    assert (rules.budget, rules.currency) == (80.0, "USD")
    assert (rules.volume_ml, rules.spare, rules.fat_ceiling) == (12_000.0, 500.0, 0.4)
    assert (rules.weight_kgdays, rules.weight_price) == (1.0, 2.0)
    assert (rules.aims, rules.aims_within) == (("load", "price"), 0.04)
    assert (rules.bags, rules.water_ml_h) == ("group", 750.0)
    assert rules.holds == (
        Hold(food="chili", date=dt.date(2026, 7, 3), count=2.0),
        Hold(food="sardines"),
        Hold(food="soup", walker="walker-1", meal="dinner"),
    )


def test_a_walk_under_way() -> None:
    now = read('[now]\nday = 3\nfuel = "124 g"\ndays_late = 1\nleft = { oats = 3, rice = 0.5 }').now
    assert now == Now(day=3, left={"oats": 3.0, "rice": 0.5}, fuel_g=124.0, days_late=1)


def test_times_are_those_of_the_zone() -> None:
    trip = parse_trip('zone = "Europe/Vienna"\n' + FOUR_ANSWERS, "t")
    assert trip.begin.isoformat() == "2026-07-02T09:00:00+02:00"
    assert trip.begin.tzinfo == ZoneInfo("Europe/Vienna")


def test_a_file_is_read_from_disk_and_named_without_its_folder(tmp_path: Path) -> None:
    path = tmp_path / "ridge.toml"
    path.write_text(FOUR_ANSWERS, encoding="utf-8")
    assert read_trip(path).origins["to"] == ("ridge.toml", 3)
    path.write_bytes(b"\xef\xbb\xbf" + FOUR_ANSWERS.encode().replace(b"\n", b"\r\n"))
    assert read_trip(path).origins["to"] == ("ridge.toml", 3)


def test_a_file_that_cannot_be_read_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(TripFileError) as caught:
        read_trip(tmp_path / "none.toml")
    assert str(caught.value).startswith("none.toml: the file: cannot be read")
    with pytest.raises(TripFileError):
        read_trip(tmp_path)


def test_a_file_in_another_coding_is_a_fault_at_its_place(tmp_path: Path) -> None:
    path = tmp_path / "t.toml"
    path.write_bytes('a = 1\ntitle = "Ä"\n'.encode("latin-1"))
    with pytest.raises(TripFileError) as caught:
        read_trip(path)
    (fault,) = caught.value.faults
    assert (fault.line, fault.column, fault.wrong) == (2, 10, "not text in UTF-8")


@each(
    ("text", "files"),
    [
        (FOUR_ANSWERS, ((), None)),
        ('[larder]\nfiles = ["a.csv", 3]\n[route]\ntrack = "b.gpx"', (("a.csv",), "b.gpx")),
        ('from = 5 o clock\n[larder]\nfiles = "a.csv"', (("a.csv",), None)),
        ("larder = 3\nroute = 4", ((), None)),
    ],
)
def test_files_are_named_even_where_the_rest_is_at_fault(
    text: str, files: tuple[tuple[str, ...], str | None]
) -> None:
    assert named_files(text) == files


def test_a_walk_without_a_title_is_called_by_its_days() -> None:
    def called(begin: str, end: str) -> str:
        return parse_trip(f'from = "{begin}"\nto = "{end}"\n[[walkers]]\nmass = "68 kg"\n'
                          '[route]\nusual_day = { distance = "9 km", up = "200 m" }\n',
                          "trip.toml").title  # fmt: skip

    assert called("2026-07-02 09:00", "2026-07-02 17:00") == "Walk on 2 July 2026"
    assert called("2026-07-30 09:00", "2026-08-02 15:00") == "Walk from 30 July to 2 August 2026"
    assert called("2026-12-30 09:00", "2027-01-02 15:00"
                  ) == "Walk from 30 December 2026 to 2 January 2027"  # fmt: skip
