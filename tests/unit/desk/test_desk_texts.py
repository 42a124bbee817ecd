"""What the desk reads from words and says in lines."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.desk import stove, weighing, whys
from oatsack.desk.opening import digest, doubtful, open_trip, opened
from oatsack.desk.papers import FEW, MANY, papers_for, print_papers
from oatsack.desk.planning import kept_out, read_target, with_target
from oatsack.desk.reading import read_plan
from oatsack.desk.starting import LEVELS, OFFERED, bags, moment, offers, picked, sizes, trip_of
from oatsack.errors import PlanFileError, UnreadableInput, UsageError
from oatsack.files.larder import bundled
from oatsack.files.trip import parse_as_far
from oatsack.files.trip.write import Answers
from oatsack.reports.contents import CONTENTS
from oatsack.values.trip import Trip
from oatsack.values.walker import Avoid, Target
from oatsack.why import Input
from support.each import each
from support.menus import food
from support.packs import people, trip_for
from support.sample_plan import sample_plan

TODAY = dt.date(2026, 6, 3)  # a Wednesday
PLAN = sample_plan()
TRIP = """
title = "One night"
from = 2026-07-03T10:00
to = 2026-07-04T15:00
zone = "Europe/Vienna"
[[walkers]]
name = "Anna"
mass = "62 kg"
[route]
usual_day = { distance = "15 km", up = "650 m" }
[larder]
files = [LARDERS]
"""
HEAD = "id,name,category,per,energy_kcal,pack_g,doses_per_pack"
ROW = HEAD + "\n{id},{name},snack,100 g,450,200,5\n"


def trip_file(folder: Path, *larders: str) -> Path:
    """A trip file that names these larders."""
    path = folder / "trip.toml"
    named = ", ".join(f'"{name}"' for name in larders)
    path.write_text(TRIP.replace("LARDERS", named), "utf-8")
    return path


def larder(folder: Path, file: str, **row: str) -> None:
    """A larder file of one row."""
    (folder / file).write_text(ROW.format(**row), "utf-8")


def test_without_a_name_the_bundled_larder_is_opened(tmp_path: Path) -> None:
    assert open_trip(trip_file(tmp_path)).foods == bundled()


def test_the_word_bundled_is_no_file(tmp_path: Path) -> None:
    found = open_trip(trip_file(tmp_path, "bundled"))
    assert found.foods == bundled()
    assert found.dialects == {}


def test_an_own_larder_stands_alone(tmp_path: Path) -> None:
    larder(tmp_path, "mine.csv", id="own-bar", name="Own bar")
    assert [f.id for f in open_trip(trip_file(tmp_path, "mine.csv")).foods] == ["own-bar"]


def test_an_own_larder_joins_the_bundled_one_where_both_are_named(tmp_path: Path) -> None:
    larder(tmp_path, "mine.csv", id="own-bar", name="Own bar")
    found = open_trip(trip_file(tmp_path, "bundled", "mine.csv"))
    assert len(found.foods) == len(bundled()) + 1


@pytest.mark.parametrize(("order", "name"), [(("a.csv", "b.csv"), "From b"),
                                             (("b.csv", "a.csv"), "From a")])  # fmt: skip
def test_a_row_of_a_later_file_wins(tmp_path: Path, order: tuple[str, ...], name: str) -> None:
    for letter in "ab":
        larder(tmp_path, f"{letter}.csv", id="bar", name=f"From {letter}")
    assert [f.name for f in open_trip(trip_file(tmp_path, *order)).foods] == [name]


def test_every_missing_larder_is_named(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput) as caught:
        open_trip(trip_file(tmp_path, "one.csv", "two.csv"))
    assert {f.file for f in caught.value.faults} >= {"one.csv", "two.csv"}


def test_a_trip_that_is_missing_is_a_fault_of_its_name(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput) as caught:
        open_trip(tmp_path / "none.toml")
    assert [f.file for f in caught.value.faults] == ["none.toml"]


def test_a_trip_in_another_encoding_is_told_with_line_and_byte(tmp_path: Path) -> None:
    path = tmp_path / "trip.toml"
    path.write_bytes(b'# first\ntitle = "Gr\xfcn"\n')
    with pytest.raises(UnreadableInput) as caught:
        open_trip(path)
    (fault,) = caught.value.faults
    assert (fault.line, fault.read) == (2, "byte 0xfc")
    assert "UTF-8" in fault.instead


def test_a_byte_order_mark_does_no_harm(tmp_path: Path) -> None:
    path = trip_file(tmp_path)
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert open_trip(path).trip.title == "One night"


@given(st.text(max_size=30), st.text(max_size=30))
def test_equal_texts_and_only_they_have_equal_digests(one: str, two: str) -> None:
    assert len(digest(one)) == 16
    assert (digest(one) == digest(two)) == (one == two)


def test_a_larder_that_changed_changes_its_hash() -> None:
    trip = trip_for(people(1), 2)
    one, two = opened(trip, [food("bar")]), opened(trip, [food("bar", kcal=451.0)])
    assert one.hashes["trip"] == two.hashes["trip"]
    assert one.hashes["larder"] != two.hashes["larder"]


def test_a_confirmed_label_is_doubted_no_more() -> None:
    odd = food("bar", kcal=2000.0)
    assert doubtful([odd])
    assert doubtful([replace(odd, confirmed=True)]) == ()


@each(("text", "kcal"), [("2200 kcal", 2200.0), ("300 kcal", 300.0), ("12000 kcal", 12_000.0)])
def test_a_target_in_kilocalories(text: str, kcal: float) -> None:
    assert read_target(text) == Target(kcal=kcal)


def test_a_target_in_megajoules_is_a_number_of_kilocalories() -> None:
    assert read_target("9 MJ").kcal == pytest.approx(9000.0 / 4.184, rel=1e-3)


@each("text", ["75%", "75 %"])
def test_a_target_as_a_share(text: str) -> None:
    assert read_target(text) == Target(share=0.75)


@each("text", ["", "lots", "%", "12 kg", "2200", "-5 kcal", "0 kcal", "0%",
                                  "2,200 kcal"])  # fmt: skip
def test_what_is_no_target_is_refused_in_the_name_of_the_option(text: str) -> None:
    with pytest.raises(UsageError, match=r"^--target: "):
        read_target(text)


def test_a_target_of_the_command_keeps_to_the_bounds_of_the_trip_file() -> None:
    """One bound for the file, for `start` and for `--target`: 300 to 12,000 kcal, 20 to 200 %."""
    texts = ("299 kcal", "12001 kcal", "2.2 kcal", "90000 kcal", "19%", "201%", "-85%", "0.1",
             "200 kcal", "hungry", "light", "usual", "2200 kcal", "85%", "3/4")  # fmt: skip
    told = {}
    for text in texts:
        try:
            found = read_target(text)
        except UsageError as error:
            assert str(error).startswith("--target: ")
            found = None
        trip = (
            'from = "2026-07-02 09:00"\nto = "2026-07-05 15:00"\n'
            f'[[walkers]]\nmass = "68 kg"\ntarget = "{text}"\n'
            '[route]\nusual_day = { distance = "16 km", up = "700 m" }\n'
        )
        parsed = parse_as_far(trip, "trip.toml")
        filed = parsed.trip.walkers[0].target if parsed.trip and not parsed.faults else None
        if found != filed:
            told[text] = (found, filed)
    assert told == {}


def test_a_target_out_of_reason_says_what_to_write() -> None:
    with pytest.raises(UsageError, match=r"out of range, got '200 kcal'; write 300 to 12000 kcal"):
        read_target("200 kcal")


def test_a_target_of_the_command_outranks_everyones_and_is_no_default() -> None:
    trip: Trip = replace(trip_for(people(3, target=Target(share=0.9)), 2),
                         defaults=frozenset({"walkers[1].target", "walkers[1].age"}))  # fmt: skip
    found = with_target(trip, Target(kcal=2000.0))
    assert {w.target for w in found.walkers} == {Target(kcal=2000.0)}
    assert found.defaults == {"walkers[1].age"}
    assert {w.target for w in trip.walkers} == {Target(share=0.9)}


@each("text", ["2026-07-02 09:05", "2026-07-02T09:05", " 2026-07-02 09:05:00 "])
def test_a_date_and_a_clock_are_read(text: str) -> None:
    assert moment(text, TODAY) == dt.datetime(2026, 7, 2, 9, 5)


@each(("text", "day"), [("Wed 09:00", 3), ("thu 9.00", 4), ("Thursday 9:00", 4),
                                           ("Tue 09:00", 9), ("Thu 9 am", 4),
                                           ("fri. 9:00", 5)])  # fmt: skip
def test_a_weekday_is_the_next_one(text: str, day: int) -> None:
    assert moment(text, TODAY) == dt.datetime(2026, 6, day, 9, 0)


@given(st.sampled_from(["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]), st.integers(0, 23),
       st.integers(0, 59), st.dates(dt.date(2025, 1, 1), dt.date(2027, 1, 1)),
       st.integers(0, 1439))  # fmt: skip
def test_the_end_lies_within_a_week_after_the_start(
    word: str, hour: int, minute: int, start: dt.date, clock: int
) -> None:
    after = dt.datetime.combine(start, dt.time()) + dt.timedelta(minutes=clock)
    found = moment(f"{word} {hour}:{minute:02d}", TODAY, after=after)
    assert dt.timedelta() < found - after <= dt.timedelta(days=7)
    assert f"{found:%a}" == word
    assert (found.hour, found.minute) == (hour, minute)


@each("text", ["", "soon", "Thu", "Xyz 09:00", "Thu 24:00", "Thu 09:60",
                                  "2026-02-30 09:00", "2026-07-02"])  # fmt: skip
def test_what_is_no_moment_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(UsageError, match="write for example"):
        moment(text, TODAY)


OFFER = tuple(food(f"f{n}") for n in range(4))


@each(("text", "ids"), [
    ("", ()), ("1", ("f0",)), ("1 3 3", ("f0", "2 f2")), ("4,4,4", ("3 f3",)),
    ("2, 1", ("f1", "f0")),
])  # fmt: skip
def test_numbers_of_the_list_become_foods_with_counts(text: str, ids: tuple[str, ...]) -> None:
    assert picked(text, OFFER) == ids


@each("text", ["0", "5", "-1", "x", "1 x", "²", "1.5"])
def test_what_is_no_number_of_the_list_is_refused(text: str) -> None:
    with pytest.raises(UsageError, match="write 1 to 4"):
        picked(text, OFFER)


@given(st.lists(st.integers(1, 4), max_size=12))
def test_no_pick_is_lost(numbers: list[int]) -> None:
    found = picked(" ".join(map(str, numbers)), OFFER)
    counts = [int(word.split()[0]) if " " in word else 1 for word in found]
    assert sum(counts) == len(numbers)
    assert len(found) == len(set(numbers))


def test_offers_are_few_fitting_and_the_best_liked_first() -> None:
    many = [food(f"m{n}", role="main", meals="dinner", liking=1.0 + n % 5) for n in range(12)]
    found = offers([*many, food("oil", role="topping", meals="dinner"),
                    food("oats", role="main", meals="breakfast")], "dinner")  # fmt: skip
    assert len(found) == OFFERED
    likings = [f.liked_by("") for f in found]
    assert likings == sorted(likings, reverse=True)
    assert all(f.role == "main" and "dinner" in f.meals for f in found)


def test_open_bags_take_turns_sweet_and_salty_and_none_is_forgotten() -> None:
    rows = [food(f"{taste}{n}", carry="bag", taste=taste) for taste, count in
            (("sweet", 4), ("salty", 1)) for n in range(count)]  # fmt: skip
    found = [f.id for f in bags(rows)]
    assert found[:2] == ["sweet0", "salty0"]
    assert set(found) == {f.id for f in rows}


def test_only_bags_for_the_way_are_offered_as_open_bags() -> None:
    assert bags([food("sealed"), food("flour", carry="bag", meals="dinner")]) == ()


ANSWERS = Answers(masses=("68 kg",), begin="2026-07-02 09:00", end="2026-07-03 15:00",
                  distance="14 km", up="500 m")  # fmt: skip


def test_light_usual_and_hungry_stand_in_order_of_mass() -> None:
    found = sizes(ANSWERS, TODAY)
    assert tuple(size.word for size in found) == LEVELS
    assert found[0].food_g < found[1].food_g < found[2].food_g
    assert all(len(size.kcal_day) == 1 for size in found)


def test_an_answer_that_cannot_be_read_is_told_without_a_line_number() -> None:
    with pytest.raises(UsageError) as caught:
        trip_of(replace(ANSWERS, masses=("heavy",)))
    assert "heavy" in str(caught.value)
    assert "your answers:" not in str(caught.value)


def test_one_or_two_take_two_papers_along() -> None:
    assert papers_for(sample_plan(walkers=1)) == papers_for(sample_plan(walkers=2)) == FEW
    assert papers_for(sample_plan(walkers=1, days=6, legs=2)) == (*FEW, "boxes")


def test_a_group_takes_the_set_and_what_it_alone_needs() -> None:
    plan = sample_plan(walkers=3)
    walkers = tuple(replace(w, avoids=()) for w in plan.trip.walkers)
    calm = replace(plan, trip=replace(plan.trip, walkers=walkers),
                   packed=replace(plan.packed, boxes=()))  # fmt: skip
    assert papers_for(calm) == MANY
    wary = (replace(walkers[0], avoids=(Avoid(allergen="milk"),)), *walkers[1:])
    assert papers_for(replace(calm, trip=replace(calm.trip, walkers=wary))) == (*MANY, "allergy")


def test_a_second_leg_brings_the_paper_of_its_box() -> None:
    plan = sample_plan(walkers=3, days=4, legs=2)
    assert plan.packed.boxes
    assert "boxes" in papers_for(plan)


def test_everything_is_every_paper_that_has_something_to_say() -> None:
    every = {c.name for c in CONTENTS if c.paper}
    plan = sample_plan(walkers=3, days=4, legs=2)
    assert set(papers_for(plan, everything=True)) == every
    assert set(FEW) | set(MANY) <= every
    walkers = tuple(replace(w, avoids=()) for w in plan.trip.walkers)
    bare = replace(plan, trip=replace(plan.trip, walkers=walkers),
                   packed=replace(plan.packed, boxes=()),
                   kitchen=replace(plan.kitchen, meals=()))  # fmt: skip
    lost = {"boxes", "allergy", "kitchen", "cook-cards"}
    assert set(papers_for(bare, everything=True)) == every - lost
    assert not lost & set(papers_for(bare))


def test_a_paper_that_does_not_exist_is_refused_before_anything_is_written(tmp_path: Path) -> None:
    with pytest.raises(UsageError):
        print_papers(PLAN, tmp_path / "out", only=("shopping", "nonsense"))
    assert not (tmp_path / "out").exists()


BAG = PLAN.packed.bags[0]


@each("asked", [BAG.id, BAG.id.upper(), str(BAG.number), f" {BAG.number} "])
def test_a_bag_is_found_by_name_or_number(asked: str) -> None:
    assert weighing.found_bag(PLAN, asked) == BAG


@each("asked", ["", "nonsense", "0", "1 2"])
def test_a_bag_that_is_not_there_is_answered_with_those_that_are(asked: str) -> None:
    with pytest.raises(UsageError, match="there is: "):
        weighing.found_bag(PLAN, asked)


def test_the_scale_is_read_in_either_system() -> None:
    assert weighing.read_mass("452 g") == 452.0
    assert weighing.read_mass("1 lb") == pytest.approx(453.59237)


@each("text", ["", "heavy", "3 l", "452"])
def test_a_reading_without_a_mass_is_refused(text: str) -> None:
    with pytest.raises(UsageError):
        weighing.read_mass(text)


def test_a_right_bag_is_one_line_and_a_light_one_says_more() -> None:
    right = weighing.told(PLAN, BAG.id, f"{BAG.gross_g:.0f} g")
    light = weighing.told(PLAN, BAG.id, f"{BAG.gross_g / 2:.0f} g")
    assert len(right) == 1
    assert light[0] != right[0]


BOIL = {"water": "500 ml", "start": "15 C", "end": "90 C"}


def test_three_boils_tell_an_efficiency_to_write_down() -> None:
    lines = stove.told(["211 g, 204 g", "204 g, 197 g", "197 g, 190 g"], fuel="gas", **BOIL)
    assert any("%" in line for line in lines)


def test_a_timed_boil_tells_the_power_too() -> None:
    untimed = stove.told(["211 g, 204 g"], fuel="gas", **BOIL)
    timed = stove.told(["211 g, 204 g, 3 min"], fuel="gas", **BOIL)
    assert len(timed) == len(untimed) + 1


@each(("boil", "fuel", "said"), [
    ("211 g", "gas", "--boil"), ("1 g, 2 g, 3 min, 4", "gas", "--boil"),
    ("heavy, light", "gas", "heavy"), ("211 g, 204 g", "coal", "--fuel"),
])  # fmt: skip
def test_a_boil_that_cannot_be_read_is_refused(boil: str, fuel: str, said: str) -> None:
    with pytest.raises(UsageError, match=said):
        stove.told([boil], fuel=fuel, **BOIL)


@each(("name", "unit"), [
    ("energy_kcal", " kcal"), ("target_kcal_day", " kcal a day"), ("net_g", " g"),
    ("sodium_mg", " mg"), ("start_kg", " kg"), ("boiled_ml", " ml"), ("heat_kj", " kJ"),
    ("start_min", " min"), ("walking_h", " h"), ("ascent_m", " m"), ("grade_pct", " %"),
    ("warm_c", " °C"), ("gap", ""), ("rounds", ""),
])  # fmt: skip
def test_the_end_of_a_name_is_its_unit(name: str, unit: str) -> None:
    assert whys.unit_of(name) == unit


@given(st.floats(-1e9, 1e9, allow_nan=False))
def test_a_shown_number_is_near_and_never_in_powers_of_ten_when_large(value: float) -> None:
    text = whys.shown(value)
    assert float(text.replace(",", "")) == pytest.approx(value, rel=1e-5, abs=1e-12)
    if abs(value) >= 1.0:
        assert "e" not in text


@each(("value", "start"), [
    (True, "True"), (None, "None"), ("word", "word"), (2.5, "2.5"), ((1, 2), "[1, 2]"),
    (tuple(range(9)), "[0, 1, 2, 3, 4, 5, ... 9 in all]"), ({"a": 1}, "{a}"), (object(), "(here)"),
])  # fmt: skip
def test_an_input_in_brief_ends_with_its_origin(value: Any, start: str) -> None:
    line = whys.brief(Input(value=value, origin="here"))
    assert line.startswith(start)
    assert line.endswith("(here)")


def test_a_source_that_is_no_key_stands_for_itself() -> None:
    assert whys.source_text("ours") == "ours"
    assert "2015" in whys.source_text("Usda2015")


def test_a_number_is_told_with_formula_source_and_sureness() -> None:
    lines = whys.told(PLAN, "totals/g_per_person_day")
    assert lines[0].startswith("totals/g_per_person_day = ")
    assert lines[1] == "  = over(net_g, person_days)"
    assert lines[-1] == "  how sure: arithmetic"


def test_a_plan_file_that_is_missing_or_broken_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(PlanFileError, match="cannot be read"):
        read_plan(tmp_path / "plan.json")
    (tmp_path / "plan.json").write_text("{", "utf-8")
    with pytest.raises(PlanFileError):
        read_plan(tmp_path / "plan.json")


def label_code(plan_version: str, *, number: int | None = None) -> str:
    from oatsack.packing.code import Label, encode

    bag = next(b for b in PLAN.packed.bags if not b.sealed)
    return encode(Label(leg=bag.leg, number=number or bag.number, version=plan_version))


def test_a_bag_is_found_by_the_code_on_its_label() -> None:
    from oatsack.reports.telling import version

    bag = next(b for b in PLAN.packed.bags if not b.sealed)
    assert weighing.found_bag(PLAN, label_code(version(PLAN))) == bag
    assert weighing.found_bag(PLAN, label_code(version(PLAN)).lower()) == bag


def test_a_label_misread_or_of_another_version_is_told_apart() -> None:
    from oatsack.reports.telling import version

    code = label_code(version(PLAN))
    misread = code[:-1] + ("A" if code[-1] != "A" else "B")
    for wrong in (misread, label_code(version(PLAN), number=98)):
        with pytest.raises(UsageError, match="a sign is misread"):
            weighing.found_bag(PLAN, wrong)
    with pytest.raises(UsageError, match="belongs to version abcdef of the plan"):
        weighing.found_bag(PLAN, label_code("abcdef"))


def test_foods_that_stay_out_for_an_odd_label_are_a_way_out_until_they_are_confirmed() -> None:
    odd = food("oil", category="fat", kcal=3700.0, fat_g=100.0)
    sound = food("rice", category="grain", kcal=360.0)
    (way,) = kept_out((sound, odd, replace(odd, id="lard")))
    assert (way.key, way.level, way.values) == ("way-out.labels", "note", {"n": 2, "food": "oil"})
    assert kept_out((sound, replace(odd, confirmed=True))) == ()
