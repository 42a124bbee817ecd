"""Resting use and whole-day norms: printed tables, and four people worked out by hand."""

from __future__ import annotations

import pytest

from oatsack.values.walker import Sex
from oatsack.walker import norms, resting
from oatsack.walker.person import Body, norm_kcal_day, resting_kcal_day, resting_w
from support.each import each
from support.people import CHILD, MAN, UNKNOWN, WOMAN

# IOM2005, table of requirements at 30 years as a textbook prints it: height, BMI, four levels.
IOM_PRINTED: list[tuple[Sex, float, float, tuple[int, ...]]] = [
    ("male", 1.65, 24.99, (2349, 2566, 2842, 3296)),
    ("male", 1.80, 18.5, (2301, 2513, 2782, 3225)),
    ("female", 1.50, 18.5, (1625, 1803, 2025, 2291)),
]


@each(("sex", "height", "bmi", "printed"), IOM_PRINTED)
def test_iom_2005_reproduces_its_printed_table(
    sex: Sex, height: float, bmi: float, printed: tuple[int, ...]
) -> None:
    """The table's masses are BMI times height squared, not rounded."""
    got = [
        norms.iom_2005(bmi * height**2, height * 100, age_years=30, sex=sex, level=level)
        for level in norms.LEVELS
    ]
    assert got == pytest.approx(printed, abs=0.5)


def test_the_womens_activity_factors_do_not_give_the_mens_table() -> None:
    """The textbook's footnote prints only 1.12, 1.27, 1.45; men's are 1.11, 1.25, 1.48. IOM2005."""
    mass = 24.99 * 1.65**2
    wrong = 662 - 9.53 * 30 + 1.12 * (15.91 * mass + 539.6 * 1.65)
    assert abs(wrong - 2566) > 15
    got = norms.iom_2005(mass, 165, age_years=30, sex="male", level="low")
    assert got == pytest.approx(2566, abs=0.5)


@each(
    ("body", "levels"),
    [(MAN, (2482.2, 2719.1, 3020.6, 3516.0)), (WOMAN, (1924.9, 2138.3, 2405.0, 2725.1))],
)
def test_iom_2005_for_two_people(body: Body, levels: tuple[float, ...]) -> None:
    got = [
        norms.iom_2005(
            body.mass_kg, body.height_cm, age_years=body.age_years, sex=body.sex, level=level
        )
        for level in norms.LEVELS
    ]
    assert got == pytest.approx(levels, abs=0.05)


# NASEM2023, table S-1, worked out for three people.
NASEM: list[tuple[float, float, float, Sex, tuple[float, ...]]] = [
    (75, 178, 35, "male", (2588.52, 2800.32, 2979.58, 3314.90)),
    (62, 165, 30, "female", (2044.42, 2207.15, 2344.13, 2576.80)),
    (80, 180, 30, "male", (2726.17, 2945.77, 3126.32, 3495.82)),
]


@each(("mass", "height", "age", "sex", "levels"), NASEM)
def test_nasem_2023_for_three_people(
    mass: float, height: float, age: float, sex: Sex, levels: tuple[float, ...]
) -> None:
    got = [norms.nasem_2023(mass, height, age_years=age, sex=sex, level=x) for x in norms.LEVELS]
    assert got == pytest.approx(levels, abs=0.0051)


@each("level", norms.LEVELS)
def test_the_two_norms_agree_within_a_tenth(level: norms.Level) -> None:
    for body in (MAN, WOMAN):
        given = {"age_years": body.age_years, "sex": body.sex, "level": level}
        old = norms.iom_2005(body.mass_kg, body.height_cm, **given)
        new = norms.nasem_2023(body.mass_kg, body.height_cm, **given)
        assert new == pytest.approx(old, rel=0.10)


# The four people of the resting equations: mass, height, age, sex, and six equations in order
# Mifflin1990, unrounded, RozaShizgal1984, HarrisBenedict1919, Schofield1985, Henry2005.
EQUATIONS = (
    "mifflin-1990", "mifflin-unrounded", "roza-shizgal-1984", "harris-benedict-1919",
    "schofield-1985", "henry-2005",
)  # fmt: skip
PEOPLE: list[tuple[float, float, float, Sex, tuple[float, ...]]] = [
    (75, 178, 35, "male", (1692.50, 1694.55, 1748.66, 1751.86, 1733.50, 1658.00)),
    (62, 165, 30, "female", (1340.25, 1342.03, 1402.18, 1412.98, 1349.41, 1297.88)),
    (80, 180, 25, "male", (1805.00, 1806.20, 1882.02, 1898.16, 1896.76, 1825.00)),
    (68, 170, 62, "female", (1271.50, 1275.78, 1334.59, 1329.97, 1276.08, 1255.80)),
]


