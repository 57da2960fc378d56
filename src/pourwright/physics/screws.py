"""What pulls a screw out of wood and board."""

from pourwright.foundation.checks import Range, checked

GRAVITY = Range(0.2, 1.0)
DIAMETER = Range(0.001, 0.012, "m")
DEPTH = Range(0.005, 0.15, "m")
FACE, EDGE = 41.1, 31.8
"""Constants for millimetres and newtons: 2,655 and 2,055 for inches and pounds."""


@checked(specific_gravity=GRAVITY, diameter=DIAMETER, depth=DEPTH)
def withdrawal_from_wood(specific_gravity: float, diameter: float, depth: float) -> float:
    """Force that pulls a wood screw out of side grain.

    Parameters
    ----------
    specific_gravity : G, oven-dry mass over the volume's water [-]
    diameter : D, of the shank [m]
    depth : L, of thread in the wood [m]

    Returns
    -------
    float
        P = 108.25 G^2 D L with D and L in mm: at failure, short-time [N]

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    In inches and pounds: 15,700 G^2 D L. Side grain, predrilled; end grain holds about three quarters of it.
    A working load is a fraction of it: see the safety factor of whoever asks.

    References
    ----------
    [wood-handbook]

    Examples
    --------
    >>> print(f"{withdrawal_from_wood(0.5, 0.0042, 0.025):.1f} N")
    2841.6 N
    """
    return 108.25 * specific_gravity**2 * (1e3 * diameter) * (1e3 * depth)


@checked(specific_gravity=GRAVITY, diameter=DIAMETER, depth=DEPTH)
def withdrawal_from_board(
    specific_gravity: float, diameter: float, depth: float, *, edge: bool = False
) -> float:
    """Force that pulls a screw out of particleboard; a guide for MDF too.

    Parameters
    ----------
    specific_gravity : G, oven-dry [-]
    diameter : D [m]
    depth : L, of thread in the board [m]
    edge : screwed into the edge, not the face

    Returns
    -------
    float
        P = K D^0.5 (L - D/3)^1.25 G^2 with D and L in mm: at failure [N]

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    K = 41.1 in the face and 31.8 in the edge (2,655 and 2,055 for inches and pounds).

    References
    ----------
    [wood-handbook]

    Examples
    --------
    >>> print(f"{withdrawal_from_board(0.7, 0.0042, 0.014):.1f} N")
    979.8 N
    """
    d, length = 1e3 * diameter, 1e3 * depth
    return float((EDGE if edge else FACE) * d**0.5 * (length - d / 3.0) ** 1.25 * specific_gravity**2)


@checked(diameter=DIAMETER, coefficient=Range(10.0, 40.0))
def sideways_in_wood(diameter: float, coefficient: float = 17.4) -> float:
    """Force across a wood screw that it may bear.

    Parameters
    ----------
    diameter : D, of the shank [m]
    coefficient : C: 33.1 for the hardest timbers, 27.3, 22.3, 17.4 for the softest [N/mm2]

    Returns
    -------
    float
        P = C D^2 with D in mm: a working load, its safety in it [N]

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    In inches and pounds C is 4,800, 3,960, 3,240 and 2,520. Side grain, dry, thread seven diameters deep.
    No such value is published for the edges of boards: the softest timber's is a guide.

    References
    ----------
    [hicks-2002]

    Examples
    --------
    >>> print(f"{sideways_in_wood(0.004):.0f} N")
    278 N
    """
    return coefficient * (1e3 * diameter) ** 2
