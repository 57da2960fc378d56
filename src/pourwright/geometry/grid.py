"""Rectilinear grids whose lines lie where they must."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """A rectilinear grid given by its edges.

    Parameters
    ----------
    x, y, z : array (n + 1,)
        Rising cell edges along each axis [m].

    Raises
    ------
    ValueError
        When an axis has fewer than two edges or does not rise.
    """

    x: Floats
    y: Floats
    z: Floats

    def __init__(self, x: npt.ArrayLike, y: npt.ArrayLike, z: npt.ArrayLike) -> None:
        for name, values in (("x", x), ("y", y), ("z", z)):
            edges = np.array(values, dtype=np.float64)
            if edges.ndim != 1 or edges.size < 2 or not np.all(np.diff(edges) > 0):
                raise ValueError(f"the edges along {name} must be two or more rising numbers")
            edges.setflags(write=False)
            object.__setattr__(self, name, edges)

    @property
    def axes(self) -> tuple[Floats, Floats, Floats]:
        """The edges along x, y and z [m]."""
        return self.x, self.y, self.z

    @property
    def shape(self) -> tuple[int, int, int]:
        """Number of cells along x, y and z."""
        return self.x.size - 1, self.y.size - 1, self.z.size - 1

    @property
    def spacings(self) -> tuple[Floats, Floats, Floats]:
        """Cell widths along x, y and z [m]."""
        return np.diff(self.x), np.diff(self.y), np.diff(self.z)

    @property
    def centers(self) -> tuple[Floats, Floats, Floats]:
        """Cell centres along x, y and z [m]."""
        return _middles(self.x), _middles(self.y), _middles(self.z)

    @property
    def cell_volumes(self) -> Floats:
        """Volume of every cell, (nx, ny, nz) [m3]."""
        dx, dy, dz = self.spacings
        return dx[:, None, None] * dy[None, :, None] * dz[None, None, :]


def _middles(edges: Floats) -> Floats:
    return (edges[1:] + edges[:-1]) / 2


@checked(spacing=Range(0, unit="m", open_low=True), merge=Range(0, unit="m"))
def graded_axis(required_lines: Iterable[float], spacing: float, *, merge: float = 1e-9) -> Floats:
    """Divide an axis so that every required line is an edge and no step is wider than asked.

    Parameters
    ----------
    required_lines : iterable of float
        Lines that must be hit exactly [m]; the outermost two are the ends.
    spacing : float
        Widest step [m].
    merge : float
        Lines nearer to each other than this are one, the lowest of them [m]; the two ends always stay. Lines
        farther apart are all kept, however thin the cell between them: a thin cell costs the solver little.

    Returns
    -------
    array (n + 1,)
        Rising edges [m]; between two required lines the steps are equal.

    Raises
    ------
    ValueError
        When fewer than two different lines are given.

    Examples
    --------
    >>> graded_axis([0.0, 0.1, 0.13], 0.04).round(4).tolist()
    [0.0, 0.0333, 0.0667, 0.1, 0.13]
    """
    lines = np.unique(np.asarray(list(required_lines), dtype=np.float64))
    if lines.size < 2 or not np.isfinite(lines).all() or lines[-1] - lines[0] <= merge:
        raise ValueError("an axis needs two different required lines")
    kept = [lines[0]]
    # the upper end wins over a line that all but touches it
    kept += [line for line in lines[1:-1] if lines[-1] - line > merge]
    distinct = kept[:1]
    for line in [*kept[1:], lines[-1]]:
        if line - distinct[-1] > merge:
            distinct.append(line)
    steps = [max(1, int(np.ceil((b - a) / spacing - 1e-9))) for a, b in pairwise(distinct)]
    parts = [
        np.linspace(a, b, n + 1)[:-1] for a, b, n in zip(distinct[:-1], distinct[1:], steps, strict=True)
    ]
    return np.concatenate([*parts, distinct[-1:]])