@each(("mass", "height", "age", "sex", "values"), PEOPLE)
def test_six_resting_equations_for_four_people(
    mass: float, height: float, age: float, sex: Sex, values: tuple[float, ...]
) -> None:
    body = Body(mass_kg=mass, height_cm=height, age_years=age, sex=sex)
    got = [resting_kcal_day(body, name) for name in EQUATIONS]
    assert got == pytest.approx(values, abs=0.0051)


@each("one", resting.MODELS, ids=lambda m: m.name)
def test_every_equation_meets_its_own_cases(one: resting.Model) -> None:
    assert len(one.cases) == 4
    assert [(dict(c.arguments), got) for c, got, ok in one.check() if not ok] == []


def test_the_equations_lie_within_nine_percent_of_each_other() -> None:
    for body in (MAN, WOMAN):
        values = [resting_kcal_day(body, m.name) for m in resting.MODELS]
        assert max(values) / min(values) < 1.09


# Henry2005 by sex and age: so much per kg and so much besides; below 18 from memory.
HENRY: list[tuple[Sex, float, float, float]] = [
    ("male", 70, 13.5, 514), ("male", 45, 14.2, 593), ("male", 20, 16.0, 545),
    ("male", 14, 18.4, 581), ("male", 8, 23.3, 514), ("female", 70, 10.1, 569),
    ("female", 45, 9.74, 694), ("female", 20, 13.1, 558), ("female", 14, 11.1, 761),
    ("female", 8, 20.1, 507),
]  # fmt: skip
SCHOFIELD: list[tuple[Sex, float, float, float]] = [
    ("male", 70, 11.711, 587.7), ("male", 45, 11.472, 873.1), ("male", 20, 15.057, 692.2),
    ("female", 70, 9.082, 658.5), ("female", 45, 8.126, 845.6), ("female", 20, 14.818, 486.6),
]  # fmt: skip


@each(("sex", "age", "per_kg", "besides"), HENRY)
def test_henrys_bands(sex: Sex, age: float, per_kg: float, besides: float) -> None:
    got = resting.henry(mass_kg=57.0, height_cm=168.0, age_years=age, sex=sex)
    assert got == pytest.approx(per_kg * 57.0 + besides)


@each(("sex", "age", "per_kg", "besides"), SCHOFIELD)
def test_schofields_bands(sex: Sex, age: float, per_kg: float, besides: float) -> None:
    got = resting.schofield(mass_kg=57.0, height_cm=168.0, age_years=age, sex=sex)
    assert got == pytest.approx(per_kg * 57.0 + besides)


def test_the_thirtieth_birthday_belongs_to_the_older_band() -> None:
    """Sources differ at the boundary; ours reads "from 30"."""
    man = {"mass_kg": 70.0, "height_cm": 175.0, "sex": "male"}
    assert resting.henry(age_years=30.0, **man) == pytest.approx(14.2 * 70 + 593)
    assert resting.henry(age_years=29.9, **man) == pytest.approx(16.0 * 70 + 545)
    assert resting.schofield(age_years=60.0, **man) == pytest.approx(11.711 * 70 + 587.7)


def test_an_unstated_sex_lies_halfway() -> None:
    both = [Body(mass_kg=70, sex=sex) for sex in ("female", "male")]
    mean = sum(resting_kcal_day(body) for body in both) / 2
    assert resting_kcal_day(UNKNOWN) == pytest.approx(mean)
    norm = sum(norm_kcal_day(body) for body in both) / 2
    assert norm_kcal_day(UNKNOWN) == pytest.approx(norm)


def test_under_18_rests_by_henry_and_over_by_mifflin() -> None:
    assert resting_kcal_day(CHILD) == pytest.approx(20.1 * 30 + 507)  # Henry2005, from memory
    assert resting_kcal_day(MAN) == pytest.approx(1692.5)  # Mifflin1990
    assert resting_w(MAN) == pytest.approx(1692.5 * 4184 / 86400)


def test_a_childs_norm_follows_the_youth_equations() -> None:
    """Girl of 9, 30 kg, 1.35 m, active. IOM2005, from memory: about 1,900 to 2,000 kcal."""
    want = 135.3 - 30.8 * 9 + 1.31 * (10 * 30 + 934 * 1.35) + 25
    assert norm_kcal_day(CHILD) == pytest.approx(want)
    assert 1850 < want < 1980
    boy = norms.iom_2005(30, 135, age_years=8.9, sex="male", level="active")
    assert boy == pytest.approx(88.5 - 61.9 * 8.9 + 1.26 * (26.7 * 30 + 903 * 1.35) + 20)
