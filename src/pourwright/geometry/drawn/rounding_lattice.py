"""Distances on a lattice around a body, and the sharp edges that a lattice cuts off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.distance import distance_grid
from pourwright.geometry.grid import Grid
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ray_tree import surface_tree

# lines of the lattice keep off planes of symmetry and off faces drawn to round sizes
_ASIDE = (np.sqrt(2) - 1, np.sqrt(3) - 1, np.sqrt(5) - 2)
_ALIKE = 0.95
_ROOM = 2


@dataclass(frozen=True, slots=True, eq=False)
class Lattice:
    """Points in rows along x, y and z.

    Parameters
    ----------
    axes : tuple of three arrays
        Where they stand [m].
    step : float
        Between two of them [m].
    """

    axes: tuple[Floats, Floats, Floats]
    step: float

    @classmethod
    def around(cls, mesh: Mesh, distance: float, step: float) -> Lattice:
        """Lay one around a body, and some distance further."""
        room = distance + _ROOM * step
        x, y, z = (
            np.arange(low - room - step * aside, high + room + 2 * step, step)
            for low, high, aside in zip(*mesh.bounds, _ASIDE, strict=True)
        )
        return cls((x, y, z), step)

    def distances(self, mesh: Mesh, within: float) -> Floats:
        """Signed distance to a surface, exact up to a little beyond a distance [m]."""
        edges = [np.append(axis - self.step / 2, axis[-1] + self.step / 2) for axis in self.axes]
        return distance_grid(mesh, Grid(*edges), band=within + _ROOM * self.step)

    def lowered(self, field: Floats, points: Floats, around: float) -> Floats:
        """Take the distance to points into a field where that is less, around one of its levels."""
        from scipy.spatial import cKDTree  # noqa: PLC0415 - rounding of joined bodies only

        if not len(points):
            return field
        near = np.nonzero(np.abs(field - around) <= _ROOM * self.step)
        places = np.stack([axis[index] for axis, index in zip(self.axes, near, strict=True)], axis=1)
        most = around + _ROOM * self.step
        found, _ = cKDTree(points).query(places, distance_upper_bound=most)
        changed = field.copy()
        changed[near] = np.minimum(field[near], found)
        return changed


def sharp_points(mesh: Mesh, offset: Mesh, step: float) -> Floats:
    """Find the points of sharp edges and corners that a lattice has cut off.

    Parameters
    ----------
    mesh : Mesh
        The surface itself.
    offset : Mesh
        Surface at a distance from it, drawn on a lattice: its corners are exact, its edges are cut off.
    step : float
        Of the lattice [m].

    Returns
    -------
    array (n, 3)
        Where the planes at the corners of a triangle meet, for each whose corners face different ways [m].

    Notes
    -----
    At each corner the way from the nearest place of the surface is the normal. The point nearest to the
    middle of the triangle that lies in the three planes is that of Kobbelt et al., SIGGRAPH 2001, 57 (from
    memory).

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = sharp_points(box([0.2, 0.2, 0.2]), box([0.22, 0.22, 0.22]).moved([0.0, 0.0, -0.01]), 0.01)
    >>> found.shape
    (0, 3)
    """
    ways = surface_tree(mesh).from_surface(offset.vertices, np.inf)
    lengths = np.linalg.norm(ways, axis=1)
    normals = ways / np.maximum(lengths, 1e-12)[:, None]
    three, places = normals[offset.faces], offset.triangles
    alike = np.einsum("ijk,ijk->ij", three, np.roll(three, 1, axis=1)).min(axis=1)
    three, places = three[alike < _ALIKE], places[alike < _ALIKE]
    if not len(three):
        return np.empty((0, 3))
    middle = places.mean(axis=1)
    heights = np.einsum("ijk,ijk->ij", three, places - middle[:, None])
    moves = np.einsum("ijk,ik->ij", np.linalg.pinv(three, rcond=0.15), heights)
    near = np.linalg.norm(moves, axis=1) <= _ROOM * step
    return np.asarray((middle + moves)[near])
