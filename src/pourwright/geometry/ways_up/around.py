"""How much space lies between a body and an upright box round it, all round and level by level."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ray_tree import surface_tree

ASIDE = 3.1e-5
"""How far rays keep off the axis, as a share of their length."""
Cuboid = tuple[tuple[float, float, float], tuple[float, float, float]]


@dataclass(frozen=True, slots=True, eq=False)
class Around:
    """Space from a box inward to a body, along level rays toward its upright axis.

    Parameters
    ----------
    angles : array (n,)
        From the x axis [rad].
    heights : array (m,)
        Of the rays [m].
    free : array (n, m)
        From the box, or from what stands in it, to the body; to the axis where the body is not met [m].
    met : array (n, m) of bool
        Whether the body is met.
    radius : array (n, m)
        From the axis out to the body; 0 where it is not met [m].
    """

    angles: Floats
    heights: Floats
    free: Floats
    met: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    radius: Floats

    def line(self, angle: float, above: float) -> Floats:
        """Places on the body where an upright cut from the box meets it.

        Parameters
        ----------
        angle : float
            One of the angles [rad].
        above : float
            Height where the cut ends [m].

        Returns
        -------
        array (k, 3)
            From below upward [m].
        """
        n = int(np.abs(self.angles - angle).argmin())
        kept = (self.heights > above) & self.met[n]
        out = self.radius[n, kept]
        return np.stack([out * np.cos(angle), out * np.sin(angle), self.heights[kept]], axis=1)

    @property
    def thinnest(self) -> float:
        """Least space beside the body [m]; ways that pass the body by tell of none."""
        there = self.free[self.met & (self.free > 0.0)]
        return float(there.min() if there.size else self.free.max())

    @property
    def step(self) -> float:
        """Between two heights [m]."""
        return float(self.heights[1] - self.heights[0])


def space_around(
    mesh: Mesh, inside: tuple[float, float], angles: Floats, count: int = 96, filled: Sequence[Cuboid] = ()
) -> Around:
    """Measure the space between a body and a box whose walls are upright and centred on the z axis.

    Parameters
    ----------
    mesh : Mesh
        The body, inside the box.
    inside : tuple of float
        Of the box along x and y [m].
    angles : array (n,)
        From the x axis [rad].
    count : int
        Heights, evenly over the body.
    filled : sequence of pairs of corners
        Cuboids in the box that take space away [m].

    Returns
    -------
    Around

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = space_around(box([0.2, 0.1, 0.3]), (0.24, 0.2), np.array([0.0, np.pi / 2]), 4)
    >>> found.free.round(6).tolist()
    [[0.02, 0.02, 0.02, 0.02], [0.05, 0.05, 0.05, 0.05]]
    """
    low, high = float(mesh.bounds[0, 2]), float(mesh.bounds[1, 2])
    edges = np.linspace(low, high, count + 1)
    heights = (edges[:-1] + edges[1:]) / 2
    ways = np.stack([np.cos(angles), np.sin(angles), np.zeros(angles.size)], axis=1)
    # a ray along an axis has one component only, the other wall is never met
    walls = np.divide(np.array(inside) / 2, np.abs(ways[:, :2]), out=np.full((angles.size, 2), np.inf),
                      where=np.abs(ways[:, :2]) > 1e-12)  # fmt: skip
    reach = np.repeat(walls.min(axis=1), count)
    way = np.repeat(ways, count, axis=0)
    starts = reach[:, None] * way
    # beside the axis and off the middle of the level, or rays run along the edges of even meshes
    starts += ASIDE * reach[:, None] * np.stack([-way[:, 1], way[:, 0], np.ones(len(way))], axis=1)
    starts[:, 2] += np.tile(heights, angles.size)
    distance, _ = surface_tree(mesh).hits(starts, -way, 0.0)
    met = distance < reach
    length = np.where(met, distance, reach)
    free = length - _taken(starts, way, length, filled)
    shape = (angles.size, count)
    return Around(angles, heights, free.reshape(shape), met.reshape(shape), (reach - length).reshape(shape))


def _taken(starts: Floats, way: Floats, length: Floats, filled: Sequence[Cuboid]) -> Floats:
    """Length of each ray inside cuboids [m]."""
    taken = np.zeros(len(starts))
    for lower, upper in filled:
        enters, leaves = np.zeros(len(starts)), length.copy()
        for axis in range(3):
            moves = np.abs(way[:, axis]) > 1e-12
            ends = (np.array([lower[axis], upper[axis]])[:, None] - starts[:, axis]) / np.where(
                moves, -way[:, axis], 1.0
            )
            within = (starts[:, axis] > lower[axis]) & (starts[:, axis] < upper[axis])
            enters = np.where(moves, np.maximum(enters, ends.min(axis=0)), np.where(within, enters, np.inf))
            leaves = np.where(moves, np.minimum(leaves, ends.max(axis=0)), leaves)
        taken += np.maximum(leaves - enters, 0.0)
    return taken
