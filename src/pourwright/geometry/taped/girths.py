"""What a tape around a body says of the section inside it."""

import numpy as np
from scipy.optimize import brentq

from pourwright.foundation.checks import Range, checked

POSITIVE = Range(0.0, unit="m", open_low=True)
FLATTEST = 0.1
"""Least share of one side of the other for which a girth is still turned into an ellipse."""


@checked(width=POSITIVE, depth=POSITIVE)
def ellipse_perimeter(width: float, depth: float) -> float:
    """Perimeter of an ellipse.

    Parameters
    ----------
    width, depth : float
        Its two diameters [m].

    Returns
    -------
    float
        [m]

    Raises
    ------
    RangeError
        For a diameter that is not above zero.

    Notes
    -----
    pi (a + b) (1 + 3 h / (10 + sqrt(4 - 3 h))) with h = ((a - b) / (a + b))^2. Off by less than 1e-6 of
    itself where one diameter is a quarter of the other, by 4.0e-4 for a slit.

    Source: Ramanujan, Q. J. Pure Appl. Math. 45 (1914) 350 [ramanujan-1914].

    Examples
    --------
    >>> round(ellipse_perimeter(0.2, 0.2) / 0.2, 9), round(ellipse_perimeter(2.0, 1.0), 6)
    (3.141592654, 4.844224)
    """
    h = ((width - depth) / (width + depth)) ** 2
    return float(np.pi * (width + depth) / 2 * (1 + 3 * h / (10 + np.sqrt(4 - 3 * h))))


@checked(girth=POSITIVE, width=POSITIVE)
def ellipse_depth(girth: float, width: float) -> float | None:
    """Other diameter of the ellipse that has a girth and one diameter.

    Parameters
    ----------
    girth : float
        Perimeter [m].
    width : float
        One diameter [m].

    Returns
    -------
    float or None
        [m]; None where the other would be under a tenth or over ten times the one.

    Raises
    ------
    RangeError
        For a length that is not above zero.

    Examples
    --------
    >>> round(ellipse_depth(4.844224, 2.0), 5), ellipse_depth(3.0, 2.0)
    (1.0, None)
    """
    least, most = FLATTEST * width, width / FLATTEST
    if not ellipse_perimeter(width, least) <= girth <= ellipse_perimeter(width, most):
        return None
    return float(brentq(lambda depth: ellipse_perimeter(width, depth) - girth, least, most, xtol=1e-12))


@checked(girth=POSITIVE)
def largest_area(girth: float) -> float:
    """Largest section that a girth can go around: the circle.

    Parameters
    ----------
    girth : float
        [m]

    Returns
    -------
    float
        [m2]

    Raises
    ------
    RangeError
        For a girth that is not above zero.

    Notes
    -----
    The isoperimetric inequality, A <= P^2 / (4 pi). A tape spans hollows, so it goes around the convex hull.

    Source: Osserman, Bull. Am. Math. Soc. 84 (1978) 1182 [osserman-1978].

    Examples
    --------
    >>> round(largest_area(0.64), 6)
    0.032595
    """
    return float(girth**2 / (4 * np.pi))


@checked(unevenness=Range(0.0, 0.5))
def area_missing_in_an_oval(unevenness: float) -> float:
    """Share of the circle's area that a slightly oval section of the same girth lacks.

    Parameters
    ----------
    unevenness : float
        Difference of its two diameters over their sum [-].

    Returns
    -------
    float
        [-], 3/2 of the square, from A = pi r^2 (1 - e^2) and P = 2 pi r (1 + e^2/4).

    Raises
    ------
    RangeError
        For more than 0.5.

    Examples
    --------
    >>> round(area_missing_in_an_oval(0.05), 5)
    0.00375
    """
    return 1.5 * unevenness**2
