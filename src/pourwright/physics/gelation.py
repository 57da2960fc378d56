"""When a resin of branching molecules turns from a liquid into a gel."""

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

FUNCTIONALITY = Range(2.0, 20.0)


@checked(ratio=Range(0.0, 1.0, open_low=True), epoxy=FUNCTIONALITY, amine=FUNCTIONALITY)
def gel_conversion(ratio: Real, epoxy: float, amine: float) -> Real:
    """Conversion of the limiting group at which the first gel appears.

    Parameters
    ----------
    ratio : limiting over excess reactive groups [-], above 0 to 1, float or array
    epoxy : epoxide groups of a resin molecule [-]; 2 for a diepoxide
    amine : active hydrogens of a hardener molecule [-]; 4 for a diamine

    Returns
    -------
    conversion of the limiting group [-]; above 1 means the mix never gels

    Raises
    ------
    RangeError : a ratio outside 0 to 1, or a functionality outside 2 to 20

    Notes
    -----
    a_gel = 1 / sqrt(r (f - 1) (g - 1)). Assumes equal reactivity of all groups and no
    rings; two difunctional partners only make chains. Measured gel points lie up to some
    5 % later.

    References
    ----------
    Flory 1941, Stockmayer 1943, Macosko & Miller 1976 [flory-stockmayer].

    Examples
    --------
    Diepoxide with a diamine, at the right ratio and a fifth short of hardener.

    >>> print(f"{gel_conversion(1.0, 2, 4):.5f} {gel_conversion(0.8, 2, 4):.5f}")
    0.57735 0.64550
    """
    return 1 / np.sqrt(ratio * (epoxy - 1) * (amine - 1))  # type: ignore[no-any-return]


@checked(epoxy=FUNCTIONALITY, amine=FUNCTIONALITY)
def lowest_gelling_ratio(epoxy: float, amine: float) -> float:
    """Ratio of groups below which a wrongly weighed mix stays liquid for ever.

    Parameters
    ----------
    epoxy : epoxide groups of a resin molecule [-]
    amine : active hydrogens of a hardener molecule [-]

    Returns
    -------
    limiting over excess groups [-]

    Raises
    ------
    RangeError : a functionality outside 2 to 20

    Notes
    -----
    r_c = 1 / ((f - 1) (g - 1)): `gel_conversion` reaches 1 there.

    References
    ----------
    Flory 1941, Stockmayer 1943, Macosko & Miller 1976 [flory-stockmayer].

    Examples
    --------
    >>> print(f"{lowest_gelling_ratio(2, 4):.4f}")
    0.3333
    """
    return 1 / ((epoxy - 1) * (amine - 1))
