"""Bodies as a draughtsman draws them: edges and outlines, what lies behind others left out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.line_kernels import seen_stretches
from pourwright.geometry.mesh import Floats, Integers, Mesh, joined
from pourwright.geometry.ray_tree import SurfaceTree, surface_tree
from pourwright.geometry.seen import Seen, seen
from pourwright.geometry.strokes import strokes_of

FOLD = np.radians(30.0)
"""An edge that the surface turns at by this much is drawn [rad]; the facets of a round body turn by less."""
_SHORTEST, _CLEAR = 1.5, 2.0
"""Least part of an edge that is drawn, and how near the surface a ray takes no notice [pixels]."""
_PLACES = np.array([[0.2, 0.5, 0.8]])


@dataclass(frozen=True, slots=True, eq=False)
class LineView:
    """Bodies seen from one side as lines.

    Parameters
    ----------
    view : Seen
        Of all bodies together.
    strokes : tuple of tuple of array (k, 2)
        For each body the lines of it that are seen: column and row [pixels].
    body_of : array (m,)
        Number of the body of every face in the view.
    """

    view: Seen
    strokes: tuple[tuple[Floats, ...], ...]
    body_of: Integers

    def shown(self, body: int) -> npt.NDArray[np.bool_]:
        """Pixels at which a body is the foremost, (rows, columns)."""
        face = self.view.face
        return np.asarray((face >= 0) & (self.body_of[face] == body))


@checked(pixels=Range(50, 4000), fold=Range(0.0, np.pi, "rad"))
def line_view(
    bodies: Sequence[Mesh],
    toward: npt.ArrayLike,
    upward: npt.ArrayLike = (0.0, 0.0, 1.0),
    pixels: int = 2000,
    fold: float = FOLD,
) -> LineView:
    """Draw bodies in lines, hidden ones removed.

    Parameters
    ----------
    bodies : sequence of Mesh
        Closed and outward oriented, clear of one another [m].
    toward, upward : array (3,)
        From the bodies to the viewer, and what is up in the picture.
    pixels : int
        Along the longer side: lines end where others cover them to within one pixel.
    fold : float
        Least turn of the surface at an edge that is drawn [rad].

    Returns
    -------
    LineView

    Notes
    -----
    Drawn are edges that fold, open ones, and those between a side facing the viewer and one that does not.
    A point of a line is hidden where the foremost sides at the four pixels around it all pass before it.
    What is left is asked again by rays, which no slanting side fools.

    Examples
    --------
    Of a cube nine edges are seen.

    >>> from pourwright.geometry import box
    >>> (strokes,) = line_view([box([0.1, 0.1, 0.1])], [-1, -2, 1.5]).strokes
    >>> sum(len(stroke) - 1 for stroke in strokes)
    9
    """
    whole = joined(bodies)
    view = seen(whole, toward, upward, pixels)
    flat = view.at(whole.vertices)
    planes, tree = _planes(flat, whole.faces), surface_tree(whole)
    strokes = []
    start = 0
    for body in bodies:
        ids = drawable_edges(body, view.axes[2], fold)
        owner, share = seen_stretches(flat[ids + start], view.face, planes, _SHORTEST)
        free = _free(tree, view, body.vertices[ids[owner]], share)
        own = flat[start : start + len(body.vertices), :2]
        strokes.append(strokes_of(own, ids[owner[free]], share[free]))
        start += len(body.vertices)
    counts = [len(body.faces) for body in bodies]
    return LineView(view, tuple(strokes), np.repeat(np.arange(len(bodies)), counts))


def _planes(flat: Floats, faces: Integers) -> Floats:
    """Nearness over column and row of every face, (m, 3); of those seen edge on nothing is asked."""
    a, b, c = flat[faces.T]
    normal = np.cross(b - a, c - a)
    upright = np.where(normal[:, 2] == 0.0, 1.0, normal[:, 2])
    slopes = -normal[:, :2] / upright[:, None]
    return np.column_stack([slopes, a[:, 2] - (slopes * a[:, :2]).sum(axis=1)])


def _free(tree: SurfaceTree, view: Seen, ends: Floats, share: Floats) -> npt.NDArray[np.bool_]:
    """Which stretches a ray finds free at one place of three: sides that graze fool the pixels."""
    at = share[:, :1] + _PLACES * (share[:, 1:] - share[:, :1])
    places = ends[:, None, 0] + at[:, :, None] * (ends[:, None, 1] - ends[:, None, 0])
    flat = places.reshape(-1, 3)
    distance, _ = tree.hits(flat, np.tile(view.axes[2], (len(flat), 1)), _CLEAR * view.pixel)
    return np.asarray(np.isinf(distance).reshape(places.shape[:2]).any(axis=1))


def drawable_edges(mesh: Mesh, toward: Floats, fold: float = FOLD) -> Integers:
    """Edges of one body that are drawn unless they are hidden.

    Parameters
    ----------
    mesh : Mesh
        The body.
    toward : array (3,)
        From the body to the viewer, of length 1.
    fold : float
        Least turn of the surface [rad].

    Returns
    -------
    array (n, 2)
        Vertex numbers of their ends.
    """
    edges = edges_of(mesh)
    areas = mesh.area_vectors
    normals = areas / np.maximum(np.linalg.norm(areas, axis=1), 1e-300)[:, None]
    faces = edges.faces
    one, other = faces[edges.starts], faces[np.minimum(edges.starts + 1, len(faces) - 1)]
    facing = normals @ toward
    front = facing > 1e-9
    folds = (normals[one] * normals[other]).sum(axis=1) < np.cos(fold)
    outline = front[one] != front[other]
    pair = (front[one] | front[other]) & (folds | outline)
    return np.asarray(edges.ends[np.where(edges.uses == 2, pair, True)])
