"""The models a formula may name, each remembered for equal inputs while one plan is opened."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from oatsack.kitchen.ledger import ledger, with_work, work_of
from oatsack.kitchen.price import conditions_of, dose_price
from oatsack.menu.slots import slots_of
from oatsack.packing.late import late_plans
from oatsack.packing.pack import pack
from oatsack.packing.yardsticks import yardsticks
from oatsack.provision.assume import assumptions
from oatsack.provision.finish import timeline
from oatsack.provision.loads import Backs, weigh
from oatsack.provision.needs import eating, shares_of
from oatsack.provision.sums import eaten
from oatsack.provision.town import fed_kcal, town_moments
from oatsack.walker import asked
from oatsack.walker.body import consequence
from oatsack.walker.need import Need
from oatsack.walker.person import body_of
from oatsack.walker.target import ramp
from oatsack.why.tree import find


def need_of(walker: Any, choices: Any, days: Any, back: Mapping[str, tuple[float, ...]]) -> Need:
    """The need of a walker under what was on the back, by the trip's choices."""
    load = {int(day): kg for day, kg in back.items()}
    return asked.need_of(walker, choices, days=days, load_kg=load)


def ints(by_day: Mapping[str, Any]) -> dict[int, Any]:
    """The same mapping with days as numbers."""
    return {int(day): value for day, value in by_day.items()}


def consequence_of(walker: Any, needs: Any, target: Any, town: Any, slots: Any) -> Any:
    """What eating so much of the need may do."""
    fed = fed_kcal(ints(target), ints(town))
    return consequence(body_of(walker), eating(ints(needs), slots, walker.id), fed)


def backs_of(walkers: Any, days: Any, slots: Any, packed: Any, kitchen: Any) -> Any:
    """Loads of everyone, by walker and day."""
    found = weigh(walkers, days, slots, packed, kitchen).load_kg
    return {w: {str(n): tuple(map(float, kg)) for n, kg in of.items()} for w, of in found.items()}


def assumed(trip: Any, days: Any, backs: Any) -> Any:
    """The assumptions that move the answer most."""
    load = {w: {int(n): _array(kg) for n, kg in of.items()} for w, of in backs.items()}
    return assumptions(trip, days, Backs(load, {}))


def _array(values: tuple[float, ...]) -> Any:
    import numpy as np

    return np.array(values, float)


def targets_by_int(target: Any) -> Any:
    """Walker -> day number -> kcal."""
    return {walker: ints(of) for walker, of in target.items()}


class Remembered:
    """The functions of formulas; each call with the very same inputs is worked out once."""

    def __init__(self) -> None:
        self._known: dict[Any, Any] = {}
        self._kept: list[Any] = []

    def functions(self) -> Mapping[str, Callable[..., Any]]:
        """Name -> function."""
        return {
            name: (function if name == "pick" else self._once(name, function))
            for name, function in FUNCTIONS.items()
        }

    def _once(self, name: str, function: Callable[..., Any]) -> Callable[..., Any]:
        def call(*given: Any) -> Any:
            key = (name, tuple(g if isinstance(g, int | float | str) else id(g) for g in given))
            if key not in self._known:
                self._kept.append(given)  # keeps the inputs alive, so that ids stay theirs
                self._known[key] = function(*given)
            return self._known[key]

        return call


FUNCTIONS: Mapping[str, Callable[..., Any]] = {
    "pick": find,
    "need_of": need_of,
    "slots_of": slots_of,
    "dose_price": lambda food, day, kit: dose_price(food, conditions_of(day), kit),
    "kitchen": lambda menu, foods, days, trip, need, groups: with_work(
        ledger(menu, foods, days, trip.walkers, trip.kit, trip.rules, groups=groups), menu, foods,
        days=days, walkers=trip.walkers, work=work_of(need, trip.walkers),
    ),
    "pack": pack,
    "backs": backs_of,
    "timeline": lambda walker, days, back, slots, menu, foods, trip, town: timeline(
        need_of(walker, trip.need, days, back), days, slots, menu.portions, foods,
        town_moments(trip, ints(town)),
    ),
    "consequence": consequence_of,
    "late_plans": lambda menu, foods, target, fuel, days: late_plans(
        menu, foods, targets_by_int(target), fuel, days
    ),
    "yardsticks": lambda slots, days, target, grams: yardsticks(
        slots, days, targets_by_int(target), grams
    ),
    "assumptions": assumed,
    "meal_share": lambda trip, slots, walker: {
        str(n): share for n, share in shares_of(trip, slots, walker).items()
    },
    "appetite": lambda shares: dict(
        zip(shares, ramp(list(shares.values())), strict=True)
    ),
    "eaten": lambda menu, foods, target, kitchen: eaten(
        menu, foods, targets_by_int(target), kitchen
    ),
}
