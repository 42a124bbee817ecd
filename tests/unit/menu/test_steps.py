"""How many things a tired walker does for one food: open, bag, wipe a bowl, wash a pot."""

from __future__ import annotations

from dataclasses import replace

from oatsack.menu.aims.steps import steps
from support.menus import boiled, food


def test_a_pouch_eaten_from_its_bag_is_one_step_and_a_dirty_pot_is_dearer_than_a_bowl() -> None:
    """Common practice: boil, pour, wait, no dishes."""
    pouch = food("pouch", role="main", carry="sealed", prep=boiled(from_bag=True))
    noodles = replace(pouch, id="noodles", prep=boiled())
    rice = replace(noodles, id="rice", carry="repack")
    stew = replace(rice, id="stew", prep=replace(rice.prep, kind="simmer", needs_pot=True))
    assert [steps(f) for f in (pouch, noodles, rice, stew)] == [1.0, 2.0, 3.0, 4.0]


def test_what_needs_no_water_or_is_drunk_from_a_mug_dirties_nothing() -> None:
    bar = food("bar", carry="sealed")
    cocoa = food("cocoa", role="drink", carry="sealed", prep=boiled())
    flakes = food("flakes", role="side", carry="sealed", prep=boiled())
    assert [steps(f) for f in (bar, cocoa, flakes)] == [1.0, 1.0, 1.0]
