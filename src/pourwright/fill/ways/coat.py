"""A neat first coat on the face of the mold."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np
from numpy.typing import NDArray

from pourwright.fill.ways.defaults import WAYS
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.draining_film import film_that_stays

Array = NDArray[np.float64]


@dataclass(frozen=True)
class FaceCoat:
    """A coat of neat resin that is brushed onto the face before the glass goes in.

    Parameters
    ----------
    thickness : float
        Wanted [m].
    mass : float
        Of resin [kg].
    thins_to : float
        What stays half-way up an upright face where it is brushed on as mixed [m].
    stands_from : float
        From when on it stays as thick there [s] from mixing; infinite where it never does before gel.
    gels : float
        When the coat gels: glass goes in soon after [s] from mixing.
    """

    thickness: float
    mass: float
    thins_to: float
    stands_from: float
    gels: float


def face_coat(area: float, height: float, density: float, times: Array, fluidity: Array) -> FaceCoat:
    """Reckon a coat.

    Parameters
    ----------
    area : float
        Of the face that is coated [m2].
    height : float
        Of the face [m].
    density : float
        Of the resin [kg/m3].
    times, fluidity : array (n,)
        From mixing to gel [s], and the integral of one over the viscosity until then [1/Pa].

    Returns
    -------
    FaceCoat
    """
    wanted, half = WAYS["face_coat"].value, 0.5 * height
    left = fluidity[-1] - fluidity
    may = half / (density * STANDARD_GRAVITY * wanted**2)
    stands = float(np.interp(-may, -left, times)) if left[0] > may else 0.0
    return FaceCoat(
        thickness=wanted,
        mass=area * wanted * density,
        thins_to=min(film_that_stays(half, density, float(left[0])), wanted) if left[0] > 0.0 else wanted,
        stands_from=stands if stands < times[-1] else inf,
        gels=float(times[-1]),
    )
