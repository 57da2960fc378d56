"""How much smaller a cured part is than the liquid that filled its mold."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

SHARE = Range(0.0, 1.0, open_high=True)


@checked(volumetric=SHARE)
def linear_shrinkage(volumetric: Real) -> Real:
    """Share of its length that a part loses which loses a share of its volume.

    Parameters
    ----------
    volumetric : shrinkage by volume [-], 0 to below 1, float or array

    Returns
    -------
    shrinkage by length [-]

    Raises
    ------
    RangeError : a share outside 0 to 1

    Notes
    -----
    s = 1 - (1 - v)^(1/3). The same in every direction: a part that is held by its mold, or
    still liquid, sinks at the open face instead.

    References
    ----------
    Geometry of a cube; closed form [isotropic-shrinkage].

    Examples
    --------
    >>> print(f"{linear_shrinkage(0.05) * 100:.3f} %")
    1.695 %
    """
    left: Any = np.cbrt(1.0 - volumetric)
    return 1.0 - left  # type: ignore[no-any-return]


@checked(resin_shrinkage=SHARE, particle_fraction=Range(0.0, 1.0))
def filled_shrinkage(resin_shrinkage: Real, particle_fraction: Real | float) -> Real:
    """Shrinkage of a part whose grains keep their size: the most it can be.

    Parameters
    ----------
    resin_shrinkage : shrinkage of the neat resin by volume [-], 0 to below 1, float or array
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1

    Returns
    -------
    shrinkage of the part by volume [-]

    Raises
    ------
    RangeError : a share outside 0 to 1

    Notes
    -----
    v = v_r (1 - phi). For grains stirred in, apart from each other. Grains poured into a bed touch:
    the bed keeps its height, the top sinks before gel and the resin later pulls off the grains.

    References
    ----------
    Rule of mixtures by volume [mixture-rule].

    Examples
    --------
    >>> print(f"{filled_shrinkage(0.05, 0.55) * 100:.2f} %")
    2.25 %
    """
    return resin_shrinkage * (1.0 - particle_fraction)


@checked(
    cure_shrinkage=SHARE,
    conversion=Range(0.0, 1.0),
    since=Range(0.0, 1.0),
)
def shrinkage_between(cure_shrinkage: float, since: Real | float, conversion: Real) -> Real:
    """Shrinkage by volume between two degrees of cure.

    Parameters
    ----------
    cure_shrinkage : shrinkage by volume from mixed to fully cured [-], 0 to below 1
    since : degree of cure from where it is counted [-], as the gel point, float or array
    conversion : degree of cure reached [-], float or array

    Returns
    -------
    shrinkage by volume [-]; negative where ``conversion`` is the lower

    Raises
    ------
    RangeError : a share outside 0 to 1

    Notes
    -----
    In proportion to the cure: v (a - a0). What comes before gel sinks at the top, as long as liquid
    can follow; what comes after is borne.

    References
    ----------
    In proportion to cure: Hill, Muzumdar and Lee, Polym. Eng. Sci. 35 (1995) 852 [hill-1995].

    Examples
    --------
    Of 2.5 %, from gel at 57.7 % cured up to 87.7 %:

    >>> print(f"{shrinkage_between(0.025, 0.577, 0.877) * 100:.3f} %")
    0.750 %
    """
    return cure_shrinkage * (conversion - since)
