"""Small things that rise or sink in a thick liquid: bubbles and grains."""

from collections.abc import Mapping
from math import sqrt
from types import MappingProxyType

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import STANDARD_GRAVITY

POSITIVE = Range(0.0, open_low=True)
SIZE = Range(0.0, 1.0, "m", open_low=True)
DRAG: Mapping[str, float] = MappingProxyType({"rigid": 18.0, "mobile": 12.0})
"""Number under the velocity, by how the surface takes part in the flow."""


@checked(diameter=SIZE, density_difference=POSITIVE, viscosity=POSITIVE)
def stokes_velocity(diameter: float, density_difference: float, viscosity: Real) -> Real:
    """Velocity of a small ball whose surface holds the liquid, up or down.

    Parameters
    ----------
    diameter : of the ball [m]
    density_difference : between ball and liquid [kg/m3]
    viscosity : of the liquid [Pa s], float or array

    Returns
    -------
    velocity [m/s]

    Raises
    ------
    RangeError : an argument not above 0

    Notes
    -----
    v = (rho_p - rho) g d^2 / (18 mu). Valid for creeping flow, Reynolds numbers below 0.1. Bubbles
    in resin with any additive in their skin behave so.

    References
    ----------
    Stokes, Trans. Camb. Phil. Soc. 9 (1851) 8 [stokes-1851].

    Examples
    --------
    >>> print(f"{1e3 * stokes_velocity(0.001, 1098.8, 0.6):.4f} mm/s")
    0.9977 mm/s
    """
    return density_difference * STANDARD_GRAVITY * diameter**2 / (DRAG["rigid"] * viscosity)


@checked(
    diameter=SIZE, density_difference=POSITIVE, viscosity=POSITIVE, viscosity_inside=Range(0.0, 1e6, "Pa s")
)
def hadamard_rybczynski_velocity(
    diameter: float, density_difference: float, viscosity: Real, *, viscosity_inside: float = 0.0
) -> Real:
    """Velocity of a bubble or drop whose clean surface moves with the liquid.

    Parameters
    ----------
    diameter : of the bubble [m]
    density_difference : between bubble and liquid [kg/m3]
    viscosity : of the liquid [Pa s], float or array
    viscosity_inside : of what the bubble holds [Pa s]

    Returns
    -------
    velocity [m/s]; 1.5 times that of a rigid ball for gas

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    v = v_Stokes 3 (mu + mu') / (2 mu + 3 mu'). Creeping flow.

    References
    ----------
    Hadamard 1911 and Rybczynski 1911 [hadamard-rybczynski-1911].

    Examples
    --------
    >>> print(f"{1e3 * hadamard_rybczynski_velocity(0.001, 1098.8, 0.6):.4f} mm/s")
    1.4966 mm/s
    """
    eased = 3.0 * (viscosity + viscosity_inside) / (2.0 * viscosity + 3.0 * viscosity_inside)
    return stokes_velocity(diameter, density_difference, viscosity) * eased


@checked(distance=Range(0.0), density_difference=POSITIVE, fluidity=POSITIVE)
def smallest_that_rises(
    distance: float, density_difference: float, fluidity: float, *, skin: str = "rigid"
) -> float:
    """Smallest bubble that rises a distance in a liquid while it still flows.

    Parameters
    ----------
    distance : to the surface [m]
    density_difference : between bubble and liquid [kg/m3]
    fluidity : integral of one over the viscosity over the time it flows [1/Pa]
    skin : "rigid" or "mobile" [-]

    Returns
    -------
    diameter [m]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    distance = drho g d^2 / c times the integral of dt / mu; c is 18 for a rigid and 12 for a mobile
    skin. A bubble that the grains hold back does not rise at all.

    References
    ----------
    Stokes 1851 [stokes-1851]; Hadamard and Rybczynski 1911 [hadamard-rybczynski-1911].

    Examples
    --------
    In an hour of 0.6 Pa s, bubbles of a ninth of a millimetre rise 50 mm.

    >>> print(f"{1e3 * smallest_that_rises(0.050, 1098.8, 3600.0 / 0.6):.3f} mm")
    0.118 mm
    """
    return sqrt(DRAG[skin] * distance / (density_difference * STANDARD_GRAVITY * fluidity))
