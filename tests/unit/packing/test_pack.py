"""The one entry: everything of packing, whole, and the same every time."""

from __future__ import annotations

import inspect
import re
from dataclasses import replace
from pathlib import Path

import pytest

import oatsack.packing.signs
import oatsack.packing.swap
from oatsack.packing.pack import Aids, pack
from oatsack.packing.share import Shared
from oatsack.packing.signs import keeping_signs, loss_signs, share_signs
from oatsack.reports.words import sentences
from oatsack.values.food import Keep, Stock
from oatsack.values.kit import Kit
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu
from oatsack.values.pack import Loss
from support.packs import LARDER, bag, days_of, packed, people, trip_for, usual_menu
from support.sample_plan import sample_plan


def test_a_plan_of_the_tests_is_packed_whole() -> None:
    plan = sample_plan(walkers=2, days=5)
    got = pack(plan.menu, plan.foods, plan.days, plan.trip, plan.kitchen)
    assert got.buy and got.bags and got.sacks and got.nights and got.rubbish and got.losses
    assert got.boxes == ()
    planned = sum(p.doses * plan.foods[p.food].dose_g for p in plan.menu.portions)
    spare = sum(p.doses * plan.foods[p.food].dose_g for p in plan.menu.spare)
    assert sum(b.net_g for b in got.bags) == pytest.approx(planned + spare)


def test_the_same_question_is_packed_the_same() -> None:
    assert packed(people(4), 5) == packed(people(4), 5)


def test_the_order_of_portions_changes_no_mass_and_no_bag() -> None:
    menu = usual_menu(["a", "b"], 4)
    turned = replace(menu, portions=tuple(reversed(menu.portions)))
    one, two = packed(people(2), 4, menu=menu), packed(people(2), 4, menu=turned)
    assert {b.id: round(b.net_g, 6) for b in one.bags} == {
        b.id: round(b.net_g, 6) for b in two.bags
    }


def test_every_bag_has_a_carrier_of_the_party() -> None:
    plan = packed(people(5), 4)
    assert {b.carrier for b in plan.bags} <= {w.id for w in people(5)}
    assert {b.carrier for b in plan.bags} == {w.id for w in people(5)}


def test_an_empty_menu_packs_nothing_and_breaks_nothing() -> None:
    got = packed(people(2), 3, menu=Menu(portions=()))
    assert got.bags == got.buy == got.losses == ()
    assert all(s.start_g == 0.0 for s in got.sacks)
    assert all(r.mass_g == 0.0 for r in got.rubbish)


def test_without_a_stove_no_fuel_is_carried() -> None:
    cold = packed(people(2), 3, kit=Kit(stove=None))
    assert all(s.common_g == {} for s in cold.sacks)


def test_fuel_rides_apart_from_food_and_weighs_on_its_carrier() -> None:
    """The sack of food is what bags weigh; fuel and can stand in common_g."""
    plan = packed(people(2), 4)
    carrying = [s for s in plan.sacks if s.common_g]
    assert len(carrying) == 1
    assert carrying[0].common_g == {"fuel": pytest.approx(230.0), "cans": pytest.approx(150.0)}
    bags = {b.id: b for b in plan.bags}
    assert carrying[0].start_g == pytest.approx(sum(bags[b].gross_g for b in carrying[0].bags))


def test_loads_follow_capacity_and_body_mass() -> None:
    """A couple of 84 and 57 kg shares near 60 : 40 (common practice)."""
    a, b = (replace(w, mass_kg=m) for w, m in zip(people(2), (84.0, 57.0), strict=True))
    menu = usual_menu(["a", "b"], 5)
    bigger = tuple(
        replace(p, doses=p.doses * 1.4) if p.walker == "a" and p.why != "bag" else p
        for p in menu.portions
    )
    plan = packed((a, b), 5, menu=replace(menu, portions=bigger))
    days = 5 * sum(s.common_g.get("fuel", 0.0) + s.common_g.get("cans", 0.0) for s in plan.sacks)
    load = {s.walker: s.kg_days for s in plan.sacks}
    for s in plan.sacks:
        load[s.walker] += 5 * sum(s.common_g.values()) / 1000.0
    assert days > 0
    assert load["a"] / (load["a"] + load["b"]) == pytest.approx(0.60, abs=0.02)


