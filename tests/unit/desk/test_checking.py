"""`oatsack check`: every fault and every doubt of all files in one run, each at its place."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from oatsack.cli.main import run
from oatsack.desk.checking import CELLS, Checked, checked
from oatsack.desk.opening import open_trip
from oatsack.errors import UnreadableInput
from oatsack.files.larder import read_larder
from oatsack.larder.plausible import doubts
from oatsack.reports.words import sentences

HEAD = "name;category;pack_g;doses;per;kcal;fat_g;carb_g;protein_g;sodium_mg;role;meals"
SOUND = "Rice;grain;500;5;100 g;360;1;79;7;5;main;dinner"
TRIP = """from = "2027-07-02 09:00"
to = "2027-07-04 15:00"
[[walkers]]
name = "Ines"
mass = "68 kg"
usual = { dinner = ["rice"] }
[route]
days = [{ distance = "12 km", camp = "Alder Brook" }, { distance = "9 km" }, { distance = "8 km" }]
[larder]
files = ["one.csv"]
"""


def found(folder: Path, trip: str = TRIP, **files: str) -> Checked:
    (folder / "trip.toml").write_text(trip, "utf-8")
    for name, text in ({"one": f"{HEAD}\n{SOUND}\n"} | files).items():
        (folder / f"{name}.csv").write_text(text, "utf-8")
    return checked(folder / "trip.toml")


def places(one: Checked) -> list[tuple[str, int, int]]:
    return [(fault.file, fault.line, fault.column) for fault in one.faults]


def test_a_sound_trip_has_neither_fault_nor_doubt(tmp_path: Path) -> None:
    one = found(tmp_path)
    assert (one.faults, one.doubts) == ((), ())
    assert (one.days, one.walkers, one.foods) == (3, 1, 1)


def test_a_food_that_is_not_there_is_told_beside_faults_of_the_trip(tmp_path: Path) -> None:
    trip = TRIP.replace('"68 kg"', '"680 kg"').replace('["rice"]', '["rise", "rice"]')
    assert places(found(tmp_path, trip)) == [("trip.toml", 5, 8), ("trip.toml", 6, 22)]


def test_a_stand_in_for_a_faulty_choice_is_not_looked_up(tmp_path: Path) -> None:
    """A choice at fault is read on as some other food, which is not the owner's word."""
    trip = TRIP.replace('["rice"]', '["-2 rice", "rice"]')
    assert places(found(tmp_path, trip)) == [("trip.toml", 6, 21)]


def test_a_food_whose_own_row_is_at_fault_is_not_missing(tmp_path: Path) -> None:
    one = f"{HEAD}\n{SOUND.replace('500', '5oo')}\n"
    assert places(found(tmp_path, one=one)) == [("one.csv", 2, 12)]


def test_beside_a_row_at_fault_a_food_that_nobody_wrote_is_missing(tmp_path: Path) -> None:
    one = f"{HEAD}\n{SOUND.replace('500', '5oo')}\n"
    trip = TRIP.replace('["rice"]', '["rice", "stew"]')
    assert places(found(tmp_path, trip, one=one)) == [("trip.toml", 6, 30), ("one.csv", 2, 12)]


def test_beside_a_row_without_a_name_nothing_is_said_to_be_missing(tmp_path: Path) -> None:
    one = f"{HEAD}\n{SOUND.replace('Rice', '')}\n"
    assert places(found(tmp_path, one=one)) == [("one.csv", 2, 1)]


def test_beside_a_larder_that_is_not_there_nothing_is_said_to_be_missing(tmp_path: Path) -> None:
    trip = TRIP.replace('"one.csv"', '"one.csv", "two.csv"').replace('["rice"]', '["stew"]')
    assert places(found(tmp_path, trip)) == [("two.csv", 0, 0)]


def test_a_dislike_is_not_judged_where_the_class_of_a_row_is_not_known(tmp_path: Path) -> None:
    one = f"{HEAD}\n{SOUND}\nNuts;nut;2oo;1;100 g;600;50;20;20;5;snack;move\n"
    trip = TRIP.replace("usual", 'dislikes = ["nut", "stew"]\nusual')
    assert places(found(tmp_path, trip, one=one)) == [("one.csv", 3, 10)]
    assert places(found(tmp_path, trip))[0][:2] == ("trip.toml", 6)


