"""Triangles that lie on each other: second copies, inner walls, and walls without thickness."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.mesh import Integers, Mesh
from pourwright.geometry.repairs.mending import Mending, counted

Truths = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class _Stacks:
    """Triangles with the same three corners: the one kept, how many, and how many more face its way."""

    chosen: Integers
    counts: Integers
    balance: Integers


def without_doubles(mesh: Mesh) -> tuple[Mesh, tuple[Mending, ...]]:
    """Keep one of several triangles with the same corners, or none where the surface is closed without.

    Parameters
    ----------
    mesh : Mesh
        With shared vertices.

    Returns
    -------
    Mesh, tuple of Mending

    Notes
    -----
    Triangles that lie on each other face to face are a wall between two bodies that touch, or a wall without
    thickness. Either encloses nothing, so it is left out, patch by patch, where the edges around the patch
    have two other triangles or none. Everywhere else one of the copies is needed.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.2, 0.2])
    >>> len(without_doubles(Mesh(cube.vertices, np.repeat(cube.faces, 2, axis=0)))[0].faces)
    12
    """
    stacks = _stacks(mesh)
    if (stacks.counts == 1).all():
        return mesh, ()
    single = Mesh(mesh.vertices, mesh.faces[stacks.chosen])
    outside, free = _dropped(single, stacks)
    keep = ~(outside | free)
    order = np.sort(stacks.chosen[keep])
    return Mesh(mesh.vertices, mesh.faces[order]), _told(single, stacks, outside, free)


def _stacks(mesh: Mesh) -> _Stacks:
    corners = np.sort(mesh.faces, axis=1)
    # one even turn of the sorted corners faces one way, an odd one the other
    rolled = np.argmin(mesh.faces, axis=1)
    second = mesh.faces[np.arange(len(rolled)), (rolled + 1) % 3]
    ways = np.where(second == corners[:, 1], 1, -1)
    order = np.lexsort((np.arange(len(corners)), corners[:, 2], corners[:, 1], corners[:, 0]))
    ranked = corners[order]
    fresh = np.append(True, np.any(ranked[1:] != ranked[:-1], axis=1))
    starts = np.flatnonzero(fresh)
    counts = np.diff(np.append(starts, len(order)))
    balance = np.add.reduceat(ways[order], starts)
    chosen = order[starts]
    for stack in np.flatnonzero(counts > 2):
        members = order[starts[stack] : starts[stack] + counts[stack]]
        chosen[stack] = members[np.argmax(ways[members] * np.sign(balance[stack]))]
    return _Stacks(chosen, counts, balance)


def _dropped(single: Mesh, stacks: _Stacks) -> tuple[Truths, Truths]:
    """Stacks that are a wall between bodies, and those that are a wall without thickness."""
    wall = (stacks.counts > 1) & (stacks.balance == 0)
    between, free = np.zeros_like(wall), np.zeros_like(wall)
    if not wall.any():
        return between, free
    edges = edges_of(single)
    number = np.repeat(np.arange(len(edges.uses)), edges.uses)
    of_wall = np.bincount(number, wall[edges.faces], len(edges.uses)).astype(np.int64)
    others = edges.uses - of_wall
    patch = _patches(edges.faces, number, of_wall, wall)
    border = (of_wall[number] == 1) & wall[edges.faces]
    beside, owner = others[number[border]], patch[edges.faces[border]]
    count = int(patch.max()) + 1
    needed = np.bincount(owner, beside % 2 == 1, count) > 0
    closed = np.bincount(owner, beside == 2, count) > 0
    loose = np.bincount(owner, beside == 0, count) > 0
    drop = wall & ~needed[patch] & closed[patch]
    free = drop & loose[patch]
    return drop & ~free, free


def _patches(faces: Integers, number: Integers, of_wall: Integers, wall: Truths) -> Integers:
    """Number the patches of wall triangles that hang together over edges with two of them."""
    from scipy.sparse import coo_array  # noqa: PLC0415 - a tenth of a second that only mending needs
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    inner = (of_wall[number] == 2) & wall[faces]
    pairs = faces[inner].reshape(-1, 2)
    links = (np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1]))
    _, labels = connected_components(coo_array(links, shape=(wall.size, wall.size)), directed=False)
    return np.asarray(labels, dtype=np.int64)


def _told(single: Mesh, stacks: _Stacks, between: Truths, free: Truths) -> tuple[Mending, ...]:
    middles = single.triangles.mean(axis=1)
    kinds = (
        ("doubled", (stacks.counts > 1) & ~(between | free), "{n} on {o} and {w} left out"),
        ("inner wall", between, "the wall between two bodies that touch was left out, and they are one: {m}"),
        ("fin", free, "a wall without thickness cannot be cast and was left out: {m}"),
    )
    told = []
    for kind, which, words in kinds:
        if not which.any():
            continue
        extra = stacks.counts[which] - (1 if kind == "doubled" else 0)
        count = int(extra.sum())
        said = words.format(
            n=counted(count, "triangle lay", "triangles lay"),
            o="another" if count == 1 else "others",
            w="was" if count == 1 else "were",
            m=f"{count} triangles",
        )
        first = np.argsort(stacks.chosen[which], kind="stable")
        told.append(Mending(kind, said, middles[which][first]))
    return tuple(told)
