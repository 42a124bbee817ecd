"""Swaps one food of a plan for another at the desk, and says which bags that opens."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass

from oatsack import units
from oatsack.desk.opening import digest
from oatsack.errors import NoPlan, UsageError
from oatsack.files.cells import nearest
from oatsack.files.planfile import dump
from oatsack.larder.plausible import admitted
from oatsack.packing.repack import Repack, Step, repack
from oatsack.packing.swap import Swapped, swap
from oatsack.provision.replanned import replanned
from oatsack.reports.telling import Telling, telling
from oatsack.reports.words import say
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """The plan after a swap, what was said of the swap, and the bags it opens."""

    before: Plan
    plan: Plan
    swapped: Swapped


def swapped_plan(plan: Plan, old: str, new: str, larder: Mapping[str, Food]) -> Changed:
    """The plan with `new` eaten wherever it was `old`.

    UsageError for a food that is not there; NoPlan, explained, where someone must not eat it.
    """
    eaten = {p.food for p in (*plan.menu.portions, *plan.menu.spare)}
    out = found_food(old, {name: plan.foods[name] for name in eaten}, "plan")
    into = _admitted(found_food(new, larder, "larder"), plan)
    if out.id == into.id:
        raise UsageError(say("desk.same-food", old=old, new=new))
    done = swap(plan.menu, out, into, plan.trip.walkers, foods=plan.foods)
    if not done.allowed:
        raise refused(plan, [f for f in done.flags if f.level == "block"], into)
    made = replanned(plan, done.menu, [into], flags=done.flags,
                     hashes={"near": digest(dump(plan).decode("utf-8"))})  # fmt: skip
    return Changed(before=plan, plan=made, swapped=done)


def found_food(name: str, foods: Mapping[str, Food], where: str) -> Food:
    """The food of an id in the plan or the larder. Raises UsageError with what comes near."""
    if name in foods:
        return foods[name]
    near = nearest(name, tuple(foods))
    hint = say("desk.did-you-mean", near=repr(near)) if near else say("desk.find-ids")
    raise UsageError(say(f"desk.no-food-{where}", name=repr(name), hint=hint))


def _admitted(food: Food, plan: Plan) -> Food:
    """The food with its energy; one whose label is in doubt enters no menu (C2)."""
    foods, flags = admitted([food])
    if not foods:
        raise refused(plan, flags, food)
    return foods[0]


def refused(plan: Plan, flags: list[Flag] | tuple[Flag, ...], food: Food) -> NoPlan:
    """The refusal, with the names to say it."""
    error = NoPlan([flag.key for flag in flags], flags)
    error.walkers = {w.id: w.name for w in plan.trip.walkers}
    error.foods = {f.id: f.name for f in (*plan.foods.values(), food)}
    return error


def told_swap(found: Changed) -> Iterator[str]:
    """Lines for a person: what changes, what is to be heard, which bags are opened."""
    after = telling(found.plan)
    yield after.say("repack.mass", change=_signed(found.swapped.mass_g, after))
    for (walker, day), kcal in found.swapped.energy_kcal.items():
        if day > 0 and abs(kcal) >= 1.0:
            yield after.say("repack.energy", walker=walker, day=day, kcal=f"{kcal:+,.0f}")
    heard = {(flag.key, flag.scope) for flag in found.before.flags}
    for flag in (f for f in found.plan.flags if (f.key, f.scope) not in heard):
        yield after.say(f"level.{flag.level}", text=after.flag(flag))
    yield from told_repack(found.before, found.plan)


def _signed(grams: float, told: Telling) -> str:
    shown = units.show_mass(abs(grams), told.plan.trip.units)
    return f"{'-' if grams < 0 else '+'}{shown}"


def told_repack(old: Plan, new: Plan) -> Iterator[str]:
    """The shortest list of bag operations from one plan to another, labels last."""
    found = repack(old.packed.bags, new.packed.bags)
    before, after = telling(old), telling(new)
    if not (found.steps or found.handed):
        yield after.say("repack.none")
        return
    yield after.say("repack.head", steps=len([s for s in found.steps if s.kind != "label"]),
                    kept=len(found.kept), labels=len(found.labels))  # fmt: skip
    bought = {bag.id for bag in (*old.packed.bags, *new.packed.bags) if bag.sealed}
    for step in found.steps:
        if step.kind != "label":
            yield f"  {_step(step, before, after, bought)}"
    yield from (f"  {line}" for line in _closing(found, before, after))


def _step(step: Step, before: Telling, after: Telling, bought: Container[str]) -> str:
    """One operation in words; what is carried as bought is taken along or left, never filled."""
    names = after.plan.foods if step.food in after.plan.foods else before.plan.foods
    key = f"repack.{step.kind}" if step.bag or step.kind == "empty" else "repack.fresh"
    key += "_bought" if (step.bag or step.becomes) in bought else ""
    bag = _bag(step.bag, before) or _bag(step.becomes, after)
    food = names[step.food].name if step.food else ""
    return after.say(key, bag=bag, food=food, grams=step.grams)


def _bag(bag: str, told: Telling) -> str:
    """A bag by the name that stands on it."""
    return told.voice.bags.get(bag, bag)


def _closing(found: Repack, before: Telling, after: Telling) -> Iterator[str]:
    for bag in found.labels:
        yield after.say("repack.label", bag=_bag(bag, after))
    for bag, giver, taker in found.handed:
        yield after.say("repack.hand", bag=_bag(bag, after), giver=before.name(giver),
                        taker=after.name(taker))  # fmt: skip
