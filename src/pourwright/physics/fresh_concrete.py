"""What fresh concrete pushes on the boards that hold it."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.constants import STANDARD_GRAVITY

LEAST = 30e3


@checked(
    rate=Range(0.0, 2.1 / 3600, "m/s"),
    temperature=Range(273.15, 323.15, "K"),
    weight_factor=Range(0.5, 1.5),
    chemistry_factor=Range(1.0, 1.5),
)
def placed_slowly(
    rate: float, temperature: float, weight_factor: float = 1.0, chemistry_factor: float = 1.0
) -> float:
    """Side pressure of concrete that rises slowly in a wall and stiffens below.

    Parameters
    ----------
    rate : R, at which it rises [m/s]
    temperature : T, of the concrete [K]
    weight_factor : Cw, 1 for common concrete [-]
    chemistry_factor : Cc, 1 for plain cement, more with retarders [-]

    Returns
    -------
    float
        p = Cw Cc (7.2 + 785 R / (T + 17.8)) kPa with R in m/h and T in degC, before its bounds [Pa]

    Raises
    ------
    RangeError : a number out of range; it holds below 2.1 m/h

    Notes
    -----
    Internal vibration, slump up to 175 mm, walls up to 4.2 m. See `lateral_pressure` for the bounds.

    References
    ----------
    [aci-347]

    Examples
    --------
    >>> print(f"{placed_slowly(1.0 / 3600, 293.15) / 1e3:.4f} kPa")
    27.9672 kPa
    """
    per_hour, celsius = 3600.0 * rate, temperature - 273.15
    return 1e3 * weight_factor * chemistry_factor * (7.2 + 785.0 * per_hour / (celsius + 17.8))


@checked(density=Range(500.0, 4000.0, "kg/m3"), depth=Range(0.0, 4.2, "m"))
def lateral_pressure(density: float, depth: float, slow: float | None = None) -> float:
    """Side pressure at the foot of fresh concrete.

    Parameters
    ----------
    density : of the fresh concrete [kg/m3]
    depth : of it [m]
    slow : what `placed_slowly` gives; None where it is poured in one go, or flows by itself [Pa]

    Returns
    -------
    float
        The full head rho g h, or less where it stiffens below, but not less than 30 kPa [Pa]

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    Below about 1.3 m the full head governs however slowly it is placed.

    References
    ----------
    [aci-347]

    Examples
    --------
    >>> print(f"{lateral_pressure(2300.0, 0.5, 27967.2):.1f} Pa")
    11277.6 Pa
    """
    full = density * STANDARD_GRAVITY * depth
    return full if slow is None else min(max(slow, LEAST), full)


@checked(density=Range(500.0, 4000.0, "kg/m3"))
def full_head_below(density: float) -> float:
    """Depth of fresh concrete up to which slow placing changes nothing.

    Parameters
    ----------
    density : of the fresh concrete [kg/m3]

    Returns
    -------
    float
        30 kPa / (rho g) [m]

    Raises
    ------
    RangeError : a density out of range

    Notes
    -----
    The least pressure to be reckoned with is the whole head there; see `lateral_pressure`.

    References
    ----------
    [aci-347]

    Examples
    --------
    >>> print(f"{full_head_below(2300.0):.2f} m")
    1.33 m
    """
    return LEAST / (density * STANDARD_GRAVITY)
