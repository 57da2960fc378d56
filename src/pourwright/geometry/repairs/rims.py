"""The rims of holes: edges that only one triangle has, walked into loops."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.connectivity import Edges, edges_of
from pourwright.geometry.mesh import Integers, Mesh


@dataclass(frozen=True, slots=True, eq=False)
class OpenEdges:
    """Edges with one triangle only.

    Parameters
    ----------
    starts, ends : array (n,)
        Vertices in the direction in which a triangle that closes the hole would have them.
    """

    starts: Integers
    ends: Integers


def open_edges(mesh: Mesh, edges: Edges | None = None) -> OpenEdges:
    """List the edges that one triangle has alone.

    Parameters
    ----------
    mesh : Mesh
        With shared vertices.
    edges : Edges, optional
        Its edges, where they are known.

    Returns
    -------
    OpenEdges
        In rising order of their ends.

    Examples
    --------
    >>> open_edges(Mesh([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 1, 2]])).starts.tolist()
    [1, 0, 2]
    """
    found = edges if edges is not None else edges_of(mesh)
    alone = found.uses == 1
    low, high = found.ends[alone].T
    rising = found.direction[alone] > 0
    return OpenEdges(np.where(rising, high, low), np.where(rising, low, high))


def rim_loops(rim: OpenEdges) -> list[Integers]:
    """Walk along open edges until each loop is closed.

    Parameters
    ----------
    rim : OpenEdges
        Of a surface whose triangles agree in their direction.

    Returns
    -------
    list of array (n,)
        Vertices of each loop in its direction; what does not close is left out. A vertex is met once only
        in a loop: where two holes touch they are parted.

    Examples
    --------
    >>> [loop.tolist() for loop in rim_loops(OpenEdges(np.array([0, 1, 2]), np.array([1, 2, 0])))]
    [[0, 1, 2]]
    """
    onward: dict[int, list[int]] = {}
    for start, end in zip(rim.starts.tolist(), rim.ends.tolist(), strict=True):
        onward.setdefault(start, []).append(end)
    loops: list[Integers] = []
    for first in rim.starts.tolist():
        path, place = [first], {first: 0}
        while onward.get(path[-1]):
            vertex = onward[path[-1]].pop(0)
            if vertex in place:
                begin = place[vertex]
                loops.append(np.array(path[begin:]))
                for passed in path[begin + 1 :]:
                    del place[passed]
                path = path[: begin + 1]
            else:
                place[vertex] = len(path)
                path.append(vertex)
    return loops
