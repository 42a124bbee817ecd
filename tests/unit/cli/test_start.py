"""`oatsack start`: what is asked, in which order, what is refused, and what is left behind.

Answers are typed by the test; planning itself is put aside (journeys do the whole)."""

from __future__ import annotations

import io
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from oatsack.cli.main import run
from oatsack.cli.verbs import plan as plan_verb
from oatsack.cli.verbs.start import Talk, _day, _masses, four
from oatsack.desk.starting import as_energy, listed
from oatsack.errors import UsageError
from oatsack.files.trip import read_trip
from support.each import each

GIVEN = {
    "mass": ["68 kg"], "from": "2027-07-01 09:00", "to": "2027-07-04 15:00",
    "day": "16 km, 700 m", "eat": "usual",
}  # fmt: skip

ASKING, NOBODY = Talk(open_ended=True), Talk(open_ended=False)


class Typist:
    """Types prepared answers, and keeps the questions."""

    def __init__(self, answers: list[str]) -> None:
        self.answers, self.asked = iter(answers), []

    def __call__(self, question: str = "") -> str:
        """The next answer."""
        self.asked.append(question.strip())
        return next(self.answers)


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch) -> Iterator[Any]:
    """Lets a test say what is typed at a terminal."""

    def prepare(*answers: str) -> Typist:
        typist = Typist(list(answers))
        monkeypatch.setattr("builtins.input", typist)
        monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
        return typist

    yield prepare


