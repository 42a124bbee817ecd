"""The whole flow on two days with a larder of a dozen foods and the everyday engine."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import cache

import pytest

from oatsack import cite
from oatsack.errors import UsageError
from oatsack.provision.draft import Setting
from oatsack.provision.finish import _once
from oatsack.provision.flow import EXTRA_KG, MOST_ROUNDS, needed, provision, sized
from oatsack.provision.loads import ROUND_0_KCAL_PER_G
from oatsack.solve.highs import solve
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu
from oatsack.values.plan import Plan
from oatsack.values.route import Stretch
from oatsack.values.trip import HandDay, Now, RouteSpec, Trip
from oatsack.values.walker import Target, Walker
from support.each import each
from support.menus import boiled, food
from support.trips import at

SETTING = Setting(today=dt.date(2026, 1, 5), hashes={"trip": "t", "larder": "l"})
HOT = boiled()
LARDER = (
    food("oats", kcal=380, dose_g=40, role="main", meals="breakfast", category="breakfast",
         prep=HOT, doses=12.0),
    food("flakes", kcal=400, dose_g=40, role="main", meals="breakfast", category="breakfast",
         doses=12.0),
    food("crackers", kcal=420, dose_g=30, role="main", meals="lunch", category="bread", doses=10.0),
    food("cheese", kcal=390, dose_g=30, role="topping", meals="lunch", category="dairy",
         diet="vegetarian", fat_g=30.0, carb_g=1.0, protein_g=26.0, fibre_g=0.0),
    food("wraps", kcal=310, dose_g=45, role="main", meals="lunch", category="bread"),
    food("bar", kcal=450, dose_g=40, every_day_fine=True),
    food("raisins", kcal=300, dose_g=30, fat_g=0.5, carb_g=75.0, protein_g=3.0),
    food("almonds", kcal=580, dose_g=30, fat_g=50.0, carb_g=20.0, protein_g=21.0),
    food("noodles", kcal=450, dose_g=60, role="main", meals="dinner", category="meal", prep=HOT,
         doses=2.0),
    food("lentils", kcal=400, dose_g=60, role="main", meals="dinner", category="meal", prep=HOT,
         doses=2.0),
    food("oil", kcal=880, dose_g=10, role="topping", meals="dinner", category="fat", fat_g=99.0,
         carb_g=0.0, protein_g=0.0, fibre_g=0.0, sodium_mg=0.0, doses=20.0),
    food("tea", kcal=0, dose_g=2, role="drink", meals="drinks", category="drink", prep=HOT,
         fat_g=0.0, carb_g=0.0, protein_g=0.0, fibre_g=0.0, sodium_mg=0.0, doses=20.0),
)  # fmt: skip


def two_days(target: Target, **more: object) -> Trip:
    """One walker over one night."""
    walker = Walker(id="ida", name="Ida", mass_kg=65.0, sex="female", age_years=40.0,
                    height_cm=168.0, target=target, **more)  # type: ignore[arg-type]  # fmt: skip
    usual = HandDay(distance_m=13_000.0, ascent_m=500.0, descent_m=500.0)
    return Trip(title="one night out", begin=at("2026-06-05 09:00"), end=at("2026-06-06 15:00"),
                zone="Europe/Vienna", walkers=(walker,), route=RouteSpec(usual_day=usual),
                defaults=frozenset({"route.terrain"}))  # fmt: skip


@cache
def typed() -> Plan:
    """A plan for a typed number."""
    return provision(two_days(Target(kcal=2200.0)), LARDER, solve, setting=SETTING)


@cache
def shared() -> Plan:
    """A plan for a share of the need."""
    return provision(two_days(Target(share=0.85)), LARDER, solve, setting=SETTING)


def test_a_typed_target_is_solved_once() -> None:
    assert typed().made.rounds == 1


def test_rounds_come_to_an_end() -> None:
    assert 1 <= shared().made.rounds <= MOST_ROUNDS


def test_a_settled_plan_states_a_residual_within_a_quarter_of_its_window() -> None:
    plan = shared()
    window = plan.trip.rules.day_window * min(plan.target["ida"].values())
    if plan.made.rounds < MOST_ROUNDS:
        assert plan.made.residual_kcal <= 0.25 * window
    assert plan.made.residual_kcal >= 0.0


@each("plan", [typed, shared])
def test_every_day_is_eaten_inside_its_window(plan: object) -> None:
    made: Plan = plan()  # type: ignore[operator]
    for day, target in made.target["ida"].items():
        off = abs(made.eaten["ida"][day].energy_kcal - target)
        assert off <= made.trip.rules.day_window * target + 1.0


def test_a_plan_names_the_foods_it_uses_and_no_others() -> None:
    plan = shared()
    named = {p.food for p in (*plan.menu.portions, *plan.menu.spare)}
    assert set(plan.foods) == named | {b.food for b in plan.packed.buy} | {
        pool.food for pool in plan.menu.pools}  # fmt: skip
    assert set(plan.foods) < {f.id for f in LARDER} or len(plan.foods) == len(LARDER)
    assert list(plan.foods) == sorted(plan.foods)


def test_chosen_factor_turns_a_full_day_into_the_base() -> None:
    for plan in (typed(), shared()):
        chosen = plan.chosen["ida"]
        assert chosen.factor * chosen.full_day_kcal == pytest.approx(chosen.base_kcal)


def test_the_factor_of_a_share_is_that_share() -> None:
    assert shared().chosen["ida"].factor == pytest.approx(0.85)


def test_target_is_base_times_ramp_times_share_of_the_day() -> None:
    for plan in (typed(), shared()):
        chosen = plan.chosen["ida"]
        for day, kcal in plan.target["ida"].items():
            again = chosen.base_kcal * chosen.ramp[day] * chosen.share[day]
            assert kcal == pytest.approx(again)


def test_a_typed_number_has_no_ramp() -> None:
    assert set(typed().chosen["ida"].ramp.values()) == {1.0}


def test_the_timeline_eats_all_that_the_menu_holds() -> None:
    for plan in (typed(), shared()):
        menu = sum(p.doses * plan.foods[p.food].dose_kcal for p in plan.menu.portions)
        assert sum(h.eaten_kcal for h in plan.timeline["ida"]) == pytest.approx(menu)


def test_the_timeline_uses_all_that_the_days_need() -> None:
    plan = shared()
    need = sum(day.energy_kcal for day in plan.need["ida"].values())
    assert sum(h.need_kcal for h in plan.timeline["ida"]) == pytest.approx(need)


def test_totals_agree_with_the_days() -> None:
    plan = shared()
    days = plan.eaten["ida"].values()
    assert plan.totals.energy_kcal == pytest.approx(sum(d.energy_kcal for d in days))
    assert plan.totals.net_g == pytest.approx(sum(d.mass_g for d in days))


def test_all_backs_begin_with_all_the_food() -> None:
    plan = typed()
    sacks = sum(s.start_g for s in plan.packed.sacks)
    assert sacks == pytest.approx(sum(b.gross_g for b in plan.packed.bags))


def test_kitchen_prices_are_kept_for_used_foods_only() -> None:
    assert set(typed().prices) <= set(typed().foods)


def test_every_source_of_a_plan_stands_in_the_bibliography() -> None:
    keys = typed().sources
    assert list(keys) == sorted(set(keys))
    assert set(keys) <= set(cite.bibliography())


def test_the_plan_says_how_it_was_made() -> None:
    made = typed().made
    assert (made.trip_hash, made.larder_hash, made.near_hash) == ("t", "l", "")
    assert (made.seed, made.today) == (0, "2026-01-05")


def test_flags_are_said_once_and_the_loudest_first() -> None:
    order = ["block", "caution", "quiet", "note"]
    levels = [order.index(f.level) for f in shared().flags]
    assert levels == sorted(levels)


def test_equal_remarks_are_said_once() -> None:
    one = Flag(key="x", level="note", scope="need/a", values={"a": 1, "b": 2})
    same = replace(one, values={"b": 2, "a": 1})
    other = replace(one, values={"a": 1, "b": 3})
    loud = Flag(key="y", level="block")
    assert _once([one, same, other, loud]) == (loud, one, other)


def test_without_water_places_the_mean_water_is_said() -> None:
    said = [f for f in typed().flags if f.key == "provision.mean-water"]
    assert len(said) == (0 if typed().kitchen.carries else 1)


def test_an_edit_keeps_the_menu_near_and_solves_once() -> None:
    trip = two_days(Target(kcal=2200.0))
    again = provision(trip, LARDER, solve, setting=SETTING, near=typed())
    assert again.made.rounds == 1
    assert again.menu.moved == 0


def test_equal_questions_have_equal_plans() -> None:
    trip = two_days(Target(kcal=2200.0))
    assert provision(trip, LARDER, solve, setting=SETTING) == typed()


def test_progress_sees_menus_that_never_get_worse() -> None:
    seen: list[Menu] = []
    provision(two_days(Target(kcal=2200.0)), LARDER, solve, setting=SETTING,
              progress=lambda menu: seen.append(menu) is None)  # fmt: skip
    aims = [menu.aim for menu in seen]
    assert aims == sorted(aims, reverse=True)


def test_a_walk_between_two_meals_is_refused() -> None:
    trip = replace(two_days(Target()), begin=at("2026-06-05 13:30"), end=at("2026-06-05 13:40"))
    with pytest.raises(UsageError, match="no meal"):
        provision(trip, LARDER, solve, setting=SETTING)
    with pytest.raises(UsageError, match="no meal"):
        needed(trip, setting=SETTING)


def test_the_first_idea_of_the_food_is_the_target_over_the_usual_density() -> None:
    trip = two_days(Target(kcal=2200.0))
    found, want = sized(trip, setting=SETTING), needed(trip, setting=SETTING).want
    assert found.kcal_day == (2200.0,)
    assert found.food_g * ROUND_0_KCAL_PER_G == pytest.approx(sum(want.kcal["ida"].values()))


def test_more_on_every_back_costs_more_on_every_walking_day() -> None:
    found = needed(two_days(Target()), setting=SETTING)
    assert EXTRA_KG > 0.0
    for n, day in found.want.needs["ida"].days.items():
        assert found.heavier["ida"].days[n].energy_kcal > day.energy_kcal


def test_hours_of_the_timeline_lie_inside_the_walk() -> None:
    plan = typed()
    days = {d.number: d for d in plan.days}

    def inside(stretches: tuple[Stretch, ...], start: float) -> bool:
        return stretches[0].start_min - 60 <= start <= stretches[-1].end_min

    assert all(inside(days[h.day].stretches, h.start_min) for h in plan.timeline["ida"])


def test_who_says_where_the_walk_stands_is_told_that_the_plan_is_of_the_whole() -> None:
    trip = two_days(Target(kcal=2200.0))
    told = provision(replace(trip, now=Now(day=2)), LARDER, solve, setting=SETTING)
    assert [f.values["day"] for f in told.flags if f.key == "provision.whole-walk"] == [2]
    assert told.trip.now == Now(day=2)
    assert [f for f in typed().flags if f.key == "provision.whole-walk"] == []
