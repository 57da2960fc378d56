"""Overlap of bodies, each sound by itself, and their union."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from pourwright.geometry.mesh import Mesh

if TYPE_CHECKING:
    from manifold3d import Manifold

NOTHING = 1e-9
"""A shared volume below this share of the smaller body's is round-off."""


class Relation(Enum):
    """How two bodies lie to each other."""

    APART = "apart"
    WITHIN = "the first lies in the second"
    AROUND = "the second lies in the first"
    ACROSS = "they overlap"
    BESIDE = "they touch in a face"


def manifold_of(mesh: Mesh) -> Manifold:
    """Hand a closed mesh to the library that does exact booleans.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, not crossing itself.

    Returns
    -------
    Manifold

    Raises
    ------
    ValueError
        When the library does not take it for closed.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> round(manifold_of(box([0.2, 0.2, 0.2])).volume(), 6)
    0.008
    """
    import manifold3d  # noqa: PLC0415 - a tenth of a second that only joining needs

    content = manifold3d.Mesh64(np.array(mesh.vertices), mesh.faces.astype(np.uint64))
    found = manifold3d.Manifold(content)
    if found.status() != manifold3d.Error.NoError:
        raise ValueError(f"this surface is no manifold: {found.status().name}")
    return found


def mesh_of(found: Manifold) -> Mesh:
    """Take a mesh back from the library.

    Parameters
    ----------
    found : Manifold
        Any.

    Returns
    -------
    Mesh
    """
    content = found.to_mesh64()
    return Mesh(np.asarray(content.vert_properties)[:, :3], np.asarray(content.tri_verts).astype(np.int64))


def relation(first: Manifold, second: Manifold) -> Relation:
    """Tell how two bodies lie to each other.

    Parameters
    ----------
    first, second : Manifold
        Outward oriented.

    Returns
    -------
    Relation

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> room, core = manifold_of(box([1, 1, 1])), manifold_of(box([0.5, 0.5, 0.5]).moved([0, 0, 0.25]))
    >>> relation(core, room)
    <Relation.WITHIN: 'the first lies in the second'>
    """
    shared, sizes = (first ^ second).volume(), (first.volume(), second.volume())
    if shared <= NOTHING * min(sizes):
        # bodies that touch in a face become one by their union, others do not
        parts = len(first.decompose()) + len(second.decompose())
        return Relation.BESIDE if len((first + second).decompose()) < parts else Relation.APART
    if shared >= (1 - NOTHING) * sizes[0]:
        return Relation.WITHIN
    return Relation.AROUND if shared >= (1 - NOTHING) * sizes[1] else Relation.ACROSS
