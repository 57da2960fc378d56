"""Bodies joined to one, or cut out of one, by manifold3d's exact booleans."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.geometry.mesh import Floats, Mesh

# booleans weld what lies closer than about a billionth of the size: no workshop measures that
_SCALE = 1000.0


def as_manifold(mesh: Mesh) -> Any:
    """Hand a body over.

    Parameters
    ----------
    mesh : Mesh
        One closed body, outward oriented [m].

    Returns
    -------
    Manifold
        In mm.

    Raises
    ------
    UserError
        Where it is no closed body.
    """
    import manifold3d  # noqa: PLC0415 - only shapes of parts need it

    given = manifold3d.Mesh64(
        np.ascontiguousarray(mesh.vertices * _SCALE), np.ascontiguousarray(mesh.faces.astype(np.uint64))
    )
    body = manifold3d.Manifold(given)
    if body.status() != manifold3d.Error.NoError or body.volume() <= 0:
        raise UserError("it is no closed body that others can be joined to", todo="mend it first")
    return body


def as_mesh(body: Any) -> Mesh:
    """Take a body back.

    Parameters
    ----------
    body : Manifold
        In mm.

    Returns
    -------
    Mesh
        [m]
    """
    found = body.to_mesh64()
    vertices = np.asarray(found.vert_properties, dtype=np.float64)[:, :3] / _SCALE
    # where surfaces of several bodies meet, a corner may be listed once for each
    number = np.arange(len(vertices))
    number[np.asarray(found.merge_from_vert, dtype=np.int64)] = found.merge_to_vert
    return Mesh(vertices, number[np.asarray(found.tri_verts, dtype=np.int64)])


class Joining:
    """One body that grows and is cut part by part.

    Examples
    --------
    >>> from pourwright.geometry import box, measure
    >>> joining = Joining()
    >>> joining.add(box([0.2, 0.2, 0.1]))
    >>> joining.cut(box([0.1, 0.1, 0.1]).moved([0.0, 0.0, 0.05]))
    >>> round(measure(joining.body()).volume, 9)
    0.0035
    """

    def __init__(self) -> None:
        self._body: Any = None

    @property
    def empty(self) -> bool:
        """Whether there is nothing yet, or nothing left."""
        return self._body is None or bool(self._body.is_empty())

    def add(self, mesh: Mesh) -> None:
        """Join a body.

        Parameters
        ----------
        mesh : Mesh
            One closed body [m].

        Raises
        ------
        UserError
            Where it is no closed body, or does not overlap what is there.
        """
        part = as_manifold(mesh)
        if self._body is None:
            self._body = part
            return
        before = self._body
        self._body = before + part
        if len(_solids(self._body)) > len(_solids(before)):
            raise UserError(
                f"it is loose: it meets the parts before it nowhere, or only on a line{_gap(before, part)}",
                todo="move it, or make it longer, so that the two overlap",
            )

    def cut(self, mesh: Mesh) -> None:
        """Take a body away.

        Parameters
        ----------
        mesh : Mesh
            One closed body [m].

        Raises
        ------
        UserError
            Where there is nothing to cut, or nothing is left, or what is left falls apart.
        """
        if self._body is None:
            raise UserError("there is nothing yet that it could be cut out of", todo="write a body before it")
        before = self._body
        part = as_manifold(mesh)
        self._body = before - part
        if self.empty:
            raise UserError("it cuts everything away", todo="make it smaller or move it")
        if self._body.volume() >= before.volume() * (1 - 1e-12):
            raise UserError("it cuts nothing away: it lies beside the parts before it", todo="move it")
        pieces = _solids(self._body)
        if len(pieces) > len(_solids(before)):
            smallest = min(pieces, key=lambda piece: piece.volume())
            raise PlacedError.at(
                f"it cuts the body in {len(pieces)}; the smallest piece lies",
                _middle(smallest) / _SCALE,
                "make the cut shallower, or cut the rest away too",
            )

    def body(self) -> Mesh:
        """Give the body as it is now.

        Returns
        -------
        Mesh
            [m]
        """
        return as_mesh(self._body)


def _solids(body: Any) -> list[Any]:
    """Separate bodies; a cavity inside one comes as a body of negative volume and is none."""
    return [piece for piece in body.decompose() if piece.volume() > 0]


def _gap(before: Any, part: Any) -> str:
    gap = float(before.min_gap(part, 1e3))
    return f"; the gap is {gap:.4g} mm" if 0 < gap < 1e3 else ""


def _middle(piece: Any) -> Floats:
    bounds = np.asarray(piece.bounding_box(), dtype=np.float64)
    return np.asarray((bounds[:3] + bounds[3:]) / 2)