def test_capacity_outweighs_body_mass_when_stated() -> None:
    a, b = people(2)
    plan = packed((replace(a, capacity=0.5), b), 5)
    loads = {s.walker: s.kg_days for s in plan.sacks}
    assert loads["a"] < 0.7 * loads["b"]


def test_a_bag_eaten_after_it_is_good_is_a_caution() -> None:
    cheese = replace(LARDER["cheese"], keep=Keep(opened_days=2.0))
    plan = packed(people(1), 5, foods={**LARDER, "cheese": cheese})
    (flag,) = [f for f in plan.flags if f.key == "packing.keeps"]
    assert (flag.level, flag.values["food"], flag.values["eat_by_day"]) == ("caution", "cheese", 2)
    just = replace(LARDER["cheese"], keep=Keep(opened_days=4.0))
    (soft,) = [f for f in packed(people(1), 5, foods={**LARDER, "cheese": just}).flags
               if f.key == "packing.keeps"]  # fmt: skip
    assert soft.level == "quiet"
    assert not [f for f in packed(people(1), 5).flags if f.key == "packing.keeps"]


def test_the_food_that_spoils_first_is_named() -> None:
    sauce = replace(LARDER["sauce"], keep=Keep(opened_days=1.0))
    one = bag(contents={"lentils": 100.0, "sauce": 20.0}, day=4, eat_by_day=1)
    (flag,) = keeping_signs([one], {**LARDER, "sauce": sauce}, {1: (1, 5)})
    assert flag.values["food"] == "sauce"


def test_spare_food_is_not_scolded_for_lasting() -> None:
    spare = bag(label="spare", eat_by_day=1, empty_day=5)
    assert keeping_signs([spare], LARDER, {1: (1, 5)}) == []


def test_a_loss_says_what_is_short_and_only_that() -> None:
    bad = Loss(leg=1, walker="a", energy_share=0.5, flameless_share=0.2, heat=False,
               safe_share={"b": 0.3, "c": 0.9})  # fmt: skip
    assert {f.key for f in loss_signs([bad], 3)} == {
        "packing.loss.energy", "packing.loss.heat", "packing.loss.safe",
    }  # fmt: skip
    assert {f.key for f in loss_signs([bad], 2)} == {"packing.loss.heat", "packing.loss.safe"}
    (safe,) = [f for f in loss_signs([bad], 3) if f.key == "packing.loss.safe"]
    assert (safe.level, safe.values["who"], safe.values["walker"]) == ("caution", "b", "a")
    fine = replace(bad, energy_share=0.7, heat=True, safe_share={})
    assert loss_signs([fine], 3) == []


def test_an_unfair_sharing_is_noted_only_beyond_what_is_proven_unavoidable() -> None:
    import numpy as np

    carrier = np.zeros(1, np.int64)
    unfair = Shared(carrier=carrier, excess=2.0, bound=0.0, part=20.0, breach=0.0)
    forced = Shared(carrier=carrier, excess=2.0, bound=2.0, part=20.0, breach=0.0)
    assert [f.key for f in share_signs({1: unfair})] == ["packing.share.excess"]
    assert share_signs({1: forced}) == []
    assert share_signs({1: replace(unfair, part=50.0)}) == []


def test_every_flag_of_packing_has_its_sentence() -> None:
    keys: set[str] = set()
    for module in (oatsack.packing.signs, oatsack.packing.swap):
        text = Path(inspect.getfile(module)).read_text(encoding="utf-8")
        keys |= set(re.findall(r'key="(packing\.[a-z.\-]+)"', text))
    keys |= {f"packing.container.{v}" for v in ("no", "unlikely")}
    keys |= {f"packing.loss.{k}" for k in ("energy", "heat", "safe")}
    keys |= {f"packing.swap.{k}" for k in ("sodium", "water")}
    assert len(keys) >= 15
    assert {k for k in keys if f"flags.{k}" not in sentences()} == set()


