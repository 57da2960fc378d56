"""When a nick in stretched rubber grows, and what tears a tongue of rubber off."""

from math import pi, sqrt

from scipy.optimize import brentq

from pourwright.foundation.checks import Range, checked

POSITIVE = Range(0.0, open_low=True)
LONGEST = 12.0
"""Stretch up to which a nick is looked for [-]."""


@checked(modulus=POSITIVE, stretch=Range(1.0, LONGEST))
def stretching_energy(modulus: float, stretch: float) -> float:
    """Energy stored in rubber that is pulled one way.

    Parameters
    ----------
    modulus : Young's modulus at small strain [Pa]
    stretch : length over length at rest [-]

    Returns
    -------
    energy by volume [J/m3]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    W = (E/6) (l^2 + 2/l - 3): a network of chains that keeps its volume. Rubber near its break is stiffer.

    References
    ----------
    Treloar, The Physics of Rubber Elasticity [treloar-1975].

    Examples
    --------
    >>> print(f"{stretching_energy(1.2e6, 2.0) / 1e3:.0f} kJ/m3")
    400 kJ/m3
    """
    return modulus / 6.0 * (stretch**2 + 2.0 / stretch - 3.0)


@checked(modulus=POSITIVE, stretch=Range(1.0, LONGEST), notch=Range(0.0, unit="m"))
def notch_energy(modulus: float, stretch: float, notch: float) -> float:
    """Tearing energy at the tip of a nick in the edge of stretched rubber.

    Parameters
    ----------
    modulus : Young's modulus at small strain [Pa]
    stretch : of the rubber beside it, length over length at rest [-]
    notch : depth of the nick at rest [m]

    Returns
    -------
    energy set free by new surface torn, T [J/m2]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    T = 2 k W c with k = pi / sqrt(l): a nick short against the strip it is in.

    References
    ----------
    Rivlin & Thomas, J. Polym. Sci. 10 (1953) 291 [rivlin-thomas-1953]; k by Greensmith, from memory.

    Examples
    --------
    >>> print(f"{notch_energy(1.2e6, 1.5, 0.001):.0f} J/m2")
    599 J/m2
    """
    return 2.0 * pi / sqrt(stretch) * stretching_energy(modulus, stretch) * notch


@checked(modulus=POSITIVE, energy=POSITIVE, notch=Range(0.0, unit="m", open_low=True))
def notch_stretch(modulus: float, energy: float, notch: float) -> float:
    """Stretch at which a nick in the edge of rubber grows.

    Parameters
    ----------
    modulus : Young's modulus at small strain [Pa]
    energy : that the rubber takes to tear [J/m2]
    notch : depth of the nick at rest [m]

    Returns
    -------
    length over length at rest [-], 12 at most

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    The root of T(l) = energy; T grows with l all along.

    References
    ----------
    Rivlin & Thomas, J. Polym. Sci. 10 (1953) 291 [rivlin-thomas-1953].

    Examples
    --------
    >>> print(f"{notch_stretch(1.2e6, 599.0, 0.001):.2f}")
    1.50
    """
    if notch_energy(modulus, LONGEST, notch) <= energy:
        return LONGEST
    return float(brentq(lambda one: notch_energy(modulus, one, notch) - energy, 1.0, LONGEST, xtol=1e-12))


@checked(tear_strength=POSITIVE)
def trousers_energy(tear_strength: float) -> float:
    """Energy that rubber takes to tear, from a test piece torn like a pair of trousers.

    Parameters
    ----------
    tear_strength : force by thickness of the test piece [N/m]

    Returns
    -------
    energy by new surface [J/m2]

    Raises
    ------
    RangeError : a strength not above 0

    Notes
    -----
    T = 2 F/t: legs that hardly stretch move apart by two lengths for each length torn.

    References
    ----------
    Rivlin & Thomas, J. Polym. Sci. 10 (1953) 291 [rivlin-thomas-1953]; the test piece is that of ISO 34-1.

    Examples
    --------
    >>> print(f"{trousers_energy(4000.0):.0f} J/m2")
    8000 J/m2
    """
    return 2.0 * tear_strength


@checked(
    depth=Range(0.0, unit="m"),
    thickness=Range(0.0, unit="m", open_low=True),
    grip=Range(0.0),
    pin=Range(0, 1),
)
def root_stress(depth: float, thickness: float, grip: float, pin: float) -> float:
    """Pull at the root of a tongue of rubber that is drawn out of the slot or hole that it fills.

    Parameters
    ----------
    depth : of the slot [m]
    thickness : of the tongue, or the diameter of a pin [m]
    grip : what the walls hold it back with, by area [Pa]
    pin : 1 for a pin, 0 for a tongue that is wide against its thickness

    Returns
    -------
    stress in the root [Pa]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    2 g d/t for a tongue with both sides held, 4 g d/t for a pin, from the balance of forces. It thins as it
    stretches and lets go from its root on, so it comes out with less: an upper bound.

    References
    ----------
    Balance of forces [strength-of-materials].

    Examples
    --------
    >>> print(f"{root_stress(0.03, 0.005, 20e3, 0.0) / 1e3:.0f} kPa")
    240 kPa
    """
    return (2.0 + 2.0 * pin) * grip * depth / thickness
