"""The one entry: a chosen menu becomes everything that is bought, bagged, carried and brought out.

Reads like the evening before: bags, who carries them, what is in each sack day by day, whether it
closes at night, rubbish, boxes, shopping list. Chooses no food; flags what does not hold.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oatsack.packing import box_signs, signs
from oatsack.packing.bags import make_bags, party_of
from oatsack.packing.buy import Lots, shopping, wanted_of
from oatsack.packing.carry import (
    Carried,
    How,
    cans_in,
    common_loads,
    give_out,
    heat_of,
    losses_of,
)
from oatsack.packing.container import nights
from oatsack.packing.dogs import dog_bags, dog_signs, with_dogs
from oatsack.packing.heaps import Party
from oatsack.packing.legs import boxes_of, places_of
from oatsack.packing.rubbish import rubbish_of
from oatsack.packing.sacks import make_sacks
from oatsack.packing.share import Engine
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu
from oatsack.values.pack import DogBag, Loss, Night, Packed, Place
from oatsack.values.route import Day
from oatsack.values.trip import Trip


@dataclass(frozen=True, slots=True, kw_only=True)
class Aids:
    """What helps packing and may be left out."""

    engine: Engine | None = None
    """Proves the sharing of each leg; without one it is near-exact."""
    near: Packed | None = None
    """An earlier packing: bags stay on the back they were on, as far as that is fair."""
    lots: Lots | None = None
    """Stock at home beside what the rows of the larder state."""


def pack(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day], trip: Trip,
         ledger: KitchenLedger, *, places: Sequence[Place] = (),
         aids: Aids | None = None) -> Packed:  # fmt: skip
    """Everything of packing, from a menu and the kitchen's ledger.

    `places` says what later legs get by box or from a shop; where none is given, a box is assumed.
    """
    aids = aids or Aids()
    party = party_of(menu, foods, days, trip, ledger)
    dogs = dog_bags(trip, days)
    carried = _carried(menu, party, trip, ledger, aids, dogs=dogs)
    stops = places_of(days, places or trip.places)
    closes = nights(carried.bags, foods, party.leg_days, trip.kit, len(trip.walkers), dogs=dogs)
    wanted = wanted_of(carried.bags, {d.number: d.date for d in days}, foods, stops)
    rows = shopping(wanted, foods, aids.lots)
    boxes = boxes_of(carried.bags, days, stops)
    lost = losses_of(carried, trip.walkers, foods, party.leg_days)
    sacks = make_sacks(carried.bags, party.leg_days, party.walkers, carried.common)
    return Packed(
        buy=rows, bags=carried.bags, nights=closes if trip.kit.containers else (), losses=lost,
        sacks=sacks,
        rubbish=rubbish_of(carried.bags, foods, party.leg_days),
        boxes=boxes, dogs=dogs,
        flags=(
            *_signs(carried, foods, party, trip, closes, lost=lost, dogs=dogs),
            *dog_signs(trip, dogs, {i.food: foods[i.food] for b in carried.bags for i in b.items}),
            *signs.heavy_signs(sacks, trip.walkers),
            *box_signs.signs(boxes, carried.bags, foods, days, stops),
            *signs.stock_signs(wanted, rows, foods, aids.lots),
        ),
    )  # fmt: skip


def _carried(menu: Menu, party: Party, trip: Trip, ledger: KitchenLedger,
             aids: Aids, *, dogs: Sequence[DogBag]) -> Carried:  # fmt: skip
    """The bags with their carriers, fuel given out first."""
    pots = len(trip.kit.pots) if trip.kit.stove else 0
    cans = cans_in(ledger.fuel) if trip.kit.stove else 0
    heat = heat_of(trip.walkers, party.groups, pots, cans)
    common = with_dogs(common_loads(ledger.fuel, heat, party.leg_days), dogs)
    near = {b.id: b.carrier for b in aids.near.bags} if aids.near else None
    return give_out(make_bags(menu, party), trip.walkers, party.foods, party.leg_days, heat,
                    common=common, how=How(engine=aids.engine, near=near))  # fmt: skip


def _signs(carried: Carried, foods: Mapping[str, Food], party: Party, trip: Trip,
           closes: Sequence[Night], *, lost: Sequence[Loss],
           dogs: Sequence[DogBag]) -> list[Flag]:  # fmt: skip
    puffed = nights(carried.bags, foods, party.leg_days, trip.kit, len(trip.walkers), puffed=True,
                    dogs=dogs)  # fmt: skip
    return [
        *signs.container_signs(closes),
        *signs.puffed_signs(closes, puffed),
        *signs.keeping_signs(carried.bags, foods, party.leg_days),
        *signs.loss_signs(lost, len(trip.walkers)),
        *signs.share_signs(carried.shared),
        *signs.wrap_signs(carried.bags, foods),
    ]