@pytest.fixture
def planned(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Puts planning aside and keeps which files would have been planned."""
    files: list[Path] = []
    monkeypatch.setattr(plan_verb, "plan", lambda file, **_: files.append(file) or 0)
    return files


def test_four_questions_are_asked_and_no_more(typed: Any) -> None:
    typist = typed("68 kg", "2027-07-01 09:00", "2027-07-04 15:00", "16 km, 700 m", "usual")
    answers = four(ASKING, dict.fromkeys(GIVEN))
    assert [question[:1] for question in typist.asked] == ["1", "2", "t", "3", "4"]
    assert answers.masses == ("68 kg",)
    assert (answers.distance, answers.up, answers.target) == ("16 km", "700 m", "usual")


def test_the_mass_of_three_levels_stands_beside_the_fourth_question(
    typed: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    typed("light")
    four(ASKING, {**GIVEN, "eat": None})
    lines = [line.split() for line in capsys.readouterr().out.splitlines()]
    levels = {line[0]: line for line in lines if line and line[0] in ("light", "usual", "hungry")}
    energy = [float(levels[word][2].replace(",", "")) for word in ("light", "usual", "hungry")]
    mass = [float(levels[word][-2]) for word in ("light", "usual", "hungry")]
    assert energy == sorted(energy)
    assert mass == sorted(mass)
    assert levels["light"][-1] == "kg"


def test_us_answers_are_answered_in_us_units(
    typed: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    typed("hungry")
    four(ASKING, {**GIVEN, "mass": ["150 lb"], "day": "10 mi, 2300 ft", "eat": None})
    told = capsys.readouterr().out
    assert " lb" in told
    assert " kg" not in told


def test_an_answer_that_is_wrong_is_asked_again_with_the_reason(
    typed: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    typist = typed("heavy", "68", "68 kg")
    four(ASKING, {**GIVEN, "mass": None})
    assert len(typist.asked) == 3
    told = capsys.readouterr().out
    assert "not a mass" in told
    assert "without its unit" in told


def test_an_end_before_the_beginning_is_asked_again(typed: Any) -> None:
    typist = typed("2027-06-30 12:00", "2027-07-02 12:00")
    answers = four(ASKING, {**GIVEN, "to": None})
    assert len(typist.asked) == 2
    assert answers.end == "2027-07-02 12:00"


@each("missing", ["mass", "from", "to", "day"])
def test_nobody_to_ask_names_the_option_that_is_missing(missing: str) -> None:
    with pytest.raises(UsageError, match=f"--{missing} is missing"):
        four(NOBODY, {**GIVEN, missing: None})


def test_a_number_alone_is_taken_as_kilocalories(typed: Any) -> None:
    typed("2,200")
    assert four(ASKING, {**GIVEN, "eat": None}).target == "2200 kcal"


def test_several_walkers_are_named_in_one_line(typed: Any) -> None:
    typed("68 kg, 55 kg and 80 kg")
    assert four(ASKING, {**GIVEN, "mass": None}).masses == ("68 kg", "55 kg", "80 kg")


@each(("text", "reason"), [
    ("far", "not a length"), ("16", "without its unit"), ("16 km, 700 m, 3 h", "how far"),
])  # fmt: skip
def test_a_day_that_cannot_be_read_is_refused(text: str, reason: str) -> None:
    with pytest.raises(UsageError, match=reason):
        four(NOBODY, {**GIVEN, "day": text})


def test_without_a_terminal_no_favourites_are_asked(
    tmp_path: Path, planned: list[Path], capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "t.toml"
    words = ["--mass", "68 kg", "--from", GIVEN["from"], "--to", GIVEN["to"], "--day",
             "16 km, 700 m", "--eat", "75%", "--file", str(file)]  # fmt: skip
    assert run(["start", *words]) == 0
    assert planned == [file]
    assert "favourites" not in capsys.readouterr().out


def test_what_was_picked_stands_in_the_trip_file_as_the_usual(
    tmp_path: Path, planned: list[Path], typed: Any
) -> None:
    typed("1", "2 3", "", "1", "1 1")
    file = tmp_path / "t.toml"
    words = ["--mass", "68 kg", "--from", GIVEN["from"], "--to", GIVEN["to"], "--day",
             "16 km, 700 m", "--eat", "usual", "--file", str(file)]  # fmt: skip
    assert run(["start", *words]) == 0
    usual = tomllib.loads(file.read_text(encoding="utf-8"))["walkers"][0]["usual"]
    assert len(usual["breakfast"]) == 1
    assert len(usual["lunch"]) == 2
    assert "dinner" not in usual
    assert len(usual["bags"]) == 1
    assert usual["counts"][0].startswith("2 ")
    assert read_trip(file).walkers[0].usual.bags


def test_a_number_that_is_not_in_the_list_is_asked_again(
    tmp_path: Path, planned: list[Path], typed: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    typist = typed("99", "", "", "", "", "")
    words = ["--mass", "68 kg", "--from", GIVEN["from"], "--to", GIVEN["to"], "--day",
             "16 km, 700 m", "--eat", "usual", "--file", str(tmp_path / "t.toml")]  # fmt: skip
    assert run(["start", *words]) == 0
    assert len(typist.asked) == 6
    assert "99" in capsys.readouterr().out


@each(
    ("text", "masses"),
    [
        ("68 kg, 55 kg", ("68 kg", "55 kg")),
        ("68,5 kg", ("68,5 kg",)),
        ("68,5 kg, 55,2 kg and 80 kg", ("68,5 kg", "55,2 kg", "80 kg")),
        ("68kg,55kg", ("68kg", "55kg")),
        ("150 lb, , 11 st 6", ("150 lb", "11 st 6")),
    ],
)
def test_a_comma_inside_a_number_does_not_part_two_walkers(
    text: str, masses: tuple[str, ...]
) -> None:
    # C1: people write "1,5 kg" as well as "1.5 kg".
    assert tuple(listed(text)) == masses
    _masses(text)


@each(
    ("text", "distance", "up"),
    [
        ("16 km, 700 m", "16 km", "700 m"),
        ("16,5 km, 700 m", "16,5 km", "700 m"),
        ("16,5 km and 700 m", "16,5 km", "700 m"),
        ("10 mi,2300 ft", "10 mi", "2300 ft"),
        ("16 km", "16 km", "0 m"),
        ("12½ km", "12½ km", "0 m"),
        ("1 1/2 mi", "1 1/2 mi", "0 m"),
    ],
)
def test_a_usual_day_is_a_way_and_a_climb_as_they_were_written(
    text: str, distance: str, up: str
) -> None:
    assert _day(text) == (distance, up)


@each("text", ["16 km 700 m", "16 km 700m", "10 mi 2300 ft"])
def test_a_way_and_a_climb_without_a_comma_are_not_taken_for_one_way(text: str) -> None:
    # As one quantity it would be 16.7 km without a metre of climb.
    with pytest.raises(UsageError, match="comma"):
        _day(text)


@each(
    ("typed", "kcal"),
    [("2200", "2200 kcal"), ("2,200", "2200 kcal"), ("2 200", "2200 kcal"), ("", "usual"),
     ("75%", "75%"), ("light", "light"), ("9200 kJ", "9200 kJ")],
)  # fmt: skip
def test_a_bare_number_is_meant_in_kilocalories_and_nothing_means_usual(
    typed: str, kcal: str
) -> None:
    assert as_energy(typed) == kcal


def test_answers_can_be_piped_in_a_line_each_with_favourites_after_them(
    monkeypatch: pytest.MonkeyPatch, planned: list[Path], tmp_path: Path
) -> None:
    lines = ["68 kg, 55 kg", "2027-07-01 09:00", "2027-07-04 15:00", "16 km, 700 m", "usual"]
    for picks, loved in (([], False), (["1", "", "2"], True)):
        monkeypatch.setattr(sys, "stdin", io.StringIO("\n".join([*lines, *picks]) + "\n"))
        assert run(["start", "--file", str(tmp_path / "t.toml")]) == 0
        walkers = tomllib.loads((tmp_path / "t.toml").read_text("utf-8"))["walkers"]
        assert [w["mass"] for w in walkers] == ["68 kg", "55 kg"]
        assert ("usual" in walkers[0]) is loved
        assert not loved or set(walkers[0]["usual"]) == {"breakfast", "dinner"}
    assert len(planned) == 2


def test_a_piped_answer_that_cannot_be_read_or_is_missing_ends_it_with_two(
    monkeypatch: pytest.MonkeyPatch, planned: list[Path], tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    for text, word in (("68\n", "without its unit"), ("68 kg\n", "--from is missing"),
                       ("", "--mass is missing")):  # fmt: skip
        monkeypatch.setattr(sys, "stdin", io.StringIO(text))
        assert run(["start", "--file", str(tmp_path / "t.toml")]) == 2
        assert word in capsys.readouterr().err
    monkeypatch.setattr(sys, "stdin", None)  # closed by whoever called
    assert run(["start", "--file", str(tmp_path / "t.toml")]) == 2
    assert not planned and not (tmp_path / "t.toml").exists()


def test_options_alone_ask_nothing_of_a_pipe_that_stays_open(
    monkeypatch: pytest.MonkeyPatch, planned: list[Path], tmp_path: Path
) -> None:
    class Open(io.StringIO):
        def __next__(self) -> str:
            raise AssertionError("nothing was to be read")

    monkeypatch.setattr(sys, "stdin", Open())
    assert run(["start", "-m", "68 kg", "--from", "2027-07-01 09:00", "--to", "2027-07-04 15:00",
                "--day", "16 km, 700 m", "--eat", "usual", "--file", str(tmp_path / "t.toml")]
               ) == 0  # fmt: skip
    assert len(planned) == 1
