"""Wood in the rubber and a core in the piece, as the heat sees them."""

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from pourwright.geometry import box, joined
from pourwright.materials import load_materials
from pourwright.pour.follow import Goal
from pourwright.pour.layout import Layout, lay_out
from pourwright.pour.site import Space
from tests.pour.blocks import block_site, one_pour

SITE = block_site(0.06, 0.08)
# off the grid's lines on purpose; stands on the rubber's outer face as a space block does
BLOCK = Space((0.0431, -0.031, -0.003), (0.06, 0.0277, 0.052))
PINE = load_materials().board["pine"]


def held(layout: Layout) -> NDArray[np.float64]:
    return layout.shell_held * layout.grid.cell_volumes


def test_without_bodies_the_layout_is_the_same_to_the_digit() -> None:
    plain = lay_out(SITE, 0.01, [])
    named = lay_out(replace(SITE, space_board=PINE, core_material=PINE), 0.01, [])
    assert np.array_equal(plain.shell_capacity, named.shell_capacity)
    assert np.array_equal(plain.shell_conductivity, named.shell_conductivity)


def test_a_space_block_changes_what_the_shell_holds_by_its_own_volume() -> None:
    plain = lay_out(SITE, 0.01, [])
    blocked = lay_out(replace(SITE, spaces=(BLOCK,), space_board=PINE), 0.01, [])
    volume = np.prod(np.subtract(BLOCK.upper, BLOCK.lower))
    wood, rubber = (record.density.value * record.heat_capacity.value for record in (PINE, SITE.rubber))
    gained = held(blocked).sum() - held(plain).sum()
    assert gained == pytest.approx(volume * (wood - rubber), rel=1e-9)
    assert np.array_equal(plain.cavity, blocked.cavity)


def test_a_core_takes_the_room_that_the_casting_leaves() -> None:
    core = box([0.04, 0.04, 0.04]).moved([0.0, 0.0, 0.02])
    room = joined([SITE.piece, core.reversed()])
    layout = lay_out(replace(SITE, piece=room, core=core, core_material=PINE), 0.0073, [])
    outside = lay_out(SITE, 0.0073, [])
    wood = PINE.density.value * PINE.heat_capacity.value
    volumes = layout.grid.cell_volumes
    assert (layout.cavity * volumes).sum() == pytest.approx(0.06 * 0.08**2 - 0.04**3, rel=1e-9)
    assert held(layout).sum() - held(outside).sum() == pytest.approx(0.04**3 * wood, rel=1e-9)


def test_wood_beside_a_casting_keeps_its_heat_in() -> None:
    """Wood conducts less than rubber does: the same casting peaks higher beside it."""
    assert PINE.conductivity.value < SITE.rubber.conductivity.value
    sides = tuple(
        Space((low, -0.06, 0.0), (high, 0.06, 0.06)) for low, high in ((-0.06, -0.045), (0.045, 0.06))
    )
    plain, blocked = (
        one_pour(site, spacing=0.01, goal=Goal.PEAK).peak
        for site in (SITE, replace(SITE, spaces=sides, space_board=PINE))
    )
    assert blocked > plain
