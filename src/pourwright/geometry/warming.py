"""Compile every kernel once, so that the first plan does not wait for it."""

from collections.abc import Iterator

import numpy as np

from pourwright.geometry.cells import cell_fractions
from pourwright.geometry.clearance import clear_cells
from pourwright.geometry.cuboid_kernels import largest_cuboid
from pourwright.geometry.distance import distance_grid, offset_volume
from pourwright.geometry.faults import find_faults
from pourwright.geometry.files.readers import read_samples
from pourwright.geometry.grid import Grid
from pourwright.geometry.levels import level_volume
from pourwright.geometry.pair_kernels import largest_pair
from pourwright.geometry.priced_kernels import dearest_cuboid, summed
from pourwright.geometry.primitives import box
from pourwright.geometry.repairs.repair import repaired
from pourwright.geometry.seen import seen
from pourwright.geometry.thin.edge_lines import edge_lines
from pourwright.geometry.thin.fins import thin_parts
from pourwright.geometry.thin.inscribed import thickness_map
from pourwright.geometry.thin.thickness import wall_thickness
from pourwright.geometry.ways_up.release import undercut
from pourwright.geometry.ways_up.undercuts import locked_faces, undercut_over
from pourwright.geometry.ways_up.ways import measure_ways


def warm_up() -> Iterator[str]:
    """Run all compiled loops of this room on a small box.

    Yields
    ------
    str
        What is compiled next, for the progress line.

    Examples
    --------
    >>> list(warm_up())[-3:]
    ['views', 'ways up', 'mending']
    """
    body = box([0.2, 0.2, 0.2])
    edges = np.linspace(-0.25, 0.25, 4)
    grid = Grid(edges, edges, edges)
    yield "shape files"
    read_samples()
    yield "level curve"
    level_volume(body).height(0.004)
    yield "cell fractions"
    cell_fractions(body, grid)
    yield "distances"
    distance_grid(body, grid)
    offset_volume(body, 0.02, 0.05)
    yield "faults"
    find_faults(body)
    yield "undercut"
    undercut(body, count=8)
    yield "thickness"
    wall_thickness(body, rays=4)
    thin_parts(thickness_map(body, 20), 1.0)
    edge_lines(body, inner=True, below=1e-3)
    yield "space blocks"
    asked = np.ones(6, dtype=bool), np.full(3, 0.01), np.full(3, -1)
    room = clear_cells(body, grid, 0.02)
    largest_cuboid(room, grid.axes, grid.axes, *asked)
    largest_pair(room, grid.axes, grid.axes, *asked)
    values = np.where(room, 1.0, 0.0)
    dearest_cuboid(summed(1.0 - values), values, grid.axes, *asked, np.zeros(6, dtype=np.int64))
    yield "views"
    seen(body, [0, -1, 0], [0, 0, 1], 8)
    yield "ways up"
    measure_ways(body, [[0, 0, 1.0]])
    undercut_over(body, [[0, 0, 1.0]], columns=8)
    locked_faces(body, np.array([0.0, 0.0, 1.0]))
    yield "mending"
    repaired(body, tolerance=0.05)
