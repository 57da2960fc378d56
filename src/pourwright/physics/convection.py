"""Natural convection from a face of the mold to the air of the shop."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.air import air_conductivity, air_kinematic_viscosity, air_prandtl
from pourwright.physics.arrays import Real
from pourwright.physics.constants import STANDARD_GRAVITY, STANDARD_PRESSURE

RAYLEIGH = Range(0.0, 1e13)
TURBULENT = 1e7  # as the textbook has it; McAdams himself 2e7
TEMPERATURE = Range(230.0, 500.0, "K")


@checked(surface=TEMPERATURE, ambient=TEMPERATURE, length=Range(1e-4, 10.0, "m"))
def rayleigh(
    surface: Real, ambient: Real | float, length: float, *, pressure: float = STANDARD_PRESSURE
) -> Real:
    """How strongly warm air rises along a face, against its viscosity.

    Parameters
    ----------
    surface : absolute temperature of the face [K], float or array
    ambient : absolute temperature of the air far away [K]
    length : characteristic length [m]: height of an upright face, area over perimeter of
        a level one
    pressure : absolute pressure of the air [Pa]

    Returns
    -------
    Rayleigh number [-], never negative

    Raises
    ------
    RangeError : a temperature outside 230 to 500 K, or a length outside 0.1 mm to 10 m

    Notes
    -----
    Ra = g |Ts - Ta| L^3 Pr / (Tf nu^2), air at the film temperature Tf = (Ts + Ta)/2.

    References
    ----------
    Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ch. 9 [incropera-dewitt].

    Examples
    --------
    >>> print(f"{rayleigh(313.15, 293.15, 0.3):.3g}")
    4.83e+07
    """
    film = (surface + ambient) / 2
    drive: Any = STANDARD_GRAVITY * np.abs(surface - ambient) * length**3 / film
    return drive * air_prandtl(film) / air_kinematic_viscosity(film, pressure=pressure) ** 2  # type: ignore[no-any-return]


@checked(rayleigh=RAYLEIGH, prandtl=Range(1e-3, 1e4))
def churchill_chu_vertical(rayleigh: Real, prandtl: Real) -> Real:
    """Heat leaving an upright plate, as a Nusselt number.

    Parameters
    ----------
    rayleigh : Rayleigh number by the height of the plate [-], float or array
    prandtl : Prandtl number of the air [-], same shape

    Returns
    -------
    mean Nusselt number by the height of the plate [-]

    Raises
    ------
    RangeError : a Rayleigh number outside 0 to 1e13, or a Prandtl number out of range

    Notes
    -----
    Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27))^2, the form for every
    Ra up to 1e12, laminar or turbulent. Where Ra < 1e9 a laminar form is up to 10 % off it.

    References
    ----------
    Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323 [churchill-chu-1975].

    Examples
    --------
    >>> print(f"{churchill_chu_vertical(4.79472e7, 0.706669):.4f}")
    49.0887
    """
    damping: Any = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
    return (0.825 + 0.387 * rayleigh ** (1 / 6) / damping) ** 2  # type: ignore[no-any-return]


@checked(rayleigh=RAYLEIGH)
def mcadams_hot_side_up(rayleigh: Real) -> Real:
    """Heat leaving a level plate that is warmer than the air above it.

    Parameters
    ----------
    rayleigh : Rayleigh number by area over perimeter [-], float or array

    Returns
    -------
    mean Nusselt number by the same length [-]

    Raises
    ------
    RangeError : a Rayleigh number outside 0 to 1e13

    Notes
    -----
    Nu = 0.54 Ra^(1/4) up to Ra = 1e7, 0.15 Ra^(1/3) beyond (a step of 6 % between them).
    Valid for 1e4 < Ra < 1e11; below, the true value does not fall as far. The same for a
    cold plate that faces down.

    References
    ----------
    McAdams, Heat Transmission, 3rd ed. 1954 [mcadams-1954]; limits as in Incropera
    eq. 9.30 and 9.31 [incropera-dewitt].

    Examples
    --------
    >>> print(f"{mcadams_hot_side_up(1775820.0):.4f}")
    19.7126
    """
    # the step between both laws is kept as published
    rising: Any = np.where(rayleigh <= TURBULENT, 0.54 * rayleigh**0.25, 0.15 * rayleigh ** (1 / 3))
    return rising[()]  # type: ignore[no-any-return]


@checked(rayleigh=RAYLEIGH)
def mcadams_hot_side_down(rayleigh: Real) -> Real:
    """Heat leaving a level plate that is warmer than the air below it.

    Parameters
    ----------
    rayleigh : Rayleigh number by area over perimeter [-], float or array

    Returns
    -------
    mean Nusselt number by the same length [-]

    Raises
    ------
    RangeError : a Rayleigh number outside 0 to 1e13

    Notes
    -----
    Nu = 0.27 Ra^(1/4). Valid for 1e5 < Ra < 1e10. Later editions of the textbook give
    0.52 Ra^(1/5) instead. The same for a cold plate that faces up.

    References
    ----------
    McAdams, Heat Transmission, 3rd ed. 1954 [mcadams-1954]; Incropera eq. 9.32
    [incropera-dewitt].

    Examples
    --------
    >>> print(f"{mcadams_hot_side_down(1775820.0):.4f}")
    9.8563
    """
    return 0.27 * rayleigh**0.25  # type: ignore[no-any-return]


def _upright(rayleigh: Any, prandtl: Any, _warmer: Any) -> Any:
    return churchill_chu_vertical(rayleigh, prandtl)


def _facing_up(rayleigh: Any, _prandtl: Any, warmer: Any) -> Any:
    rising, trapped = mcadams_hot_side_up(rayleigh), mcadams_hot_side_down(rayleigh)
    return np.where(warmer, rising, trapped)[()]


def _facing_down(rayleigh: Any, prandtl: Any, warmer: Any) -> Any:
    return _facing_up(rayleigh, prandtl, np.logical_not(warmer))


FACES: Mapping[str, Callable[[Any, Any, Any], Any]] = MappingProxyType(
    {"upright": _upright, "facing up": _facing_up, "facing down": _facing_down}
)


@checked(surface=TEMPERATURE, ambient=TEMPERATURE, length=Range(1e-4, 10.0, "m"))
def film_coefficient(
    surface: Real,
    ambient: Real | float,
    length: float,
    face: str,
    *,
    pressure: float = STANDARD_PRESSURE,
) -> Real:
    """Film coefficient of still air on a face, by which way the face looks.

    Parameters
    ----------
    surface : absolute temperature of the face [K], float or array
    ambient : absolute temperature of the shop [K]
    length : characteristic length [m]: height of an upright face, area over perimeter of
        a level one
    face : "upright", "facing up" or "facing down" (the keys of `FACES`)
    pressure : absolute pressure of the air [Pa]

    Returns
    -------
    film coefficient by convection alone [W/(m2 K)]; 0 on a level face as warm as the air

    Raises
    ------
    UserError : a face that is not known
    RangeError : a temperature outside 230 to 500 K, or a length outside 0.1 mm to 10 m

    Notes
    -----
    h = Nu k / L, air at the film temperature. A level face colder than the air behaves
    like a warm one that looks the other way. Still air: a draught raises it.

    References
    ----------
    Churchill & Chu 1975 [churchill-chu-1975]; McAdams 1954 [mcadams-1954].

    Examples
    --------
    >>> print(f"{film_coefficient(313.15, 293.15, 0.3, 'upright'):.2f} W/(m2 K)")
    4.34 W/(m2 K)
    """
    if face not in FACES:
        raise UserError(f"no face '{face}'", allowed=", ".join(FACES))
    film: Any = (surface + ambient) / 2
    strength = rayleigh(surface, ambient, length, pressure=pressure)
    nusselt = FACES[face](strength, air_prandtl(film), surface >= ambient)
    return nusselt * air_conductivity(film) / length  # type: ignore[no-any-return]
