"""Hollows of a body that the space around it does not reach."""

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.kept import kept
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ways_up.pockets import Pocket, Surface

_LEVEL = 1e-6
"""How far below the top a rim may lie [m]."""
_LEAST = 1e-12
"""Hollows smaller than this share of the body's box are the roundness of numbers."""


@dataclass(frozen=True, slots=True, eq=False)
class Hollow:
    """A part of the space around a body that hangs together with none of the rest below its top.

    Parameters
    ----------
    volume : float
        Its volume up to the height of the body's top [m3].
    place : array (3,)
        Its middle [m].
    open_above : bool
        Whether it reaches the height of the body's top, as in a pot; else it is closed all round.
    """

    volume: float
    place: Floats
    open_above: bool


@kept
def hollows(mesh: Mesh) -> tuple[Hollow, ...]:
    """Find the hollows that whatever surrounds the body, up to its top, does not hang together with.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented; +z points up.

    Returns
    -------
    tuple of Hollow
        The largest first; exact for the mesh, however thin its walls.

    Notes
    -----
    Seen upside down a hollow that opens at the top only is a pocket that is closed off at the lowest level of
    the body, and a closed one is never left: see ``pockets``.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> hollows(box([0.2, 0.2, 0.2]))
    ()
    >>> room = box([0.1, 0.1, 0.1]).moved([0.0, 0.0, 0.05])
    >>> sealed = joined([box([0.2, 0.2, 0.2]), room.reversed()])
    >>> [(round(found.volume, 6), found.open_above) for found in hollows(sealed)]
    [(0.001, False)]
    """
    upside_down = np.diag([1.0, -1.0, -1.0])
    rim = -float(mesh.bounds[1, 2])
    least = _LEAST * float(np.prod(np.ptp(mesh.bounds, axis=0)))
    found = Surface(mesh).pockets(upside_down, outside=True, least=least)
    kept = [pocket for pocket in found if pocket.lip <= rim + _LEVEL]
    return tuple(
        Hollow(pocket.volume, _middle(mesh, pocket), bool(np.isfinite(pocket.lip))) for pocket in kept
    )


def _middle(mesh: Mesh, pocket: Pocket) -> Floats:
    """Middle of the box around a hollow, from its rim down where it has one."""
    walls = mesh.vertices[pocket.vertices]
    middle = (walls.min(axis=0) + walls.max(axis=0)) / 2
    if np.isfinite(pocket.lip):
        # heights of the pocket count upside down
        middle[2] = -(pocket.lip + pocket.top) / 2
    return np.asarray(middle)
