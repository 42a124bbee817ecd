"""The questions of a request, leg by leg, those that are alike once; and their menus joined again.

A menu that is known already says what each leg takes of the stock at home.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.menu import legs
from oatsack.menu.frame import lay
from oatsack.menu.spare import spare_of
from oatsack.values.menu import Menu, MenuRequest, Portion


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Each question once, with the part of the known menu that answers it; for every leg which
    question is its own and how many days later; and the spare food of the whole."""

    asked: tuple[tuple[MenuRequest, Menu], ...]
    places: tuple[tuple[int, int], ...]
    spare: tuple[Portion, ...]

    def joined(self, menus: Sequence[Menu]) -> Menu:
        """One menu of the menus of every question."""
        parts = [legs.shifted(menus[which], later) for which, later in self.places]
        return legs.joined(parts, self.spare)


def parted(request: MenuRequest, known: Menu) -> Parted:
    """The request by legs where they share no money; else whole, as one question."""
    spare = spare_of(request, lay(request))
    if not legs.can_part(request):
        return Parted(asked=((request, known),), places=((0, 0),), spare=spare)
    numbers: dict[object, tuple[int, int]] = {}
    asked: list[tuple[MenuRequest, Menu]] = []
    places, used = [], dict[str, float]()
    for leg in legs.leg_numbers(request):
        one = legs.leg_request(request, leg, used)
        menu = legs.part_of(known, {s.day for s in one.slots})
        first, like = legs.first_day(one.slots), legs.likeness(one)
        if like not in numbers:
            numbers[like] = (len(asked), first)
            asked.append((one, menu))
        which, at = numbers[like]
        places.append((which, first - at))
        for name, packs in legs.stock_used(one, menu).items():
            used[name] = used.get(name, 0.0) + packs
    return Parted(asked=tuple(asked), places=tuple(places), spare=spare)
