"""The cheap value class against the standard one, field by field and message by message."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Mapping
from dataclasses import field
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.values import frozen


@frozen.dataclass(frozen=True, slots=True, kw_only=True)
class Ours:
    """A value."""

    name: str
    mass_g: float
    parts: tuple[int, ...] = ()
    notes: Mapping[str, int] = field(default_factory=dict)
    code: str | None = field(default=None)

    @property
    def mass_kg(self) -> float:
        return self.mass_g / 1000.0


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Standard:
    """A value."""

    name: str
    mass_g: float
    parts: tuple[int, ...] = ()
    notes: Mapping[str, int] = field(default_factory=dict)
    code: str | None = field(default=None)


@frozen.dataclass(frozen=True, slots=True, kw_only=True)
class Empty:
    """Nothing at all."""


@frozen.dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """One that looks at itself when made."""

    low: float
    high: float = 1.0

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError("low above high")


GIVEN = st.fixed_dictionaries(
    {"name": st.text(max_size=3), "mass_g": st.floats(0, 3)},
    optional={"parts": st.tuples(st.integers(0, 2)), "code": st.sampled_from([None, "a"]),
              "notes": st.dictionaries(st.sampled_from("ab"), st.integers(0, 1), max_size=1)},
)  # fmt: skip


@given(GIVEN, GIVEN)
def test_fields_equality_and_text_are_those_of_the_standard_class(
    one: dict[str, Any], two: dict[str, Any]
) -> None:
    ours, standard = Ours(**one), Standard(**one)
    assert dataclasses.asdict(ours) == dataclasses.asdict(standard)
    assert repr(ours).replace("Ours", "Standard") == repr(standard)
    assert (ours == Ours(**two)) is (standard == Standard(**two))
    assert ours == Ours(**one)
    assert ours != standard
    assert dataclasses.asdict(dataclasses.replace(ours, **two)) == dataclasses.asdict(
        dataclasses.replace(standard, **two)
    )


@given(GIVEN)
def test_equal_values_hash_alike_and_survive_copies(one: dict[str, Any]) -> None:
    value = Ours(**one | {"notes": ()})
    assert hash(value) == hash(Ours(**one | {"notes": ()}))
    for again in (copy.copy(value), copy.deepcopy(value), pickle.loads(pickle.dumps(value))):
        assert again == value


def test_what_dataclasses_tells_is_the_same() -> None:
    def told(cls: Any) -> list[tuple[Any, ...]]:
        return [(f.name, f.type, f.default, f.default_factory, f.kw_only)
                for f in dataclasses.fields(cls)]  # fmt: skip

    assert told(Ours) == told(Standard)
    assert Ours.__slots__ == Standard.__slots__
    assert Ours.__doc__ == Standard.__doc__


def test_wrong_arguments_are_refused_the_first_time_and_later() -> None:
    @frozen.dataclass(frozen=True, slots=True, kw_only=True)
    class Fresh:
        """Never made before."""

        name: str
        size: int = 0

    for _ in range(2):
        for given_ in ({}, {"size": 1}, {"name": "a", "colour": "red"}):
            with pytest.raises(TypeError):
                Fresh(**given_)
        with pytest.raises(TypeError):
            Fresh("a")  # type: ignore[misc]
        assert Fresh(name="a").size == 0


def test_a_value_cannot_be_changed_and_takes_nothing_more() -> None:
    value = Ours(name="a", mass_g=1.0)
    for change in (
        lambda: setattr(value, "name", "b"), lambda: delattr(value, "name"),
        lambda: setattr(value, "colour", "red"),
    ):  # fmt: skip
        with pytest.raises(dataclasses.FrozenInstanceError):
            change()
    assert (value.name, value.mass_kg) == ("a", 0.001)
    assert not hasattr(value, "__dict__")


def test_each_value_has_its_own_default_collection() -> None:
    assert Ours(name="a", mass_g=1).notes is not Ours(name="b", mass_g=1).notes


def test_a_class_without_fields_and_one_that_checks_itself() -> None:
    assert Empty() == Empty()
    assert hash(Empty()) == hash(Empty())
    assert Checked(low=0.5).high == 1.0
    with pytest.raises(ValueError, match="low above high"):
        Checked(low=2.0)


@frozen.dataclass(frozen=True, slots=True)
class Placed:
    """Made by place."""

    name: str
    size: int = 1
    twice: int = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "twice", 2 * self.size)


def test_values_can_be_made_by_place_and_count_fields_of_their_own() -> None:
    assert Placed("a", 3) == Placed(name="a", size=3)
    assert Placed("a", 3).twice == 6
    assert dataclasses.replace(Placed("a", 3), size=4).twice == 8
    with pytest.raises(TypeError):
        Placed("a", 3, 6)  # type: ignore[call-arg]


def test_only_one_form_exists() -> None:
    for frozen_, slots in ((True, False), (False, True)):
        with pytest.raises(TypeError, match="standard one"):
            frozen.dataclass(frozen=frozen_, slots=slots)
