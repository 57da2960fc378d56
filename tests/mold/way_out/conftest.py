"""Pieces in a box of rubber, decided about."""

import pytest

from pourwright.geometry import revolve
from pourwright.mold.way_out.design import Case, design_way_out

GRAVITY, DENSITY = 9.80665, 1100.0


@pytest.fixture
def out_of(materials):
    def make(mesh, wall=0.02, **changes):
        size = mesh.bounds[1] - mesh.bounds[0]
        case = {
            "inside": (float(size[0]) + 2 * wall, float(size[1]) + 2 * wall),
            "base": 0.019,
            "blocks": (),
            "rubber": materials.rubber["silicone-platinum-a25"],
            "pressure": GRAVITY * DENSITY * float(size[2]),
            "warmer": 30.0,
            "held": 0.5,
        }
        return design_way_out(Case(mesh=mesh, **{**case, **changes}))

    return make


@pytest.fixture
def dumbbell():
    """Two discs of 80 mm on a neck of 40 mm."""
    return revolve([[0.04, 0.0], [0.04, 0.04], [0.02, 0.04], [0.02, 0.08], [0.04, 0.08], [0.04, 0.12]])


@pytest.fixture
def waist():
    """Two cones that meet in a waist of 60 mm."""
    return revolve([[0.06, 0.0], [0.03, 0.15], [0.06, 0.3]])
