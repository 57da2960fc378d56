"""Volume that a surface encloses, summed along columns whatever the surface does to itself."""

from __future__ import annotations

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.column_kernels import crossings
from pourwright.geometry.mesh import Floats, Integers, Mesh


@checked(count=Range(16, 4096))
def enclosed_volume(mesh: Mesh, count: int = 512, bounds: Floats | None = None) -> tuple[float, float]:
    """Volume enclosed once or more, and volume enclosed inside out.

    Parameters
    ----------
    mesh : Mesh
        Closed; it may cross itself.
    count : int
        Columns along each side of the bounding box; the error falls with their number.
    bounds : array (2, 3), optional
        Where the columns are spread instead: the same for two bodies, their errors are nearly the same [m].

    Returns
    -------
    tuple of float
        Where the winding number is above zero, and where it is below [m3].

    Examples
    --------
    Two cubes that share a quarter count that quarter once.

    >>> from pourwright.geometry import box, joined
    >>> cube = box([0.2, 0.2, 0.2])
    >>> once, inside_out = enclosed_volume(joined([cube, cube.moved([0.1, 0.1, 0.0])]))
    >>> round(once, 4), inside_out
    (0.014, 0.0)
    """
    lower, upper = mesh.bounds if bounds is None else bounds
    xs, ys = (
        low + (high - low) * (np.arange(count) + 0.41) / count
        for low, high in zip(lower[:2], upper[:2], strict=True)
    )
    starts, heights, signs = crossings(mesh.vertices, mesh.faces, xs, ys)
    cell = float(np.prod((upper - lower)[:2])) / count**2
    winding, lengths = _slices(starts, heights, signs)
    return float(lengths[winding > 0].sum() * cell), float(lengths[winding < 0].sum() * cell)


def _slices(starts: Integers, heights: Floats, signs: Floats) -> tuple[Floats, Floats]:
    """Winding number above each crossing, and the way to the next one in the same column."""
    if not heights.size:
        return np.zeros(0), np.zeros(0)
    total = np.cumsum(signs)
    before = np.append(0.0, total)[starts[:-1]]
    winding = total - np.repeat(before, np.diff(starts))
    lengths = np.append(np.diff(heights), 0.0)
    lengths[starts[1:][np.diff(starts) > 0] - 1] = 0.0
    return np.round(winding), lengths
