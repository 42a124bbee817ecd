"""What a fault looks like to its owner, how errors end a command, and how a source is cited."""

from __future__ import annotations

import pickle

import pytest

from oatsack import cite, errors
from oatsack.cite import bibliography, key_of
from oatsack.errors import Fault, LarderError, NoPlan, StaleHead, UnitError, UnknownSource
from support.each import each

FAULT = Fault(file="t.toml", path="walkers[0].mass", wrong="no mass", read='"68"',
              instead='write "68 kg"', line=6, column=8, text='mass = "68"')  # fmt: skip


def test_a_fault_tells_place_line_caret_and_what_to_write() -> None:
    assert str(FAULT).split("\n") == [
        't.toml:6:8: walkers[0].mass: no mass, got "68"',
        '    mass = "68"',
        "           ^",
        '    write "68 kg"',
    ]


def test_a_fault_without_a_place_names_the_file_alone_and_no_caret() -> None:
    bare = Fault(file="t.toml", path="the file", wrong="cannot be read", read="nothing", instead="")
    assert str(bare) == "t.toml: the file: cannot be read, got nothing"


def test_all_faults_of_a_file_are_told_one_below_the_other() -> None:
    error = LarderError([FAULT, FAULT])
    assert str(error) == f"{FAULT}\n{FAULT}"
    assert error.faults == (FAULT, FAULT)


@each(
    ("name", "code"),
    [("NoPlan", 1)] + [
        (name, 2)
        for name in ("OatsackError", "UsageError", "NotThere", "TripFileError", "LarderError",
                     "TrackError", "PlanFileError", "UnitError", "UnknownAddress",
                     "UnknownSource", "StaleHead", "SolverFailed")
    ],
)  # fmt: skip
def test_only_a_trip_that_cannot_be_provisioned_ends_with_one(name: str, code: int) -> None:
    assert getattr(errors, name).exit_code == code
    assert issubclass(getattr(errors, name), errors.OatsackError)


@each(
    ("read", "instead", "text"),
    [("", "", "no mass"), ('"x"', "", 'no mass, got "x"'), ("", "write 1 g", "no mass; write 1 g"),
     ('"x"', "write 1 g", 'no mass, got "x"; write 1 g')],
)  # fmt: skip
def test_a_complaint_about_a_quantity_is_one_line(read: str, instead: str, text: str) -> None:
    assert str(UnitError("no mass", read=read, instead=instead)) == text


def test_errors_about_a_key_are_told_without_the_quotes_of_a_key_error() -> None:
    for kind in (errors.UnknownAddress, UnknownSource):
        assert str(kind("nothing stands at need/x")) == "nothing stands at need/x"
        assert isinstance(kind("x"), KeyError)


def test_no_plan_holds_its_reasons_and_a_stale_head_both_texts() -> None:
    error = NoPlan(["too little", "too late"])
    assert (str(error), error.reasons, error.flags) == (
        "too little\ntoo late", ("too little", "too late"), (),
    )  # fmt: skip
    stale = StaleHead(head=3, theirs="a", mine="b")
    assert (stale.head, stale.theirs, stale.mine) == (3, "a", "b")


@each(
    ("citation", "key"), [("Looney2022", "Looney2022"), ("Looney2022, eq. 4", "Looney2022"),
                          (" Looney2022 , p. 3, table 1", "Looney2022"), ("ours", "ours")]
)  # fmt: skip
def test_the_key_stands_before_the_first_comma(citation: str, key: str) -> None:
    assert key_of(citation) == key


def test_each_source_is_told_the_same_alone_as_in_the_whole_bibliography() -> None:
    """One entry is cut out of its file where only one is asked for."""
    told = {key: cite.cite(key) for key in bibliography()}
    assert told == {key: str(source) for key, source in bibliography().items()}
    assert list(bibliography()) == sorted(bibliography())
    assert all(source.key == key for key, source in bibliography().items())


def test_a_place_follows_its_source_in_brackets_and_a_doi_ends_it() -> None:
    plain = next(source for source in bibliography().values() if not source.doi)
    found = next(source for source in bibliography().values() if source.doi)
    assert cite.cite(f"{found.key},  eq. 4, page 2 ") == f"{found} [eq. 4, page 2]"
    assert str(found).endswith(f" doi {found.doi}.")
    assert "doi" not in str(plain)
    assert str(plain).startswith(f"{plain.authors} ({plain.year}). {plain.title}. ")


@each("words", ["common practice", "from memory", "ours", "ours, after Usda2015", "ours, 2"])
def test_words_for_what_has_no_source_stand_for_themselves(words: str) -> None:
    assert cite.cite(words) == words


@each("citation", ["Nobody1900", "Nobody1900, p. 1", "", "looney2022", "Looney202", "]"])
def test_a_key_that_no_file_describes_is_refused_by_name(citation: str) -> None:
    with pytest.raises(UnknownSource, match="bibliography"):
        cite.cite(citation)


def test_a_source_survives_a_copy_to_another_process() -> None:
    source = next(iter(bibliography().values()))
    assert pickle.loads(pickle.dumps(source)) == source
