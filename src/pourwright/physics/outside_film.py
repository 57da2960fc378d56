"""Convection and radiation together: what a face in the open shop loses."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import STANDARD_PRESSURE
from pourwright.physics.convection import TEMPERATURE, film_coefficient
from pourwright.physics.radiation import EMISSIVITY, radiation_coefficient


@checked(
    surface=TEMPERATURE,
    ambient=TEMPERATURE,
    length=Range(1e-4, 10.0, "m"),
    emissivity=EMISSIVITY,
)
def outside_film(
    surface: Real,
    ambient: Real | float,
    length: float,
    face: str,
    emissivity: float,
    *,
    pressure: float = STANDARD_PRESSURE,
) -> Real:
    """Film coefficient of a face in a shop whose walls are as warm as its air.

    Parameters
    ----------
    surface : absolute temperature of the face [K], float or array
    ambient : absolute temperature of air and walls [K]
    length : characteristic length [m], as `convection.film_coefficient` takes it
    face : "upright", "facing up" or "facing down"
    emissivity : emissivity of the face [-], 0 to 1
    pressure : absolute pressure of the air [Pa]

    Returns
    -------
    film coefficient by convection and radiation [W/(m2 K)]

    Raises
    ------
    UserError : a face that is not known
    RangeError : a temperature, length or emissivity out of range

    Notes
    -----
    The sum of `convection.film_coefficient` and `radiation.radiation_coefficient`.
    Valid for still air and no sun on the mold.

    References
    ----------
    Incropera & DeWitt ch. 1 and 9 [incropera-dewitt].

    Examples
    --------
    >>> print(f"{outside_film(313.15, 293.15, 0.3, 'upright', 0.9):.1f} W/(m2 K)")
    10.0 W/(m2 K)
    """
    convected = film_coefficient(surface, ambient, length, face, pressure=pressure)
    return convected + radiation_coefficient(surface, ambient, emissivity)