def test_a_place_that_the_way_lacks_is_told_beside_faults_elsewhere(tmp_path: Path) -> None:
    trip = TRIP.replace("[larder]", 'dry_camps = ["Elder Brook"]\n[larder]')
    trip = trip.replace('"68 kg"', '"680 kg"')
    assert places(found(tmp_path, trip)) == [("trip.toml", 5, 8), ("trip.toml", 9, 15)]


def test_a_way_at_fault_is_not_held_against_its_places(tmp_path: Path) -> None:
    trip = TRIP.replace("[larder]", 'dry_camps = ["Elder Brook"]\n[larder]')
    trip = trip.replace('"12 km"', '"12 cows"')
    assert [fault.line for fault in found(tmp_path, trip).faults] == [8]


def test_the_trips_own_faults_come_first_and_each_files_in_its_order(tmp_path: Path) -> None:
    trip = TRIP.replace('["rice"]', '["stew"]').replace('"Ines"', "7")
    one = f"{HEAD}\n{SOUND.replace(';1;79', ';x;y')}\n{SOUND.replace('Rice', 'Millet')}\n"
    shown = places(found(tmp_path, trip, one=one))
    assert shown == sorted(shown, key=lambda at: (at[0] != "trip.toml", at))
    assert [file for file, _, _ in shown] == ["trip.toml", "trip.toml", "one.csv", "one.csv"]


def test_opening_refuses_with_the_same_faults(tmp_path: Path) -> None:
    trip = TRIP.replace('"68 kg"', '"680 kg"').replace('["rice"]', '["stew"]')
    one = found(tmp_path, trip)
    with pytest.raises(UnreadableInput) as caught:
        open_trip(tmp_path / "trip.toml")
    assert caught.value.faults == one.faults


ODD = [
    ("kj-as-kcal", SOUND.replace(";360;", ";1506;"), "kcal"),
    ("doses-over-pack", SOUND.replace(";5;100 g", ";5;100 g") + ";200", "doses"),
    ("sodium-high", SOUND.replace(";5;main", ";30000;main"), "sodium_mg"),
    ("pack-in-ounces", SOUND.replace(";500;5;", ";8;1;"), "pack_g"),
]


def test_every_doubt_stands_at_the_cell_that_it_is_about(tmp_path: Path) -> None:
    head = HEAD + ";dose_g"
    wrong = []
    for key, row, column in ODD:
        one = found(tmp_path, one=f"{head}\n{SOUND}\n{row.replace('Rice', 'Odd')}\n")
        at = head.split(";").index(column)
        place = len(";".join(row.replace("Rice", "Odd").split(";")[:at])) + 2
        keys = [flag.key for food in read_larder(f"{head}\n{row}\n".encode(), "one.csv")
                for flag in doubts(food)]  # fmt: skip
        if f"larder.{key}" not in keys or f"one.csv:3:{place}: Odd" not in "\n".join(one.doubts):
            wrong.append((key, keys, one.doubts))
    assert wrong == []


def test_doubts_are_told_beside_faults(tmp_path: Path) -> None:
    row = SOUND.replace(";360;", ";1506;").replace("Rice", "Millet")
    one = found(tmp_path, TRIP.replace('"68 kg"', "68"), one=f"{HEAD}\n{SOUND}\n{row}\n")
    assert len(one.faults) == 1
    assert one.doubts[0].startswith("one.csv:3:26: Millet: 1,510 kcal")
    assert re.search(r"^ {29}\^$", one.doubts[0], re.M)


def test_doubts_of_a_file_with_faults_name_their_line(tmp_path: Path) -> None:
    row = SOUND.replace(";360;", ";1506;").replace("Rice", "Millet")
    broken = SOUND.replace("500", "5oo").replace("Rice", "Oats")
    one = found(tmp_path, one=f"{HEAD}\n{SOUND}\n{row}\n{broken}\n")
    assert one.doubts[0].startswith("one.csv:3: Millet: ")


def test_a_label_that_its_owner_confirmed_is_not_doubted(tmp_path: Path) -> None:
    row = SOUND.replace(";360;", ";1506;")
    one = found(tmp_path, one=f"{HEAD};confirmed\n{row};yes\n")
    assert one.doubts == ()


