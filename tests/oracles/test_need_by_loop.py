"""The need in columns against the same need as a plain loop, on walks that chance made up."""

from __future__ import annotations

import random

import numpy as np
import pytest

from oatsack.walker.need import Need, need
from oatsack.walker.person import Body
from oatsack.walker.stretches import KINDS, columns
from support import plain_need as plain
from support.each import each
from support.plain_need import Piece

SEEDS = range(24)


def made_up(seed: int, pieces: int = 40) -> list[Piece]:
    """A day of stretches of every kind, on slopes, heights and in airs of every kind."""
    rng = random.Random(seed)
    out = []
    for _ in range(pieces):
        kind = rng.choice(["walk", "walk", "rest", "camp", "sleep"])
        walks = kind == "walk"
        out.append(Piece(
            kind=kind, minutes=rng.uniform(1.0, 90.0),
            speed_ms=rng.uniform(0.3, 1.8) if walks else 0.0,
            grade_pct=rng.uniform(-38.0, 44.0) if walks else 0.0,
            terrain=rng.choice([1.0, 1.1, 1.3, 1.8]), load_kg=rng.uniform(0.0, 30.0),
            height_m=rng.uniform(0.0, 5500.0), air_c=rng.uniform(-25.0, 42.0),
        ))  # fmt: skip
    return out


def body_of(seed: int) -> Body:
    rng = random.Random(1000 + seed)
    return Body(
        mass_kg=rng.uniform(48.0, 110.0), height_cm=rng.uniform(152.0, 196.0),
        age_years=rng.uniform(19.0, 74.0), sex=rng.choice(["female", "male"]),
    )  # fmt: skip


def in_columns(body: Body, pieces: list[Piece]) -> Need:
    names = ("minutes", "speed_ms", "grade_pct", "terrain", "load_kg", "height_m", "air_c")
    given = {name: np.array([getattr(p, name) for p in pieces]) for name in names}
    return need(body, columns(kind=np.array([KINDS.index(p.kind) for p in pieces]), **given))


@each("seed", SEEDS)
def test_the_whole_day_is_the_same(seed: int) -> None:
    body, pieces = body_of(seed), made_up(seed)
    rest = plain.mifflin_kcal(body.mass_kg, body.height_cm, body.age_years, str(body.sex))
    want = plain.day_kcal(pieces, body.mass_kg, rest)
    assert in_columns(body, pieces).days[1].energy_kcal == pytest.approx(want, rel=1e-10)


@each("seed", SEEDS)
def test_every_stretch_is_the_same(seed: int) -> None:
    body, pieces = body_of(seed), made_up(seed)
    rest = plain.mifflin_kcal(body.mass_kg, body.height_cm, body.age_years, str(body.sex))
    rest_w = rest * 4184.0 / 86400.0
    found = in_columns(body, pieces)
    for at, piece in enumerate(pieces):
        base = plain.plain_kcal(piece, body.mass_kg, rest_w)
        over = plain.terms_kcal(piece, body.mass_kg, rest_w)
        assert found.parts.plain_kcal[at] == pytest.approx(base, rel=1e-10)
        assert found.parts.terms_kcal[at] == pytest.approx(over, rel=1e-10, abs=1e-12)
        assert found.likely_kcal[at] == pytest.approx((base + over) / 0.9, rel=1e-10)


@each("seed", [0, 7, 19])
def test_the_parts_by_kind_are_the_same(seed: int) -> None:
    body, pieces = body_of(seed), made_up(seed)
    rest = plain.mifflin_kcal(body.mass_kg, body.height_cm, body.age_years, str(body.sex))
    rest_w = rest * 4184.0 / 86400.0
    day = in_columns(body, pieces).days[1]
    by_kind = {
        kind: sum(plain.plain_kcal(p, body.mass_kg, rest_w) for p in pieces if p.kind == kind)
        for kind in KINDS
    }
    got = (day.walking_kcal, day.rest_kcal, day.camp_kcal, day.sleep_kcal)
    assert got == pytest.approx(tuple(by_kind.values()))
    assert day.walking_h * 60 == pytest.approx(sum(p.minutes for p in pieces if p.kind == "walk"))


def test_days_do_not_bleed_into_each_other() -> None:
    """Two made-up days together are the two days apart."""
    body, first, second = body_of(3), made_up(3), made_up(4)
    names = ("minutes", "speed_ms", "grade_pct", "terrain", "load_kg", "height_m", "air_c")
    both = first + second
    given = {name: np.array([getattr(p, name) for p in both]) for name in names}
    days = np.repeat([5, 9], [len(first), len(second)])
    kinds = np.array([KINDS.index(p.kind) for p in both])
    together = need(body, columns(kind=kinds, day=days, **given)).days
    assert sorted(together) == [5, 9]
    assert together[5].energy_kcal == pytest.approx(in_columns(body, first).days[1].energy_kcal)
    assert together[9].energy_kcal == pytest.approx(in_columns(body, second).days[1].energy_kcal)
    assert together[5].low_kcal == pytest.approx(in_columns(body, first).days[1].low_kcal)
