"""A mixed batch before it is poured: a round body of resin in a pail, or spread in a tray."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi, sqrt

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.checks import Range, checked
from pourwright.materials import Resin
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.films import tabulated_film
from pourwright.pour.reaction import RATE
from pourwright.pour.site import cure_law
from pourwright.solver import Exchange, Problem, Surfaces

Array = NDArray[np.float64]
POSITIVE = Range(0.0, open_low=True)
CELLS = 10
STIRRED = 50.0  # W/(m K): evenly warm within a hundredth of a kelvin
LEAST_FILM = 1e-6  # still air must not divide by zero
LEAST_HEIGHT = 0.01  # m, of a side that air rises along


@dataclass(frozen=True)
class Vessel:
    """What a batch stands in: an upright cylinder, filled to a depth.

    Parameters
    ----------
    diameter : float
        Inside [m].
    depth : float
        Of the resin in it [m].
    cells : int
        Cells from the axis to the wall; 1 where it is wide and shallow.
    """

    diameter: float
    depth: float
    cells: int = CELLS


@checked(mass=POSITIVE, density=POSITIVE, pail=POSITIVE)
def in_pail(mass: float, density: float, pail: float) -> Vessel:
    """Fill a pail of usual shape.

    Parameters
    ----------
    mass : float
        Of the batch [kg].
    density : float
        Of the mix [kg/m3].
    pail : float
        Brim volume [m3].

    Returns
    -------
    Vessel
        As high at the brim as `DEFAULTS` says, against its diameter.

    Examples
    --------
    >>> full = in_pail(8.2, 1090.0, 0.010)
    >>> round(full.diameter, 3), round(full.depth, 3)
    (0.234, 0.176)
    """
    diameter = float(np.cbrt(4.0 * pail / (pi * DEFAULTS["pail_slenderness"].value)))
    return Vessel(diameter, 4.0 * mass / (density * pi * diameter**2))


@checked(mass=POSITIVE, density=POSITIVE, depth=POSITIVE)
def in_tray(mass: float, density: float, depth: float) -> Vessel:
    """Spread a batch evenly.

    Parameters
    ----------
    mass : float
        Of the batch [kg].
    density : float
        Of the mix [kg/m3].
    depth : float
        Of the layer [m].

    Returns
    -------
    Vessel
        A round tray of the area that it takes.

    Examples
    --------
    >>> round(in_tray(8.2, 1090.0, 0.010).diameter, 2)
    0.98
    """
    return Vessel(sqrt(4.0 * mass / (density * depth * pi)), depth, 1)


def as_problem(resin: Resin, vessel: Vessel, shop: float, *, stirred: bool = False) -> Problem:
    """Cut a batch into rings and layers.

    Parameters
    ----------
    resin : Resin
        Record.
    vessel : Vessel
        Shape of the batch.
    shop : float
        Temperature of air, walls and bench [K].
    stirred : bool
        Whether it is equally warm throughout.

    Returns
    -------
    Problem
        x is the radius; every property is weighted by radius over outer radius, which makes
        the rings of a flat grid those of a cylinder.
    """
    radii = np.linspace(0.0, vessel.diameter / 2, vessel.cells + 1)
    layers = np.linspace(0.0, vessel.depth, CELLS + 1)
    weight = (radii[1:] + radii[:-1]) / vessel.diameter
    field = np.broadcast_to(weight[:, None, None], (vessel.cells, 1, CELLS))
    density = resin.density.value
    return Problem(
        radii, np.array([0.0, 1.0]), layers,
        density * resin.heat_capacity.value * field,
        (STIRRED if stirred else resin.conductivity.value) * field,
        density * resin.heat_of_reaction.value * field,
        surfaces=_surfaces(vessel, shop, weight),
        rate=RATE, parameters=cure_law(resin.cure).row,
    )  # fmt: skip


def _surfaces(vessel: Vessel, shop: float, weight: Array) -> Surfaces:
    """Side through the plastic, top bare, bottom through plastic and bench."""
    wall = DEFAULTS["pail_wall"].value / DEFAULTS["pail_conductivity"].value
    bench = DEFAULTS["bench_thickness"].value / DEFAULTS["bench_conductivity"].value
    flat = vessel.diameter / 4  # area over perimeter
    upright = (max(vessel.depth, LEAST_HEIGHT), "upright")

    def exchange(length: float, face: str, resistance: float, weight: Array | float) -> Exchange:
        film = tabulated_film(shop, length, face, DEFAULTS["open_emissivity"].value)
        return Exchange(_weighted(film, resistance, weight), shop)

    return Surfaces(
        x_high=exchange(*upright, wall, 1.0),
        z_low=exchange(flat, "facing down", wall + bench, weight),
        z_high=exchange(flat, "facing up", 0.0, weight),
    )


def _weighted(
    film: Callable[[Array, float], Array], resistance: float, weight: Array | float
) -> Callable[[Array, float], Array]:
    """Film behind a resistance, for rings of different weight."""

    def passes(surface: Array, around: float) -> Array:
        coefficient = np.maximum(film(surface, around), LEAST_FILM)
        return np.asarray(weight / (resistance + 1.0 / coefficient))

    return passes
