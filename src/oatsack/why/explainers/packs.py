"""Explains packing: what a bag fills, what a sack weighs by day, a night's room, rubbish, a loss.

What is not named here is explained by packing again (`recounted`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from oatsack.packing import container, dogs, loss, rubbish, sacks
from oatsack.packing.container import Parts
from oatsack.packing.volume import SOFT, STIFF, volume_ml
from oatsack.values.pack import Bag, DogBag, Loss, Night, Sack
from oatsack.values.plan import Plan
from oatsack.why.explainers.base import Asked, Explainer, given, sums
from oatsack.why.explanation import Explanation

USUAL = "common practice"


def _bags(plan: Plan) -> dict[str, Bag]:
    return {bag.id: bag for bag in plan.packed.bags}


def _legs(plan: Plan) -> dict[int, tuple[int, int]]:
    days: dict[int, list[int]] = {}
    for day in plan.days:
        days.setdefault(day.leg, []).append(day.number)
    return {leg: (min(numbers), max(numbers)) for leg, numbers in days.items()}


def _on_day(plan: Plan, day: int) -> tuple[list[Bag], int]:
    """The bags of the leg that a day belongs to, and the leg's first day."""
    legs = _legs(plan)
    leg = next(n for n, (first, last) in legs.items() if first <= day <= last)
    return sacks.bags_on_leg(plan.packed.bags, leg, legs), legs[leg][0]


def bag_volume(asked: Asked) -> Explanation:
    """The sum over its items of doses times the room of a dose."""
    bag: Bag = asked.taken(asked.home).value
    rows = tuple(volume_ml(asked.plan.foods[i.food], i.doses) for i in bag.items)
    return asked.answer("sum(rows)", rows=given(rows, f"{asked.home}/items x foods/*/pack_ml"))


def by_day(what: str, mass: Callable[[Bag, int], float]) -> Callable[[Asked], Explanation]:
    """A sack's mass on a morning as the sum over its bags."""

    def explain(asked: Asked) -> Explanation:
        sack: Sack = asked.taken("/".join(asked.words[:-2])).value
        bags, day = _bags(asked.plan), int(asked.last)
        rows = tuple(mass(bags[b], day) for b in sack.bags)
        return asked.answer("sum(rows)", rows=given(rows, f"packed/bags on day {day}: {what}"))

    return explain


def sack_kg_days(asked: Asked) -> Explanation:
    """Its mass on each morning, added up."""
    grams = tuple(asked.beside("by_day_g").value.values())
    return asked.answer("sum(grams) / 1000", grams=given(grams, f"{asked.home}/by_day_g"))


def night_room(asked: Asked) -> Explanation:
    """All containers together."""
    rows = tuple(c.volume_ml for c in asked.plan.trip.kit.containers)
    return asked.answer("sum(rows)", rows=given(rows, "trip/kit/containers/*/volume_ml"))


def _parts(asked: Asked) -> Parts:
    night: Night = asked.taken(asked.home).value
    plan = asked.plan
    bags, first = _on_day(plan, night.day)
    kit, party = plan.trip.kit, len(plan.trip.walkers)
    other = container.other_ml(kit, party, plan.packed.dogs, night.day)
    return container.parts(night.day, bags, plan.foods, other_ml=other, first=first)


def night_needed(asked: Asked) -> Explanation:
    """Soft and stiff volumes over what they fill of a store, rubbish, the other smellables."""
    made = _parts(asked)
    return asked.answer(
        "soft_ml / soft_share + stiff_ml / stiff_share + rubbish_ml + other_ml",
        source=USUAL, sure="prior",
        soft_ml=given(made.soft, "packed/bags: repacked and open, still to be eaten"),
        soft_share=given(SOFT.likely, "usable share of a store for bags that give way"),
        stiff_ml=given(made.stiff, "packed/bags: sealed, still to be eaten"),
        stiff_share=given(STIFF.likely, "usable share of a store for what does not"),
        rubbish_ml=given(made.rubbish, f"packed/rubbish/{asked.words[-2]}/volume_ml"),
        other_ml=given(made.other, "trip/kit/other_smellables_ml of each walker, dogs' food"),
    )  # fmt: skip


def night_end(formula: str, end: Callable[[Parts], Iterable[float]],
              what: str) -> Callable[[Asked], Explanation]:  # fmt: skip
    """An end of the range: the root of the sum of the squares of what each part may be off by."""

    def explain(asked: Asked) -> Explanation:
        squares = tuple(off**2 for off in end(_parts(asked)))
        off = given(squares, f"{what}: soft, stiff, wrappers, volumes")
        return asked.answer(formula, sure="prior", needed_ml=asked.beside("needed_ml"), squares=off)

    return explain


def dog_ration(asked: Asked) -> Explanation:
    """What a dog eats on a full day: as the trip file says, or by its mass."""
    bag: DogBag = asked.taken(asked.home).value
    dog = f"trip/dogs/{bag.dog}"
    if asked.taken(dog).value.food_g_day is not None:
        return asked.answer("stated", sure="given", stated=asked.taken(f"{dog}/food_g_day"))
    return asked.answer(
        "on_the_way * at_home * mass_kg ** power / dry_kcal_g", source="Bermingham2014",
        sure="prior", mass_kg=asked.taken(f"{dog}/mass_kg"),
        at_home=given(dogs.AT_HOME_KCAL, "kcal a day at home, mean of 70 groups, +- 55"),
        power=given(dogs.MASS_POWER, "of the body mass"),
        on_the_way=given(dogs.ON_THE_WAY, "a walking day over one at home, common practice"),
        dry_kcal_g=given(dogs.DRY_KCAL_G, "kcal in a gram of dry food, common practice"),
    )  # fmt: skip


