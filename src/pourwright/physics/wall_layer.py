"""Grains that lie against a wall: how loosely, how much resin is over them, what sanding bares of them."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

GRAIN = Range(0.0, 1.0, "m", open_low=True)
MIDDLE = 0.78
"""Share of the plane through the middles of the outermost grains that they take up."""
CRUSHED_AT_A_WALL = 0.73
"""Solid fraction of crushed grains within half a grain of a wall, over that far from it."""


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


@checked(area=Range(0.0, unit="m2"), volume=Range(0.0, unit="m3", open_low=True), grain=GRAIN)
def disturbed_share(area: float, volume: float, grain: float) -> float:
    """Share of a bed that lies within half a grain of a wall.

    Parameters
    ----------
    area : of the walls [m2]
    volume : of the bed [m3]
    grain : diameter [m]

    Returns
    -------
    share of the volume [-]

    Raises
    ------
    RangeError : a negative area, a volume or diameter not above 0

    Notes
    -----
    1 - (1 - s / 2)^2 with s = area grain / (2 volume): exact for a round tube, where it is
    1 - (1 - grain / diameter)^2; too little by s^2 / 4 between two flat walls.

    References
    ----------
    de Larrard 1999, chapter 1, container wall effect [de-larrard-1999] (citation from memory).

    Examples
    --------
    Grains of 9 mm in a bucket of 5 l, and in a wall 40 mm thick:

    >>> bucket = disturbed_share(0.1345, 0.005, 0.009)
    >>> print(f"{bucket:.0%}, {disturbed_share(2.0, 0.04, 0.009):.0%}")
    12%, 21%
    """
    thick = min(area * grain / (2.0 * volume), 2.0)
    return 1.0 - (1.0 - thick / 2.0) ** 2


@checked(
    solid=Range(0.0, 1.0, open_low=True, open_high=True),
    disturbed=Range(0.0, 1.0),
    against=Range(0.0, 1.0, open_low=True),
)
def looser_at_walls(solid: float, disturbed: float, against: float = CRUSHED_AT_A_WALL) -> float:
    """Solid fraction of a bed, the looser grains at its walls counted in.

    Parameters
    ----------
    solid : solid fraction far from any wall [-]
    disturbed : share of the bed within half a grain of a wall [-]
    against : solid fraction there over that far from it [-]; 0.73 crushed, 0.88 round grains

    Returns
    -------
    solid fraction [-]

    Raises
    ------
    RangeError : a share or fraction out of range

    Notes
    -----
    phi (1 - (1 - k) v).

    References
    ----------
    de Larrard 1999, chapter 1, container wall effect [de-larrard-1999] (citation from memory).

    Examples
    --------
    >>> print(f"{looser_at_walls(0.55, 0.21):.3f}")
    0.519
    """
    return solid * (1.0 - (1.0 - against) * disturbed)
