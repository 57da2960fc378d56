"""A simpler mesh of the same body, to try tilts on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from pourwright.geometry import Mesh
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.ways_up.pockets import Surface

SEARCHED = 20_000
"""Triangles from which on tilts are tried on a simpler mesh."""
OFF = 2e-4
"""Share of the body's size by which its surface may lie off."""
_MM = 1000.0


def simpler(mesh: Mesh) -> Mesh:
    """Take corners out of a mesh as long as its surface hardly moves.

    Parameters
    ----------
    mesh : Mesh
        One closed body.

    Returns
    -------
    Mesh

    Examples
    --------
    >>> from pourwright.geometry import revolve
    >>> fine = revolve([[0.1, 0.0], [0.1, 0.1]], 2000)
    >>> len(simpler(fine).faces) < len(fine.faces) / 4
    True
    """
    size = float(np.ptp(mesh.bounds, axis=0).max())
    return as_mesh(as_manifold(mesh).simplify(OFF * size * _MM))


@dataclass(frozen=True, eq=False)
class Shape:
    """A mesh made ready for many looks, each thing once.

    Parameters
    ----------
    mesh : Mesh
        One closed body.
    """

    mesh: Mesh

    @cached_property
    def surface(self) -> Surface:
        """The mesh made ready for pockets."""
        return Surface(self.mesh)

    @cached_property
    def simpler(self) -> Shape:
        """A simpler mesh of the same body; itself where it is simple enough."""
        return self if len(self.mesh.faces) <= SEARCHED else Shape(simpler(self.mesh))
