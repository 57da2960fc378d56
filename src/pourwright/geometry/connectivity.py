"""Which triangles share edges, and which hang together."""

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Integers, Mesh
from pourwright.geometry.row_kernels import join_labels, sides_by_edge


@dataclass(frozen=True, slots=True, eq=False)
class Edges:
    """The undirected edges of a mesh.

    Parameters
    ----------
    ends : array (n, 2)
        Vertex numbers, the lower first.
    uses : array (n,)
        How many triangles have the edge.
    direction : array (n,)
        Uses from the lower to the higher vertex less those the other way; 0 in a sound surface.
    first_face : array (n,)
        The first triangle that has it.
    order, starts : arrays
        Sides of triangles, numbered 3 face + side, one edge's after the other's, and where each edge's start.
    """

    ends: Integers
    uses: Integers
    direction: Integers
    first_face: Integers
    order: Integers
    starts: Integers

    @property
    def faces(self) -> Integers:
        """Triangles of every edge, one edge's after the other's."""
        return self.order // 3


def edges_of(mesh: Mesh) -> Edges:
    """List the edges of a mesh.

    Parameters
    ----------
    mesh : Mesh
        With at least one face.

    Returns
    -------
    Edges
        In rising order of their ends.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> len(edges_of(box([1, 1, 1])).uses)
    18
    """
    order, starts = sides_by_edge(mesh.faces, len(mesh.vertices))
    uses = np.diff(np.append(starts, order.size))
    begin, end = mesh.faces.ravel(), np.roll(mesh.faces, -1, axis=1).ravel()
    first = order[starts]
    ends = np.sort(np.stack([begin[first], end[first]], axis=1), axis=1)
    # a side that runs from an end to itself counts for neither way
    upward = np.sign(end - begin).astype(np.int8)[order]
    direction = np.add.reduceat(upward, starts, dtype=np.int64)
    return Edges(ends, uses, direction, first // 3, order, starts)


def body_labels(mesh: Mesh, edges: Edges) -> Integers:
    """Number the bodies: triangles that hang together over shared edges carry the same number.

    Parameters
    ----------
    mesh : Mesh
        The mesh.
    edges : Edges
        Its edges.

    Returns
    -------
    array (m,)
        Body number of every triangle, in order of appearance.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> two = joined([box([1, 1, 1]), box([1, 1, 1]).moved([3, 0, 0])])
    >>> int(body_labels(two, edges_of(two)).max())
    1
    """
    labels = np.empty(len(mesh.faces), dtype=np.int64)
    join_labels(edges.faces, edges.starts, labels)
    return labels
