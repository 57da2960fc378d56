"""Which way triangles face: neighbours are made to agree, as most of each body's area has it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.connectivity import Edges, edges_of
from pourwright.geometry.faults import Fault
from pourwright.geometry.mesh import Integers, Mesh
from pourwright.geometry.repairs.mending import Mending, counted


@dataclass(frozen=True, slots=True, eq=False)
class Oriented:
    """A surface whose neighbours agree.

    Parameters
    ----------
    mesh : Mesh
        With some triangles turned.
    mendings : tuple of Mending
        How many.
    faults : tuple of Fault
        Where no turning makes neighbours agree: a surface with one side only.
    """

    mesh: Mesh
    mendings: tuple[Mending, ...] = ()
    faults: tuple[Fault, ...] = ()


def agreeing(mesh: Mesh) -> Oriented:
    """Turn triangles until neighbours agree.

    Parameters
    ----------
    mesh : Mesh
        With shared vertices.

    Returns
    -------
    Oriented

    Notes
    -----
    A flood over edges with two triangles, done at once: every triangle stands twice in a graph, as it is and
    turned; edges join what agrees. Each surface falls into two mirrored parts, and the one that turns the
    smaller area is taken. Where both are one part, the surface has one side only.

    Examples
    --------
    >>> from pourwright.geometry import box, measure
    >>> cube = box([0.2, 0.2, 0.2])
    >>> faces = cube.faces.copy()
    >>> faces[3] = faces[3, ::-1]
    >>> round(measure(agreeing(Mesh(cube.vertices, faces)).mesh).volume, 6)
    0.008
    """
    edges = edges_of(mesh)
    if not ((edges.uses == 2) & (edges.direction != 0)).any():
        return Oriented(mesh)
    labels = _double_cover(len(mesh.faces), edges)
    as_is, turned = labels[: len(mesh.faces)], labels[len(mesh.faces) :]
    middles = mesh.triangles.mean(axis=1)
    if (both := np.flatnonzero(as_is == turned)).size:
        message = "the surface has one side only: it comes back to its start turned round"
        return Oriented(mesh, (), (Fault("one-sided", message, middles[both[0]], places=middles[both[:1]]),))
    areas = np.linalg.norm(mesh.area_vectors, axis=1)
    count = int(labels.max()) + 1
    kept, lost = np.bincount(as_is, areas, count), np.bincount(turned, areas, count)
    # a tie falls to the part of the first triangle
    turn = (kept < lost)[as_is] | ((kept == lost)[as_is] & (as_is > turned))
    faces = mesh.faces.copy()
    faces[turn] = faces[turn][:, ::-1]
    said = counted(
        int(turn.sum()), "triangle faced the wrong way and was", "triangles faced the wrong way and were"
    )
    return Oriented(Mesh(mesh.vertices, faces), (Mending("flipped", f"{said} turned", middles[turn]),))


def _double_cover(count: int, edges: Edges) -> Integers:
    from scipy.sparse import coo_array  # noqa: PLC0415 - a tenth of a second that only mending needs
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    pairs = edges.uses == 2
    starts = edges.starts[pairs]
    one, other = edges.order[starts] // 3, edges.order[starts + 1] // 3
    crossed = (edges.direction[pairs] != 0) * count
    rows = np.concatenate([one, one + count])
    columns = np.concatenate([other + crossed, other + count - crossed])
    graph = coo_array((np.ones(rows.size), (rows, columns)), shape=(2 * count, 2 * count))
    return np.asarray(connected_components(graph, directed=False)[1], dtype=np.int64)
