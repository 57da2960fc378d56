"""Pours whose level lies inside a layer of cells, and the cavity's bare wall."""

import numpy as np
import pytest

from pourwright.geometry import cone, measure
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Site
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control, run
from tests.pour.blocks import HOUR, block_site

DAY = 24 * HOUR


def peaks(site: Site, levels: tuple[float, ...], lines: tuple[float, ...], spacing: float) -> list[float]:
    """Highest temperature of the casting while each pour is the last one [K]."""
    stage = empty_mold(lay_out(site, spacing, lines), 0.0)
    found = []
    for number, level in enumerate(levels):
        stage = add_pour(stage, level)
        outcome = run(stage.problem, stage.state, (number + 1) * DAY, control=Control(tolerance=0.02))
        assert outcome.balance.error < 1e-12
        stage = stage.at(outcome.state)
        found.append(float(outcome.state.records.peak_temperature[stage.poured].max()))
    return found


# depth, share of glass, levels: a filled block, a neat one in three pours that gets warm
BLOCKS = [(0.12, 0.55, (0.05, 0.12)), (0.10, 0.0, (0.031, 0.064, 0.10))]


@pytest.mark.parametrize(("depth", "solid", "levels"), BLOCKS)
@pytest.mark.parametrize("shift", [0.0013, 0.0027])
def test_a_level_off_the_grid_lines_peaks_alike(
    depth: float, solid: float, levels: tuple[float, ...], shift: float
) -> None:
    site = block_site(depth, 0.1, solid)
    on_lines = peaks(site, levels, levels, 0.004)
    off_lines = peaks(site, levels, tuple(level + shift for level in levels[:-1]), 0.004)
    assert off_lines == pytest.approx(on_lines, abs=0.3)


def held(stage: Stage) -> tuple[float, float]:
    """Heat capacity [J/K] and heat still bound [J] of all that is there."""
    problem = stage.problem
    volumes = problem.cell_volumes * problem.active
    return float((problem.volumetric_heat_capacity * volumes).sum()), float((problem.heat * volumes).sum())


@pytest.mark.parametrize("lines", [(0.031, 0.064), ()])
def test_every_pour_adds_what_it_holds(lines: tuple[float, ...]) -> None:
    site = block_site(0.10, 0.1)
    stage = empty_mold(lay_out(site, 0.01, lines), 0.0)
    resin = site.resin
    capacity = resin.density.value * resin.heat_capacity.value
    heat = resin.density.value * resin.heat_of_reaction.value
    empty, level_before = held(stage)[0], 0.0
    for level in (0.031, 0.064, 0.10):
        before = stage
        stage = add_pour(stage, level)
        volume = 0.1 * 0.1 * (level - level_before)
        assert held(stage)[0] - held(before)[0] == pytest.approx(volume * capacity, rel=1e-9)
        assert held(stage)[1] - held(before)[1] == pytest.approx(volume * heat, rel=1e-9)
        level_before = level
    assert held(stage)[0] - empty == pytest.approx(0.1 * 0.1 * 0.1 * capacity, rel=1e-9)


def test_the_bare_wall_shrinks_as_the_mold_fills() -> None:
    # floor and wall of a cone by their exact areas, whatever the stairs of the grid
    site = block_site(0.10, 0.12)
    piece = cone(0.05, 0.03, 0.10, 96)
    layout = lay_out(Site(**{**vars(site), "piece": piece}), 0.008, [0.05])
    surface = measure(piece).area
    mouth = 96 / 2 * np.sin(2 * np.pi / 96) * 0.03**2
    bare = [layout.cut_at(level).surface.area.sum() for level in (0.0, 0.05, 0.10)]
    assert bare[0] == pytest.approx(surface - mouth, rel=1e-6)
    # wall above half height: the frustum from 40 to 30 mm
    slant = np.hypot(0.02 * np.cos(np.pi / 96), 0.10)
    above = 96 * 2 * np.sin(np.pi / 96) * 0.035 * slant / 2
    assert bare[1] == pytest.approx(above, rel=1e-6)
    assert bare[2] == pytest.approx(0.0, abs=1e-9)
