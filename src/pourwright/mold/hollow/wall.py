"""The thickest wall with which a piece is light enough."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pourwright.geometry import Mesh
from pourwright.geometry.drawn.carrying import carried_on
from pourwright.geometry.drawn.rounding_lattice import Lattice
from pourwright.mold.hollow.offers import Layer, offer_of

THINNEST = 0.003
"""Walls below this are not looked for [m]."""
POINTS = 60_000
"""Lattice points of the first guess."""
TRIALS = 8
"""Walls around the first guess that are weighed exactly."""


def wall_for(mesh: Mesh, layers: Sequence[Layer], most: float, step: float) -> tuple[float, float] | None:
    """Find the thickest wall, in whole steps, with which a piece is no heavier than it may be.

    Parameters
    ----------
    mesh : Mesh
        The piece, mouth at its top [m].
    layers : sequence of Layer
        Its bands from the floor up, cast solid.
    most : float
        What the piece may weigh [kg].
    step : float
        Walls are whole multiples of it [m].

    Returns
    -------
    (wall, mass) or None
        [m], [kg]; None where even a wall of 3 mm is too heavy.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> layers = [Layer(upper=0.1, volume=0.004, resin=4.0, solids=0.0)]
    >>> wall, mass = wall_for(box([0.2, 0.2, 0.1]), layers, 2.2, 0.001)
    >>> round(wall, 3), round(mass, 2)
    (0.023, 2.17)
    """
    solid = sum(layer.resin + layer.solids for layer in layers)
    best: tuple[float, float] | None = None
    wall = step * float(np.floor(_guess(mesh, layers, most) / step))
    for _ in range(TRIALS):
        if wall < THINNEST:
            break
        mass = solid - offer_of(mesh, layers, wall).saved
        if mass <= most:
            best = (round(wall, 9), mass)
            wall += step
        elif best is None:
            wall -= step
        else:
            break
    return best


def _guess(mesh: Mesh, layers: Sequence[Layer], most: float) -> float:
    """Deep places are lighter by their band's density; the wall is the depth down to which they must go."""
    reach = float(min(mesh.bounds[1] - mesh.bounds[0])) / 2
    size = mesh.bounds[1] - mesh.bounds[0]
    lattice = Lattice.around(mesh, 0.0, float(np.cbrt(np.prod(size) / POINTS)))
    depths = -lattice.distances(carried_on(mesh, 2 * reach), reach)
    densities = [(layer.resin + layer.solids) / layer.volume for layer in layers]
    at = np.searchsorted([layer.upper for layer in layers[:-1]], lattice.axes[2])
    inside = (depths > 0.0) & (lattice.axes[2] < mesh.bounds[1, 2])
    weights = (np.array(densities)[at] * inside).ravel()
    order = np.argsort(-depths.ravel())
    heaped = np.cumsum(weights[order])
    solid = sum(layer.resin + layer.solids for layer in layers)
    enough = int(np.searchsorted(heaped, (solid - most) / solid * heaped[-1]))
    return float(depths.ravel()[order][min(enough, len(order) - 1)])
