"""The surface on which a field on a lattice has one value."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.repairs.marching import CORNERS, EDGES, triangle_table

# corners nearer to a lattice point than this share of a step would coincide
_CLOSEST = 0.02


def level_surface(field: Floats, axes: Sequence[Floats], level: float = 0.0) -> Mesh:
    """Lay a surface between the lattice points below a level and those above.

    Parameters
    ----------
    field : array (nx, ny, nz)
        Value at each lattice point; above the level all around.
    axes : sequence of three arrays
        Where the points stand along x, y and z [m].
    level : float
        Value on the surface.

    Returns
    -------
    Mesh
        Closed; what is below the level is inside. Without triangles where nothing is.

    Notes
    -----
    Corners by linear interpolation along the lattice; triangles of `marching`.

    Examples
    --------
    >>> axis = np.linspace(-1.3, 1.3, 41)
    >>> x, y, z = np.meshgrid(axis, axis, axis, indexing="ij")
    >>> from pourwright.geometry.solid import measure
    >>> ball = level_surface(np.sqrt(x**2 + y**2 + z**2), [axis] * 3, 1.0)
    >>> bool(abs(measure(ball).volume / (4 / 3 * np.pi) - 1) < 3e-3)
    True
    """
    inside = field <= level
    numbers, places, count = [], [], 0
    for axis in range(3):
        number, place = _crossings(field, inside, axes, level, axis, count)
        numbers.append(number)
        places.append(place)
        count += len(place)
    return Mesh(np.concatenate(places), _faces(inside, numbers))


def _crossings(
    field: Floats,
    inside: npt.NDArray[np.bool_],
    axes: Sequence[Floats],
    level: float,
    axis: int,
    first: int,
) -> tuple[Integers, Floats]:
    """Number the lattice edges along one axis that pass the level, and say where they do."""
    low = tuple(slice(None, -1) if each == axis else slice(None) for each in range(3))
    high = tuple(slice(1, None) if each == axis else slice(None) for each in range(3))
    at = np.nonzero(inside[low] != inside[high])
    below, above = field[low][at], field[high][at]
    share = np.clip((level - below) / (above - below), _CLOSEST, 1 - _CLOSEST)
    places = np.stack([line[index] for line, index in zip(axes, at, strict=True)], axis=1)
    places[:, axis] += share * (axes[axis][at[axis] + 1] - axes[axis][at[axis]])
    number = np.full(field.shape, -1, dtype=np.int64)
    number[at] = first + np.arange(len(places))
    return number, places


def _faces(inside: npt.NDArray[np.bool_], numbers: Sequence[Integers]) -> Integers:
    counts, table = triangle_table()
    cubes = tuple(size - 1 for size in inside.shape)
    case = np.zeros(cubes, dtype=np.uint8)
    for bit, (i, j, k) in enumerate(CORNERS):
        case |= inside[i : i + cubes[0], j : j + cubes[1], k : k + cubes[2]].astype(np.uint8) << np.uint8(bit)
    places = np.nonzero((case > 0) & (case < 255))
    cases = case[places]
    edges = np.stack([_numbers_of(numbers, places, edge) for edge in EDGES], axis=1)
    wanted = np.repeat(np.arange(len(cases)), counts[cases])
    within = np.arange(len(wanted)) - np.repeat(np.cumsum(counts[cases]) - counts[cases], counts[cases])
    corners = table[cases[wanted], within]
    return np.asarray(np.take_along_axis(edges[wanted], corners, axis=1))


def _numbers_of(numbers: Sequence[Integers], places: tuple[Integers, ...], edge: tuple[int, int]) -> Integers:
    axis = (edge[1] - edge[0]).bit_length() - 1
    i, j, k = (place + step for place, step in zip(places, CORNERS[edge[0]], strict=True))
    return np.asarray(numbers[axis][i, j, k])
