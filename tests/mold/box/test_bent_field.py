"""The bulge at every place agrees with the one figure that is told of a panel."""

import numpy as np
import pytest

from pourwright.materials.loading import load_materials
from pourwright.mold.box.bent_field import bent_field
from pourwright.mold.box.bulge import bulge
from pourwright.mold.box.upright import Upright

BOARDS = load_materials().board


@pytest.mark.parametrize(("width", "height"), [(0.35, 0.4), (0.8, 0.4), (0.3, 1.1)])
def test_the_field_reaches_but_does_not_pass_what_is_told(width, height):
    panel = Upright(name="side", width=width, height=height, wet=height, density=2300.0)
    found = bulge(panel, BOARDS["mdf"], 0.018, BOARDS["pine"], 0.001)
    x, z = np.linspace(0.0, width, 61), np.linspace(0.0, height, 61)
    field = bent_field(found, BOARDS["mdf"], x, z)
    assert field.shape == (61, 61)
    # sag and field are largest at different places: the sum of both is told
    assert 0.5 * found.held < field.max() <= found.held * (1 + 1e-3)
    assert np.abs(field[0]).max() < 1e-9
    assert np.abs(field[:, [0, -1]]).max() < 1e-9
    assert field == pytest.approx(field[:, ::-1], abs=1e-3 * field.max())
