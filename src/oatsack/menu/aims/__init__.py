"""The aims of a menu, one file each. To add one, write a file with an `AIM` and name it here."""

from __future__ import annotations

from oatsack.menu.aims import kg_days, left_over, liking, mass, minutes, price, rubbish, steps
from oatsack.menu.aims.base import Aim

AIMS: tuple[Aim, ...] = (
    kg_days.AIM, mass.AIM, price.AIM, liking.AIM, minutes.AIM, rubbish.AIM, left_over.AIM,
    steps.AIM,
)  # fmt: skip

__all__ = ["AIMS", "Aim"]
