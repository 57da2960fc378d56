"""How a surface leans along a pull, face by face and as shares."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Floats, Mesh

EDGES = (1.0, 3.0)
"""Between little and enough lean [deg]."""
ROUND_OFF = 0.01
"""Lean below which a wall is upright [deg]."""


@dataclass(frozen=True, slots=True)
class Drafts:
    """Shares of the surface that touches the mold, by how it leans against the pull.

    Parameters
    ----------
    undercut, upright, little, free : float
        Leaning back; 0 to 1, 1 to 3, and more than 3 degrees [-].
    """

    undercut: float
    upright: float
    little: float
    free: float


def draft_angles(mesh: Mesh, pull: Floats) -> Floats:
    """Lean of every face against a pull: above 0 it opens up, below 0 it is undercut.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    pull : array (3,)
        Unit vector out of the open face.

    Returns
    -------
    array (m,)
        [deg]; not a number for the foremost flat face, which touches no mold.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> bool(abs(np.nanmin(draft_angles(cone(0.1, 0.2, 0.4), np.array([0.0, 0.0, 1.0]))) - 14.04) < 0.02)
    True
    """
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    ahead = np.divide(vectors @ pull, areas, out=np.zeros_like(areas), where=areas > 0)
    lean = np.degrees(-np.arcsin(np.clip(ahead, -1.0, 1.0)))
    reach = (mesh.vertices @ pull)[mesh.faces]
    lean[(reach >= reach.max() - 1e-6).all(axis=1)] = np.nan
    return np.asarray(lean)


def draft_shares(mesh: Mesh, pull: Floats, lean: Floats | None = None) -> Drafts:
    """Sort a surface by its lean against a pull.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    pull : array (3,)
        Unit vector out of the open face.
    lean : array (m,), optional
        Of every face, where that of ``draft_angles`` was corrected [deg].

    Returns
    -------
    Drafts
        Their sum is 1.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = draft_shares(box([0.1, 0.1, 0.1]), np.array([0.0, 0.0, 1.0]))
    >>> found.upright, found.undercut
    (0.8, 0.0)
    """
    lean = draft_angles(mesh, pull) if lean is None else lean
    areas = np.linalg.norm(mesh.area_vectors, axis=1)
    touched = np.isfinite(lean)
    kind = np.digitize(lean[touched], [-ROUND_OFF, *EDGES])
    shares = np.bincount(kind, areas[touched], minlength=4) / max(float(areas[touched].sum()), 1e-300)
    return Drafts(*(float(share) for share in shares))
