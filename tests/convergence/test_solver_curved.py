"""Bodies with curved faces on a square grid against the same bodies on a line of shells."""

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import Grid, Mesh, box, measure
from pourwright.solver import Control, CutCells, Exchange, Problem, Surfaces, cut_cells, run, start
from tests.convergence.radial import Matter, Round
from tests.solver.bodies import ball, bar, cut_by, grid_around
from tests.solver.cases import kamal

LAW = (3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8)
FILM, SHOP = 8.0, 296.15
RESIN = Matter(1.98e6, 0.2, 3.85e8)
AIR = Exchange(FILM, SHOP)
BARE = Surfaces(up=AIR, side=AIR, down=AIR)
HOURS = 14 * 3600.0


def bare_body(mesh: Mesh, spacing: float, seed: int) -> tuple[Problem, CutCells]:
    grid = grid_around(mesh, spacing, seed)
    body = cut_by(mesh, grid)
    fields = (
        RESIN.capacity * body.share,
        np.full(body.share.shape, RESIN.conductivity),
        RESIN.heat * body.share,
    )
    law = {"rate": kamal, "parameters": np.array(LAW)}
    return Problem(*grid.axes, *fields, body.active, BARE, cut=body.faces, **law), body


def peak(mesh: Mesh, spacing: float, seed: int = 0) -> float:
    problem, body = bare_body(mesh, spacing, seed)
    control = Control(tolerance=0.02, max_step=300.0)
    outcome = run(problem, start(problem, SHOP), HOURS, control=control)
    assert outcome.balance.error < 1e-10
    return float(outcome.state.records.peak_temperature[body.active].max())


# other radii and tilts than those by which the least share of a cell was chosen (40 to 55 and 30 to 40 mm);
# the larger of each is on the edge of taking off: a hundredth more of heat makes its peak kelvins hotter
BODIES = [
    ("ball", 2, 0.042, ball(0.042)),
    ("ball", 2, 0.052, ball(0.052)),
    ("bar", 1, 0.032, bar(0.032, 0.42, (20.0, 10.0))),
    ("bar", 1, 0.037, bar(0.037, 0.50, (31.0, 17.0))),
]


@pytest.mark.parametrize(("name", "power", "radius", "mesh"), BODIES)
def test_a_bare_curved_body_peaks_as_it_should(name: str, power: int, radius: float, mesh: Mesh) -> None:
    true = Round(power, ((radius, RESIN),), FILM, SHOP, LAW).peak(40, HOURS)
    coarse, fine = (abs(peak(mesh, spacing) - true) for spacing in (8e-3, 4e-3))
    assert fine < 0.3, (name, radius)
    assert fine < max(0.5 * coarse, 0.1), (name, radius)


@pytest.mark.parametrize("mesh", [ball(0.03, 24), bar(0.02, 0.1, (40.0, 25.0), 24), box([0.05, 0.03, 0.02])])
@pytest.mark.parametrize("spacing", [11e-3, 4e-3])
def test_cells_keep_volume_and_area(mesh: Mesh, spacing: float) -> None:
    grid = grid_around(mesh, spacing, 3)
    body, solid = cut_by(mesh, grid), measure(mesh)
    assert (body.share * grid.cell_volumes).sum() == pytest.approx(solid.volume, rel=1e-9)
    assert body.faces.surface.area.sum() == pytest.approx(solid.area, rel=1e-9)
    assert (body.faces.surface.normal**2).sum(axis=0) == pytest.approx(np.ones(body.faces.surface.cells.size))


def test_a_body_on_grid_planes_is_the_grid_itself() -> None:
    # half of its faces belong to cells that hold none of it: they are handed to the cells that do
    mesh = box([0.04, 0.02, 0.03])
    body = cut_by(mesh, Grid(*[0.01 * np.arange(-4, 5)] * 3))
    assert set(np.unique(body.share)) == {0.0, 1.0}
    assert body.active.sum() == 24
    assert body.faces.surface.area.sum() == pytest.approx(2 * (0.04 * 0.03 + 0.04 * 0.02 + 0.03 * 0.02))


def test_slivers_join_their_neighbour() -> None:
    # a slab of 2.1 cells: the last tenth counts with the second cell, whose surface lies at 0.6 cells
    one, line = np.array([0.0, 1.0]), np.arange(4.0)
    vector = np.zeros((1, 1, 3, 3))
    vector[0, 0, 0, 2], vector[0, 0, 2, 2] = -1.0, 1.0
    body = cut_cells((one, one, line), np.array([[[1.0, 1.0, 0.1]]]), np.abs(vector[..., 2]), vector)
    assert body.share.ravel().tolist() == [1.0, 1.1, 0.0]
    assert body.faces.surface.distance == pytest.approx([0.5, 0.6])
    assert body.faces.open_z.ravel().tolist() == [0.0, 1.0, 0.0, 0.0]


def test_a_body_that_does_not_fit_is_refused() -> None:
    one, cells = np.array([0.0, 1.0]), np.ones((1, 1, 2))
    with pytest.raises(UserError, match="does not fit the grid"):
        cut_cells((one, one, one), cells, cells, np.zeros((1, 1, 2, 3)))