def dog_room(asked: Asked) -> Explanation:
    """Its food as it lies in a bag."""
    return asked.answer("net_g / dry_g_ml", source=USUAL, sure="prior", net_g=asked.beside("net_g"),
                        dry_g_ml=given(dogs.DRY_G_ML, "dry food in a bag"))  # fmt: skip


def rubbish_rows(asked: Asked) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Wrapping emptied by the end of a day, bag by bag, and wet scraps, item by item [g]."""
    day = int(asked.words[2])
    bags, first = _on_day(asked.plan, day)
    foods = asked.plan.foods
    eaten = [i for b in bags for i in b.items if first <= i.day <= day]
    wraps = tuple(sacks.emptied_wrap_g(b, day) for b in bags)
    return wraps, tuple(rubbish.scraps_g(i, foods[i.food]) for i in eaten)


def rubbish_mass(asked: Asked) -> Explanation:
    """Wrappers and wet scraps since the leg began."""
    wraps, scraps = rubbish_rows(asked)
    return asked.answer(
        "sum(wraps_g) + sum(scraps_g)", source=USUAL, sure="prior",
        wraps_g=given(wraps, "packed/bags: emptied wrapping"),
        scraps_g=given(scraps, "packed/bags/*/items: wet rests"),
    )  # fmt: skip


def rubbish_volume(asked: Asked) -> Explanation:
    """Wrappers as crushed, scraps as water."""
    wraps, scraps = rubbish_rows(asked)
    return asked.answer(
        "sum(wraps_g) / crushed_g_ml + sum(scraps_g)", source=USUAL, sure="prior",
        wraps_g=given(wraps, "packed/bags: emptied wrapping"),
        scraps_g=given(scraps, "packed/bags/*/items: wet rests"),
        crushed_g_ml=given(rubbish.CRUSHED_G_ML, "crushed wrappers, 0.05 to 0.15"),
    )  # fmt: skip


def loss_share(what: str, energy: Callable[..., float]) -> Callable[[Asked], Explanation]:
    """Energy left in the other packs over all that was carried on the leg."""

    def explain(asked: Asked) -> Explanation:
        lost: Loss = asked.taken(asked.home).value
        plan, legs = asked.plan, _legs(asked.plan)
        bags = sacks.bags_on_leg(plan.packed.bags, lost.leg, legs)
        left = [b for b in bags if b.carrier != lost.walker]
        return asked.answer(
            "over(sum(left_kcal), sum(all_kcal))",
            left_kcal=given(tuple(energy(b, plan.foods) for b in left), f"other packs: {what}"),
            all_kcal=given(tuple(loss.energy_kcal(b, plan.foods) for b in bags), "packed/bags"),
        )  # fmt: skip

    return explain


def box_gross(asked: Asked) -> Explanation:
    """Its bags, wrapping included (C6)."""
    bags = _bags(asked.plan)
    rows = tuple(bags[b].gross_g for b in asked.taken(asked.home).value.bags)
    return asked.answer("sum(rows)", rows=given(rows, "packed/bags of this leg"))


PACKS: tuple[Explainer, ...] = (
    Explainer(pattern="packed/bags/*/gross_g", explain=sums("net_g + wrap_g")),
    Explainer(pattern="packed/bags/*/volume_ml", explain=bag_volume),
    Explainer(pattern="packed/dogs/*/ration_g", explain=dog_ration),
    Explainer(pattern="packed/dogs/*/net_g", explain=sums("feeds * ration_g / 2")),
    Explainer(pattern="packed/dogs/*/gross_g", explain=sums("net_g + wrap_g")),
    Explainer(pattern="packed/dogs/*/volume_ml", explain=dog_room),
    Explainer(pattern="packed/sacks/*/by_day_g/*", explain=by_day(
        "food left and all wrapping", sacks.at_waking_g)),
    Explainer(pattern="packed/sacks/*/wrappers_by_day_g/*", explain=by_day(
        "wrapping emptied the days before", lambda b, day: sacks.emptied_wrap_g(b, day - 1))),
    Explainer(pattern="packed/sacks/*/kg_days", explain=sack_kg_days),
    Explainer(pattern="packed/nights/*/room_ml", explain=night_room),
    Explainer(pattern="packed/nights/*/needed_ml", explain=night_needed),
    Explainer(pattern="packed/nights/*/needed_low_ml", explain=night_end(
        "max(0, needed_ml - sqrt(sum(squares)))", lambda made: made.down, "packed tightly")),
    Explainer(pattern="packed/nights/*/needed_high_ml", explain=night_end(
        "needed_ml + sqrt(sum(squares))", lambda made: made.up, "packed loosely")),
    Explainer(pattern="packed/rubbish/*/mass_g", explain=rubbish_mass),
    Explainer(pattern="packed/rubbish/*/volume_ml", explain=rubbish_volume),
    Explainer(pattern="packed/losses/*/energy_share", explain=loss_share(
        "energy", loss.energy_kcal)),
    Explainer(pattern="packed/losses/*/flameless_share", explain=loss_share(
        "energy to be eaten cold", loss.flameless_kcal)),
    Explainer(pattern="packed/boxes/*/gross_g", explain=box_gross),
    Explainer(pattern="packed/buy/*/packs", explain=sums(
        "ceil(max(0, need_g - from_home_g - 0.000001) / pack_g)")),
)  # fmt: skip
