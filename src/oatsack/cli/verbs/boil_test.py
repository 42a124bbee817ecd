"""`oatsack boil-test`: the walker's own stove, weighed."""

from __future__ import annotations

from typing import Annotated

from oatsack.cli.option import option


def boil_test(
    boil: Annotated[list[str], option("--boil", "-b")],
    *,
    fuel: str = "gas",
    water: str = "500 ml",
    start: Annotated[str, option("--from")] = "15 °C",
    end: Annotated[str, option("--to")] = "90 °C",
) -> int:
    """Efficiency of your stove from boils that you weighed, with its error.

    Heat the same water three times, outdoors, and stop before it boils.

    Parameters
    ----------
    boil
        Before and after on the scale, once for each: --boil "211 g, 204 g"; a time may follow:
        "211 g, 204 g, 3 min 40".
    fuel
        gas, white-gas, ethanol, methanol or hexamine.
    water
        How much water each time.
    start
        Its temperature at first.
    end
        Its temperature when you stopped.
    """
    from oatsack.desk.stove import told

    for line in told(boil, fuel=fuel, water=water, start=start, end=end):
        print(line)
    return 0
