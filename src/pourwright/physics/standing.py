"""A rigid piece on its foot: what tips it over."""

import math

from pourwright.foundation.checks import Range, checked

POSITIVE = Range(0.0, open_low=True)


@checked(
    weight=POSITIVE, reach=Range(0.0), force=Range(0.0), overhang=Range(-10.0, 10.0, "m"),
    sideways=Range(0.0), height=Range(0.0),
)  # fmt: skip
def tipping_moments(
    weight: float, reach: float, force: float, overhang: float, sideways: float = 0.0, height: float = 0.0
) -> tuple[float, float]:
    """Moments about an edge of the foot that hold a loaded piece, and that tip it.

    Parameters
    ----------
    weight : of the piece [N]
    reach : from the edge to the weight, level, inwards [m]
    force : down on the piece [N]
    overhang : from the edge to that force, level, outwards; below 0 inside the foot [m]
    sideways : force outwards [N]
    height : of that above the floor [m]

    Returns
    -------
    tuple of float
        W d, and F e + H h; it tips where the second is larger [N m]

    Raises
    ------
    RangeError : a weight of nothing, a length or force below 0

    Notes
    -----
    Rigid body that does not slide, on a hard floor. A force inside the foot holds: its moment is below 0.

    References
    ----------
    Statics [rigid-body].

    Examples
    --------
    A stool of 15 kg, somebody on its edge who leans out:

    >>> [round(each, 6) for each in tipping_moments(150.0, 0.18, 600.0, 0.05, 20.0, 0.45)]
    [27.0, 39.0]
    """
    return weight * reach, force * overhang + sideways * height


@checked(reach=Range(0.0), height=POSITIVE)
def tilt_angle(reach: float, height: float) -> float:
    """Angle up to which a piece may lean before it tips over.

    Parameters
    ----------
    reach : from an edge of the foot to the centre of mass, level, inwards [m]
    height : of the centre of mass above the floor [m]

    Returns
    -------
    float
        atan(d/h) [rad]

    Raises
    ------
    RangeError : a height of nothing

    Notes
    -----
    Rigid body that does not slide.

    References
    ----------
    Statics [rigid-body].

    Examples
    --------
    >>> round(math.degrees(tilt_angle(0.15, 0.4)), 3)
    20.556
    """
    return math.atan2(reach, height)
