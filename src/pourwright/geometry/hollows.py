"""Hollows of a body that the space around it does not reach."""

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.cells import cell_fractions
from pourwright.geometry.grid import Grid
from pourwright.geometry.mesh import Floats, Mesh


@dataclass(frozen=True, slots=True, eq=False)
class Hollow:
    """A part of the space around a body that hangs together with none of the rest below its top.

    Parameters
    ----------
    volume : float
        Its volume up to the height of the body's top [m3].
    place : array (3,)
        Its middle [m].
    open_above : bool
        Whether it reaches the height of the body's top, as in a pot; else it is closed all round.
    """

    volume: float
    place: Floats
    open_above: bool


@checked(count=Range(8, 512))
def hollows(mesh: Mesh, count: int = 128) -> tuple[Hollow, ...]:
    """Find the hollows that whatever surrounds the body, up to its top, does not hang together with.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented; +z points up.
    count : int
        Cells along the longest side. A wall thinner than two cells may be taken for open, so a hollow
        behind it may be missed; none is found where there is none.

    Returns
    -------
    tuple of Hollow
        The largest first.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> hollows(box([0.2, 0.2, 0.2]))
    ()
    >>> room = box([0.1, 0.1, 0.1]).moved([0.0, 0.0, 0.05])
    >>> sealed = joined([box([0.2, 0.2, 0.2]), room.reversed()])
    >>> [(round(found.volume, 6), found.open_above) for found in hollows(sealed)]
    [(0.001, False)]
    """
    from scipy import ndimage  # noqa: PLC0415 - a tenth of a second that only judging needs

    grid = _grid_around(mesh, count)
    empty = 1.0 - cell_fractions(mesh, grid)
    labels, number = ndimage.label(empty > 0)
    outside = labels[0, 0, 0]
    volumes = np.bincount(labels.ravel(), (empty * grid.cell_volumes).ravel(), number + 1)
    found = [
        Hollow(float(volumes[label]), _middle(grid, labels == label), bool((labels[:, :, -1] == label).any()))
        for label in range(1, number + 1)
        if label != outside
    ]
    return tuple(sorted(found, key=lambda hollow: -hollow.volume))


def _grid_around(mesh: Mesh, count: int) -> Grid:
    """A margin of one cell beside and below, none above: the mold ends at the top of the body."""
    lower, upper = mesh.bounds
    step = float((upper - lower).max()) / count
    cells = np.maximum(np.ceil((upper - lower) / step - 1e-9), 1).astype(int)
    axes = [np.linspace(low, high, n + 1) for low, high, n in zip(lower, upper, cells, strict=True)]
    x, y = (np.concatenate([[axis[0] - step], axis, [axis[-1] + step]]) for axis in axes[:2])
    return Grid(x, y, np.concatenate([[axes[2][0] - step], axes[2]]))


def _middle(grid: Grid, inside: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Floats:
    where = np.nonzero(inside)
    return np.array([axis[index].mean() for axis, index in zip(grid.centers, where, strict=True)])
