"""What a liquid at rest does: push on walls, and lift what is in it."""

from dataclasses import dataclass

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import STANDARD_GRAVITY

DENSITY = Range(0.1, 30000.0, "kg/m3")
NOT_NEGATIVE = Range(0.0)
POSITIVE = Range(0.0, open_low=True)


@checked(depth=NOT_NEGATIVE, density=DENSITY)
def pressure_at_depth(depth: Real, density: float) -> Real:
    """Pressure of a liquid above that of the air.

    Parameters
    ----------
    depth : depth below the surface [m], float or array
    density : density of the liquid [kg/m3]

    Returns
    -------
    pressure [Pa]

    Raises
    ------
    RangeError : a negative depth, or a density out of range

    Notes
    -----
    p = rho g z. The shape of the vessel does not matter.

    References
    ----------
    Any text on fluid statics [archimedes].

    Examples
    --------
    >>> print(f"{pressure_at_depth(0.45, 1100.0):.2f} Pa")
    4854.29 Pa
    """
    return density * STANDARD_GRAVITY * depth


@dataclass(frozen=True, slots=True)
class Thrust:
    """Push of a liquid on a wall.

    Parameters
    ----------
    force : force on the wall [N]
    depth : depth below the surface at which it acts [m]
    """

    force: float
    depth: float


@checked(top_depth=NOT_NEGATIVE, height=POSITIVE, width=POSITIVE, density=DENSITY)
def thrust_on_wall(top_depth: float, height: float, width: float, density: float) -> Thrust:
    """Push on an upright rectangle, and where it acts.

    Parameters
    ----------
    top_depth : depth of its upper edge below the surface [m]; 0 for a wall that is full
    height : height of the wetted rectangle [m]
    width : width of the rectangle [m]
    density : density of the liquid [kg/m3]

    Returns
    -------
    force [N] and depth of the centre of pressure [m]

    Raises
    ------
    RangeError : a negative depth, a size not above 0, or a density out of range

    Notes
    -----
    F = rho g y_c A; y_cp = y_c + I/(y_c A), I = b h^3/12, y_c the depth of the middle.

    References
    ----------
    Any text on fluid statics [archimedes].

    Examples
    --------
    >>> push = thrust_on_wall(0.0, 0.45, 0.6, 1100.0)
    >>> print(f"{push.force:.1f} N at {push.depth:.3f} m")
    655.3 N at 0.300 m
    """
    # the moment of area over (depth times area) is height^2/12 over depth
    middle = top_depth + height / 2
    force = pressure_at_depth(middle, density) * height * width
    return Thrust(force=force, depth=middle + height**2 / (12 * middle))


@checked(volume=NOT_NEGATIVE, liquid_density=DENSITY, body_density=NOT_NEGATIVE)
def hold_down_force(volume: Real, liquid_density: float, body_density: float) -> Real:
    """Force that keeps a drowned body from rising.

    Parameters
    ----------
    volume : volume of the body below the surface [m3], float or array
    liquid_density : density of the liquid [kg/m3]
    body_density : density of the body, with what it carries [kg/m3]

    Returns
    -------
    force downwards [N]; negative where the body sinks by itself

    Raises
    ------
    RangeError : a negative volume, or a density out of range

    Notes
    -----
    F = V (rho_l - rho_b) g, without a margin for safety.

    References
    ----------
    Archimedes; any text on fluid statics [archimedes].

    Examples
    --------
    >>> print(f"{hold_down_force(0.012, 1870.0, 35.0):.3f} N")
    215.942 N
    """
    return volume * (liquid_density - body_density) * STANDARD_GRAVITY


@checked(height=NOT_NEGATIVE, body_density=NOT_NEGATIVE, liquid_density=DENSITY)
def floating_depth(height: Real, body_density: float, liquid_density: float) -> Real:
    """How deep an upright block sinks in before it floats.

    Parameters
    ----------
    height : height of the block [m], float or array
    body_density : density of the block [kg/m3]
    liquid_density : density of the liquid [kg/m3]

    Returns
    -------
    depth below the surface [m]; the whole height where the block is heavier

    Raises
    ------
    RangeError : a negative height, or a density out of range

    Notes
    -----
    d = h min(rho_b/rho_l, 1). A prism that stands upright.

    References
    ----------
    Archimedes; any text on fluid statics [archimedes].

    Examples
    --------
    >>> print(f"{1000 * floating_depth(0.1, 600.0, 1100.0):.2f} mm")
    54.55 mm
    """
    return height * min(body_density / liquid_density, 1.0)
