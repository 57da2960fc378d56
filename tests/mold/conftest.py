"""Shapes and materials that the mold tests share."""

import dataclasses

import pytest

from pourwright.geometry import box, level_volume, revolve
from pourwright.materials.loading import load_materials
from pourwright.mold import MoldChoices, design_mold


@pytest.fixture(scope="session")
def materials():
    return load_materials()


@pytest.fixture
def choices(materials):
    return MoldChoices(
        rubber=materials.rubber["silicone-platinum-a25"],
        board=materials.board["mdf"],
        wall=0.020,
        base=0.019,
        casting_density=1100.0,
    )


@pytest.fixture
def design(choices):
    def make(mesh, **changes):
        size = tuple(float(edge) for edge in mesh.bounds[1] - mesh.bounds[0])
        return design_mold(size, level_volume(mesh), dataclasses.replace(choices, **changes))

    return make


@pytest.fixture
def block():
    return box([0.30, 0.20, 0.40])


@pytest.fixture
def mushroom():
    """Narrow foot, wide cap at the top as cast."""
    return revolve([[0.05, 0.0], [0.05, 0.2], [0.15, 0.2], [0.15, 0.3]], 64)
