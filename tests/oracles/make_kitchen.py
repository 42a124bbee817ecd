"""Makes `kitchen.json`: boiling, heat, gas pressure and sweat by reference libraries.

Run ``python tests/oracles/make_kitchen.py > tests/oracles/kitchen.json`` with the `oracles` extra
installed. The versions used are written into the file. Imports nothing of ours.
"""

from __future__ import annotations

import json
from importlib.metadata import version
from typing import Any

HEIGHTS_M = tuple(range(0, 6001, 500))
START_C = (0.5, 5.0, 10.0, 20.0, 30.0)
GAS_C = (-30, -20, -10, 0, 10, 20, 35, 50)
TABLE_C = (15, 18, 21, 24, 27, 30, 33, 36)
TABLE_W_M2 = (150, 200, 250, 300, 350, 400)
MET_W_M2 = 58.15


def standard_pa(height_m: float) -> float:
    """Standard atmosphere, written out once more: layer integral from gravity and lapse rate."""
    geopotential = 6356766.0 * height_m / (6356766.0 + height_m)
    kelvin = 288.15 - 0.0065 * geopotential
    return 101325.0 * (kelvin / 288.15) ** (9.80665 / (287.05287 * 0.0065))


def water() -> dict[str, Any]:
    """Boiling points [deg C] and heat to them [kJ/kg] by IAPWS-95."""
    from CoolProp.CoolProp import PropsSI

    boiling, heat = {}, {}
    for height in HEIGHTS_M:
        pascal = standard_pa(height)
        kelvin = PropsSI("T", "P", pascal, "Q", 0, "Water")
        boiling[str(height)] = round(kelvin - 273.15, 5)
        hot = PropsSI("H", "P", pascal, "Q", 0, "Water")
        for start in START_C:
            cold = PropsSI("H", "P", pascal, "T", start + 273.15, "Water")
            heat[f"{start}@{height}"] = round((hot - cold) / 1000.0, 4)
    return {"boiling_c": boiling, "heat_kj_kg": heat}


def gas() -> dict[str, Any]:
    """Vapour pressures of pure gases and of mixes [kPa abs]."""
    from CoolProp.CoolProp import PropsSI

    names = {"propane": "Propane", "isobutane": "IsoButane", "n-butane": "n-Butane"}
    pure = {
        f"{ours}@{celsius}": round(PropsSI("P", "T", celsius + 273.15, "Q", 0, theirs) / 1e3, 3)
        for ours, theirs in names.items()
        for celsius in GAS_C
    }
    share = (0.2 / 44.0956) / (0.2 / 44.0956 + 0.8 / 58.1222)
    mix = f"Propane[{share}]&IsoButane[{1.0 - share}]"
    mixed = {
        str(celsius): round(PropsSI("P", "T", celsius + 273.15, "Q", 0, f"HEOS::{mix}") / 1e3, 3)
        for celsius in (-20, -10, 0, 10, 20)
    }
    return {"pure_kpa": pure, "mix_80_20_kpa": mixed}


def sweat() -> dict[str, Any]:
    """The table of ISO 7933:2004 [l/h], and four whole runs [g]."""
    from pythermalcomfort.models import phs

    table = {}
    for air in TABLE_C:
        for work in TABLE_W_M2:
            got = phs(
                tdb=air, tr=air, v=1.0, rh=50, met=work / MET_W_M2, clo=0.6, posture="standing",
                model="7933-2004", walk_sp=1.1, duration=240, round_output=False,
            )  # fmt: skip
            hot = float(got.t_re) > 38.8 or float(got.t_cr) > 38.8
            table[f"{air}@{work}"] = None if hot else round(float(got.sweat_loss_g) / 4000.0, 4)
    common = {"posture": "standing", "wme": 0}
    doc = {"tdb": 40, "tr": 40, "v": 0.3, "rh": 33.85, "met": 2.5, "clo": 0.5} | common
    march = {"tdb": 25, "tr": 25, "v": 0.8, "rh": 50, "met": 5.0, "clo": 0.5} | common
    runs = {
        "phs2023 docstring": phs(**doc),
        "phs2004 docstring": phs(**doc, model="7933-2004"),
        "phs2004 25C 5met 6h": phs(**march, model="7933-2004", walk_sp=1.0, duration=360),
    }
    return {"table_l_h": table,
            "runs_g": {k: round(float(v.sweat_loss_g), 1) for k, v in runs.items()}}  # fmt: skip


def everything() -> dict[str, Any]:
    """All oracle values with the versions that gave them."""
    return {
        "versions": {name: version(name) for name in ("CoolProp", "pythermalcomfort")},
        "water": water(),
        "gas": gas(),
        "sweat": sweat(),
    }


if __name__ == "__main__":
    print(json.dumps(everything(), indent=1))
