"""Ways out of a clash: each writes its change into the trip's text, and none makes those eat less
who are to be fully fed."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from importlib.resources import files
from itertools import combinations
from typing import Any

from oatsack.desk import ways
from oatsack.files.trip import edit_trip, parse_trip
from oatsack.menu import ways_out
from oatsack.values.flags import Flag

TRIP = """# ours
from = "2027-06-12 09:00"
to = "2027-06-14 15:00"

[[walkers]]
name = "Anna"   # leads
mass = "68 kg"
target = "2000 kcal"

[[walkers]]
name = "Ben"
mass = "80 kg"

[route]
usual_day = { distance = "14 km", up = "500 m" }
"""
KIT = (
    TRIP
    + """
[kit]
pots = ["900 ml", { name = "big", volume = "2 l" }]  # both from home
containers = [{ volume = "10 l", carrier = "Ben" }, "4 l"]
"""
)
RULES = """
[rules]
budget = "3 CHF"
bans = [{ food = "muesli" }]
"""
FIRST, SECOND = (w.id for w in parse_trip(TRIP, "t").walkers)
CHANGES: dict[str, dict[str, Any]] = {
    "cook-lunch": {}, "cook-breakfast": {}, "bans": {"n": 1}, "budget": {"budget_money": 12.0},
    "minutes": {"meal": "dinner", "limit_min": 25.0}, "pot": {"pot_ml": 1300.0, "pot": 0},
    "container": {"more_ml": 650.0}, "budget-and-container": {"budget_money": 9, "more_ml": 50.0},
    "eat": {"walker": FIRST, "energy_kcal": 900.0, "share": 0.8},
    "eat-all": {"share": 0.9, f"kcal/{FIRST}": 1.0, f"kcal/{SECOND}": 1.0},
}  # fmt: skip


def written(text: str, key: str, values: dict[str, Any]) -> str:
    changes = ways.mended(text, f"way-out.{key}", values)
    assert changes, key
    return edit_trip(text, changes)


def test_every_way_out_is_one_change_of_a_trip_that_reads_comments_kept() -> None:
    start = KIT + RULES
    for key, values in CHANGES.items():
        after = written(start, key, values)
        parse_trip(after, "trip.toml")
        assert all(note in after for note in ("# ours", "# leads", "# both from home")), key
        added = set(after.splitlines()) - set(start.splitlines())
        removed = set(start.splitlines()) - set(after.splitlines())
        assert added or removed, key
        assert len(added) <= 2 and len(removed) <= 2, f"{key} touches no more than it says"


def test_there_is_a_change_for_every_way_that_the_chooser_names() -> None:
    named = {part for key in _keys() for part in ways.parts_of(key)}
    assert named - set(ways.WRITES) == {k.removeprefix("way-out.") for k in ways.ELSEWHERE}
    assert set(ways.WRITES) - named == set()
    assert set(CHANGES) - {"budget-and-container"} | {"dislikes"} == set(ways.WRITES)


def test_whatever_gives_together_has_one_sentence_and_all_its_changes() -> None:
    names = [name for name, *_ in ways_out.MEANS]
    together = ["-and-".join(some) for n in range(2, len(names) + 1)
                for some in combinations(names, n)]  # fmt: skip
    assert [key for key in together if key not in _keys()] == []
    text = KIT + RULES
    values = {k: v for name in names for k, v in CHANGES[name].items()}
    for key in together:
        alone = {path for name in key.split("-and-")
                 for path in ways.mended(text, f"way-out.{name}", values) or ()}  # fmt: skip
        assert set(ways.mended(text, f"way-out.{key}", values) or ()) == alone, key


def test_an_amount_is_written_on_the_side_of_the_limit_on_which_it_fits() -> None:
    assert ways.rounded(2918.8, less=True) == 2910.0
    assert ways.rounded(2911.0, less=False) == 2920.0
    trip = parse_trip(KIT + RULES, "trip.toml")
    free = replace(trip.walkers[0], target=replace(trip.walkers[0].target, kcal=None, share=0.85))
    assert ways.scaled(trip, free, 0.9036) == "76%"
    assert ways.scaled(trip, free, 1.011) == "86%"


def _keys() -> list[str]:
    """Every way out that has a sentence."""
    words = (files("oatsack") / "reports" / "words" / "en.toml").read_text("utf-8")
    return list(tomllib.loads(words)["flags"]["way-out"])


def test_a_larger_pot_stands_in_the_place_of_the_one_that_was_too_small() -> None:
    pots = [p.volume_ml for p in parse_trip(written(KIT, "pot", CHANGES["pot"]), "t").kit.pots]
    assert pots == [1300.0, 2000.0]
    big = parse_trip(written(KIT, "pot", {"pot_ml": 2750.0, "pot": 1}), "t").kit.pots
    assert [p.volume_ml for p in big] == [900.0, 2750.0] and big[1].name == "big"
    assert [p.volume_ml for p in parse_trip(written(TRIP, "pot", CHANGES["pot"]), "t").kit.pots] \
        == [1300.0], "where no pot was told, the one that was meant"  # fmt: skip


def test_more_room_is_added_to_the_first_container_and_its_carrier_stays() -> None:
    made = parse_trip(written(KIT, "container", {"more_ml": 650.0}), "t").kit.containers
    assert [c.volume_ml for c in made] == [10650.0, 4000.0] and made[0].carrier == SECOND


def test_money_is_written_in_the_currency_of_the_trip() -> None:
    assert 'budget = "12 CHF"' in written(TRIP + RULES, "budget", CHANGES["budget"])
    assert 'budget = "12 EUR"' in written(TRIP, "budget", CHANGES["budget"])


def test_another_amount_to_eat_is_a_share_of_what_each_chose_on_a_full_day() -> None:
    """Not the number of the fullest day of a short walk, of which a part lies outside."""
    one = parse_trip(written(TRIP, "eat", CHANGES["eat"]), "t").walkers
    assert one[0].target.kcal == 1600.0
    assert one[1].target.kcal is None and one[1].target.share is None
    both = parse_trip(written(TRIP, "eat-all", CHANGES["eat-all"]), "t").walkers
    assert both[0].target.kcal == 1800.0
    assert both[1].target.share == 0.76, "0.85 of the need, if nobody asked, times 0.9 (C15)"
    told = TRIP.replace('mass = "80 kg"', 'mass = "80 kg"\ntarget = "100%"')
    assert parse_trip(written(told, "eat-all", CHANGES["eat-all"]), "t").walkers[1].target.share \
        == 0.9  # fmt: skip
    assert ways.mended(TRIP, "way-out.eat", {"walker": "nobody", "share": 0.5}) is None


def test_dislikes_are_taken_back_of_whoever_has_some() -> None:
    text = TRIP.replace('name = "Ben"', 'name = "Ben"\ndislikes = ["rice"]')
    assert ways.mended(text, "way-out.dislikes", {}) == {"walkers[1].dislikes": None}


def test_what_no_word_of_the_trip_can_mend_is_no_change() -> None:
    for key in (*ways.ELSEWHERE, "way-out.unheard-of"):
        assert ways.mended(TRIP, key, {"food": "oats", "n": 1}) is None, key


def test_who_is_to_be_fully_fed_is_never_offered_less() -> None:
    """C11: under 18, pregnant or ill."""
    trip = parse_trip(TRIP, "t")
    flags = [Flag(key=f"way-out.{key}", level="note", values=CHANGES[key])
             for key in ("eat", "eat-all", "budget")]  # fmt: skip
    assert [f.key for f in ways.kept_ways(trip, flags)] == [f.key for f in flags]
    young = replace(trip, walkers=(replace(trip.walkers[0], age_years=15.0), trip.walkers[1]))
    assert [f.key for f in ways.kept_ways(young, flags)] == ["way-out.budget"]
    other = replace(trip, walkers=(trip.walkers[0], replace(trip.walkers[1], age_years=15.0)))
    assert [f.key for f in ways.kept_ways(other, flags)] == ["way-out.eat", "way-out.budget"]


def test_a_typed_number_is_told_as_the_number_that_it_becomes() -> None:
    flag = Flag(key="way-out.eat", level="note", values=CHANGES["eat"])
    (told,) = ways.kept_ways(parse_trip(TRIP, "t"), [flag])
    assert told.values["energy_kcal"] == 1600.0
    asked = Flag(key="way-out.eat", level="note", values=CHANGES["eat"] | {"walker": SECOND})
    assert list(ways.kept_ways(parse_trip(TRIP, "t"), [asked])) == [asked]


def test_the_ways_that_eat_another_amount_are_told_by_the_chooser_as_they_are_read_here() -> None:
    assert ways.concerned({f"{ways_out.EACH}a": 1.0, f"{ways_out.EACH}b": 2.0}) == {"a", "b"}
    assert ways.concerned({"walker": "a", "share": 0.9}) == {"a"}
