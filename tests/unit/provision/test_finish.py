"""What a plan keeps of foods that are spoken of and in no bag: their names, and why so."""

from __future__ import annotations

from dataclasses import replace

from oatsack.provision.finish import _picks_doubted, _spoken_of
from oatsack.reports.telling import telling
from oatsack.values.flags import Flag
from oatsack.values.trip import Hold, Rules
from support.packs import people, trip_for
from support.sample_plan import sample_plan

REFUSED = Flag(key="menu.pick-refused", level="caution", scope="menu/a",
               values={"food": "almonds", "meal": "move", "walker": "a",
                       "why": "unknown"})  # fmt: skip
DOUBT = Flag(key="larder.kj-as-kcal", level="caution", scope="larder/almonds",
             values={"food": "almonds", "energy_kcal": 2500.0})  # fmt: skip
NAMES = {"almonds": "Almonds", "rice": "Long-grain rice", "oats": "Rolled oats"}


def test_a_pick_whose_label_is_doubted_is_not_said_to_be_missing() -> None:
    """C2: a food with an open doubt enters no menu until its owner confirms it."""
    (told,) = _picks_doubted([REFUSED], [DOUBT])
    assert told.values == {**REFUSED.values, "why": "doubted"}
    assert _picks_doubted([REFUSED], []) == (REFUSED,)
    allergic = replace(REFUSED, values={**REFUSED.values, "why": "allergen-plate"})
    assert _picks_doubted([allergic], [DOUBT]) == (allergic,)


def test_names_are_kept_of_what_flags_bans_and_holds_speak_of_and_of_nothing_else() -> None:
    rules = Rules(holds=(Hold(food="rice"), Hold(food="moon-cheese")))
    trip = trip_for(people(1), 2, rules=rules)
    assert _spoken_of(trip, [REFUSED], NAMES) == {"almonds": "Almonds", "rice": "Long-grain rice"}
    assert _spoken_of(trip_for(people(1), 2), [], NAMES) == {}


def test_a_refused_pick_is_told_by_its_name() -> None:
    plan = replace(sample_plan(walkers=1, days=2), flags=(REFUSED,), names={"almonds": "Almonds"})
    said = telling(plan).flag(REFUSED)
    assert "Almonds" in said
    assert "almonds" not in said
