"""Tissue, the body model and snow: check values worked out apart from the package."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.walker import hall_2011, terrain, tissue
from oatsack.walker.person import Body
from support.each import each
from support.people import MAN, WOMAN

# Hall2007: fat kg, energy share to lean, lean share of mass, kcal per kg of tissue.
FORBES = [
    (5, 0.28582, 0.6753, 4291.9), (8, 0.20008, 0.5652, 5131.3), (10, 0.16674, 0.5098, 5553.8),
    (12, 0.14292, 0.4643, 5900.9), (15, 0.11770, 0.4094, 6319.0), (20, 0.09095, 0.3421, 6832.4),
    (30, 0.06253, 0.2574, 7478.0), (40, 0.04764, 0.2063, 7867.5),
]  # fmt: skip


@each(("fat", "lean_energy", "lean_mass", "kcal"), FORBES)
def test_forbes_partition_by_fat(
    fat: float, lean_energy: float, lean_mass: float, kcal: float
) -> None:
    assert tissue.lean_energy_share(fat) == pytest.approx(lean_energy, abs=5e-6)
    assert tissue.lean_mass_share(fat) == pytest.approx(lean_mass, abs=5e-5)
    assert tissue.energy_kcal_per_kg(fat) == pytest.approx(kcal, abs=0.05)


def test_the_energy_of_fat_and_lean_tissue() -> None:
    """Hall2011: 39.5 and 7.6 MJ per kg; their ratio sets C of Hall2007 at 2.001 kg."""
    assert pytest.approx(9440.7, abs=0.05) == tissue.FAT_KCAL_KG
    assert pytest.approx(1816.4, abs=0.05) == tissue.LEAN_KCAL_KG
    assert pytest.approx(2.001013, abs=5e-7) == tissue.SPLIT_KG


@each(
    ("fat", "change", "left"), [(15, -2, 13.83833), (12, -5, 9.46642), (20, -10, 13.83370)]
)
def test_fat_left_after_a_finite_loss(fat: float, change: float, left: float) -> None:
    assert tissue.fat_after(fat, change) == pytest.approx(left, abs=5e-6)  # Hall2007


def test_a_two_kg_loss_at_15_kg_of_fat_is_1_16_fat_and_0_84_lean() -> None:
    fat = 15.0 - tissue.fat_after(15.0, -2.0)
    assert (fat, 2.0 - fat) == pytest.approx((1.1617, 0.8383), abs=5e-5)


@each("fat", [3.0, 14.0, 35.0])
def test_fat_after_agrees_with_walking_the_partition_in_small_steps(fat: float) -> None:
    """The differential form dFFM/dF = 10.4/F, integrated by a thousand steps. Hall2007."""
    f, steps, loss = fat, 20_000, 2.0
    for _ in range(steps):
        f -= loss / steps * f / (10.4 + f)
    assert tissue.fat_after(fat, -loss) == pytest.approx(f, abs=2e-4)


def test_a_kilogram_of_a_lean_walker_is_cheaper_than_the_common_rule() -> None:
    """Hall2008: the rule is about right only above 30 kg of fat."""
    assert pytest.approx(32.2, abs=0.05) == tissue.RULE_KCAL_KG * 4184 / 1e6
    assert tissue.energy_kcal_per_kg(10.0) < 0.75 * tissue.RULE_KCAL_KG
    assert tissue.energy_kcal_per_kg(32.0) == pytest.approx(tissue.RULE_KCAL_KG, rel=0.03)


def test_start_of_the_standard_man() -> None:
    """Hall2011, worked out apart: fat, water, lean, intake, activity, constant."""
    begin = hall_2011.start(MAN)
    assert begin.fat_kg == pytest.approx(14.2639, abs=5e-5)
    assert begin.water_l == pytest.approx(19.8346, abs=5e-5)
    assert begin.lean_kg == pytest.approx(39.0515, abs=5e-5)
    assert begin.intake_kcal == pytest.approx(2711.28, abs=0.005)
    assert begin.activity == pytest.approx(9.9414, abs=5e-5)
    assert begin.constant == pytest.approx(1062.675, abs=5e-4)


def test_start_of_the_woman() -> None:
    begin = hall_2011.start(WOMAN)
    got = (begin.fat_kg, begin.water_l, begin.lean_kg)
    assert got == pytest.approx((16.7948, 16.2210, 27.1342), abs=5e-5)
    assert begin.intake_kcal == pytest.approx(2147.248, abs=5e-4)


# Change of intake, person, change on the scales after 7, 14 and 30 days.
COURSES = [
    (-1000.0, MAN, (-1.7384, -2.6141, -4.4794)),
    (-1000.0, WOMAN, (-1.9236, -2.7609, -4.5416)),
    (-500.0, MAN, (-0.8593, -1.2938, -2.2118)),
    (-500.0, WOMAN, (-0.9457, -1.3614, -2.2408)),
]


@each(("change", "body", "kg"), COURSES)
def test_halls_model_after_7_14_and_30_days(
    change: float, body: Body, kg: tuple[float, ...]
) -> None:
    got = [hall_2011.mass_change_kg(body, change, days=days) for days in (7, 14, 30)]
    assert got == pytest.approx(kg, abs=5e-5)


def test_halls_model_in_balance_does_not_move() -> None:
    assert hall_2011.mass_change_kg(MAN, 0.0, days=30) == pytest.approx(0.0, abs=5e-5)


@pytest.mark.slow
def test_a_megajoule_a_day_less_after_1_3_and_10_years() -> None:
    """The rule of thumb of the paper: most of the change within three years. Hall2011."""
    got = [
        hall_2011.mass_change_kg(MAN, -1e6 / 4184.0, days=365 * years) for years in (1, 3, 10)
    ]
    assert got == pytest.approx((-6.252, -8.300, -8.426), abs=5e-4)


def test_half_of_the_first_week_is_water_that_comes_back() -> None:
    """0.87 of 1.74 kg: glycogen with its water 0.38, water outside the cells 0.49. Hall2011."""
    rows = hall_2011.course(MAN, -1000.0, days=7)
    change = rows[-1] - rows[0]
    glycogen, water = hall_2011.GLYCOGEN_MASS * change[2], change[3]
    assert (glycogen, water) == pytest.approx((-0.38, -0.49), abs=0.005)
    assert (glycogen + water) / (change[0] + change[1] + glycogen + water) == pytest.approx(
        0.5, abs=0.01
    )


def test_the_packages_mistake_of_masses_for_energy_is_not_ours() -> None:
    """A public implementation adds the change of glycogen in kg where its energy belongs: its man
    would lose more tissue, as glycogen paid for none of the shortfall."""
    rows = hall_2011.course(MAN, -1000.0, days=7)
    tissue_lost = float((rows[0] - rows[-1])[:2].sum())
    begin = hall_2011.start(MAN)
    state = np.array([begin.fat_kg, begin.lean_kg, hall_2011.GLYCOGEN_KG, begin.water_l, 0.0])
    rates = hall_2011._rates(state, begin, begin.intake_kcal - 1000.0)
    stored = float(rates[0] * tissue.FAT_KCAL_KG + rates[1] * tissue.LEAN_KCAL_KG)
    paid = float(rates[2]) * hall_2011.GLYCOGEN_KCAL_KG
    assert paid == pytest.approx(-500.0)  # at first glycogen pays all missing carbohydrate
    assert -500.0 < stored < -300.0  # and tissue the rest, less the food not digested
    assert tissue_lost < 1.0


def test_three_ways_of_pricing_seven_thousand_kcal() -> None:
    """7 x 1000 kcal: rule 0.91, Forbes 1.12, on the scales by Hall 1.74 kg."""
    assert pytest.approx(0.909, abs=5e-4) == 7000 / tissue.RULE_KCAL_KG
    density = tissue.energy_kcal_per_kg(tissue.fat_kg(MAN))
    assert density == pytest.approx(6225.8, abs=0.05)
    assert 7000 / density == pytest.approx(1.12, abs=0.005)
    on_scales = -hall_2011.mass_change_kg(MAN, -1000.0, days=7)
    low, high = tissue.water_kg(7000.0)
    assert 7000 / density + low <= on_scales <= 7000 / density + high


# Richmond2019: depth cm, density g/cm3, sinking cm, factor.
SNOW = [(10, 0.3, 7.47049, 2.27527), (20, 0.3, 14.94098, 4.55205), (20, 0.2, 16.62732, 5.36895)]


@each(("depth", "density", "sink", "factor"), SNOW)
def test_snow_by_depth_and_density(
    depth: float, density: float, sink: float, factor: float
) -> None:
    assert terrain.sinking_cm(depth, density) == pytest.approx(sink, abs=5e-6)
    assert terrain.snow_factor(depth, density) == pytest.approx(factor, abs=5e-6)


def test_no_snow_is_1_26_and_deep_snow_is_held() -> None:
    assert terrain.snow_factor(0.0) == pytest.approx(1.2604, abs=5e-5)  # Richmond2019
    held = terrain.snow_factor(26.8, 0.3)
    assert terrain.snow_factor(90.0, 0.3) == pytest.approx(held, rel=2e-3)
    assert terrain.needs_snowshoes(40.0)
    assert not terrain.needs_snowshoes(20.0)


def test_energy_availability_of_a_worked_day() -> None:
    """2,800 eaten, 1,500 of exercise, 56 kg fat free: 23.2; the lines of 30 and 45 need 3,180 and
    4,020 kcal. Burke2018 for the lines."""
    of = tissue.energy_availability
    assert of(2800, 1500, fat_free_kg=56.0) == pytest.approx(23.2, abs=0.05)
    assert of(3180, 1500, fat_free_kg=56.0) == pytest.approx(30.0)
    assert of(4020, 1500, fat_free_kg=56.0) == pytest.approx(45.0)


def test_terrain_factors_of_the_common_list() -> None:
    """Soule1972 as listed in deGruchy2017."""
    got = [terrain.FACTORS[x] for x in ("paved", "dirt", "light-brush", "heavy-brush", "bog")]
    assert got == [1.0, 1.1, 1.2, 1.5, 1.8]
    assert terrain.FACTORS["loose-sand"] == 2.1
    later = [terrain.FACTORS[x] for x in ("grass", "gravel", "hard-snow", "ploughed")]
    assert later == [1.1, 1.2, 1.3, 1.3]  # later lists, one each
