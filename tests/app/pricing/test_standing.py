"""How a piece stands, against statics by hand; shapes and masses are invented."""

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from pourwright.app.pricing.standing import Stance, asked_words, stance_of, stands_words
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import box, cone
from pourwright.geometry.footing import footing_of
from pourwright.jobs import read_job
from tests.app.pricing.costed import JOB

HEAD = JOB.replace('box = ["60 mm", "60 mm", "40 mm"]', "{}")


def stance(
    shape: str, *bands: tuple[float, float, float], mass: float = 4.0, up: str = "+z"
) -> Stance | None:
    """Of a shape, with the mass of each band between two heights [m, kg] as it is poured."""
    piece = read_piece(read_job(HEAD.format(shape), Path("job.toml")))
    found = [SimpleNamespace(from_m=low, to_m=high, glass_kg=kg, resin_kg=0.0) for low, high, kg in bands]
    plan = SimpleNamespace(hollow=None, fill=SimpleNamespace(bands=found))
    part = SimpleNamespace(up=up, flipped=up == "-z", mass_kg=mass)
    planned: Any = SimpleNamespace(plan=plan, mineral=None, piece=part)
    return stance_of(planned, piece)


BOX = 'box = ["60 mm", "60 mm", "40 mm"]'


def test_a_block_leans_as_its_half_width_over_its_half_height() -> None:
    found = stance(BOX)
    assert found
    assert np.tan(np.radians(found.tilt)) == pytest.approx(30 / 20)
    assert found.edge is None
    # 4 kg at 30 mm; 600 N would press 60 mm within the edge: it holds, but for 20 N at 40 mm
    assert found.holds == pytest.approx(4.0 * 9.80665 * 0.03)
    assert found.tips == pytest.approx(-600 * 0.06 + 20 * 0.04)


@pytest.mark.parametrize(("up", "height"), [("+z", 15), ("-z", 25)])
def test_a_heavy_band_moves_the_centre(up: str, height: float) -> None:
    # 3 kg in the middle of the lower half and 1 kg in that of the upper: (3 x 10 + 1 x 30) / 4 = 15 mm
    found = stance(BOX, (0.0, 0.02, 3.0), (0.02, 0.04, 1.0), up=up)
    assert found
    assert np.tan(np.radians(found.tilt)) == pytest.approx(30 / height)


def test_a_foot_is_what_touches_the_floor() -> None:
    # a cone of 100 mm below and 50 mm above: standing on the wide end nothing reaches beyond it
    mesh = cone(0.1, 0.05, 0.3)
    wide, narrow = (footing_of(mesh, flipped=flipped) for flipped in (False, True))
    assert wide
    assert narrow
    assert wide.beyond.max() == pytest.approx(0.0, abs=1e-9)
    assert wide.above.max() == pytest.approx(-0.05, abs=1e-3)
    assert narrow.beyond.max() == pytest.approx(0.05, abs=1e-3)
    assert narrow.inside(np.zeros(2)).min() == pytest.approx(0.05, rel=0.01)
    # one edge alone touches
    turned = box((0.1, 0.1, 0.1)).vertices @ np.array([[0.8, 0.0, 0.6], [0.0, 1.0, 0.0], [-0.6, 0.0, 0.8]])
    assert footing_of(type(mesh)(turned, box((0.1, 0.1, 0.1)).faces), flipped=False) is None


def test_words_for_a_buyer_and_for_the_maker() -> None:
    tall = Stance(tilt=6.4, edge=12.0, holds=27.0, tips=39.0)
    said = stands_words(tall, UnitSystem.METRIC)
    assert "leans by 6°" in said
    assert "Fasten it" in said
    assert "12.0 kg at its outermost edge" in said
    maker = " ".join(asked_words(tall, UnitSystem.METRIC))
    for words in (
        "1300 N",
        "450 N",
        "1000 N",
        "400 N",
        "110",
        "27 N m",
        "39 N m",
        "it would tip",
        "from memory",
    ):
        assert words in maker
    assert "it would stand" in " ".join(asked_words(Stance(20.0, None, 39.0, 27.0), UnitSystem.METRIC))
    assert "nothing tips it" in " ".join(asked_words(Stance(20.0, None, 39.0, -27.0), UnitSystem.METRIC))
    assert "was not reckoned: it is hollow" in " ".join(asked_words(None, UnitSystem.METRIC))
    assert (
        stands_words(Stance(0.0, None, 0.0, 0.0), UnitSystem.METRIC)
        == "It does not stand by itself: fasten it."
    )
