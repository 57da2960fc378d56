"""The cliff: when a body that makes heat can no longer get rid of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Array, Real
from pourwright.physics.constants import GAS_CONSTANT

CURVATURE: Mapping[str, int] = MappingProxyType({"slab": 0, "cylinder": 1, "sphere": 2})
POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)


@dataclass(frozen=True, slots=True)
class Criticality:
    """The last steady state before run-away.

    Parameters
    ----------
    delta : critical Frank-Kamenetskii number [-]
    theta : dimensionless excess of the middle over the surface there [-]
    """

    delta: float
    theta: float


def frank_kamenetskii_critical(shape: str) -> Criticality:
    """Critical heat release of a body whose surface is held at one temperature.

    Parameters
    ----------
    shape : "slab", "cylinder" or "sphere"; length [m] is half thickness or radius

    Returns
    -------
    critical delta and theta of the middle [-]

    Raises
    ------
    UserError : a shape that is not known

    Notes
    -----
    theta'' + j theta'/x + delta e^theta = 0, theta(1) = 0. With psi = theta(0) - theta
    this is one curve for every delta, psi'' + j psi'/s = e^-psi, and delta = s^2 e^-psi(s)
    is largest where s psi'(s) = 2. Valid for a reaction that does not use itself up.

    References
    ----------
    Frank-Kamenetskii 1969: 0.88, 2.00, 3.32 [frank-kamenetskii-1969].

    Examples
    --------
    >>> print(f"{frank_kamenetskii_critical('slab').delta:.4f}")
    0.8785
    """
    if shape not in CURVATURE:
        raise UserError(f"no shape '{shape}'", allowed=", ".join(CURVATURE))
    curvature, start = CURVATURE[shape], 1e-6
    # Taylor series at the middle, where the equation is 0/0
    begin = [start**2 / (2 * (curvature + 1)), start / (curvature + 1)]

    def emden(reach: float, state: Array) -> list[float]:
        return [state[1], float(np.exp(-state[0])) - curvature * state[1] / reach]

    def beyond(reach: float, state: Array) -> float:
        return float(reach * state[1] - 2)

    beyond.terminal = True  # type: ignore[attr-defined]  # how solve_ivp is told to stop
    path = solve_ivp(emden, (start, 100.0), begin, events=beyond, rtol=1e-11, atol=1e-13)
    reach, fall = path.t[-1], path.y[0, -1]
    return Criticality(delta=float(reach**2 * np.exp(-fall)), theta=float(fall))


@checked(
    ambient=Range(150.0, 1000.0, "K"),
    length=POSITIVE,
    conductivity=POSITIVE,
    heat=NOT_NEGATIVE,
    activation_energy=POSITIVE,
)
def frank_kamenetskii_number(
    ambient: Real, length: float, heat: float, activation_energy: float, conductivity: float
) -> Real:
    """How near a body that cures is to run-away, compared with the critical number.

    Parameters
    ----------
    ambient : absolute temperature of the surface [K], float or array
    length : half thickness or radius [m]
    heat : heat made per volume and time at that temperature [W/m3]
    activation_energy : activation energy of the rate [J/mol]
    conductivity : conductivity of the body [W/(m K)]

    Returns
    -------
    delta [-]; above the critical value of its shape there is no steady state

    Raises
    ------
    RangeError : a temperature out of range, or a number not above 0

    Notes
    -----
    delta = q L^2 E / (k R Ta^2). A guide only: a resin uses itself up, which forgives.

    References
    ----------
    Frank-Kamenetskii 1969 [frank-kamenetskii-1969].

    Examples
    --------
    >>> print(f"{frank_kamenetskii_number(296.15, 0.05, 1000.0, 55e3, 0.2):.3f}")
    0.943
    """
    square: Any = GAS_CONSTANT * conductivity * ambient**2
    return heat * length**2 * activation_energy / square  # type: ignore[no-any-return]


@checked(
    ambient=Range(150.0, 1000.0, "K"),
    heat=NOT_NEGATIVE,
    activation_energy=POSITIVE,
    film_coefficient=POSITIVE,
    area=POSITIVE,
)
def semenov_number(
    ambient: Real, heat: float, activation_energy: float, film_coefficient: float, area: float
) -> Real:
    """How near a stirred pail is to run-away, compared with 1/e.

    Parameters
    ----------
    ambient : absolute temperature of the air [K], float or array
    heat : heat made by the whole pail at that temperature [W]
    activation_energy : activation energy of the rate [J/mol]
    film_coefficient : film coefficient of the pail [W/(m2 K)]
    area : outside of the pail [m2]

    Returns
    -------
    psi [-]

    Raises
    ------
    RangeError : a temperature out of range, or a number not above 0

    Notes
    -----
    psi = q E / (h S R Ta^2). Valid where the pail is equally warm throughout.

    References
    ----------
    Semenov, Z. Phys. 48 (1928) 571 [semenov-1928].

    Examples
    --------
    >>> print(f"{semenov_number(296.15, 3.0, 55e3, 10.0, 0.06):.3f}")
    0.377
    """
    square: Any = film_coefficient * area * GAS_CONSTANT * ambient**2
    return heat * activation_energy / square  # type: ignore[no-any-return]


@checked(theta=NOT_NEGATIVE)
def semenov_balance(theta: Real) -> Real:
    """Semenov number that a steady excess of temperature belongs to.

    Parameters
    ----------
    theta : excess of temperature, E (T - Ta)/(R Ta^2) [-], float or array

    Returns
    -------
    psi [-], largest (critical) at theta = 1, where it is 1/e

    Raises
    ------
    RangeError : a negative theta

    Notes
    -----
    psi e^theta = theta in the steady state.

    References
    ----------
    Semenov, Z. Phys. 48 (1928) 571 [semenov-1928].

    Examples
    --------
    >>> print(f"{semenov_balance(1.0):.6f}")
    0.367879
    """
    return theta * np.exp(-theta)  # type: ignore[no-any-return]
