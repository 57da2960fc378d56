"""Which faces of a piece are sanded alike, and what lies under them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.app.shaping.sizes.beds import Layer
from pourwright.geometry import Mesh, PourFrame
from pourwright.geometry.face_offset import facing
from pourwright.geometry.kept import kept
from pourwright.jobs.sizes import Sizes
from pourwright.physics.wall_layer import bared_share, skin_over_grains

Truths = npt.NDArray[np.bool_]
LEVEL = np.radians(10.0)
"""A face that leans by more is no open face: resin finds its own level."""
AT_TOP = 1e-6
OPEN, FLOOR, SIDES = "open face", "floor", "sides"
STANDING = {"+z": ("top", "underside"), "-z": ("underside", "top")}
"""Open face and floor as the piece stands, by the direction of the file that points up as poured."""


@dataclass(frozen=True, eq=False)
class Group:
    """Faces that are sanded alike.

    Parameters
    ----------
    name : str
        "open face", "floor", "sides" or a direction of the file.
    faces : array of bool (m,)
        Which.
    sanded : float
        Off each of them [m].
    """

    name: str
    faces: Truths
    sanded: float


@dataclass(frozen=True)
class Skin:
    """What lies under a face before it is sanded.

    Parameters
    ----------
    depth : float
        Of neat resin [m].
    glass : float
        Share of the face that is glass once it is sanded [-].
    grade : str
        Of the glass behind it, in words.
    cover : bool
        Whether it is a layer of neat resin, not the film over grains that touch the mold.
    """

    depth: float
    glass: float
    grade: str
    cover: bool


def groups_of(mesh: Mesh, frame: PourFrame, sizes: Sizes) -> tuple[Group, ...]:
    """Part the faces of a piece into groups.

    Parameters
    ----------
    mesh : Mesh
        In the frame of the pour.
    frame : PourFrame
        How it came there.
    sizes : Sizes
        What is sanded off.

    Returns
    -------
    tuple of Group
        Each face is in one; a group without faces is left out.
    """
    top = _at_top(mesh)
    left = np.ones(len(mesh.faces), dtype=bool)
    found = []
    for name, faces, depth in _wanted(mesh, frame, sizes, top):
        mine = faces & left
        left &= ~mine
        if mine.any():
            found.append(Group(name, mine, depth))
    return tuple(found)


def _wanted(mesh: Mesh, frame: PourFrame, sizes: Sizes, top: Truths) -> Iterator[tuple[str, Truths, float]]:
    """Names, faces and depths; the first that has a face keeps it."""
    depths = {name: depth.si for name, depth in sizes.depths().items()}
    yield OPEN, _facing(mesh, (0.0, 0.0, 1.0), LEVEL) & top, depths.get("sand_open_face", 0.0)
    for name, depth in sizes.sand_toward.items():
        axis = np.zeros(3)
        axis["xyz".index(name[1])] = 1.0 if name[0] == "+" else -1.0
        yield name, facing(mesh, frame.matrix[:3, :3] @ axis), depth.si
    yield FLOOR, _facing(mesh, (0.0, 0.0, -1.0)), depths.get("sand_floor", 0.0)
    yield SIDES, np.ones(len(mesh.faces), dtype=bool), depths.get("sand_sides", 0.0)


@kept
def _at_top(mesh: Mesh) -> Truths:
    return np.asarray(mesh.triangles[:, :, 2].min(axis=1) >= mesh.bounds[1, 2] - AT_TOP)


@kept
def _facing(mesh: Mesh, direction: tuple[float, float, float], within: float = np.pi / 4) -> Truths:
    return facing(mesh, direction, within)


def depths(groups: Sequence[Group]) -> npt.NDArray[np.float64]:
    """What is sanded off each face (m,) [m]."""
    return np.asarray(sum(group.faces * group.sanded for group in groups), dtype=np.float64)


def group_words(name: str, up: str) -> str:
    """Name a group as poured, and as the piece stands where it is another face.

    Parameters
    ----------
    name : str
        Of the group.
    up : str
        Direction of the file that points up as poured.

    Returns
    -------
    str

    Examples
    --------
    >>> group_words("floor", "-z"), group_words("sides", "-z"), group_words("+x", "+z")
    ('floor of the mold (top as it stands)', 'sides', 'faces toward +x of the file')
    """
    if name not in (OPEN, FLOOR):
        return name if name == SIDES else f"faces toward {name} of the file"
    stands = STANDING.get(up, ("side", "side"))[name == FLOOR]
    return f"{'floor of the mold' if name == FLOOR else OPEN} ({stands} as it stands)"


def skin_of(group: Group, layers: Sequence[Layer]) -> Skin | None:
    """Say what lies under the faces of a group.

    Parameters
    ----------
    group : Group
        With what is sanded off.
    layers : sequence of Layer
        The fill, from the floor up.

    Returns
    -------
    Skin or None
        Of the finest glass behind it; None where there is none.
    """
    if group.name == OPEN and not layers[-1].solid:
        return _cover(group, layers[::-1])
    if group.name == FLOOR and not layers[0].solid:
        return _cover(group, layers)
    behind = {OPEN: layers[-1:], FLOOR: layers[:1]}.get(group.name, layers)
    glassy = [layer for layer in behind if layer.solid]
    if not glassy:
        return None
    finest = min(glassy, key=lambda layer: layer.grain)
    bared = float(bared_share(group.sanded, finest.grain))
    return Skin(skin_over_grains(finest.grain), bared, finest.grade, cover=False)


def _cover(group: Group, layers: Sequence[Layer]) -> Skin | None:
    """Neat resin over the nearest glass; glass shows once it is sanded through."""
    under = next((layer for layer in layers if layer.solid), None)
    if under is None:
        return None
    first = layers.index(under)
    depth = sum(layer.upper - layer.lower for layer in layers[:first])
    return Skin(depth, 0.0 if group.sanded <= depth else under.solid, under.grade, cover=True)
