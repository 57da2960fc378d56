"""What a bent plate hands to the edges that hold it, and what it bears inside."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.plates import BentPlate

Array = NDArray[np.float64]
Side = Literal["left", "right", "lower", "upper"]
PLACES = 41


def edge_reaction(bent: BentPlate, side: Side, share: float | Array) -> Array:
    """Force per length by which an edge holds a plate.

    Parameters
    ----------
    bent : the plate
    side : "left", "right", "lower" or "upper"
    share : where along the edge, from its lower or left end [-]

    Returns
    -------
    array
        Against the load; below 0 where the edge has to pull the plate back [N/m]

    Raises
    ------
    KeyError : a side that is not known

    Notes
    -----
    Kirchhoff's edge force, of shear and changing twist: V = -D (w_nnn + (2 - nu) w_ntt), n outward, t along
    the edge. Where two held edges meet twice the `twist` there is left over: together they are the load.

    References
    ----------
    [timoshenko-plates-1959]

    Examples
    --------
    In the middle of an edge of a square plate supported all round it is 0.420 q a:

    >>> from pourwright.physics.plates import bent_plate
    >>> print(f"{edge_reaction(bent_plate(1.0, 1.0, 1.0, ['supported'] * 4, 1.0, 1.0), 'left', 0.5):.3f}")
    0.420
    """
    outward, end = {"left": (1.0, 0.0), "right": (-1.0, 1.0), "lower": (1.0, 0.0), "upper": (-1.0, 1.0)}[side]
    along = np.asarray(share, dtype=float)
    if side in {"left", "right"}:
        x, y = np.full_like(along, end * bent.width), along * bent.height
        bends = bent.derivative(x, y, 3, 0) + (2.0 - bent.poisson) * bent.derivative(x, y, 1, 2)
    else:
        x, y = along * bent.width, np.full_like(along, end * bent.height)
        bends = bent.derivative(x, y, 0, 3) + (2.0 - bent.poisson) * bent.derivative(x, y, 2, 1)
    return np.asarray(-outward * bent.stiffness * bends)


def twist(bent: BentPlate, x: float | Array, y: float | Array) -> Array:
    """Twisting moment per width.

    Parameters
    ----------
    bent : the plate
    x, y : where [m]

    Returns
    -------
    array
        M_xy = D (1 - nu) w_xy [N]

    Raises
    ------
    ValueError : places that do not belong together

    Notes
    -----
    Twice this value is left over as a force at a corner.

    References
    ----------
    [timoshenko-plates-1959]

    Examples
    --------
    The corners of a square plate supported all round are pulled back by 0.065 q a^2:

    >>> from pourwright.physics.plates import bent_plate
    >>> print(f"{2.0 * twist(bent_plate(1.0, 1.0, 1.0, ['supported'] * 4, 1.0, 1.0), 0.0, 0.0):.3f}")
    0.065
    """
    return np.asarray(bent.stiffness * (1.0 - bent.poisson) * bent.derivative(x, y, 1, 1))


def largest_moment(bent: BentPlate) -> float:
    """Largest bending moment per width, in whatever direction.

    Parameters
    ----------
    bent : the plate

    Returns
    -------
    float
        The larger of the two principal moments, without its sign, among 41 by 41 places [N]

    Raises
    ------
    ValueError : never for a plate of `bent_plate`

    Notes
    -----
    (M_x + M_y)/2 and a radius sqrt(((M_x - M_y)/2)^2 + M_xy^2) about it. At the ends of a free edge beside
    a clamped one it does not settle.

    References
    ----------
    [timoshenko-plates-1959]

    Examples
    --------
    >>> from pourwright.physics.plates import bent_plate
    >>> print(f"{largest_moment(bent_plate(1.0, 1.0, 1.0, ['supported'] * 4, 1.0, 1.0)):.4f}")
    0.0479
    """
    x, y = (np.linspace(0.0, side, PLACES) for side in (bent.width, bent.height))
    along_x, along_y = bent.moments(x[:, None], y[None, :])
    twists = twist(bent, x[:, None], y[None, :])
    middle, radius = (along_x + along_y) / 2.0, np.hypot((along_x - along_y) / 2.0, twists)
    return float(np.max(np.abs(middle) + radius))


def room_taken(bent: BentPlate) -> float:
    """Volume between the plate as it was and as it is bent.

    Parameters
    ----------
    bent : the plate

    Returns
    -------
    float
        The integral of the deflection over the plate, exact for its polynomials [m3]

    Raises
    ------
    ValueError : never for a plate of `bent_plate`

    Notes
    -----
    A liquid that bends the plate fills it.

    References
    ----------
    [timoshenko-plates-1959]

    Examples
    --------
    A long strip on two supports bends by q L^4/(120 D) in the mean, as a beam does:

    >>> from pourwright.physics.plates import bent_plate
    >>> strip = bent_plate(1.0, 8.0, 1.0, ["supported", "supported", "free", "free"], 1.0, 1.0, poisson=0.0)
    >>> print(f"{120.0 * room_taken(strip) / 8.0:.6f}")
    1.000000
    """
    across, up = (
        np.array([each.integ()(1.0) - each.integ()(0.0) for each in shapes])
        for shapes in (bent.left, bent.low)
    )
    return float(across @ bent.weights @ up) * bent.width * bent.height
