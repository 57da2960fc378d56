"""The cure law compiled for one cell at a time; the same equations as `cure_law`.

The solver calls `rate` inside its loops. A law is one float64 row in the order of
`cure_law.CureLaw`; nothing here checks ranges, conversions are held within 0 to 1.
"""

from collections.abc import Callable
from math import exp, log
from typing import Any

import numba

from pourwright.physics.constants import GAS_CONSTANT

LARGEST_EXPONENT = 700.0  # exp of more overflows a float64
Kernel = Callable[[float, float, Any], float]


def scalar_rate(temperature: float, conversion: float, parameters: Any) -> float:
    """Rate of cure with diffusion control, in plain Python.

    Parameters
    ----------
    temperature : absolute temperature [K]
    conversion : degree of cure [-]; held within 0 to 1
    parameters : float64 row (11,) of `cure_law.CureLaw.row`

    Returns
    -------
    rate of conversion [1/s]

    Notes
    -----
    As `cure_law.cure_rate`. A width of 0 switches diffusion control off.

    References
    ----------
    Kamal & Sourour 1973 [kamal-sourour-1973]; Chern & Poehlein 1987
    [chern-poehlein-1987]; DiBenedetto 1987 [dibenedetto-1987].

    Examples
    --------
    >>> from pourwright.physics.cure_law import CureLaw
    >>> row = CureLaw(3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8).row
    >>> print(f"{rate(296.15, 0.3, row) * 3600:.4f} per hour")
    0.0216 per hour
    """
    a1, e1, a2, e2, m, n, start, full, ratio, offset, width = parameters
    cure = min(max(conversion, 0.0), 1.0)
    beta = -1.0 / (GAS_CONSTANT * temperature)
    chemical = _chemical(beta, cure, a1, e1, a2, e2, m, n)
    if width <= 0.0:
        return float(chemical)
    glass_transition = start + (full - start) * ratio * cure / (1.0 - (1.0 - ratio) * cure)
    distance = min((glass_transition - temperature - offset) / width, LARGEST_EXPONENT)
    return float(chemical / (1.0 + exp(distance)))


@numba.njit(cache=True)
def _chemical(
    beta: float, cure: float, a1: float, e1: float, a2: float, e2: float, m: float, n: float
) -> float:
    """Rate without diffusion control; beta is -1/(R T) [mol/J]."""
    left = 1.0 - cure
    if cure <= 0.0 or left <= 0.0:
        return float((a1 * exp(e1 * beta) + a2 * exp(e2 * beta) * cure**m) * left**n)
    # powers written into the exponents: two logarithms cost half of two powers
    slowing = n * log(left)
    return exp(e1 * beta + slowing) * a1 + exp(e2 * beta + m * log(cure) + slowing) * a2


rate: Kernel = numba.njit(cache=True)(scalar_rate)
