"""What a piece may weigh, and the wall with which it is light enough."""

from __future__ import annotations

from pourwright.app.hollow_part import Poured
from pourwright.app.hollow_words import heavy_words
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import Mesh
from pourwright.mold.hollow.core import has_mouth
from pourwright.mold.hollow.wall import wall_for

STEPS = {UnitSystem.METRIC: 0.001, UnitSystem.US: 0.0254 / 16}
"""Walls are told in whole steps [m]."""
TOUCH = 1e-6


def wall_within(mesh: Mesh, poured: Poured, mass: float) -> tuple[float, float] | None:
    """Find the thickest wall that keeps `limits.weight`.

    Parameters
    ----------
    mesh : Mesh
        The cavity in the pour frame.
    poured : Poured
        What goes into it.
    mass : float
        Of the piece as planned [kg].

    Returns
    -------
    (wall, mass) or None
        [m], [kg]; None without a limit, where it is kept, and where no wall that the grains pass keeps it.
    """
    most = poured.job.limits.weight
    if most is None or mass <= most.si or not has_mouth(mesh):
        return None
    step = STEPS[UnitSystem(poured.job.units)]
    found = wall_for(mesh, poured.layers, most.si, step)
    return found if found is not None and found[0] >= poured.least_wall - TOUCH else None


def limit_words(mesh: Mesh, poured: Poured, mass: float) -> str | None:
    """Say that a piece is heavier than it may be, and what would mend it.

    Parameters
    ----------
    mesh : Mesh
        The cavity in the pour frame.
    poured : Poured
        What goes into it.
    mass : float
        Of the piece as planned [kg].

    Returns
    -------
    str or None
        None without a limit, and where it is kept.
    """
    most = poured.job.limits.weight
    if most is None or mass <= most.si:
        return None
    system, mouth = UnitSystem(poured.job.units), has_mouth(mesh)
    return heavy_words(mass, most.si, wall_within(mesh, poured, mass), system, mouth=mouth)
