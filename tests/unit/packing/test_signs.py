"""What packing says of itself, flag by flag."""

from __future__ import annotations

from dataclasses import replace

from oatsack.packing.signs import container_signs, keeping_signs, puffed_signs, wrap_signs
from oatsack.reports.words import Voice
from oatsack.values.food import Keep, Pouch
from oatsack.values.kit import Container, Kit
from oatsack.values.pack import Night
from support.packs import LARDER, bag, food, packed, people


def night(day: int, verdict: str, room: float = 10_000.0) -> Night:
    return Night(day=day, needed_low_ml=9_000.0, needed_ml=10_500.0, needed_high_ml=12_000.0,
                 room_ml=room, verdict=verdict)  # type: ignore[arg-type]  # fmt: skip


def test_only_the_first_night_that_may_stay_open_is_named() -> None:
    flags = container_signs([night(1, "likely"), night(2, "unlikely"), night(3, "no")])
    assert [(f.key, f.level, f.values["day"]) for f in flags] == [
        ("packing.container.unlikely", "caution", 2)
    ]


def test_a_night_without_containers_says_nothing() -> None:
    assert container_signs([night(1, "no", room=0.0)]) == []


def test_flattening_is_advised_where_it_makes_the_difference() -> None:
    assert puffed_signs([night(1, "likely")], [night(1, "no")])[0].level == "quiet"
    assert puffed_signs([night(1, "likely")], [night(1, "likely")]) == []
    assert puffed_signs([night(1, "no")], [night(1, "no")]) == []


def test_a_bag_that_keeps_says_nothing() -> None:
    assert keeping_signs([bag(eat_by_day=3, day=2)], LARDER, {1: (1, 5)}) == []
    assert keeping_signs([bag(eat_by_day=None, day=5)], LARDER, {1: (1, 5)}) == []


def test_assumed_wrappings_and_volumes_are_counted_once_per_food() -> None:
    blank = food("blank", carry="sealed", wrap_g=None, pack_ml=None)
    bags = [bag("1", {"blank": 50.0}), bag("2", {"blank": 50.0, "oats": 50.0})]
    flags = {f.key: f.values["count"] for f in wrap_signs(bags, {**LARDER, "blank": blank})}
    assert flags == {"packing.wrap.assumed": 1, "packing.volume.assumed": 1}
    assert wrap_signs([bag()], LARDER) == []


def test_the_sentences_read_as_a_walker_would_say_them() -> None:
    pouch = Pouch(flat_ml=200.0, puffed_ml=900.0)
    stew = replace(LARDER["lentils"], carry="sealed", pack_g=100.0, doses_per_pack=2.0,
                   pack_ml=200.0, pouch=pouch)  # fmt: skip
    cheese = replace(LARDER["cheese"], keep=Keep(opened_days=2.0))
    foods = {**LARDER, "lentils": stew, "cheese": cheese}
    wide = packed(people(1), 5, foods=foods, kit=Kit(containers=(Container(),)))
    just = Kit(containers=(Container(volume_ml=1.04 * wide.nights[0].needed_ml),))
    plan = packed(people(1), 5, foods=foods, kit=just)
    voice = Voice(foods={"cheese": "Hard cheese"}, walkers={"a": "Anna"})
    said = [voice.flag(f) for f in plan.flags]
    assert any(text.startswith("Hard cheese (") for text in said)
    assert any("Press the air out of pouches" in text for text in said)
    assert not any("{" in text for text in said)