def test_a_usual_plan_shows_nothing_red() -> None:
    plan = packed(people(2), 4)
    assert {f.level for f in plan.flags} <= {"note", "quiet"}


def test_an_engine_is_asked_once_per_leg() -> None:
    asked = []

    def engine(problem, work):
        from oatsack.values.problem import Answer

        asked.append(len(problem.columns))
        return Answer(status="nothing", x=None, aim=0.0, bound=0.0)

    menu = usual_menu(["a", "b"], 4)
    menu = replace(menu, pools=(), portions=tuple(p for p in menu.portions if p.why != "bag"))
    pack(menu, LARDER, days_of(4, (2, 2)), trip_for(people(2), 4), KitchenLedger(),
         aids=Aids(engine=engine))  # fmt: skip
    assert len(asked) == 2


def test_an_edit_leaves_bags_on_the_backs_they_were_on() -> None:
    party, days = people(4), days_of(5)
    menu = usual_menu([w.id for w in party], 5)
    trip, ledger = trip_for(party, 5), KitchenLedger()
    first = pack(menu, LARDER, days, trip, ledger)
    less = replace(menu, portions=tuple(
        p for p in menu.portions if (p.walker, p.day, p.meal) != ("a", 3, "lunch")
    ))  # fmt: skip
    then = {b.id: b.carrier for b in first.bags}
    near = pack(less, LARDER, days, trip, ledger, aids=Aids(near=first))
    moved = [b.id for b in near.bags if b.id in then and then[b.id] != b.carrier]
    assert len(moved) <= 1
    again = pack(menu, LARDER, days, trip, ledger, aids=Aids(near=first))
    assert all(then[b.id] == b.carrier for b in again.bags)


def test_near_an_unfair_packing_is_mended_where_it_matters() -> None:
    party, days = people(3), days_of(4)
    menu = usual_menu([w.id for w in party], 4)
    trip, ledger = trip_for(party, 4), KitchenLedger()
    first = pack(menu, LARDER, days, trip, ledger)
    loaded = replace(first, bags=tuple(replace(b, carrier="a") for b in first.bags))
    mended = pack(menu, LARDER, days, trip, ledger, aids=Aids(near=loaded))
    loads = [s.kg_days / w.mass_kg for s, w in zip(mended.sacks, party, strict=True)]
    assert max(loads) < 1.1 * min(loads)


def test_lots_of_a_stock_file_count_beside_the_larders_own() -> None:
    lots = {"oats": (Stock(packs=1.0),)}
    trip, days, menu = trip_for(people(1), 3), days_of(3), usual_menu(["a"], 3)
    got = pack(menu, LARDER, days, trip, KitchenLedger(), aids=Aids(lots=lots))
    row = next(b for b in got.buy if b.food == "oats")
    assert (row.from_home_g, row.packs) == (pytest.approx(150.0), 0.0)


def test_everyone_carries_their_own_food_as_far_as_that_is_fair() -> None:
    """A couple alike in mass and food trades almost nothing; what is shared makes it even."""
    a, b = (replace(w, mass_kg=70.0) for w in people(2))
    plan = packed((a, b), 4, kit=Kit(stove=None))
    traded = [x for x in plan.bags if x.group in ("a", "b") and x.carrier != x.group]
    assert len(traded) <= 1
    loads = [s.kg_days for s in plan.sacks]
    assert max(loads) - min(loads) < 0.05 * sum(loads)


def test_only_as_much_changes_backs_as_fairness_asks() -> None:
    """The stronger takes over a few things of the other, and nothing goes the other way."""
    a, b = people(2)
    strong = replace(b, capacity=1.5)
    plan = packed((a, strong), 4, kit=Kit(stove=None))
    given = {x.id for x in plan.bags if x.group == "a" and x.carrier == "b"}
    taken = {x.id for x in plan.bags if x.group == "b" and x.carrier == "a"}
    assert given and not taken
