"""A label still being typed: what is said is about what stands there, never about a gap."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from oatsack.desk.labels import judged, so_far
from oatsack.files.larder_columns import BY_NAME

WHOLE = {
    "name": "Rye crackers", "category": "bread", "pack_g": "200 g", "doses": "10", "dose_g": "20 g",
    "per": "100 g", "kcal": "350", "protein_g": "10", "fat_g": "2", "carb_g": "70",
    "sodium_mg": "500",
}  # fmt: skip


def test_a_true_label_is_never_doubted_in_whatever_order_it_is_typed() -> None:
    wrong = {}
    for order in (list(WHOLE), list(reversed(WHOLE)), sorted(WHOLE)):
        for count in range(len(order) + 1):
            found = so_far({key: WHOLE[key] for key in order[:count]})
            if found.doubts or found.faults:
                wrong[tuple(order[:count])] = found
    assert wrong == {}


def test_kilojoules_are_doubted_before_the_label_has_a_name_or_a_pack() -> None:
    found = so_far({"per": "100 g", "kcal": "1464", "category": "bread"})
    assert [f.key for f in found.doubts] == ["larder.kj-as-kcal"]
    assert so_far({"kcal": "1464", "category": "bread"}).doubts == (), "per what is not said yet"


def test_a_whole_label_is_doubted_as_it_is_when_it_is_sent() -> None:
    for slip in ({"kcal": "1464"}, {"kcal": "35"}, {"doses": "40"}, {"sodium_mg": "50000"}):
        sent, typed = judged(WHOLE | slip), so_far(WHOLE | slip)
        assert [f.key for f in typed.doubts] == [f.key for f in sent.doubts] != [], slip


def test_what_is_at_fault_keeps_nothing_else_from_being_doubted() -> None:
    found = so_far(WHOLE | {"kcal": "1464", "price": "two", "doses": "some"})
    assert {f.path.rpartition(": ")[2] for f in found.faults} == {"price", "doses"}
    assert "larder.kj-as-kcal" in [f.key for f in found.doubts]


def test_what_needs_the_mass_of_a_pack_waits_for_it() -> None:
    for given_ in ({"doses": "7", "dose_g": "400 g"}, {"pack_ml": "9000"}, {"wrap_g": "900"},
                   {"per": "pack", "kcal": "4000", "category": "bread"}):  # fmt: skip
        found = so_far(given_)
        assert (found.doubts, found.faults) == ((), ()), given_


def test_a_blank_is_no_fault() -> None:
    for key in BY_NAME:
        assert so_far({key: "  "}).faults == (), key
    assert so_far({}).faults == ()


@given(st.dictionaries(st.sampled_from(sorted(BY_NAME)), st.text(max_size=12), max_size=6))
def test_whatever_is_typed_only_typed_columns_are_at_fault(typed: dict[str, str]) -> None:
    found = so_far(typed)
    at_fault = set(found.beside())
    assert at_fault <= {key for key, text in typed.items() if text.strip()} & set(BY_NAME)
    assert not (found.food is None and found.doubts)


def test_each_slip_alone_is_told_once() -> None:
    for one, other in itertools.pairwise(("1464", "35", "1464")):
        assert so_far(WHOLE | {"kcal": one}).doubts != so_far(WHOLE | {"kcal": other}).doubts
