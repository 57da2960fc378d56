"""Grains that lie against a wall: how much resin is over them, and how much of them sanding bares."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

GRAIN = Range(0.0, 1.0, "m", open_low=True)
MIDDLE = 0.78
"""Share of the plane through the middles of the outermost grains that they take up."""


@checked(grain=GRAIN)
def skin_over_grains(grain: float) -> float:
    """Mean depth of resin over round grains that touch a wall.

    Parameters
    ----------
    grain : diameter [m]

    Returns
    -------
    depth under the face [m], over the ground that each grain covers

    Raises
    ------
    RangeError : a diameter that is not above 0

    Notes
    -----
    D/2 less the mean height 2/3 D/2 of a half ball: D/6, a third of the radius. Nothing where a grain
    touches, D/2 at its rim.

    References
    ----------
    Geometry of a ball on a plane; closed form [ball-on-a-plane].

    Examples
    --------
    >>> print(f"{skin_over_grains(0.0045) * 1000:.2f} mm")
    0.75 mm
    """
    return grain / 6.0


@checked(depth=Range(0.0, 1.0, "m"), grain=GRAIN, middle=Range(0.0, 1.0))
def bared_share(depth: Real, grain: float, middle: float = MIDDLE) -> Real:
    """Share of a face that is grain once so much has been sanded off it.

    Parameters
    ----------
    depth : sanded off [m], float or array
    grain : diameter [m]
    middle : share that grains take up in the plane through the middles of the outermost layer [-]

    Returns
    -------
    share of the face [-]; from half a grain on that of the plane through the middles

    Raises
    ------
    RangeError : a depth, diameter or share out of range

    Notes
    -----
    c (1 - (1 - 2 d/D)^2): circles cut from balls that touch the wall. Crushed grains lie flat and
    show sooner. Deeper than half a grain the share swings around that of the bed.

    References
    ----------
    The share of the middle: Benenati & Brosilow, AIChE J. 8 (1962) 359, voids near a wall of round grains
    fall to about 0.22 half a grain from it [benenati-brosilow-1962].

    Examples
    --------
    Half a millimetre off a face with grains of 4.5 mm behind it:

    >>> print(f"{bared_share(0.0005, 0.0045):.0%}")
    31%
    """
    left: Any = np.maximum(1.0 - 2.0 * depth / grain, 0.0)
    share: Any = middle * (1.0 - left**2)
    return share  # type: ignore[no-any-return]
