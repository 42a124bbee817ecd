"""Everything a trip file may turn by its full name: settings of rules, weights of aims, tidying.

What the names mean stands with the rules and aims themselves, and on the page of rules.
"""

from __future__ import annotations

from oatsack.menu.aims import AIMS
from oatsack.menu.rules import RULES

TIDY = "tidy.grams"


def turnable() -> tuple[str, ...]:
    """Full names, as ``protein.g_per_kg`` and ``aim.rubbish``, in the order of the rules' page."""
    settings = [f"{rule.name}.{setting.name}" for rule in RULES for setting in rule.settings]
    return (*settings, *(f"aim.{aim.name}" for aim in AIMS if not aim.in_trip), TIDY)
