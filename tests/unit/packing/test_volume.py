"""Room that food takes."""

from __future__ import annotations

import pytest

from oatsack.packing.volume import SOFT, STIFF, is_soft, volume_ml
from oatsack.values.food import Pouch
from support.packs import BAR, NUTS, OATS, food


def test_a_stated_volume_is_shared_by_the_doses_of_the_pack() -> None:
    assert volume_ml(BAR, 2.0) == pytest.approx(120.0)


def test_a_food_without_a_volume_takes_the_loose_density_of_its_class() -> None:
    grain = food("g", pack_ml=None, category="grain")
    nut = food("n", pack_ml=None, category="nut")
    assert 0.3 < 50.0 / volume_ml(grain, 1.0) < 0.9
    assert volume_ml(nut, 1.0) != volume_ml(grain, 1.0)


def test_a_pouch_is_flat_unless_puffed() -> None:
    pouch = food("p", pack_g=125.0, dose_g=125.0, doses_per_pack=1.0, carry="sealed", pack_ml=300.0,
                 pouch=Pouch(flat_ml=300.0, puffed_ml=800.0))  # fmt: skip
    assert volume_ml(pouch, 2.0) == 600.0
    assert volume_ml(pouch, 2.0, puffed=True) == 1600.0
    assert volume_ml(OATS, 2.0, puffed=True) == volume_ml(OATS, 2.0)


def test_half_a_pouch_is_half_its_room() -> None:
    pouch = food("p", pack_g=200.0, dose_g=100.0, doses_per_pack=2.0, carry="sealed",
                 pouch=Pouch(puffed_ml=900.0))  # fmt: skip
    assert volume_ml(pouch, 1.0, puffed=True) == 450.0


def test_only_what_stays_sealed_is_stiff() -> None:
    assert is_soft(OATS) and is_soft(NUTS) and not is_soft(BAR)


@pytest.mark.parametrize("form", [SOFT, STIFF])
def test_packing_factors_are_ordered_shares(form) -> None:
    assert 0.0 < form.low < form.likely < form.high < 1.0
