"""Heat that enters a body so deep that its far side does not matter."""

from typing import Any

import numpy as np
from scipy.special import erfc, erfcx

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)


@checked(depth=NOT_NEGATIVE, time=POSITIVE, diffusivity=POSITIVE)
def half_space_step(depth: Real, time: float, diffusivity: float) -> Real:
    """Share of a sudden change of surface temperature that has arrived at a depth.

    Parameters
    ----------
    depth : distance below the surface [m], float or array
    time : time since the change [s]
    diffusivity : thermal diffusivity [m2/s]

    Returns
    -------
    (T - Tstart)/(Tsurface - Tstart) [-]

    Raises
    ------
    RangeError : a negative depth, or a time or diffusivity not above 0

    Notes
    -----
    erfc(x / (2 sqrt(alpha t))). Valid while the far side has not noticed.

    References
    ----------
    Carslaw & Jaeger 1959, sec. 2.4 [carslaw-jaeger-1959].

    Examples
    --------
    >>> print(f"{half_space_step(0.02, 3600.0, 1.1e-7):.6f}")
    0.477289
    """
    reach: Any = erfc(depth / (2 * np.sqrt(diffusivity * time)))
    return reach  # type: ignore[no-any-return]


@checked(
    depth=NOT_NEGATIVE,
    time=POSITIVE,
    film_coefficient=NOT_NEGATIVE,
    conductivity=POSITIVE,
    diffusivity=POSITIVE,
)
def half_space_convection(
    depth: Real, time: float, film_coefficient: float, conductivity: float, diffusivity: float
) -> Real:
    """Share of the air's temperature that has arrived at a depth below a surface it warms.

    Parameters
    ----------
    depth : distance below the surface [m], float or array
    time : time since the air came [s]
    film_coefficient : film coefficient [W/(m2 K)]
    conductivity : conductivity of the body [W/(m K)]
    diffusivity : thermal diffusivity of the body [m2/s]

    Returns
    -------
    (T - Tstart)/(Tair - Tstart) [-]

    Raises
    ------
    RangeError : a negative depth or film coefficient, or another number not above 0

    Notes
    -----
    erfc(s) - exp(h x/k + b^2) erfc(s + b) with s = x/(2 sqrt(alpha t)) and
    b = h sqrt(alpha t)/k, written with erfcx so that long times do not overflow.

    References
    ----------
    Carslaw & Jaeger 1959, sec. 2.7 [carslaw-jaeger-1959]; Incropera eq. 5.60
    [incropera-dewitt].

    Examples
    --------
    >>> print(f"{half_space_convection(0.02, 3600.0, 10.0, 0.2, 1.1e-7):.6f}")
    0.227153
    """
    reach = np.sqrt(diffusivity * time)
    near: Any = depth / (2 * reach)
    # erfcx(s) = exp(s^2) erfc(s) does not overflow
    film = film_coefficient * reach / conductivity
    return erfc(near) - np.exp(-(near**2)) * erfcx(near + film)  # type: ignore[no-any-return]
