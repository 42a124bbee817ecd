"""Fuels, stoves and what a gram of fuel really gives: tables of data, efficiency, burn rate.

Heating values are kept net and gross apart, and every efficiency here is on the net basis: 52 %
of the gross value is 56 % of the net one. Efficiencies are planning priors unless the walker has
tested the stove (`boiltest`). Where to read on: `price` for food, `fuelplan` for cans.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from oatsack.errors import UsageError
from oatsack.values.frozen import dataclass
from oatsack.values.kit import FuelCan, Stove

ATOMS_G_MOL = {"carbon": 12.011, "hydrogen": 1.008, "oxygen": 15.999, "nitrogen": 14.007}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fuel:
    """A fuel: heating value net and gross [MJ/kg], density [g/ml], cans it comes in."""

    kind: str
    name: str
    lhv_mj_kg: float
    hhv_mj_kg: float
    density_g_ml: float | None
    cans: tuple[FuelCan, ...]
    liquid: bool
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StoveRow:
    """What is expected of a kind of stove; efficiencies are net, as (low, likely, high)."""

    kind: str
    name: str
    fuel: str
    calm: tuple[float, float, float]
    windy: tuple[float, float, float]
    power_w: float
    """Heat of the fuel it burns per second, at the setting for boiling water."""
    priming_g: float
    fire_rule: str
    """valve: has a shut-off valve; open: a flame that cannot be turned off."""
    cautions: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Substance:
    """A pure fuel: atoms, enthalpy of formation, and its vapour pressure where it has one."""

    id: str
    atoms: Mapping[str, int]
    formation_kj_mol: float
    antoine: tuple[float, float, float] | None
    source: str

    @property
    def molar_g(self) -> float:
        """Molar mass [g/mol]."""
        return sum(ATOMS_G_MOL[atom] * n for atom, n in self.atoms.items())


DATA = Path(__file__).parents[1] / "data"


def rows(name: str) -> list[dict[str, str]]:
    """The rows of one table of the package's data folder."""
    text = (DATA / name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def _can(text: str) -> FuelCan:
    net, empty = text.split(":")
    return FuelCan(net_g=float(net), empty_g=float(empty))


@cache
def fuels() -> Mapping[str, Fuel]:
    """All fuels by kind, from `data/fuels.csv`."""
    return {
        row["kind"]: Fuel(
            kind=row["kind"],
            name=row["name"],
            lhv_mj_kg=float(row["lhv_mj_kg"]),
            hhv_mj_kg=float(row["hhv_mj_kg"]),
            density_g_ml=float(row["density_g_ml"]) if row["density_g_ml"] else None,
            cans=tuple(_can(text) for text in row["cans"].split()),
            liquid=row["liquid"] == "yes",
            source=row["source"],
        )
        for row in rows("fuels.csv")
    }


def _three(row: Mapping[str, str], prefix: str) -> tuple[float, float, float]:
    return (
        float(row[prefix + "low"]), float(row[prefix + "likely"]), float(row[prefix + "high"])
    )  # fmt: skip


@cache
def stoves() -> Mapping[str, StoveRow]:
    """All kinds of stove, from `data/stoves.csv`."""
    return {
        row["kind"]: StoveRow(
            kind=row["kind"],
            name=row["name"],
            fuel=row["fuel"],
            calm=_three(row, ""),
            windy=_three(row, "windy_"),
            power_w=float(row["power_w"]),
            priming_g=float(row["priming_g"]),
            fire_rule=row["fire_rule"],
            cautions=tuple(row["cautions"].split()),
            source=row["source"],
        )
        for row in rows("stoves.csv")
    }


@cache
def substances() -> Mapping[str, Substance]:
    """Pure fuels by id, from `data/substances.csv`."""
    return {row["id"]: _substance(row) for row in rows("substances.csv")}


def _substance(row: Mapping[str, str]) -> Substance:
    a, b, c = row["antoine_a"], row["antoine_b"], row["antoine_c"]
    return Substance(
        id=row["id"],
        atoms={atom: int(row[atom]) for atom in ATOMS_G_MOL},
        formation_kj_mol=float(row["formation_kj_mol"]),
        antoine=(float(a), float(b), float(c)) if a else None,
        source=row["source"],
    )


def fuel_of(kind: str) -> Fuel:
    """The fuel of this kind. Raises UsageError, naming all, when there is none."""
    if kind in fuels():
        return fuels()[kind]
    raise UsageError(f"no fuel {kind!r}; there are: {', '.join(fuels())}")


def stove_row(kind: str) -> StoveRow:
    """The row of this kind of stove. Raises UsageError, naming all, when there is none."""
    if kind in stoves():
        return stoves()[kind]
    raise UsageError(f"no stove {kind!r}; there are: {', '.join(stoves())}")


def efficiency(stove: Stove, *, windy: bool = False) -> float:
    """Share of the fuel's net heat that reaches the pot.

    The walker's own figure outranks the prior; in the wind it falls as the prior does.
    """
    row = stove_row(stove.kind)
    prior = row.windy[1] if windy else row.calm[1]
    if stove.efficiency is None:
        return prior
    return stove.efficiency * prior / row.calm[1]


MILD_C = 5.0
COLD_PER_K = 0.02
COLD_FLOOR = 0.7


def cold_share(air_c: float) -> float:
    """What the cold leaves of an efficiency: 2 % less per kelvin under 5 deg C, at most 30 %.

    Pot, burner and can lose more to cold air. Ours, planning prior: with the colder water it gives
    the half as much again that common practice takes in the cold.
    """
    return max(COLD_FLOOR, 1.0 - COLD_PER_K * max(0.0, MILD_C - air_c))


def power_w(stove: Stove) -> float:
    """Heat of the fuel burnt per second by one burner [W]."""
    return stove_row(stove.kind).power_w if stove.power_w is None else stove.power_w
