"""How far the top of a pour sinks while it is liquid, and what must be poured over it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Sink:
    """The sinking top of one pour.

    Parameters
    ----------
    pour : int
        Counted from 1.
    liquid : float
        Resin that can follow, voids of a bed in it [m3].
    lost, most_lost : float
        Volume that is missing at the top once it has gelled [m3]: likely, and with the band's shrinkage
        and no help from warming up. Less than 0 stands higher.
    depth, most : float
        The same as a sink of the top [m].
    after : float
        What neat layers of it shrink in height once gelled [m]; a bed keeps its height.
    """

    pour: int
    liquid: float
    lost: float
    most_lost: float
    depth: float
    most: float
    after: float


def liquid_loss(
    volumes: Array, warming: Array, *, gel_conversion: float, cure_shrinkage: float, expansion: float
) -> float:
    """Volume that liquid loses from pouring to gel.

    Parameters
    ----------
    volumes : array (n,)
        Liquid in each cell [m3].
    warming : array (n,)
        By how much it is warmer as it gels than as it was poured [K].
    gel_conversion, cure_shrinkage : float
        Cure at the gel point; shrinkage by volume from mixed to fully cured [-].
    expansion : float
        By length, above the glass transition [1/K].

    Returns
    -------
    float
        [m3]; below 0 where warming swells it more than curing shrinks it.

    Notes
    -----
    V (v a_gel - 3 alpha (T_gel - T_poured)), cell by cell: all of it shows at the top, as liquid follows
    down to where it is missing, in a bed too.

    Examples
    --------
    A litre that gels 10 K warmer than it was poured, 2.5 % and 180e-6 /K: 14.4 ml less by curing, 5.4 ml
    more by warmth.

    >>> lost = liquid_loss(
    ...     np.array([1e-3]), np.array([10.0]), gel_conversion=0.577, cure_shrinkage=0.025, expansion=180e-6
    ... )
    >>> print(f"{lost * 1e6:.2f} ml")
    9.03 ml
    """
    return float((volumes * (cure_shrinkage * gel_conversion - 3.0 * expansion * warming)).sum())


def sink_depth(thickness: Array, liquid: Array, lost: float) -> float:
    """How far a top comes down when a volume of liquid is missing.

    Parameters
    ----------
    thickness, liquid : array (layers,)
        Of layers from below: thickness [m], liquid in each [m3].
    lost : float
        [m3]

    Returns
    -------
    float
        [m]; layers of glass hold less liquid, so the same loss sinks deeper in them. Where more stands
        than was poured, the rise over the uppermost layer, below 0.

    Examples
    --------
    6 mm of cover with 0.3 l over a bed that holds 0.5 l in 20 mm: 350 ml empty the cover and 2 mm more.

    >>> print(f"{sink_depth(np.array([0.02, 0.006]), np.array([0.5e-3, 0.3e-3]), 0.35e-3) * 1e3:.1f} mm")
    8.0 mm
    """
    if lost <= 0.0:
        return lost * float(thickness[-1] / liquid[-1])
    # from the top down: what is emptied so far, and how deep that is
    emptied = np.concatenate([[0.0], np.cumsum(liquid[::-1])])
    depths = np.concatenate([[0.0], np.cumsum(thickness[::-1])])
    return float(np.interp(lost, emptied, depths))
