"""How far a wall of soft rubber bulges under a liquid: standing up, spanning across, closed to a ring."""

from pourwright.foundation.checks import Range, checked

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)
PLANE = 0.75
"""1 less the square of Poisson's ratio, 1/2 for rubber: a wide strip cannot narrow as it bends."""


@checked(pressure=NOT_NEGATIVE, height=POSITIVE, thickness=POSITIVE, modulus=POSITIVE)
def standing_bulge(pressure: float, height: float, thickness: float, modulus: float) -> float:
    """How far the upper edge of a wall leans out that is held at its foot only.

    Parameters
    ----------
    pressure : of the liquid at the foot, nothing at the upper edge [Pa]
    height : of the wall [m]
    thickness : of the wall [m]
    modulus : Young's modulus [Pa]

    Returns
    -------
    deflection at the upper edge [m]; a result beyond the thickness means: it falls over

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    p H^4 / (30 D) with D = E t^3 / (12 * 0.75): a beam clamped at its foot, the load falling to nothing.

    References
    ----------
    Timoshenko, Strength of Materials, beams [strength-of-materials].

    Examples
    --------
    >>> print(f"{standing_bulge(1000.0, 0.1, 0.02, 1.2e6) * 1e3:.1f} mm")
    3.1 mm
    """
    return pressure * height**4 / (30.0 * _stiffness(thickness, modulus))


@checked(pressure=NOT_NEGATIVE, span=POSITIVE, thickness=POSITIVE, modulus=POSITIVE)
def spanning_bulge(pressure: float, span: float, thickness: float, modulus: float) -> float:
    """How far the middle of a wall bulges that is held at both of its sides.

    Parameters
    ----------
    pressure : of the liquid [Pa]
    span : between the corners of the block [m]
    thickness : of the wall [m]
    modulus : Young's modulus [Pa]

    Returns
    -------
    deflection in the middle [m]; beyond the thickness it is a bound only

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    p b^4 / (384 D): a beam clamped at both ends. What bulges by more than its thickness is held by its own
    tension too, and bulges less than this.

    References
    ----------
    Timoshenko, Strength of Materials, beams [strength-of-materials].

    Examples
    --------
    >>> print(f"{spanning_bulge(1000.0, 0.2, 0.02, 1.2e6) * 1e3:.1f} mm")
    3.9 mm
    """
    return pressure * span**4 / (384.0 * _stiffness(thickness, modulus))


@checked(pressure=NOT_NEGATIVE, radius=POSITIVE, thickness=POSITIVE, modulus=POSITIVE)
def ring_bulge(pressure: float, radius: float, thickness: float, modulus: float) -> float:
    """How far a round wall of rubber widens.

    Parameters
    ----------
    pressure : of the liquid [Pa]
    radius : of the cavity [m]
    thickness : of the rubber round it [m]
    modulus : Young's modulus [Pa]

    Returns
    -------
    how far the cavity's wall moves out [m]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    A ring of any thickness that keeps its volume and is free to settle, as its upper edge is open:
    u = (p a / E) (a^2 + 3 b^2) / (2 (b^2 - a^2)) with b = a + t; for a thin one this is p a^2 / (E t).

    References
    ----------
    Lame, in Timoshenko & Goodier, Theory of Elasticity [timoshenko-goodier-1951].

    Examples
    --------
    >>> print(f"{ring_bulge(8000.0, 0.18, 0.02, 1.0e6) * 1e3:.1f} mm")
    14.4 mm
    """
    inner, outer = radius**2, (radius + thickness) ** 2
    return pressure * radius / modulus * (inner + 3.0 * outer) / (2.0 * (outer - inner))


@checked(pressure=NOT_NEGATIVE, thickness=POSITIVE, bulk_modulus=POSITIVE)
def squeezed(pressure: float, thickness: float, bulk_modulus: float) -> float:
    """How far rubber gives that is held all round by a stiff box.

    Parameters
    ----------
    pressure : of the liquid [Pa]
    thickness : of the rubber [m]
    bulk_modulus : its resistance to a change of volume [Pa]

    Returns
    -------
    how far the cavity's wall moves out [m]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    p t / K: it can go nowhere but into itself.

    References
    ----------
    Hooke's law for a change of volume [timoshenko-goodier-1951].

    Examples
    --------
    >>> print(f"{squeezed(8000.0, 0.02, 1.5e9) * 1e6:.2f} um")
    0.11 um
    """
    return pressure * thickness / bulk_modulus


@checked(deflection=NOT_NEGATIVE, radius=POSITIVE, thickness=POSITIVE, modulus=POSITIVE)
def floor_pressure(deflection: float, radius: float, thickness: float, modulus: float) -> float:
    """Pull on a round floor of rubber, held at its rim, that lifts its middle by so much.

    Parameters
    ----------
    deflection : of the middle [m]
    radius : of the floor [m]
    thickness : of the floor [m]
    modulus : Young's modulus [Pa]

    Returns
    -------
    pressure [Pa]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    64 D w / a^4: a thin plate clamped all round, lifted by no more than about its thickness.

    References
    ----------
    Timoshenko, Strength of Materials, plates [strength-of-materials].

    Examples
    --------
    >>> print(f"{floor_pressure(0.01, 0.134, 0.019, 1.0e6):.0f} Pa")
    1513 Pa
    """
    return 64.0 * _stiffness(thickness, modulus) * deflection / radius**4


def _stiffness(thickness: float, modulus: float) -> float:
    return modulus * thickness**3 / (12.0 * PLANE)
