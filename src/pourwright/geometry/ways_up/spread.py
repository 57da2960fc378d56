"""Directions spread evenly over a half sphere."""

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats

SLIDES = float(np.sin(np.radians(1.0)))
"""Faces within a degree of the pull slide along the mold and lock nothing."""


@checked(count=Range(1, 100_000))
def half_sphere(count: int = 200) -> Floats:
    """Spread directions evenly over the half sphere about +z.

    Parameters
    ----------
    count : int
        How many.

    Returns
    -------
    array (n, 3)
        Unit vectors on a Fibonacci spiral.

    Notes
    -----
    Swinbank and Purser, Q. J. R. Meteorol. Soc. 132 (2006) 1769 (from memory).

    Examples
    --------
    >>> spread = half_sphere(200)
    >>> bool((spread[:, 2] > 0).all()), spread.mean(axis=0).round(2).tolist()
    (True, [0.0, 0.0, 0.5])
    """
    number = np.arange(count)
    height = 1.0 - (number + 0.5) / count
    angle = np.pi * (3.0 - np.sqrt(5.0)) * number
    radius = np.sqrt(1.0 - height**2)
    return np.stack([radius * np.cos(angle), radius * np.sin(angle), height], axis=1)
