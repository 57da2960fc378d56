"""Edges of any body rounded: by a ball that rolls along the inside, or along the outside, of its surface."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.drawn.outlines_corners import NoRoomError
from pourwright.geometry.drawn.rounding_lattice import Lattice, sharp_points
from pourwright.geometry.drawn.rounding_levels import level_surface
from pourwright.geometry.mesh import Mesh

STEPS_PER_RADIUS = 4.0
MOST_POINTS = 2_000_000
_COARSEST = 2.0
_BEYOND = 0.05
"""How far the ball reaches over the face, in steps, so that the face itself stays as it is."""
LEFT_OVER = 0.3
"""How far the rounded edges were found to lie off at most, in steps: docs/decisions/0019."""
_DEEPEST = 4.0
_TRIALS = 4


class _SwallowedError(Exception):
    """Inside this file: nothing is left of a wall, or of a gap."""


@checked(radius=Range(0, unit="m"), inner_radius=Range(0, unit="m"))
def rounded_body(mesh: Mesh, radius: float, inner_radius: float = 0.0) -> tuple[Mesh, float]:
    """Round the outer edges of a body, the inner ones, or both.

    Parameters
    ----------
    mesh : Mesh
        One closed body without faults.
    radius, inner_radius : float
        Of the outer and of the inner edges; 0 leaves them as they are [m].

    Returns
    -------
    mesh : Mesh
        Away from its rounded edges it is the body as it was.
    tolerance : float
        How far the rounded edges may lie from true ones [m].

    Raises
    ------
    NoRoomError
        Where a radius swallows a wall or a gap, with the largest that was found to work.
    UserError
        For a radius too fine for a body of this size.

    Notes
    -----
    The ball's centre stays where the distance to the surface is the radius or more; the body is cut down to
    what the ball reaches from there. Both distances are exact on a lattice of a quarter of the radius, so the
    error lies in the sharp edges of the centre's space, of which a lattice cuts off a part of a step.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> from pourwright.geometry.drawn.rounding import rounded_box
    >>> from pourwright.geometry.solid import measure
    >>> found, tolerance = rounded_body(box([0.04, 0.03, 0.03]), 0.006)
    >>> exact = measure(rounded_box([0.04, 0.03, 0.03], 0.006)).volume
    >>> bool(abs(measure(found).volume / exact - 1) < 0.01), round(tolerance, 6)
    (True, 0.00045)
    """
    tolerance = 0.0
    for size, outside in ((inner_radius, True), (radius, False)):
        if size > 0:
            mesh = _rounded_or_refused(mesh, size, outside=outside)
            tolerance = max(tolerance, LEFT_OVER * step_for(mesh, size))
    return mesh, tolerance


def step_for(mesh: Mesh, radius: float) -> float:
    """Choose the step of the lattice.

    Parameters
    ----------
    mesh : Mesh
        A body.
    radius : float
        [m]

    Returns
    -------
    float
        A quarter of the radius, or coarser where the body is too large for that [m].

    Raises
    ------
    UserError
        Where the step would be more than half of the radius.
    """
    sides = np.ptp(mesh.bounds, axis=0) + 4 * radius
    least = float((sides.prod() / MOST_POINTS) ** (1 / 3))
    if least > radius / _COARSEST:
        raise UserError(
            f"a rounding of {1000 * radius:.3g} mm is too fine for a body of this size",
            allowed=f"{np.ceil(1e4 * least * _COARSEST) / 10:g} mm or more, or round the parts one by one",
        )
    return max(radius / STEPS_PER_RADIUS, least)


def _rounded_or_refused(mesh: Mesh, radius: float, *, outside: bool) -> Mesh:
    body = as_manifold(mesh)
    try:
        return as_mesh(_rolled(body, radius, step_for(mesh, radius), outside=outside))
    except _SwallowedError:
        largest = _largest(mesh, body, radius, outside=outside)
    raise NoRoomError.of(None, radius, largest)


def _largest(mesh: Mesh, body: Any, radius: float, *, outside: bool) -> float:
    """Halve a few times; a coarse answer is enough to go on."""
    low, high = 0.0, radius
    for _ in range(_TRIALS):
        middle = (low + high) / 2
        try:
            _rolled(body, middle, max(step_for(mesh, middle), middle / 2.5), outside=outside)
        except (_SwallowedError, UserError):
            high = middle
        else:
            low = middle
    return low


def _rolled(body: Any, radius: float, step: float, *, outside: bool) -> Any:
    """Cut the body down to what the ball reaches, or fill up what it does not reach from outside."""
    side = -1.0 if outside else 1.0
    mesh = _cut_up(body, step)
    lattice = Lattice.around(mesh, radius if outside else 0.0, step)
    field = lattice.distances(mesh, radius)
    centres = level_surface(field, lattice.axes, -side * radius)
    if not len(centres.faces) or _farthest(mesh, centres) > _DEEPEST * radius + step:
        raise _SwallowedError
    sharp = sharp_points(mesh, centres, step)
    reach = radius + _BEYOND * step
    kept = _cut_up(as_manifold(centres).simplify(20 * step), step)
    # the lattice knows on which side its points lie; thin triangles may tell it wrongly
    within = np.where(field <= -side * radius, -side, side)
    away = lattice.lowered(within * np.abs(lattice.distances(kept, reach)), sharp, reach)
    field = side * away
    reached = as_manifold(level_surface(field, lattice.axes, side * reach))
    found = (body + reached if outside else body ^ reached).simplify(step)
    solids = [piece for piece in found.decompose() if piece.volume() > 0]
    if len(solids) != 1 or found.genus() != body.genus():
        raise _SwallowedError
    return found


def _cut_up(body: Any, step: float) -> Mesh:
    """Long thin triangles are found slowly by a search for the nearest one."""
    return as_mesh(body.refine_to_length(8000 * step))


def _farthest(mesh: Mesh, centres: Mesh) -> float:
    """How far a place of the surface lies from the ball's centres: walls it swallows, or gaps it fills."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - rounding of joined bodies only

    return float(np.max(cKDTree(centres.vertices).query(mesh.vertices)[0]))
