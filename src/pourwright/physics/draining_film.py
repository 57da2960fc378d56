"""A film of liquid that runs down an upright wall."""

from __future__ import annotations

from math import sqrt

from pourwright.foundation.checks import Range, checked
from pourwright.physics.constants import STANDARD_GRAVITY

POSITIVE = Range(0.0, open_low=True)


@checked(below=POSITIVE, density=POSITIVE, fluidity=POSITIVE)
def film_that_stays(below: float, density: float, fluidity: float) -> float:
    """Thickness of a film at a place of an upright wall once it has run down for a time.

    Parameters
    ----------
    below : distance of the place from the film's upper edge [m]
    density : of the liquid [kg/m3]
    fluidity : integral of one over the viscosity over that time [1/Pa]

    Returns
    -------
    thickness [m], where the film was thicker at first

    Raises
    ------
    RangeError : an argument not above 0

    Notes
    -----
    delta = sqrt(z / (rho g integral of dt / mu)). Alike everywhere, a viscosity that changes counts by
    its integral. A liquid that is made to stand (thickened with fumed silica) does not run so.

    References
    ----------
    Jeffreys, Proc. Camb. Phil. Soc. 26 (1930) 204 [jeffreys-1930] (citation from memory).

    Examples
    --------
    Of 0.6 Pa s, an hour on the wall leaves 40 micrometres 100 mm below the edge.

    >>> print(f"{1e6 * film_that_stays(0.1, 1100.0, 3600.0 / 0.6):.0f} um")
    39 um
    """
    return sqrt(below / (density * STANDARD_GRAVITY * fluidity))
