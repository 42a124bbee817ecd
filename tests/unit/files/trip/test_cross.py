"""Answers that do not fit together, each said at its place, also beside other faults."""

from __future__ import annotations

from oatsack.errors import TripFileError
from oatsack.files.trip import parse_trip
from support.each import each

HEAD = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
zone = "Europe/Vienna"
[[walkers]]
name = "Anna"
mass = "68 kg"
[[walkers]]
name = "Ben"
mass = "80 kg"
"""
DAY = '[route]\nusual_day = { distance = "16 km", up = "700 m" }\n'
TRACK = '[route]\ntrack = "way.gpx"\n'


def faults(text: str) -> list[tuple[int, int, str, str]]:
    try:
        parse_trip(text, "trip.toml")
    except TripFileError as error:
        assert all(one.instead for one in error.faults)
        return [(one.line, one.column, one.path, one.wrong) for one in error.faults]
    return []


def replaced(old: str, new: str, *, text: str = HEAD + DAY) -> list[tuple[int, int, str, str]]:
    assert old in text
    return faults(text.replace(old, new, 1))


def test_the_file_is_fine_as_it_is() -> None:
    assert faults(HEAD + DAY) == []
    assert faults(HEAD + TRACK) == []


def test_the_end_comes_after_the_begin() -> None:
    wrong = "the walk ends before it begins"
    assert replaced("2026-07-05 15:00", "2026-07-02 09:00") == [(2, 6, "to", wrong)]
    assert replaced("2026-07-05", "2025-07-05") == [(2, 6, "to", wrong)]


def test_a_walk_of_years_is_a_slip() -> None:
    assert replaced("2026-07-05", "2028-07-05") == [(2, 6, "to", "a walk of 735 days")]


def test_somebody_walks() -> None:
    text = 'from = "2026-07-02 09:00"\nto = "2026-07-05 15:00"\nwalkers = []\n' + DAY
    assert faults(text) == [(3, 11, "walkers", "nobody walks")]


DOG = """
[[dogs]]
name = "Bo"
mass = "22 kg"
carrier = "Anna"
"""


def test_a_dog_has_a_name_of_its_own_and_its_food_rides_with_somebody_who_walks() -> None:
    assert faults(HEAD + DAY + DOG) == []
    line = len((HEAD + DAY).splitlines())
    nobody = "nobody of this name walks"
    assert faults(HEAD + DAY + DOG.replace("Anna", "Nobody")) == [
        (line + 5, 11, "dogs[0].carrier", nobody)
    ]
    assert faults(HEAD + DAY + DOG + DOG.replace('"Bo"', '"BO"')) == [
        (line + 8, 8, "dogs[1].name", "a name given twice")
    ]


@each("name", ["Anna", "ANNA", "Änna"])
def test_names_differ_in_their_letters(name: str) -> None:
    assert replaced('"Ben"', f'"{name}"') == [(8, 8, "walkers[1].name", "a name given twice")]


def test_names_without_latin_letters_are_fine() -> None:
    assert replaced('"Ben"', '"Бен"') == []


def test_some_way_is_given() -> None:
    assert faults(HEAD + "[route]\n") == [(10, 1, "route", "no way is given")]


def test_the_way_is_given_once() -> None:
    wrong = "both a track and typed days"
    assert replaced("[route]", '[route]\ntrack = "a.gpx"') == [(11, 9, "route.track", wrong)]


@each(
    ("key", "column"), [('camps = ["A"]', 9), ('cuts = ["9 km"]', 8), ("equal_days = true", 14)]
)
def test_a_cut_needs_a_track(key: str, column: int) -> None:
    name = key.split(" ")[0]
    assert replaced("[route]", f"[route]\n{key}") == [
        (11, column, f"route.{name}", f"{name} without a track")
    ]


def test_a_track_is_cut_in_one_way() -> None:
    text = HEAD + TRACK + 'camps = ["A"]\ncuts = ["9 km"]\n'
    assert faults(text) == [(13, 8, "route.cuts", "both camps and cuts")]


def test_cuts_lie_one_behind_the_other() -> None:
    text = HEAD + TRACK + 'cuts = ["9 km", "20 km", "15 km", "5.1 mi"]\n'
    assert [(line, column) for line, column, *_ in faults(text)] == [(12, 26), (12, 35)]


def test_no_more_days_are_typed_than_the_walk_has() -> None:
    day = '[[route.days]]\ndistance = "10 km"\n'
    assert faults(HEAD + day * 4) == []
    assert faults(HEAD + day * 5) == [(18, 1, "route.days[4]", "5 days are typed, the walk has 4")]


@each(
    ("day", "path", "wrong"),
    [
        ('up = "700 m"', "", "a day without its distance"),
        ('distance = "0 km"\nup = "700 m"', ".distance", "a climb without distance"),
        ('distance = "9 km"\nhighest = "900 m"\ncamp_height = "950 m"', ".highest",
         "below the night's camp"),
        ('distance = "9 km"\nstretches = [{ distance = "4 km" }, { distance = "4 km" }]',
         ".distance", "the stretches make 8.0 km"),
        ('distance = "9 km"\nwater = [{ distance = "10 km" }]', ".water[0]",
         "water beyond the end of the day"),
        ('distance = "9 km"\nwater = ["4 km", "6 mi"]', ".water[1]",
         "water beyond the end of the day"),
    ],
)  # fmt: skip
def test_a_typed_day_makes_sense(day: str, path: str, wrong: str) -> None:
    found = faults(HEAD + "[[route.days]]\n" + day + "\n")
    assert [(p, w) for *_, p, w in found] == [(f"route.days[0]{path}", wrong)]


def test_a_day_of_rest_and_a_day_of_stretches_are_fine() -> None:
    rest = '[[route.days]]\ndistance = "0 km"\n'
    stretches = '[[route.days]]\nstretches = [{ distance = "4 km", grade = "-5%" }]\n'
    assert faults(HEAD + rest + stretches) == []


@each(
    ("cans", "path"),
    [
        ('["123 g"]', "kit.cans[0]"),
        ('["230 g", { net = "123 g" }]', "kit.cans[1]"),
        ('[{ net = "230 g", now = "100 g" }]', "kit.cans[0].now"),
        ('[{ net = "230 g", empty = "150 g", now = "500 g" }]', "kit.cans[0].now"),
    ],
)
def test_a_can_weighs_what_it_may(cans: str, path: str) -> None:
    assert [p for *_, p, _ in faults(HEAD + DAY + f"[kit]\ncans = {cans}\n")] == [path]


@each("cans", ['"230 g"', '["8 oz"]', '[{ net = "123 g", empty = "80 g" }]',
                                  '[{ net = "230 g", now = "310 g" }]'])  # fmt: skip
def test_common_cans_and_weighed_ones_are_fine(cans: str) -> None:
    assert faults(HEAD + DAY + f"[kit]\ncans = {cans}\n") == []


@each(
    ("text", "path"),
    [
        ('[[rules.holds]]\nfood = "oats"\nwalker = "Bem"\n', "rules.holds[0].walker"),
        ('[[rules.bans]]\nfood = "oats"\nwalker = "Amna"\n', "rules.bans[0].walker"),
        ('[[kit.containers]]\ncarrier = "Carl"\n', "kit.containers[0].carrier"),
        ("[now]\nday = 5\n", "now.day"),
    ],
)
def test_who_and_when_is_part_of_the_walk(text: str, path: str) -> None:
    assert [p for *_, p, _ in faults(HEAD + DAY + text)] == [path]


@each("text", [
    '[[rules.holds]]\nfood = "oats"\nwalker = "Carl"\n',
    '[[rules.bans]]\nfood = "oats"\nwalker = "Carl"\n',
    '[[rules.holds]]\nfood = "oats"\ndate = "2026-07-06"\n',
    '[[rules.bans]]\nfood = "oats"\ndate = "2026-07-01"\n',
])  # fmt: skip
def test_a_hold_or_ban_that_no_longer_applies_is_no_fault_and_is_kept_for_nobody_else(
    text: str,
) -> None:
    """DESIGN, section 5: one that no longer applies is reported, never dropped."""
    assert faults(HEAD + DAY + text) == []
    trip = parse_trip(HEAD + DAY + text, "trip.toml")
    (hold,) = trip.rules.holds
    walkers = {w.id for w in trip.walkers}
    assert hold.walker not in walkers
    assert (hold.walker == "carl") is ("Carl" in text)


@each("name", ["Anna", "anna", "BEN"])
def test_a_walker_is_named_in_any_case(name: str) -> None:
    assert faults(HEAD + DAY + f'[[rules.holds]]\nfood = "oats"\nwalker = "{name}"\n') == []


def test_a_late_walk_may_be_on_a_later_day() -> None:
    assert faults(HEAD + DAY + "[now]\nday = 5\ndays_late = 1\n") == []


def test_a_time_that_the_clocks_leave_out_is_a_fault() -> None:
    text = HEAD.replace("2026-07-02 09:00", "2026-03-29 02:30") + DAY
    assert (1, 8, "from") in [one[:3] for one in faults(text)]


# ------------------------------------------------------------ beside values that are at fault


def test_answers_are_compared_even_where_other_values_are_at_fault() -> None:
    text = (
        HEAD.replace("2026-07-05", "2025-07-05")
        .replace('"68 kg"', '"68"')
        .replace('"Ben"', '"Anna"')
        + 'pace = "4 km/h"\n[route]\ntrack = "x.gpx"\nusual_day = { distance = 16 }\nspeedd = 1\n'
    )
    assert [(line, path) for line, _, path, _ in faults(text)] == [
        (2, "to"),
        (6, "walkers[0].mass"),
        (8, "walkers[1].name"),
        (12, "route.track"),
        (13, "route.usual_day.distance"),
        (14, "route.speedd"),
    ]


@each(
    ("old", "new", "path"),
    [
        ('to = "2026-07-05 15:00"', 'to = "noon"', "to"),
        ('from = "2026-07-02 09:00"', 'from = "2026-07-09"', "from"),
        ('from = "2026-07-02 09:00"', "from = 2026-07-09 9:00", "from"),
        ('from = "2026-07-02 09:00"', 'form = "2026-07-09 09:00"', "form"),
        ('name = "Anna"', "name = Anna", "walkers[0].name"),
        ('name = "Anna"', 'nmae = "Anna"', "walkers[0].nmae"),
        ("usual_day", "usual_dai", "route.usual_dai"),
        ("[route]", "[rout]", "rout"),
    ],
)
def test_nothing_is_said_that_rests_on_a_value_at_fault(old: str, new: str, path: str) -> None:
    text = HEAD + DAY + '[[rules.holds]]\nfood = "oats"\nwalker = "Anna"\ndate = "2026-07-03"\n'
    assert [p for *_, p, _ in replaced(old, new, text=text)] == [path]


@each(
    "text",
    ["", "[[walkers]]", "walkers = 3", "route = []", 'walkers = ["a", 2]', "[walkers]", "from = {}",
     "kit = 3\nrules = []\nnow = true", "[[route]]", "[[kit]]\n[[kit]]", "[route]\ndays = [1, 2]",
     "[route.days.x]", "[[walkers]]\nusual = 3\navoids = [[1]]", "larder = { files = { a = 1 } }"],
)  # fmt: skip
def test_a_file_of_another_shape_is_refused_in_words(text: str) -> None:
    found = faults(text)
    assert found
    assert all(wrong for *_, wrong in found)
    assert len({(line, column, path) for line, column, path, _ in found}) == len(found)
