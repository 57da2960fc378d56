"""Shapes and materials that the fill tests share."""

import pytest

from pourwright.fill import FillChoices, design_fill
from pourwright.geometry import box, level_volume, revolve
from pourwright.materials.loading import load_materials


@pytest.fixture(scope="session")
def materials():
    return load_materials()


@pytest.fixture(scope="session")
def glass(materials):
    return materials.glass["soda-lime-crushed"]


@pytest.fixture(scope="session")
def resin(materials):
    return materials.resin["epoxy-slow-deep"]


@pytest.fixture(scope="session")
def fill(glass, resin):
    def make(mesh, *bands, **choices):
        return design_fill(
            mesh, level_volume(mesh), FillChoices(resin=resin, glass=glass, bands=bands, **choices)
        )

    return make


@pytest.fixture(scope="session")
def prism():
    return box([0.30, 0.20, 0.40])


@pytest.fixture(scope="session")
def hourglass():
    return revolve([[0.16, 0.0], [0.09, 0.2], [0.15, 0.4]], 64)
