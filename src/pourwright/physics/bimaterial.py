"""Two layers bonded to each other of which one shrinks more."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

LENGTH = Range(0.0, unit="m", open_low=True)
MODULUS = Range(1e3, 1e13, "Pa")


@checked(misfit=Range(-0.5, 0.5), first=LENGTH, second=LENGTH, first_modulus=MODULUS, second_modulus=MODULUS)
def strip_curvature(
    misfit: Real, first: float, second: float, first_modulus: float, second_modulus: float
) -> Real:
    """Curvature of a strip of two layers of which the first shrinks more.

    Parameters
    ----------
    misfit : shrinkage by length of the first layer less that of the second [-], float or array
    first, second : thickness of the layers [m]
    first_modulus, second_modulus : Young's modulus [Pa]

    Returns
    -------
    curvature [1/m], hollow on the side of the first layer

    Raises
    ------
    RangeError : a thickness or modulus not above 0

    Notes
    -----
    6 misfit (1 + m)^2 / (h (3 (1 + m)^2 + (1 + m n)(m^2 + 1/(m n)))), m = first/second,
    n = E1/E2, h = first + second. Free strip, narrow, elastic.

    References
    ----------
    Timoshenko, J. Opt. Soc. Am. 11 (1925) 233 [timoshenko-1925].

    Examples
    --------
    Layers alike but for their shrinkage: 3/2 of the misfit over the height.

    >>> print(f"{strip_curvature(0.002, 0.01, 0.01, 3e9, 3e9):.3f}")
    0.150
    """
    m, n = first / second, first_modulus / second_modulus
    stiff = 3 * (1 + m) ** 2 + (1 + m * n) * (m**2 + 1 / (m * n))
    return 6 * misfit * (1 + m) ** 2 / ((first + second) * stiff)


@checked(misfit=Range(-0.5, 0.5), first=LENGTH, second=LENGTH, first_modulus=MODULUS, second_modulus=MODULUS)
def strain_at_border(
    misfit: Real, first: float, second: float, first_modulus: float, second_modulus: float
) -> Real:
    """Stretch of the layer that shrinks more, where the two meet.

    Parameters
    ----------
    misfit : shrinkage by length of the first layer less that of the second [-], float or array
    first, second : thickness of the layers [m]
    first_modulus, second_modulus : Young's modulus [Pa]

    Returns
    -------
    strain of the first layer at the border [-]

    Raises
    ------
    RangeError : a thickness or modulus not above 0

    Notes
    -----
    P/(E1 a1) + a1 k/2 with k the curvature and P = 2 k (E1 a1^3 + E2 a2^3) / (12 h), the force that
    holds the layers together. At the rim of the border, where the strip ends, it is more.

    References
    ----------
    Timoshenko 1925 [timoshenko-1925], eq. for the greatest stress at the surface of bearing.

    Examples
    --------
    Alike layers bend until half of the misfit is left at the border; a stiff thick one holds it all.

    >>> print(f"{strain_at_border(0.002, 0.01, 0.01, 3e9, 3e9):.4f}")
    0.0010
    >>> print(f"{strain_at_border(0.002, 0.001, 0.1, 3e9, 70e9):.4f}")
    0.0020
    """
    curvature = strip_curvature(misfit, first, second, first_modulus, second_modulus)
    bending = (first_modulus * first**3 + second_modulus * second**3) / 12
    force = 2 * curvature * bending / (first + second)
    return force / (first_modulus * first) + first * curvature / 2
