"""What it takes to widen a sleeve of rubber, and to fold one open."""

from math import log, pi

from pourwright.foundation.checks import Range, checked

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)
PLANE = 0.75
"""1 less the square of Poisson's ratio, 1/2 for rubber: a long fold cannot narrow as it bends."""


@checked(inner=POSITIVE, thickness=POSITIVE, widened=POSITIVE, modulus=POSITIVE)
def widening_energy(inner: float, thickness: float, widened: float, modulus: float) -> float:
    """Energy to widen a sleeve of rubber, by its length.

    Parameters
    ----------
    inner : radius of the hole at rest [m]
    thickness : of the rubber round it at rest [m]
    widened : radius of the hole when it is stretched [m]; not below ``inner``
    modulus : Young's modulus at small strain [Pa]

    Returns
    -------
    energy by length [J/m]; the same number is the pull [N] of a sharp shoulder that widens it as it moves

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    w = (pi/2) (E/3) k ln(a^2 B^2 / (A^2 b^2)) with A, a the inner and B, b the outer radii before and after,
    k = a^2 - A^2 = b^2 - B^2: a network of chains that keeps its volume and its length, widened alike all
    round, its energy (E/6) (l^2 + 1/l^2 - 2) summed over its thickness. No friction.

    References
    ----------
    Treloar, The Physics of Rubber Elasticity [treloar-1975].

    Examples
    --------
    A hole of 40 mm in a sleeve 40 mm thick, widened to 80 mm:

    >>> print(f"{widening_energy(0.02, 0.04, 0.04, 1.0e6):.0f} N")
    690 N
    """
    before, after = inner**2, max(widened, inner) ** 2
    outer = (inner + thickness) ** 2
    grown = after - before
    return pi / 6.0 * modulus * grown * log(after * outer / (before * (outer + grown)))


@checked(angle=Range(0.0, 2 * pi, "rad"), thickness=NOT_NEGATIVE, modulus=POSITIVE, spread=POSITIVE)
def folding_moment(angle: float, thickness: float, modulus: float, spread: float = 2.0) -> float:
    """Moment that folds a wall of rubber, by the length of the fold.

    Parameters
    ----------
    angle : by which the fold turns [rad]
    thickness : of the wall [m]
    modulus : Young's modulus [Pa]
    spread : how many of its own thicknesses the fold takes along the wall [-]

    Returns
    -------
    moment by length [N]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    D kappa with D = E t^3 / (12 * 0.75) and the curvature kappa = angle / (n t): E t^2 angle / (9 n).

    References
    ----------
    Timoshenko, Strength of Materials, plates bent to a cylinder [strength-of-materials].

    Examples
    --------
    >>> print(f"{folding_moment(1.0, 0.02, 1.0e6):.1f} N")
    22.2 N
    """
    return modulus * thickness**2 * angle / (12.0 * PLANE * spread)


@checked(angle=Range(0.0, 2 * pi, "rad"), spread=POSITIVE)
def folding_strain(angle: float, spread: float = 2.0) -> float:
    """By how much the surface lengthens where a wall of rubber is folded.

    Parameters
    ----------
    angle : by which the fold turns [rad]
    spread : how many of its own thicknesses the fold takes along the wall [-]

    Returns
    -------
    lengthening [-]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    kappa t/2 = angle / (2 n): it does not depend on the thickness.

    References
    ----------
    Timoshenko, Strength of Materials, pure bending [strength-of-materials].

    Examples
    --------
    >>> print(f"{folding_strain(1.0):.2f}")
    0.25
    """
    return angle / (2.0 * spread)
