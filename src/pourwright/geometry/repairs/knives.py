"""Edges at which a body runs out thin like a knife."""

from __future__ import annotations

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.mesh import Mesh
from pourwright.geometry.repairs.mending import Mending

SHARPEST = np.radians(20.0)
SHORT = 5e-3
"""Edges shorter than this share of the body's size are no edge a hand would feel."""


@checked(sharpest=Range(0.0, np.pi, "rad"))
def knife_edges(mesh: Mesh, sharpest: float = SHARPEST) -> tuple[Mending, ...]:
    """Find outer edges whose two faces enclose a small angle.

    Parameters
    ----------
    mesh : Mesh
        Sound.
    sharpest : float
        Angle between the faces inside the body from which on an edge is blunt enough [rad].

    Returns
    -------
    tuple of Mending
        One that says what is there; nothing is changed.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> knife_edges(cone(0.2, 0.0, 0.02))[0].message
    'the body runs out to a knife edge of 5.7 degrees, {0} {u} long, and is left so'
    """
    edges = edges_of(mesh)
    pairs = np.flatnonzero(edges.uses == 2)
    one, other = (edges.order[edges.starts[pairs] + k] // 3 for k in range(2))
    normals = mesh.area_vectors
    lengths = np.linalg.norm(normals, axis=1)
    normals = normals / np.maximum(lengths, 1e-30)[:, None]
    turn = np.arccos(np.clip(np.einsum("ij,ij->i", normals[one], normals[other]), -1.0, 1.0))
    ends = mesh.vertices[edges.ends[pairs]]
    long = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    # outward: the other face falls away behind this one
    behind = np.einsum("ij,ij->i", normals[one], mesh.triangles.mean(axis=1)[other] - ends[:, 0]) < 0
    sound = (lengths[one] > 0) & (lengths[other] > 0)
    size = float((mesh.bounds[1] - mesh.bounds[0]).max())
    found = behind & sound & (turn > np.pi - sharpest) & (long > SHORT * size)
    if not found.any():
        return ()
    worst = np.argsort(-np.round(turn[found], 6), kind="stable")
    angle = np.degrees(np.pi - turn[found][worst[0]])
    message = f"the body runs out to a knife edge of {angle:.2g} degrees, {{0}} {{u}} long, and is left so"
    places = ends[found].mean(axis=1)[worst]
    return (Mending("knife edge", message, places, (float(long[found].sum()),)),)
