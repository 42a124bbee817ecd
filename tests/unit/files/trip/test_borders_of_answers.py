"""Answers of a trip file that only just fit together, and those that only just do not."""

from __future__ import annotations

import datetime as dt

import pytest

from oatsack.errors import TripFileError, UnitError
from oatsack.files.trip import gone, named_files, named_stock, pace_tracks, parse_trip
from oatsack.files.trip.picks import (
    ALLERGEN_HINTS,
    _read_allergen,
    _read_money,
    _read_spare,
    _read_target,
    _read_terrain,
    counted,
    food_id,
)
from oatsack.values.food import ALLERGENS
from oatsack.walker.terrain import FACTORS, snow_factor
from support.each import each
from support.packs import food

HEAD = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
zone = "Europe/Vienna"
[[walkers]]
name = "Anna"
mass = "68 kg"
"""
WAY = '[route]\nusual_day = { distance = "16 km", up = "700 m" }\n'


def paths(text: str) -> list[str]:
    """Where a text is at fault."""
    try:
        parse_trip(text, "trip.toml")
    except TripFileError as error:
        return [one.path for one in error.faults]
    return []


def day(inner: str) -> str:
    return HEAD + "[route]\n[[route.days]]\n" + inner.replace("; ", "\n") + "\n"


@each(
    ("inner", "fault"),
    [
        ('distance = "10 km"; highest = "900 m"; camp_height = "900 m"', []),
        ('distance = "10 km"; highest = "899 m"; camp_height = "900 m"', ["highest"]),
        ('distance = "10 km"; highest = "100 m"', []),
        ('distance = "10 km"; camp_height = "900 m"', []),
        ('distance = "0 km"', []),
        ('distance = "0 km"; up = "0 m"', []),
        ('distance = "0 km"; up = "1 m"', ["distance"]),
        ('distance = "0 km"; down = "1 m"', ["distance"]),
        ('distance = "1 km"; up = "100 m"', []),
        ('distance = "10 km"; water = ["10 km"]', []),
        ('distance = "10 km"; water = ["10009 m"]', []),  # a metre in a thousand is rounding
        ('distance = "10 km"; water = ["10.02 km"]', ["water[0]"]),
        ('distance = "10 km"; water = ["2 km", "11 km", "3 km", "12 km"]',
         ["water[1]", "water[3]"]),
        ('stretches = [{ distance = "4 km" }, { distance = "6 km" }]', []),
        ('stretches = [{ distance = "4 km" }, { distance = "6 km" }]; distance = "10.1 km"', []),
        ('stretches = [{ distance = "4 km" }, { distance = "6 km" }]; distance = "10.2 km"',
         ["distance"]),
        ('stretches = [{ distance = "4 km" }]; water = ["4.1 km"]', ["water[0]"]),
        ('stretches = [{ distance = "4 km" }]; distance = "0 km"', ["distance"]),
        ('up = "100 m"', [""]),
    ],
)  # fmt: skip
def test_a_typed_day_makes_sense_up_to_its_limits(inner: str, fault: list[str]) -> None:
    start = "route.days[0]"
    assert paths(day(inner)) == [f"{start}.{one}" if one else start for one in fault]


@each(
    ("to", "days", "fault"),
    [
        ("2026-07-02 09:01", 1, []),
        ("2026-07-02 09:00", 1, ["to"]),
        ("2026-07-03 01:00", 2, []),
        ("2026-07-03 01:00", 3, ["route.days[2]"]),
        ("2026-07-03 01:00", 4, ["route.days[2]"]),
        ("2027-07-01 09:00", 1, []),  # 365 days
        ("2028-07-02 09:00", 1, ["to"]),
    ],
)
def test_the_walk_has_days_for_all_that_are_typed(to: str, days: int, fault: list[str]) -> None:
    text = HEAD.replace("2026-07-05 15:00", to) + '[route]\nspeed = "4 km/h"\n'
    text += '[[route.days]]\ndistance = "5 km"\n' * days
    assert paths(text) == fault


@each(
    ("cuts", "fault"),
    [('["5 km", "6 km", "7 km"]', []), ('["5 km", "5 km", "7 km"]', ["route.cuts[1]"]),
     ('["5 km", "7 km", "6 km"]', ["route.cuts[2]"]),
     ('["9 km", "8 km", "7 km"]', ["route.cuts[1]", "route.cuts[2]"])],
)  # fmt: skip
def test_each_cut_lies_beyond_the_one_before(cuts: str, fault: list[str]) -> None:
    assert paths(HEAD + f'[route]\ntrack = "a.gpx"\ncuts = {cuts}\n') == fault


@each(
    ("can", "fault"),
    [
        ('{ net = "230 g", empty = "150 g", now = "150 g" }', False),
        ('{ net = "230 g", empty = "150 g", now = "149 g" }', True),
        ('{ net = "230 g", empty = "150 g", now = "399 g" }', False),  # 1.05 x 380
        ('{ net = "230 g", empty = "150 g", now = "400 g" }', True),
        ('{ net = "260 g", empty = "1 g" }', False),
        ('{ net = "260 g" }', True),
    ],
)
def test_a_can_weighs_from_empty_to_a_twentieth_above_full(can: str, fault: bool) -> None:
    assert bool(paths(HEAD + WAY + f"[kit]\ncans = [{can}]\n")) is fault


@each(
    ("inner", "fault"),
    [
        ("fastest = 3; slowest = 3", []), ("fastest = 4; slowest = 3", ["fastest"]),
        ("fastest = 7", ["fastest"]), ("slowest = 2", ["slowest"]), ("slowest = 3", []),
        ("open = []", ["open"]), ('open = ["sun"]', []),
    ],
)  # fmt: skip
def test_post_is_no_slower_at_its_fastest_and_a_place_opens_at_some_time(
    inner: str, fault: list[str]
) -> None:
    # Common practice stands for what is not said: three to six days.
    typed = '[[route.days]]\ndistance = "5 km"\ncamp = "Mill"\n' + '[[route.days]]\ndistance = 0\n'
    text = HEAD + "[route]\n" + typed.replace("distance = 0", 'distance = "5 km"')
    place = '[[places]]\nname = "Mill"\n' + inner.replace("; ", "\n") + "\n"
    assert paths(text + place) == [f"places[0].{one}" for one in fault]


@each(
    ("date", "fits"),
    [("2026-07-01", False), ("2026-07-02", True), ("2026-07-05", True), ("2026-07-06", False)],
)
def test_a_hold_applies_on_any_day_of_the_walk_and_is_told_as_gone_beyond(
    date: str, fits: bool
) -> None:
    text = HEAD + WAY + f'[[rules.holds]]\nfood = "oats"\ndate = "{date}"\n'
    assert paths(text) == []
    trip = parse_trip(text, "trip.toml")
    assert trip.rules.holds[0].date == dt.date.fromisoformat(date)
    found = [(path, why) for path, _, why in gone(trip, [food("oats")])]
    assert found == ([] if fits else [("rules.holds[0]", "no-day")])


def test_a_walkers_pace_is_told_by_one_of_two() -> None:
    number, track = 'pace = "4 km/h"\n', 'pace_track = "mine.gpx"\n'
    assert paths(HEAD + number + WAY) == []
    assert paths(HEAD + track + WAY) == []
    assert paths(HEAD + number + track + WAY) == ["walkers[0].pace_track"]


# What a text names though the rest of it is at fault


@each(
    ("text", "files", "track", "stock"),
    [
        ('[larder]\nfiles = ["a.csv", "b.csv"]\nstock = "s.csv"\n[route]\ntrack = "t.gpx"\n',
         ("a.csv", "b.csv"), "t.gpx", "s.csv"),
        ('[larder]\nfiles = "a.csv"\n', ("a.csv",), None, None),
        ('[larder]\nfiles = ["a.csv", 3, []]\nstock = 4\n', ("a.csv",), None, None),
        ("larder = 3\nroute = []\n", (), None, None),
        ("[larder]\nfiles = 7\n[route]\ntrack = 7\n", (), None, None),
        ('this is no line\n[larder]\nfiles = ["a.csv"]\n', ("a.csv",), None, None),
        ("", (), None, None),
    ],
)
def test_other_files_are_named_whatever_else_is_wrong(
    text: str, files: tuple[str, ...], track: str | None, stock: str | None
) -> None:
    assert named_files(text) == (files, track)
    assert named_stock(text) == stock


def test_tracks_of_paces_are_named_with_their_walker_and_place() -> None:
    text = (
        '[[walkers]]\nname = "A"\n[[walkers]]\npace_track = " run.gpx "\n'
        '[[walkers]]\npace_track = ""\n[[walkers]]\npace_track = 5\n'
    )
    ((number, file, fault),) = pace_tracks(text, "trip.toml")
    assert (number, file) == (1, "run.gpx")
    assert (fault.file, fault.line, fault.path) == ("trip.toml", 4, "walkers[1].pace_track")
    for other in ("walkers = 3\n", 'walkers = ["a"]\n', ""):
        assert pace_tracks(other, "t") == ()


# The small languages


@each(
    ("text", "count", "food"),
    [("oats", None, "oats"), ("2 oats", 2.0, "oats"), ("2x oats", 2.0, "oats"),
     ("2 × oats", 2.0, "oats"), ("½ oats", 0.5, "oats"), ("1 1/2 oats", 1.5, "oats"),
     ("999 oats", 999.0, "oats"), ("2 3-bean-stew", 2.0, "3-bean-stew")],
)  # fmt: skip
def test_a_count_stands_before_its_food(text: str, count: float | None, food: str) -> None:
    assert counted(text) == (count, food)


@each(
    ("text", "wrong"),
    [("", "no food"), ("2", "no food"), ("0 oats", "0 of a food"), ("1000 oats", "1000 of a food"),
     ("-1 oats", "no food id"), ("2 Rolled Oats", "no food id"), ("2 +", "no food id")],
)  # fmt: skip
def test_what_counts_no_food_says_why(text: str, wrong: str) -> None:
    with pytest.raises(UnitError, match=wrong):
        counted(text)


@each(
    ("name", "likely"), [("Rolled Oats", '"rolled-oats"'), ("Käse!", '"k-se"'), ("2024", '"2024"')]
)
def test_a_name_is_refused_with_its_likely_id(name: str, likely: str) -> None:
    with pytest.raises(UnitError) as caught:
        food_id(name)
    assert likely in caught.value.instead


@each(
    ("text", "kcal", "share"),
    [("2200 kcal", 2200.0, None), ("300 kcal", 300.0, None), ("12000 kcal", 12_000.0, None),
     ("85%", None, 0.85), ("20 %", None, 0.2), ("200%", None, 2.0), ("0.85", None, 0.85),
     (".5", None, 0.5), ("0,7", None, 0.7), ("3/4", None, 0.75), ("light", None, 0.7),
     ("hungry", None, 1.0), ("usual", None, None), ("9204.8 kJ", 2200.0, None)],
)  # fmt: skip
def test_a_target_is_an_energy_a_share_or_a_word(
    text: str, kcal: float | None, share: float | None
) -> None:
    found = _read_target(text)
    assert found.kcal == (None if kcal is None else pytest.approx(kcal))
    assert found.share == (None if share is None else pytest.approx(share))


@each("text", ["299 kcal", "12001 kcal", "19%", "201%", "-85%", "2200", "much", "0.1"])
def test_a_target_out_of_reason_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        _read_target(text)


@each(
    ("text", "spare"),
    [("none", "none"), ("meal", "meal"), ("day", "day"), ("500 kcal", 500.0), ("0 kcal", 0.0),
     ("20000 kcal", 20_000.0)],
)  # fmt: skip
def test_spare_food_is_a_word_or_an_energy(text: str, spare: str | float) -> None:
    assert _read_spare(text) == spare


@each("text", ["two days", "", "500", "20001 kcal", "-5 kcal", "meals"])
def test_spare_food_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        _read_spare(text)


@each(
    ("value", "factor"),
    [(1.0, 1.0), (8, 8.0), (1.25, 1.25), ("dirt", FACTORS["dirt"]), ("bog", FACTORS["bog"]),
     ("10 cm snow", float(snow_factor(10.0))), ("1 ft of snow", float(snow_factor(30.48))),
     ("0 cm snow", float(snow_factor(0.0)))],
)  # fmt: skip
def test_ground_is_a_factor_a_surface_or_a_depth_of_snow(value: object, factor: float) -> None:
    assert _read_terrain(value) == pytest.approx(factor)


@each("value", [0.99, 8.01, True, "mud", "snow", "6 m snow", "10 snow", "-1 cm snow", ""])
def test_ground_that_is_none_is_refused(value: object) -> None:
    with pytest.raises(UnitError):
        _read_terrain(value)


@each(
    ("text", "amount", "currency"),
    [("80 EUR", 80.0, "EUR"), ("€ 80", 80.0, "EUR"), ("80,50 €", 80.5, "EUR"), ("0 GBP", 0.0,
     "GBP")],
)  # fmt: skip
def test_money_has_an_amount_and_a_currency(text: str, amount: float, currency: str) -> None:
    assert _read_money(text) == (amount, currency)


@each("text", ["80", "EUR", "-1 EUR", "2000000 EUR"])
def test_money_without_one_of_them_or_beyond_reason_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        _read_money(text)


def test_every_allergen_is_read_in_any_case_and_other_words_lead_to_one() -> None:
    assert [_read_allergen(f" {name.upper()} ") for name in ALLERGENS] == list(ALLERGENS)
    for word, hint in ALLERGEN_HINTS.items():
        with pytest.raises(UnitError) as caught:
            _read_allergen(word.title())
        assert hint in caught.value.instead
        named = [part.strip('" ') for part in hint.replace(" or both", "").split(",") if part]
        assert set(filter(None, named)) <= set(ALLERGENS), word
    with pytest.raises(UnitError) as caught:
        _read_allergen("kiwi")
    assert all(f'"{name}"' in caught.value.instead for name in ALLERGENS)
