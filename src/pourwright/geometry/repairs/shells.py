"""The closed surfaces of a mesh, one by one."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from pourwright.geometry.columns import winding_range
from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.repairs.seams import compacted
from pourwright.geometry.solid import measure

FLAT = 1e-12
"""A shell encloses nothing where it is less than this share of the cube of its size."""


@dataclass(frozen=True, slots=True, eq=False)
class Shell:
    """One closed surface.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented [m].
    inward : bool
        Whether it faced inward in the file, as the wall of a cavity does.
    volume : float
        That it encloses [m3].
    first : int
        Its first triangle in the mesh it came from.
    """

    mesh: Mesh
    inward: bool
    volume: float
    first: int

    @property
    def middle(self) -> Floats:
        """Middle of its bounding box (3,) [m]."""
        return np.asarray(self.mesh.bounds.mean(axis=0))

    @property
    def size(self) -> tuple[float, float, float]:
        """Extent along x, y, z [m]."""
        x, y, z = (float(side) for side in self.mesh.bounds[1] - self.mesh.bounds[0])
        return (x, y, z)

    @property
    def faced(self) -> Mesh:
        """As it faced in the file."""
        return self.mesh.reversed() if self.inward else self.mesh

    @property
    def flat(self) -> bool:
        """Whether it encloses nothing."""
        return self.volume <= FLAT * max(self.size) ** 3


def shells_of(mesh: Mesh) -> list[Shell]:
    """Part a mesh into its closed surfaces.

    Parameters
    ----------
    mesh : Mesh
        Closed, with neighbours that agree.

    Returns
    -------
    list of Shell
        In the order of their first triangles. Surfaces that share nothing but an edge are two.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> [shell.inward for shell in shells_of(joined([box([2, 2, 2]), box([1, 1, 1]).reversed()]))]
    [False, True]
    """
    labels = shell_labels(mesh)
    order = np.argsort(labels, kind="stable")
    bounds = np.searchsorted(labels[order], np.arange(int(labels.max()) + 2))
    return [_shell(mesh, order[low:high]) for low, high in pairwise(bounds)]


def shell_labels(mesh: Mesh) -> Integers:
    """Number the surfaces: triangles that hang together over edges that two of them share.

    Parameters
    ----------
    mesh : Mesh
        Any mesh.

    Returns
    -------
    array (m,)
        In order of appearance.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> int(shell_labels(box([1, 1, 1])).max())
    0
    """
    from scipy.sparse import coo_array  # noqa: PLC0415 - a tenth of a second that only judging needs
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    edges = edges_of(mesh)
    starts = edges.starts[edges.uses == 2]
    links = (np.ones(starts.size), (edges.order[starts] // 3, edges.order[starts + 1] // 3))
    count = len(mesh.faces)
    _, labels = connected_components(coo_array(links, shape=(count, count)), directed=False)
    _, first, inverse = np.unique(labels, return_index=True, return_inverse=True)
    return np.asarray(np.argsort(np.argsort(first))[inverse], dtype=np.int64)


def _shell(mesh: Mesh, faces: Integers) -> Shell:
    part = compacted(Mesh(mesh.vertices, mesh.faces[faces]))
    volume = measure(part).volume
    return Shell(part.reversed() if volume < 0 else part, volume < 0, abs(volume), int(faces[0]))


def crossing_place(shell: Shell) -> tuple[Floats | None, int]:
    """Find where a surface crosses itself.

    Parameters
    ----------
    shell : Shell
        One surface.

    Returns
    -------
    tuple of array (3,) or None, and int
        Where space is not enclosed once inside it, and how often it is there [m].

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> crossing_place(shells_of(box([1, 1, 1]))[0])
    (None, 1)
    """
    for axis in range(3):
        found = winding_range(shell.mesh, axis)
        if found.highest > 1:
            return found.highest_place, found.highest
        if found.lowest < 0:
            return found.lowest_place, found.lowest
    return None, 1
