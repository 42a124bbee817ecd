"""Sodium sweated out beside sodium eaten, as ranges. Says nothing of supplements.

Salty trail food covers ordinary days; on hot days the salty things are worth eating too.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import WaterDay
from oatsack.values.menu import Menu

SODIUM_MG_MMOL = 22.99
SWEAT_MMOL_L = (25.5, 35.9, 46.3)
"""Whole-body sweat, one standard deviation either way. Source: Baker2016."""
SHORT_MG = 1500.0
"""Say something when even the low estimate of the loss is so far above what is eaten. Ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SodiumDay:
    """One walker's sodium on one day [mg]: eaten as stated on labels, lost as an estimate."""

    eaten_mg: float
    lost_low_mg: float
    lost_high_mg: float


def sodium_mg(sweat_l: float, mmol_l: float = SWEAT_MMOL_L[1]) -> float:
    """Sodium in so much sweat [mg]: ``litres x mmol/l x 22.99``."""
    return sweat_l * mmol_l * SODIUM_MG_MMOL


def eaten_mg(menu: Menu, foods: Mapping[str, Food]) -> dict[str, dict[int, float]]:
    """Walker -> day -> sodium of all portions [mg]; what no label states counts as nothing."""
    out: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    for p in menu.portions:
        out[p.walker][p.day] += p.doses * (foods[p.food].per_dose("sodium_mg") or 0.0)
    return {walker: dict(days) for walker, days in out.items()}


def sodium_days(
    menu: Menu, foods: Mapping[str, Food], water: Mapping[str, Mapping[str, WaterDay]]
) -> dict[str, dict[str, SodiumDay]]:
    """Walker -> day -> sodium eaten beside sodium lost."""
    eaten = eaten_mg(menu, foods)
    return {
        walker: {
            day: SodiumDay(
                eaten_mg=eaten.get(walker, {}).get(int(day), 0.0),
                lost_low_mg=w.sodium_low_mg,
                lost_high_mg=w.sodium_high_mg,
            )
            for day, w in days.items()
        }
        for walker, days in water.items()
    }


def sodium_flags(found: Mapping[str, Mapping[str, SodiumDay]]) -> Iterator[Flag]:
    """One quiet line per walker where even the least loss is far above what is eaten."""
    for walker, days in found.items():
        short = {day: d.lost_low_mg - d.eaten_mg for day, d in days.items()}
        worst = max(short, key=lambda day: short[day], default=None)
        if worst is not None and short[worst] > SHORT_MG:
            d = days[worst]
            yield Flag(
                key="kitchen.salt", level="quiet", scope=f"eaten/{walker}/{worst}",
                values={"walker": walker, "day": int(worst), "eaten_mg": d.eaten_mg,
                        "low_mg": d.lost_low_mg, "high_mg": d.lost_high_mg},
                source="Baker2016",
            )  # fmt: skip
