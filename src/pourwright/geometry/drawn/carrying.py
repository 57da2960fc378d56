"""A body carried on above its flat top, so that the top is no wall."""

from __future__ import annotations

from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.mesh import Mesh

JUST_BELOW = 1e-6
"""The mouth's outline is taken this far under it [m]."""


def carried_on(mesh: Mesh, reach: float) -> Mesh:
    """Carry a piece on above its mouth, so that its open face is no wall.

    Parameters
    ----------
    mesh : Mesh
        In the pour frame, mouth at its top [m].
    reach : float
        How far [m].

    Returns
    -------
    Mesh
    """
    mm, top = 1000.0, float(mesh.bounds[1, 2])
    body = as_manifold(mesh)
    mouth = body.slice((top - JUST_BELOW) * mm)
    above = mouth.extrude((reach + JUST_BELOW) * mm).translate([0.0, 0.0, (top - JUST_BELOW) * mm])
    return as_mesh(body + above)
