"""What the mold room warns of, in the maker's units."""

import dataclasses

import pytest

from pourwright.foundation.notation import UnitSystem
from pourwright.materials.batches import Tools


def slow(mold) -> list[str]:
    return [text for text in mold.warnings if "setting" in text]


def test_a_hung_pour_longer_than_the_rubber_works_names_both_times(design, block, choices):
    mold = design(block, wall=0.050)
    count = len(mold.rubber.batches)
    minutes = 5 * count + mold.rubber.mass_mixed
    assert minutes > choices.rubber.working_time.value / 60
    (text,) = slow(mold)
    hours, rest = divmod(round(minutes), 60)
    needed = f"{hours} h {rest} min" if hours else f"{rest} min"
    assert f"needs {needed} for {count} batches, the rubber works for 45 min" in text
    assert 'method = "screwed"' in text
    assert "second person" in text
    assert slow(design(block, method="screwed", wall=0.050)) == []


def test_a_larger_pail_is_named_where_it_helps(design, block, choices):
    small = design(block, tools=Tools(pail=0.002))
    (text,) = slow(small)
    assert small.rubber.mass_mixed + 5 < 45
    assert "a pail of" in text
    assert slow(design(block, tools=Tools(pail=0.030, scale_capacity=60.0))) == []


def test_the_lift_is_told_in_kilograms_or_pounds(design, block, choices):
    (text,) = [text for text in design(block, master_density=700.0).warnings if "floats" in text]
    # 24 litres drowned
    more = 0.024 * (choices.rubber.density.value - 700)
    assert f"{more:.2f} kg more than the master's own 16.80 kg" in text
    us = design(block, units=UnitSystem.US)
    spoken = [*us.warnings, *(why for _, why in us.reasons)]
    assert not [text for text in spoken if " mm" in text or " kg" in text or " N" in text]


def test_defaults_give_their_usual_range(design, block, choices):
    default = design(block, wall=dataclasses.replace(choices).wall)
    assert dict(default.reasons)["mold.wall"].endswith("usual: 10 mm to 25 mm")
    assert sum(seam.length for seam in default.seams) == pytest.approx(2 * (0.34 + 0.24) + 4 * 0.419)