def test_every_doubt_that_has_a_cell_has_a_sentence() -> None:
    assert [key for key in CELLS if f"flags.larder.{key}" not in sentences()] == []


def test_holds_and_bans_that_no_longer_apply_are_noted_with_their_lines(tmp_path: Path) -> None:
    """DESIGN, section 5: reported, never dropped, and never what stops a plan."""
    more = """
[[rules.holds]]
food = "rice"
walker = "Jonathan"
[[rules.holds]]
food = "rice"
date = "2028-07-03"
[[rules.bans]]
food = "moon-cheese"
"""
    one = found(tmp_path, TRIP + more.lstrip())
    assert one.faults == ()
    last = len(TRIP.splitlines())
    gate = {key: sentences()[f"gate.{key}"] for key in ("nobody", "no-day", "unknown")}
    gone = "was to be kept or left out, and that no longer applies"
    assert [note for note in one.notes if gone in note] == [
        f"trip.toml:{last + line}: {food} {gone} ({gate[why]})."
        for line, food, why in ((2, "Rice", "nobody"), (5, "Rice", "no-day"),
                                (8, "moon-cheese", "unknown"))
    ]  # fmt: skip


def test_the_verb_says_all_and_answers_by_its_exit_code(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found(tmp_path)
    assert run(["check", str(tmp_path / "trip.toml")]) == 0
    assert "no fault; 3 days, 1 walker, 1 food\n" in capsys.readouterr().out
    row = SOUND.replace(";360;", ";1506;").replace("Rice", "Millet")
    found(tmp_path, TRIP.replace('"68 kg"', "68"), one=f"{HEAD}\n{SOUND}\n{row}\n")
    assert run(["check", str(tmp_path / "trip.toml")]) == 2
    said = capsys.readouterr()
    assert said.err.startswith("trip.toml:5:8: walkers[0].mass")
    assert "1 label looks odd" in said.out
    assert "no fault" not in said.out


def test_faults_planted_over_three_files_are_all_found_in_one_run(tmp_path: Path) -> None:
    """Trip keys and larder cells are broken by chance; what is found is what was planted."""
    cells = SOUND.split(";")
    wrong = []
    for seed in range(12):
        rng = random.Random(seed)
        lines, planted = TRIP.replace('"one.csv"', '"one.csv", "two.csv"').split("\n"), set()
        for row, column, bad in ((3, 8, 'name = 7'), (4, 8, 'mass = "68 pumpkins"'),
                                 (5, 22, 'usual = { dinner = ["ryce", "rice"] }')):  # fmt: skip
            if rng.random() < 0.5:
                lines[row] = bad
                planted.add(("trip.toml", row + 1, column))
        files = {}
        for name in ("one", "two"):
            rows = [HEAD]
            for number in range(4):
                row, at = [*cells], rng.choice([1, 2, 3, 5, 6, 7, 8, 9, 10, 11])
                row[0] = "Rice" if (name, number) == ("one", 0) else f"Rice {name} {number}"
                if rng.random() < 0.6:
                    row[at] = "x!"
                    start = len(";".join(row[:at])) + 2
                    planted.add((f"{name}.csv", number + 2, start))
                rows.append(";".join(row))
            files[name] = "\n".join(rows) + "\n"
        shown = set(places(found(tmp_path, "\n".join(lines), **files)))
        if shown != planted:
            wrong.append((seed, shown ^ planted))
    assert wrong == []


@pytest.mark.parametrize("verb", ["check", "plan", "need"])
def test_places_off_the_way_are_all_told_at_their_words_by_every_verb(
    verb: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two dry camps on two lines, a resupply, and a place; in the file's order, with the caret."""
    trip = TRIP.replace("[larder]", 'dry_camps = ["Alder Brook",\n  "Elder", "Elm"]\n'
                        'resupply = ["Ash"]\n[[places]]\nname = "Oak"\n[larder]')  # fmt: skip
    found(tmp_path, trip)
    assert run([verb, str(tmp_path / "trip.toml")]) == 2
    said = capsys.readouterr().err
    shown = re.findall(r"^trip\.toml:(\d+):(\d+): .* got '(\w+)'$", said, re.M)
    assert shown == [("10", "4", "Elder"), ("10", "13", "Elm"), ("11", "14", "Ash"),
                     ("13", "9", "Oak")]  # fmt: skip
    assert said.count("^") == 4
