"""T09: a rubber mixed one to one needs no sums; by volume both densities decide. A fact of the trade."""

from dataclasses import replace

import pytest

from pourwright.materials import load_materials
from pourwright.materials.batches import split_batches
from pourwright.mold.rubber_work import volume_parts

RUBBERS = load_materials().rubber


@pytest.mark.parametrize("name", [name for name in RUBBERS if "platinum" in name])
def test_equal_parts_by_weight(name: str) -> None:
    # T09
    rubber = RUBBERS[name]
    parts = (rubber.parts_a.value, rubber.parts_b.value)
    assert parts[0] == parts[1]
    for mass in (0.35, 7.5, 45.0):
        assert all(batch.part_a == batch.part_b for batch in split_batches(mass, parts, 8.0, 0.001))


def test_by_volume_with_both_densities() -> None:
    # T09: equal weights of 1.20 and 1.00 kg/l are 1 l to 1.2 l
    rubber = RUBBERS["silicone-platinum-a25"]
    heavy, light = (replace(rubber.density_a, value=value) for value in (1200.0, 1000.0))
    assert volume_parts(replace(rubber, density_a=heavy, density_b=light)) == pytest.approx((100.0, 120.0))
    assert volume_parts(replace(rubber, density_a=light, density_b=light)) == pytest.approx((100.0, 100.0))
