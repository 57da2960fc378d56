"""Room for a core against closed forms, and holes that rubber fills."""

import numpy as np
import pytest

from pourwright.geometry import Mesh, box, cone
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.mold.hollow.core import core_volume, has_mouth, holes_closed, holes_through
from pourwright.mold.hollow.offers import Layer, offer_of


def ring(hole: float) -> Mesh:
    """A ring of 40 mm by 40 mm in section around a round hole."""
    outer, inner = (as_manifold(cone(r, r, 0.04, 48)) for r in (hole / 2 + 0.04, hole / 2))
    return as_mesh(outer - inner)


@pytest.mark.parametrize("wall", [0.015, 0.02, 0.03])
def test_a_box_open_at_the_top_leaves_a_box(wall: float) -> None:
    inner = (0.2 - 2 * wall) * (0.16 - 2 * wall) * (0.12 - wall)
    assert core_volume(box([0.2, 0.16, 0.12]), wall) == pytest.approx(inner, rel=5e-3)


def test_a_cylinder_open_at_the_top_leaves_a_cylinder() -> None:
    inner = np.pi * 0.08**2 * 0.13
    assert core_volume(cone(0.1, 0.1, 0.15), 0.02) == pytest.approx(inner, rel=5e-3)


def test_a_wall_as_thick_as_the_piece_leaves_nothing() -> None:
    piece = box([0.05, 0.05, 0.1])
    layers = [Layer(upper=0.1, volume=0.05 * 0.05 * 0.1, resin=0.3, solids=0.2)]
    assert core_volume(piece, 0.03) == 0.0
    assert offer_of(piece, layers, 0.03).saved == 0.0


def test_each_band_loses_the_share_of_its_own_fill() -> None:
    # below 40 mm neat resin, above it glass: the core is a prism of 100 x 100 mm from 20 mm up
    layers = [
        Layer(upper=0.04, volume=0.14**2 * 0.04, resin=0.784, solids=0.0),
        Layer(upper=0.10, volume=0.14**2 * 0.06, resin=0.6, solids=1.2),
    ]
    found = offer_of(box([0.14, 0.14, 0.1]), layers, 0.02)
    lower, upper = 0.1**2 * 0.02 / layers[0].volume, 0.1**2 * 0.06 / layers[1].volume
    assert found.resin_saved == pytest.approx(lower * 0.784 + upper * 0.6, rel=1e-2)
    assert found.solids_saved == pytest.approx(upper * 1.2, rel=1e-2)


def test_a_piece_that_ends_in_a_point_has_no_mouth() -> None:
    assert has_mouth(box([0.1, 0.1, 0.1]))
    assert not has_mouth(cone(0.1, 0.0, 0.1))


def test_a_hole_narrower_than_two_walls_is_closed_and_a_wider_one_is_not() -> None:
    narrow, wide = ring(0.030), ring(0.050)
    assert holes_through(narrow) == 1
    assert holes_closed(narrow, 0.02) == 1
    assert holes_closed(wide, 0.02) == 0
    assert holes_closed(box([0.1, 0.1, 0.1]), 0.02) == 0
