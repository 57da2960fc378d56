"""Compile every kernel once, so that the first plan does not wait for it."""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

import numpy as np

from pourwright.geometry.cells import cell_fractions
from pourwright.geometry.clearance import clear_cells
from pourwright.geometry.cuboid_kernels import largest_cuboid
from pourwright.geometry.distance import distance_grid, offset_volume
from pourwright.geometry.faults import find_faults
from pourwright.geometry.files.readers import read_samples
from pourwright.geometry.grid import Grid
from pourwright.geometry.levels import level_volume
from pourwright.geometry.line_view import line_view
from pourwright.geometry.mesh import Mesh
from pourwright.geometry.pair_kernels import largest_pair
from pourwright.geometry.priced_kernels import dearest_cuboid, summed
from pourwright.geometry.primitives import box, revolve
from pourwright.geometry.ray_tree import surface_tree
from pourwright.geometry.repairs.repair import repaired
from pourwright.geometry.seen import seen
from pourwright.geometry.thin.edge_lines import edge_lines
from pourwright.geometry.thin.fins import thin_parts
from pourwright.geometry.thin.inscribed import thickness_map
from pourwright.geometry.thin.thickness import wall_thickness
from pourwright.geometry.ways_up.pockets import pockets
from pourwright.geometry.ways_up.release import undercut
from pourwright.geometry.ways_up.undercuts import locked_faces, undercut_over
from pourwright.geometry.ways_up.ways import measure_ways

_EDGES = np.linspace(-0.25, 0.25, 4)
_GRID = Grid(_EDGES, _EDGES, _EDGES)
_UP = np.array([0.0, 0.0, 1.0])


def _shape_files(_body: Mesh) -> None:
    read_samples()


def _level_curve(body: Mesh) -> None:
    level_volume(body).height(0.004)


def _cell_fractions(body: Mesh) -> None:
    cell_fractions(body, _GRID)


def _distances(body: Mesh) -> None:
    distance_grid(body, _GRID)
    offset_volume(body, 0.02, 0.05)
    # the corners of a mesh are read-only, points that one has reckoned are not
    for points in (body.vertices, np.zeros((1, 3))):
        surface_tree(body).from_surface(points, 1.0)


def _faults(body: Mesh) -> None:
    find_faults(body)


def _undercut(body: Mesh) -> None:
    undercut(body, count=8)


def _thickness(body: Mesh) -> None:
    wall_thickness(body, rays=4)
    thin_parts(thickness_map(body, 20), 1.0)
    edge_lines(body, inner=True, below=1e-3)


def _space_blocks(body: Mesh) -> None:
    asked = np.ones(6, dtype=bool), np.full(3, 0.01), np.full(3, -1)
    room = clear_cells(body, _GRID, 0.02)
    # as the search weighs them
    weighed = (_EDGES.copy(), _EDGES.copy(), _EDGES.copy())
    largest_cuboid(room, _GRID.axes, weighed, *asked)
    largest_pair(room, _GRID.axes, weighed, *asked)
    values = np.where(room, 1.0, 0.0)
    dearest_cuboid(summed(1.0 - values), values, _GRID.axes, *asked, np.zeros(6, dtype=np.int64))


def _views(body: Mesh) -> None:
    seen(body, [0, -1, 0], [0, 0, 1], 8)
    line_view([body], [-1, -2, 1.5])


def _ways_up(body: Mesh) -> None:
    measure_ways(body, [_UP])
    undercut_over(body, [_UP], columns=8)
    locked_faces(body, _UP)
    # a pot upside down
    pockets(revolve([[0.04, 0.09], [0.04, 0.0], [0.05, 0.0], [0.05, 0.1]], 8), outside=True)


def _mending(body: Mesh) -> None:
    repaired(body, tolerance=0.05)


_STEPS: Mapping[str, Callable[[Mesh], None]] = MappingProxyType(
    {
        "shape files": _shape_files,
        "level curve": _level_curve,
        "cell fractions": _cell_fractions,
        "distances": _distances,
        "faults": _faults,
        "undercut": _undercut,
        "thickness": _thickness,
        "space blocks": _space_blocks,
        "views": _views,
        "ways up": _ways_up,
        "mending": _mending,
    }
)


_HEAVY = frozenset({"shape files", "distances", "thickness", "space blocks"})


def warm_up(*, heavy: bool | None = None) -> Iterator[str]:
    """Run all compiled loops of this room on a small box.

    Parameters
    ----------
    heavy : bool, optional
        Only the steps that take longest to compile, or only the others, so that two processes share the work.

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
    for name, step in _STEPS.items():
        if heavy is None or heavy == (name in _HEAVY):
            yield name
            step(body)
