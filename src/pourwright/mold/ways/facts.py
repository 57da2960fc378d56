"""What of a piece decides how its mold is made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from pourwright.geometry import (
    Mesh,
    neck_stretch,
    offset_volume,
    open_face,
    plane_section,
    tunnels,
    undercut_over,
    volume_at_levels,
)
from pourwright.geometry.ways_up.flats import flat_faces
from pourwright.geometry.ways_up.release import blocked_share

Axis = Literal["x", "y"]
_UPRIGHT = 0.999
_FINENESS = 0.4
"""Cubes of the offset as a share of the skin: volumes within 0.1 % of finer ones."""


@dataclass(frozen=True, kw_only=True)
class Facts:
    """Measured once, used by every way.

    Parameters
    ----------
    volume, area : float
        Of the piece [m3], and of its surface without the open face [m2].
    blocked : float
        Share of the surface with rubber over it when the piece is pulled up.
    stretch : float
        Lengthening of the worst neck then.
    through : int
        Holes that go right through.
    locked : float
        Share of the surface that locks two parts opened along ``opens``.
    opens : str
        x or y: across which the parting of two parts stands.
    line : float
        Outline of the piece along that parting, the open face left out [m].
    halves : tuple of float
        Of the piece on either side of the parting [m3].
    mouth_width, mouth_girth : float
        Least width of the open face and length of its outlines [m].
    flat : float
        Most flat wall that faces one way [m2].
    """

    volume: float
    area: float
    blocked: float
    stretch: float
    through: int
    locked: float
    opens: Axis
    line: float
    halves: tuple[float, float]
    mouth_width: float
    mouth_girth: float
    flat: float


def facts_of(mesh: Mesh) -> Facts:
    """Measure a piece.

    Parameters
    ----------
    mesh : Mesh
        The cavity in the pour frame.

    Returns
    -------
    Facts
    """
    up = np.array([0.0, 0.0, 1.0])
    mouth, vectors = open_face(mesh), mesh.area_vectors
    shares, axis = _parted(mesh)
    walls = [flat.area for flat in flat_faces(mesh) if abs(flat.direction[2]) < _UPRIGHT]
    whole = float(volume_at_levels(mesh, np.array([mesh.bounds[1, 2]]))[0])
    low = _below_middle(mesh, axis)
    return Facts(
        volume=whole,
        area=float(np.linalg.norm(vectors, axis=1).sum()) - mouth.area,
        blocked=blocked_share(mesh, up),
        stretch=neck_stretch(mesh, up).share,
        through=tunnels(mesh),
        locked=float(shares.min()),
        opens=axis,
        line=outline_length(mesh, axis),
        halves=(low, whole - low),
        mouth_width=float(np.min(mouth.upper - mouth.lower)),
        mouth_girth=sum(_length(line) for line in plane_section(mesh, "z", mouth.height)),
        flat=max(walls, default=0.0),
    )


def outline_length(mesh: Mesh, axis: Axis) -> float:
    """Length of the piece's outline in the upright plane through its middle.

    Parameters
    ----------
    mesh : Mesh
        In the pour frame.
    axis : str
        The plane's normal, x or y.

    Returns
    -------
    float
        Without what lies in the open face [m].

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> round(outline_length(box([0.2, 0.1, 0.3]), "y"), 6)
    0.8
    """
    top = float(mesh.bounds[1, 2])
    return sum(_length(line, top) for line in plane_section(mesh, axis, 0.0))


def opens_along(mesh: Mesh) -> Axis:
    """Say along which level axis two parts lock least.

    Parameters
    ----------
    mesh : Mesh
        In the pour frame.

    Returns
    -------
    str
        x or y.
    """
    return _parted(mesh)[1]


def _parted(mesh: Mesh) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.float64]], Axis]:
    shares = undercut_over(mesh, np.eye(3)[:2]).parted
    return shares, "x" if shares[0] <= shares[1] else "y"


def skin_volume(mesh: Mesh, thickness: float, spacing: float | None = None) -> float:
    """Volume of a skin around a piece, its open face bare.

    Parameters
    ----------
    mesh : Mesh
        In the pour frame, open face on top.
    thickness : float
        Of the skin [m].
    spacing : float, optional
        Of the finest cubes [m]; else two fifths of the thickness.

    Returns
    -------
    float
        [m3]

    Notes
    -----
    The body grown by the thickness, cut off at the open face, less the body.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> side, t = 0.2, 0.01
    >>> exact = 5 * side**2 * t + 8 * side * np.pi * t**2 / 4 + 4 * np.pi * t**3 / 6
    >>> bool(abs(skin_volume(box([side] * 3), t, 0.002) / exact - 1) < 2e-3)
    True
    """
    top = float(mesh.bounds[1, 2])
    grown = offset_volume(mesh, thickness, spacing or _FINENESS * thickness, below=top)
    return grown - float(volume_at_levels(mesh, np.array([top]))[0])


def _below_middle(mesh: Mesh, axis: Axis) -> float:
    """Volume of the piece on the low side of the parting [m3]."""
    order: Mapping[Axis, list[int]] = {"x": [1, 2, 0], "y": [2, 0, 1]}
    turn = np.zeros((4, 4))
    turn[[0, 1, 2], order[axis]] = 1.0
    turn[3, 3] = 1.0
    return float(volume_at_levels(mesh.transformed(turn), np.array([0.0]))[0])


def _length(outline: np.ndarray[tuple[int, ...], np.dtype[np.float64]], top: float = np.inf) -> float:
    """Length of a closed outline, edges along the height ``top`` left out [m]."""
    ahead = np.roll(outline, -1, axis=0)
    lengths = np.linalg.norm(ahead - outline, axis=1)
    on_top = (outline[:, 1] >= top - 1e-6) & (ahead[:, 1] >= top - 1e-6)
    return float(lengths[~on_top].sum())
