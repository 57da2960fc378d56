"""Every way up that is worth a thought, each measured: mouth, trapped air, undercut, head."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.frames import ALONG, UP, pour_frame, turn_to
from pourwright.geometry.levels import level_volume
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ways_up.flats import flat_faces, hull_faces
from pourwright.geometry.ways_up.pockets import Pocket, Surface
from pourwright.geometry.ways_up.release import blocked_share, open_face
from pourwright.geometry.ways_up.undercuts import Stretch, neck_stretch

MOST_FLATS = 7
MOST_KNOTS = 200
_LEVEL = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """One way up, measured.

    Parameters
    ----------
    up : array (3,)
        Direction of the file that points up as poured.
    name : str
        The same as a job file writes it.
    floor : float
        Lowest height of the body along up, where the mold's floor is [m].
    size : array (3,)
        Extent along x, y, z as poured [m]; the last is the head.
    open_area : float
        Flat area at the top [m2].
    widest : float
        Largest horizontal section [m2].
    casting : tuple of Pocket
        Where the casting traps air.
    hung, screwed : tuple of Pocket
        Where rubber traps air that rises around the master, hung open face up or screwed on open face down.
    basins : float
        Hollows that open at the top only [m3]: rubber in them would hang on nothing.
    blocked : float
        Share of the surface that rubber lies over when the piece is pulled out of the open face.
    stretch : Stretch
        What the rubber's necks go through then.
    """

    up: Floats
    name: str
    floor: float
    size: Floats
    open_area: float
    widest: float
    casting: tuple[Pocket, ...]
    hung: tuple[Pocket, ...]
    screwed: tuple[Pocket, ...]
    basins: float
    blocked: float
    stretch: Stretch

    @property
    def head(self) -> float:
        """Height of liquid over the mold's floor [m]."""
        return float(self.size[2])

    @property
    def open_share(self) -> float:
        """Open face as a share of the widest section."""
        return self.open_area / max(self.widest, self.open_area, 1e-12)


@checked(within=Range(0, np.pi / 4, unit="rad"))
def ways_up(mesh: Mesh, within: float = np.radians(1.0), *, hull: bool = True) -> tuple[Floats, ...]:
    """List the directions worth standing a body by.

    Parameters
    ----------
    mesh : Mesh
        In the file's frame.
    within : float
        Directions nearer to each other than this are one [rad]; a flat face wins over an axis beside it.
    hull : bool
        Whether to look at the convex hull and at axes without a flat face too: for large meshes it is slow.

    Returns
    -------
    tuple of array (3,)
        The six axes, then both ways of the largest flat faces of the body and of its convex hull.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> len(ways_up(box([0.3, 0.2, 0.1])))
    6
    """
    flats = [flat.direction for flat in flat_faces(mesh)[:MOST_FLATS]]
    flats += [flat.direction for flat in hull_faces(mesh)[:MOST_FLATS]] if hull else []
    found = [np.array(rows[2], dtype=np.float64) for rows in UP.values()]
    for way in [way for flat in flats for way in (flat, -flat)]:
        near = [n for n, other in enumerate(found) if way @ other > np.cos(within)]
        exact = [n for n in near if way @ found[n] > ALONG]
        if near and not exact and near[0] < len(UP) and not _is_axis(found[near[0]], flats):
            found[near[0]] = way
        elif not near:
            found.append(way)
    if hull:
        return tuple(found)
    return tuple(
        way
        for n, way in enumerate(found)
        if n < 2 or max((way @ f for f in flats), default=0.0) > np.cos(within)
    )


def measure_ways(
    mesh: Mesh, ways: Sequence[npt.ArrayLike] | None = None, least: float = 0.0
) -> tuple[Way, ...]:
    """Measure each way up.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented, in the file's frame.
    ways : sequence of array (3,), optional
        Unit vectors; those of ``ways_up`` where left out.
    least : float
        Pockets smaller than this are left out [m3].

    Returns
    -------
    tuple of Way
        In the order given.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> point_up, point_down = measure_ways(cone(0.1, 0.0, 0.3), [[0, 0, 1.0], [0, 0, -1.0]])
    >>> point_up.open_share, round(point_down.open_share, 3)
    (0.0, 1.0)
    """
    surface = Surface(mesh)
    given = ways_up(mesh) if ways is None else [np.asarray(way, dtype=np.float64) for way in ways]
    return tuple(_measure(surface, way, least) for way in given)


def _measure(surface: Surface, up: Floats, least: float) -> Way:
    mesh = surface.mesh
    piece, frame = pour_frame(mesh, [float(value) for value in up])
    turn = frame.matrix[:3, :3]
    flipped = turn_to(-turn[2])
    below = surface.pockets(flipped, outside=True, least=least)
    # seen upside down, a hollow that opens at the top only is closed off at the lowest level there is
    board = float((mesh.vertices[mesh.faces.ravel()] @ flipped[2]).min())
    sealed = [pocket for pocket in below if pocket.lip <= board + _LEVEL]
    curve = level_volume(piece)
    knots = curve.knots
    knots = knots[np.linspace(0, knots.size - 1, min(knots.size, MOST_KNOTS)).astype(int)]
    middles = (knots[1:] + knots[:-1]) / 2
    return Way(
        turn[2],
        frame.up,
        -float(frame.matrix[2, 3]),
        piece.bounds[1] - piece.bounds[0],
        open_face(piece).area,
        float(max(curve.area(knots).max(), curve.area(middles).max())),
        surface.pockets(turn, outside=False, least=least),
        surface.pockets(turn, outside=True, least=least),
        tuple(pocket for pocket in below if pocket.lip > board + _LEVEL),
        float(sum(pocket.volume for pocket in sealed)),
        blocked_share(mesh, turn[2]),
        neck_stretch(mesh, turn[2]),
    )


def _is_axis(axis: Floats, flats: Sequence[Floats]) -> bool:
    """Whether some flat face looks exactly along an axis, or against it."""
    return any(abs(axis @ flat) > ALONG for flat in flats)
