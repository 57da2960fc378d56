"""How much a corner adds to the stress beside it."""

from __future__ import annotations

import numpy as np

from pourwright.foundation.checks import Range, checked

SHALLOW, DEEP = 0.1, 20.0
"""Depth of the step by the radius of its fillet that the fit holds for [-]."""
BLUNT = (
    (1.007, 1.000, -0.031),
    (-0.270, -2.404, 0.749),
    (0.677, 1.133, -0.904),
    (-0.414, 0.271, 0.186),
)
SHARP = (
    (1.042, 0.982, -0.036),
    (-3.599, 1.619, -0.431),
    (6.084, -5.607, 1.158),
    (-2.527, 3.006, -0.691),
)


@checked(
    radius=Range(0, unit="m", open_low=True),
    thickness=Range(0, unit="m", open_low=True),
    step=Range(0, unit="m", open_low=True),
)
def shoulder_in_bending(radius: float, thickness: float, step: float) -> float:
    """Stress in the fillet of a flat bar that steps to a greater width on both sides, bent in its plane.

    Parameters
    ----------
    radius : float
        Of the fillet [m].
    thickness : float
        Width of the narrower part, d [m].
    step : float
        How far the wider part stands out on each side, h [m].

    Returns
    -------
    float
        Greatest stress by that of the narrower part without a corner [-], 1 or more.

    Notes
    -----
    K = C1 + C2 s + C3 s^2 + C4 s^3 with s = 2 h / (d + 2 h) and C = a + b sqrt(h / r) + c h / r, for h / r
    from 0.1 to 20; beyond that its end is given, so a sharper corner has this much or more.

    References
    ----------
    Roark's Formulas for Stress and Strain, table 17.1; read on a secondary page [roark-stress-concentration].

    Examples
    --------
    A wall of 12 mm on a body that stands out 12 mm on both sides.

    >>> [round(shoulder_in_bending(radius, 0.012, 0.012), 2) for radius in (0.0006, 0.003)]
    [2.39, 1.46]
    """
    depth = min(max(step / radius, SHALLOW), DEEP)
    table = BLUNT if depth <= 2.0 else SHARP
    share = 2 * step / (thickness + 2 * step)
    terms = np.array([1.0, np.sqrt(depth), depth])
    factors = np.array(table) @ terms
    return max(float(factors @ share ** np.arange(4)), 1.0)
