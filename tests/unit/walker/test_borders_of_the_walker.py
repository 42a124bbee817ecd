"""Where the need of a walker changes its mind: each limit just inside and just outside."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from oatsack.values.flags import Flag
from oatsack.values.plan import DayNeed
from oatsack.values.walker import Target, Walker
from oatsack.walker import hall_2011, norms, tissue
from oatsack.walker.available import availability, full_days
from oatsack.walker.body import cautions, consequence
from oatsack.walker.doubts import flags_of
from oatsack.walker.energy import model
from oatsack.walker.hours import hourly
from oatsack.walker.need import need
from oatsack.walker.person import Body, body_of, norm_kcal_day, resting_kcal_day
from oatsack.walker.resting import henry, schofield
from oatsack.walker.spread import Spread, band
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, Stretches, columns
from oatsack.walker.target import appetite, full_day_kcal, ramp, targets
from oatsack.walker.terms import Terms, cold_share, heat_share, height_share
from oatsack.walker.terrain import HELD_FACTOR, needs_snowshoes, sinking_cm, snow_factor
from support.each import each
from support.people import CHILD, MAN, UNKNOWN, WOMAN

RESTING = resting_kcal_day(MAN)


def a_day(kcal: float = 3000.0, **more: float) -> DayNeed:
    """A day of rest in camp of so many kcal, 24 hours long by its parts."""
    fields = {"low_kcal": 0.8 * kcal, "high_kcal": 1.2 * kcal, "walking_kcal": 0.0,
              "camp_kcal": 0.0, "rest_kcal": 1.3 * RESTING, "sleep_kcal": 0.0, "thermic_kcal": 0.0,
              "terms_kcal": 0.0, "walking_h": 0.0, "pack_start_kg": 0.0,
              "pack_end_kg": 0.0} | more  # fmt: skip
    return DayNeed(energy_kcal=kcal, **fields)


def keys(flags: tuple[Flag, ...]) -> list[str]:
    return [flag.key.split(".", 1)[1] for flag in flags]


# What is said of a need


def rows(kind: int = WALK, minutes: float = 60.0, **more: Any) -> Stretches:
    fields = {"speed_ms": 1.0, "load_kg": 10.0, "terrain": 1.0} | more
    return columns(minutes=np.array([minutes, minutes]), kind=kind, **fields)


@each(
    ("stretches", "key"),
    [
        (rows(air_c=-10.0), []),
        (rows(air_c=-10.1), ["frost"]),
        (rows(CAMP, air_c=-10.1), ["frost"]),
        (rows(SLEEP, air_c=-30.0), []),  # who sleeps lies warm
        (rows(height_m=3000.0), []),
        (rows(height_m=3001.0), ["height"]),
        (rows(SLEEP, height_m=5000.0), []),
        (rows(terrain=HELD_FACTOR), ["outside-terrain", "snowshoes"]),
        (rows(CAMP, terrain=HELD_FACTOR), []),  # only walking sinks in
        (rows(CAMP, grade_pct=90.0), []),
    ],
)
def test_frost_height_and_snow_are_told_from_their_limits_on(
    stretches: Stretches, key: list[str]
) -> None:
    assert keys(flags_of(MAN, stretches, {})) == key


@each(("terrain", "level"), [(2.5, "quiet"), (3.0, "quiet"), (3.1, "caution")])
def test_ground_beyond_the_model_is_loud_only_where_the_need_is_no_number_to_pack_by(
    terrain: float, level: str
) -> None:
    told = flags_of(MAN, rows(terrain=terrain), {}, model=model("pandolf-1977"))
    found = [flag for flag in told if flag.key == "need.outside-terrain"]
    assert [flag.level for flag in found] == [level]
    assert found[0].values["out_min"] == 120.0


@each(
    ("times", "days", "minutes", "told"),
    [(3.51, 3, 1440.0, True), (3.5, 3, 1440.0, False), (3.51, 2, 1440.0, False),
     (3.51, 3, 1368.0, True), (3.51, 3, 1367.0, False)],
)  # fmt: skip
def test_three_whole_days_beyond_three_and_a_half_times_rest_are_hard_to_believe(
    times: float, days: int, minutes: float, told: bool
) -> None:
    # 1,368 minutes are 95 of a hundred parts of a day: whole enough.
    numbers = range(2, 2 + days)
    hours = columns(minutes=np.full(days, minutes), kind=REST, day=np.array(list(numbers)))
    found = flags_of(MAN, hours, {n: a_day(times * RESTING) for n in numbers})
    hard = [flag for flag in found if flag.key == "need.very-hard"]
    assert bool(hard) is told
    if told:
        assert (hard[0].values["n_days"], hard[0].values["first"]) == (3, 2)


def test_what_is_not_stated_is_named() -> None:
    (flag,) = flags_of(UNKNOWN, rows(), {})
    assert flag.values["missing"] == "age_years, height_cm, sex"


# Terms


@each(
    ("height", "share"),
    [(0.0, 0.0), (2500.0, 0.0), (2750.0, 0.05), (3000.0, 0.1), (3500.0, 0.1), (4000.0, 0.1),
     (4150.0, 0.135), (4300.0, 0.17), (8000.0, 0.17)],
)  # fmt: skip
def test_height_adds_between_its_knots(height: float, share: float) -> None:
    assert float(height_share(height)) == pytest.approx(share)


@each(
    ("air", "cold", "heat"),
    [(-10.1, 0.175, 0.0), (-10.0, 0.1, 0.0), (-0.1, 0.1, 0.0), (0.0, 0.05, 0.0), (4.9, 0.05, 0.0),
     (5.0, 0.0, 0.0), (29.9, 0.0, 0.0), (30.0, 0.0, 0.025), (35.0, 0.0, 0.0625),
     (40.0, 0.0, 0.1), (45.0, 0.0, 0.1)],
)  # fmt: skip
def test_cold_adds_in_steps_and_heat_along_a_line(air: float, cold: float, heat: float) -> None:
    assert float(cold_share(air)) == pytest.approx(cold)
    assert float(heat_share(air)) == pytest.approx(heat)


@each(
    ("terms", "extra"),
    [
        ({}, 0.0), ({"cold": True}, 0.1), ({"heat": True}, 0.0), ({"field_factor": 1.2}, 0.2),
        ({"cold": True, "field_factor": 1.2}, 0.3), ({"field_factor": 0.9}, -0.1),
    ],
)  # fmt: skip
def test_terms_over_walking_add_up_and_never_multiply(
    terms: dict[str, Any], extra: float
) -> None:
    plain = {"cold": False, "heat": False, "height": False, "thermic_share": 0.0}
    bare = need(MAN, rows(air_c=-5.0), terms=Terms(**plain)).likely_kcal
    laid = need(MAN, rows(air_c=-5.0), terms=Terms(**(plain | terms))).likely_kcal
    assert laid == pytest.approx(bare * (1.0 + extra))


def test_digesting_is_its_share_of_the_whole_and_not_of_the_rest() -> None:
    found = need(MAN, rows(), terms=Terms(thermic_share=0.1))
    assert found.parts.thermic_kcal == pytest.approx(0.1 * found.likely_kcal)
    assert found.parts.total_kcal == pytest.approx(found.parts.plain_kcal / 0.9)


# Snow


@each(
    ("depth", "held"), [(26.0, False), (27.0, True), (1000.0, True)]
)
def test_sinking_is_held_at_twenty_centimetres(depth: float, held: bool) -> None:
    # Richmond2019: h (1 - 0.3 / 1.186), so 26.8 cm of such snow let a foot sink 20.
    assert float(sinking_cm(depth, 0.3)) == pytest.approx(depth * (1.0 - 0.3 / 1.186))
    assert needs_snowshoes(depth) is held
    assert (float(snow_factor(depth)) == pytest.approx(HELD_FACTOR)) is held


@each(
    ("sink", "factor"), [(0.0, 1.2604), (10.0, 2.8424), (20.0, 7.4444)]
)
def test_the_cubic_of_snow(sink: float, factor: float) -> None:
    # Oracle: 0.0005 z^3 + 0.0001 z^2 + 0.1072 z + 1.2604 by hand. Snow of no density sinks whole.
    assert float(snow_factor(sink, 0.0)) == pytest.approx(factor)
    assert float(snow_factor(5.0, 2.0)) == pytest.approx(1.2604)  # denser than it can be sunk into


# Bodies, resting and norms


@each(
    ("age", "male", "female"),
    [(9.9, 23.3 * 70 + 514, 20.1 * 70 + 507), (10.0, 18.4 * 70 + 581, 11.1 * 70 + 761),
     (17.9, 18.4 * 70 + 581, 11.1 * 70 + 761), (18.0, 16.0 * 70 + 545, 13.1 * 70 + 558),
     (30.0, 14.2 * 70 + 593, 9.74 * 70 + 694), (60.0, 13.5 * 70 + 514, 10.1 * 70 + 569)],
)  # fmt: skip
def test_henrys_bands_begin_at_their_age(age: float, male: float, female: float) -> None:
    # Henry2005; the bands below 18 from memory.
    found = [henry(mass_kg=70.0, height_cm=170.0, age_years=age, sex=s)  # type: ignore[arg-type]
             for s in ("male", "female", None)]  # fmt: skip
    assert found == pytest.approx([male, female, (male + female) / 2.0])


@each(("age", "male"), [(29.9, 15.057 * 70 + 692.2), (30.0, 11.472 * 70 + 873.1),
                        (60.0, 11.711 * 70 + 587.7)])  # fmt: skip
def test_schofields_bands_begin_at_their_age(age: float, male: float) -> None:
    found = schofield(mass_kg=70.0, height_cm=170.0, age_years=age, sex="male")
    assert found == pytest.approx(male)  # Schofield1985


@each(
    ("age", "condition", "youth", "fed"),
    [(17.9, "none", True, True), (18.0, "none", False, False), (40.0, "pregnant", False, True),
     (40.0, "ill", False, True), (None, "none", False, False)],
)  # fmt: skip
def test_under_eighteen_or_with_a_condition_one_is_fed_in_full(
    age: float | None, condition: Any, youth: bool, fed: bool
) -> None:
    body = body_of(Walker(id="a", name="A", mass_kg=60.0, age_years=age, condition=condition))
    assert (body.youth, body.fully_fed) == (youth, fed)


@each("level", norms.LEVELS)
def test_a_norm_lies_between_the_sexes_where_none_is_stated(level: norms.Level) -> None:
    for age in (9.0, 18.9, 19.0, 45.0):
        three = [norms.iom_2005(60.0, 165.0, age_years=age, sex=s, level=level)
                 for s in ("male", "female", None)]  # type: ignore[arg-type]  # fmt: skip
        assert three[2] == pytest.approx((three[0] + three[1]) / 2.0)
    rising = [norms.nasem_2023(60.0, 165.0, age_years=40.0, sex="female", level=one)
              for one in norms.LEVELS]  # fmt: skip
    assert rising == sorted(rising)


def test_the_norm_of_youth_holds_until_nineteen_and_growth_is_more_from_nine_on() -> None:
    def at(age: float) -> float:
        return norms.iom_2005(40.0, 145.0, age_years=age, sex="male", level="inactive")

    # IOM2005, from memory: 20 kcal of growth below nine years, 25 from there.
    assert at(9.0) - at(8.999) == pytest.approx(5.0, abs=0.1)
    adult = 662.0 - 9.53 * 19.0 + 15.91 * 40.0 + 539.6 * 1.45
    assert at(19.0) == pytest.approx(adult)
    assert norm_kcal_day(CHILD) == pytest.approx(
        norms.iom_2005(30.0, 135.0, age_years=9.0, sex="female", level="active")
    )


# The body's answer


@each(
    ("deficit", "low", "high"),
    [(-500.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1500.0, 0.25, 0.5), (3000.0, 0.5, 1.0), (9e9, 0.5, 1.0)],
)
def test_the_allowance_of_water_is_gone_at_three_thousand_kcal(
    deficit: float, low: float, high: float
) -> None:
    assert tissue.water_kg(deficit) == pytest.approx((low, high))


@each(
    ("mass", "sex", "share"), [(30.0, "male", 0.05), (200.0, "female", 0.6)]
)
def test_fat_is_held_between_a_twentieth_and_three_fifths(
    mass: float, sex: Any, share: float
) -> None:
    assert tissue.fat_share(replace(MAN, mass_kg=mass, sex=sex)) == share


@each("fat", [3.0, 10.4, 25.0])
def test_tissue_lost_holds_the_energy_of_its_parts(fat: float) -> None:
    # Oracle: of a kilogram lost 10.4 / (10.4 + F) is lean (Hall2007), at 1,816 and 9,441 kcal.
    lean = tissue.lean_mass_share(fat)
    by_mass = lean * 7.6e6 / 4184.0 + (1.0 - lean) * 39.5e6 / 4184.0
    assert tissue.energy_kcal_per_kg(fat) == pytest.approx(by_mass)
    # A small loss by Forbes's curve is fat and lean in the same parts.
    gone = fat - tissue.fat_after(fat, -0.001)
    assert gone / 0.001 == pytest.approx(1.0 - lean, rel=1e-3)


@each(
    ("eaten", "key"),
    [(3000.0, []), (2851.0, []), (2850.0, ["shortfall"]), (RESTING, ["shortfall"]),
     (RESTING - 1.0, ["below-resting", "shortfall"])],
)  # fmt: skip
def test_a_shortfall_is_told_from_five_percent_and_below_rest_with_care(
    eaten: float, key: list[str]
) -> None:
    assert keys(cautions(MAN, {1: a_day()}, {1: eaten})) == key


@each(
    ("days", "share", "told"), [(11, 0.74, True), (11, 0.75, False), (10, 0.74, False)]
)
def test_more_than_ten_days_below_three_quarters_are_a_caution(
    days: int, share: float, told: bool
) -> None:
    whole = {n: a_day(2600.0) for n in range(1, days + 1)}
    found = cautions(MAN, whole, dict.fromkeys(whole, 2600.0 * share))
    assert ("long-far-below" in keys(found)) is told


def test_the_caution_about_loss_begins_beyond_three_percent_of_mass() -> None:
    def share(deficit: float) -> float:
        return consequence(MAN, {1: a_day(deficit)}, {1: 0.0}).share_of_mass

    low, high = 3000.0, 40_000.0
    for _ in range(60):  # where the share of mass is exactly 3 %
        low, high = (
            ((low + high) / 2, high) if share((low + high) / 2) < 0.03 else (low, (low + high) / 2)
        )
    for deficit, told in ((low - 1.0, False), (high + 1.0, True)):
        found = cautions(MAN, {1: a_day(deficit)}, {1: 0.0}, shares={1: 0.0})
        assert ("loss" in keys(found)) is told


def test_a_surplus_costs_nothing_and_is_told_as_it_is() -> None:
    found = consequence(MAN, {1: a_day(2000.0)}, {1: 2600.0})
    assert found.deficit_kcal == -600.0
    assert (found.tissue_kg, found.tissue_high_kg, found.water_high_kg, found.scales_hall_kg) == (
        0.0, 0.0, 0.0, 0.0,
    )  # fmt: skip


@each(("days", "has"), [(7, True), (8, False), (0, False)])
def test_energy_availability_is_told_up_to_a_week(days: int, has: bool) -> None:
    whole = {n: a_day() for n in range(1, days + 1)}
    found = availability(MAN, whole, dict.fromkeys(whole, 2500.0))
    assert (found is not None) is has
    if found is not None:
        assert found.full_days == pytest.approx(7.0)
        assert found.low_kcal_kg < found.likely_kcal_kg < found.high_kcal_kg
        # Nobody walks here: food over fat-free mass.
        assert found.likely_kcal_kg == pytest.approx(2500.0 / (75.0 - tissue.fat_kg(MAN)))
    for other in (CHILD, replace(WOMAN, condition="pregnant"), replace(MAN, condition="ill")):
        assert availability(other, whole, dict.fromkeys(whole, 2500.0)) is None


def test_hours_of_a_day_come_from_its_parts_and_their_multiples_of_rest() -> None:
    hour = RESTING / 24.0
    mixed = a_day(walking_h=6.0, camp_kcal=3 * 2.5 * hour, rest_kcal=7 * 1.3 * hour,
                  sleep_kcal=8 * 0.95 * hour)  # fmt: skip
    assert full_days(MAN, {1: mixed, 2: a_day()}) == pytest.approx(2.0)


# What is chosen to eat


@each(
    ("day", "factor"),
    [(1, 0.85), (2, 0.95), (3, 1.0), (6, 1.0), (7, 1.03), (8, 1.06), (12, 1.18), (13, 1.2),
     (90, 1.2)],
)  # fmt: skip
def test_appetite_by_day(day: int, factor: float) -> None:
    assert appetite(day) == pytest.approx(factor)


@each("shares", [[1.0], [0.5, 1.0, 1.0, 0.25], [1.0] * 20, [0.0, 1.0, 0.0]])
def test_the_ramp_weighs_days_by_their_meals_and_means_one(shares: list[float]) -> None:
    found = ramp(shares)
    assert sum(a * s for a, s in zip(found, shares, strict=True)) == pytest.approx(sum(shares))
    ratio = [a / appetite(day) for day, a in enumerate(found, 1)]
    assert ratio == pytest.approx([ratio[0]] * len(ratio))


@each(
    ("target", "days", "how", "base"),
    [
        (Target(), 7, "nobody-asked", 0.85), (Target(), 8, "nobody-asked", 1.0),
        (Target(share=0.7), 8, "share", 0.7), (Target(kcal=2200.0), 3, "typed", 2200.0 / 3000.0),
        (Target(kcal=2200.0, share=0.5), 3, "typed", 2200.0 / 3000.0),
    ],
)  # fmt: skip
def test_where_the_number_per_full_day_comes_from(
    target: Target, days: int, how: str, base: float
) -> None:
    walker = Walker(id="a", name="A", mass_kg=75.0, target=target)
    shares = dict.fromkeys(range(1, days + 1), 1.0)
    found = targets(walker, {n: a_day() for n in shares}, shares)
    assert (found.how, found.base_kcal) == (how, pytest.approx(3000.0 * base))
    assert sum(found.kcal.values()) == pytest.approx(days * found.base_kcal)
    assert (len(set(found.kcal.values())) == 1) is (how == "typed")


@each(
    ("asked", "base"), [(1500.0, 3000.0), (3600.0, 3600.0), (None, 3000.0)]
)
def test_who_must_eat_in_full_gets_the_whole_need_and_may_have_more(
    asked: float | None, base: float
) -> None:
    walker = Walker(id="a", name="A", mass_kg=60.0, condition="ill", target=Target(kcal=asked))
    found = targets(walker, {1: a_day(), 2: a_day()}, {1: 1.0, 2: 1.0})
    assert (found.base_kcal, found.how) == (base, "full")
    assert found.kcal == {1: base, 2: base}
    assert [flag.level for flag in found.flags] == ["caution"]


def test_a_full_days_need_is_counted_by_meals_and_a_walk_without_any_does_not_divide_by_them() -> (
    None
):
    assert full_day_kcal({1: a_day(1000.0), 2: a_day(3000.0)}, {1: 0.25, 2: 0.75}) == 4000.0
    assert math.isfinite(full_day_kcal({1: a_day(1000.0)}, {1: 0.0}))


# Ranges and hours


@each(
    ("body", "share", "hand", "shelf", "low", "high"),
    [
        (MAN, 0.0, False, (0.0, 0.0), 0.15**2 + 0.12**2, 0.15**2 + 0.12**2),
        (MAN, 1.0, False, (0.0, 0.0), 0.14**2 + 0.06**2 + 0.12**2, 0.14**2 + 0.06**2 + 0.12**2),
        (MAN, 1.0, True, (0.0, 0.3), 0.14**2 + 0.12**2 + 0.12**2, 0.3**2 + 0.12**2 + 0.12**2),
        (MAN, 1.0, True, (0.2, 0.1), 0.2**2 + 0.12**2 + 0.12**2, 0.14**2 + 0.12**2 + 0.12**2),
        (UNKNOWN, 0.0, False, (0.0, 0.0), 0.25**2, 0.25**2),
        (CHILD, 0.0, False, (0.0, 0.0), 0.25**2, 0.25**2),
        (UNKNOWN, 1.0, True, (0.0, 0.5), 0.25**2, 0.5**2 + 0.12**2 + 0.12**2),
    ],
)  # fmt: skip
def test_independent_sources_add_as_squares_and_the_unstated_have_a_least_width(
    body: Body, share: float, hand: bool, shelf: tuple[float, float], low: float, high: float
) -> None:
    found = band(body, share=share, by_hand=hand, shelf=shelf, spread=Spread())
    assert (1.0 - found.low, found.high - 1.0) == pytest.approx((math.sqrt(low), math.sqrt(high)))


def test_hours_hold_the_minutes_and_the_energy_of_the_stretches_cut_at_full_hours() -> None:
    walk = columns(minutes=np.array([50.0, 70.0, 60.0]), start_min=np.array([510.0, 560.0, 1420.0]),
                   kind=np.array([WALK, REST, SLEEP]), speed_ms=np.array([1.0, 0.0, 0.0]),
                   height_m=np.array([100.0, 400.0, 0.0]), day=1)  # fmt: skip
    found = hourly(need(MAN, walk))
    assert [(h.start_min, h.minutes, h.walk_min) for h in found] == [
        (510.0, 30.0, 30.0), (540.0, 60.0, 20.0), (600.0, 30.0, 0.0),
        (1420.0, 20.0, 0.0), (1440.0, 40.0, 0.0),
    ]  # fmt: skip
    assert found[0].distance_m == pytest.approx(1800.0)
    assert found[1].height_m == pytest.approx((20.0 * 100.0 + 40.0 * 400.0) / 60.0)
    total = need(MAN, walk).days[1]
    assert sum(h.need_kcal for h in found) == pytest.approx(total.energy_kcal)
    assert sum(h.need_high_kcal for h in found) == pytest.approx(total.high_kcal)


@each("level", [1.4, 2.6, 3.4, 4.5, 13.0])
def test_halls_model_is_the_same_in_steps_of_an_hour_however_much_is_burnt(level: float) -> None:
    """Oracle: its own rates, added up in 48 steps a day."""
    begin = hall_2011.start(MAN, activity_level=level)
    intake = begin.intake_kcal - 600.0
    state = np.array([begin.fat_kg, begin.lean_kg, hall_2011.GLYCOGEN_KG, begin.water_l, 0.0])
    for _ in range(48 * 5):
        state = state + hall_2011._step(state, begin, intake, 1.0 / 48.0)
    found = hall_2011.course(MAN, -600.0, days=5, activity_level=level)
    assert found[-1] == pytest.approx(state[:4], abs=5e-3)


def test_a_hard_year_keeps_some_glycogen_on_every_day() -> None:
    long = hall_2011.course(MAN, -100.0, days=365, activity_level=5.0)
    assert np.isfinite(long).all()
    assert (long[:, 2] > 0.0).all()


def test_a_shortfall_that_only_rounding_left_is_none() -> None:
    need_ = {n: a_day(1000.0 / 3.0) for n in (1, 2, 3)}
    eaten = {1: 1000.0 - 1e-10, 2: 0.0, 3: 0.0}
    assert consequence(MAN, need_, eaten).scales_hall_kg == 0.0


# What a mutation of the sums still passed


def test_the_first_of_the_days_below_rest_is_named() -> None:
    whole = {n: a_day() for n in (1, 2, 3, 4)}
    eaten = {1: 3000.0, 4: RESTING - 1.0, 2: RESTING - 5.0, 3: 3000.0}
    (flag,) = (f for f in cautions(MAN, whole, eaten) if f.key == "body.below-resting")
    assert (flag.values["n_days"], flag.values["first"]) == (2, 2)


def test_a_pack_is_that_of_the_first_and_the_last_step_whatever_is_carried_in_camp() -> None:
    walk = columns(minutes=np.array([30.0, 60.0, 60.0, 300.0]),
                   kind=np.array([CAMP, WALK, WALK, CAMP]), speed_ms=1.0,
                   load_kg=np.array([99.0, 12.0, 9.0, 1.0]))  # fmt: skip
    found = need(MAN, walk).days[1]
    assert (found.pack_start_kg, found.pack_end_kg, found.walking_h) == (12.0, 9.0, 2.0)
    still = need(MAN, rows(CAMP)).days[1]
    assert (still.pack_start_kg, still.pack_end_kg, still.walking_h) == (0.0, 0.0, 0.0)


def test_the_range_leans_where_other_models_lean_and_by_as_much() -> None:
    found = need(MAN, rows(speed_ms=1.4, load_kg=25.0, grade_pct=8.0))
    told = [by_day[1] for by_day in found.shelf_kcal.values()]
    lean = [one / told[0] - 1.0 for one in told]
    share = found.bands[1].share
    assert share == pytest.approx(1.0)
    assert found.bands[1].model_low == pytest.approx(share * max(0.14, -min(lean)))
    assert found.bands[1].model_high == pytest.approx(share * max(0.14, max(lean)))
    assert max(-min(lean), max(lean)) > 0.14  # or this would say nothing


def test_some_rows_beyond_a_range_are_told_with_their_own_minutes() -> None:
    mixed = columns(minutes=np.array([10.0, 20.0, 40.0]), speed_ms=1.0, load_kg=10.0,
                    terrain=np.array([1.0, HELD_FACTOR, HELD_FACTOR]),
                    grade_pct=np.array([0.0, 0.0, 60.0]))  # fmt: skip
    told = {f.key: f.values["out_min"] for f in flags_of(MAN, mixed, {}) if "out_min" in f.values}
    assert told == {"need.outside-terrain": 60.0, "need.outside-slope": 40.0,
                    "need.snowshoes": 60.0}  # fmt: skip
    levels = {f.key: f.level for f in flags_of(MAN, mixed, {})}
    assert levels["need.outside-terrain"] == "caution"
    assert levels["need.outside-slope"] == "quiet"  # only deep snow is loud


def test_walking_counts_beyond_rest_and_a_day_of_nothing_counts_for_nothing() -> None:
    hour = RESTING / 24.0
    walked = a_day(3000.0, walking_kcal=1500.0, walking_h=5.0, rest_kcal=19 * 1.3 * hour)
    empty = a_day(0.0, rest_kcal=0.0)
    found = availability(MAN, {1: walked, 2: empty}, {1: 2500.0, 2: 0.0})
    assert found is not None
    assert found.walking_kcal_day == pytest.approx(1500.0 - 5.0 * hour)
    assert found.walking_low_kcal_day == pytest.approx(0.8 * 1500.0 - 5.0 * hour)
    assert found.walking_high_kcal_day == pytest.approx(1.2 * 1500.0 - 5.0 * hour)


def test_a_young_walk_without_a_minute_has_no_need() -> None:
    none = columns(minutes=np.zeros(0))
    assert need(CHILD, none).days == {}
