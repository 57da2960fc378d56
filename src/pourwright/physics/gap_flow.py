"""A liquid that thickens while it creeps out through a narrow gap between two flat sides."""

from __future__ import annotations

from math import log

import numpy as np

from pourwright.foundation.checks import Range, RangeError, checked
from pourwright.physics.arrays import Array, Real

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)
ALIKE = 1e-9
"""Logarithms of viscosities that differ by less count as equal."""


@checked(viscosity=POSITIVE, doubling=POSITIVE, time=NOT_NEGATIVE)
def fluidity_while_doubling(viscosity: float, doubling: float, time: Real) -> Real:
    """How much a liquid can flow whose viscosity doubles again and again.

    Parameters
    ----------
    viscosity : when it begins to flow [Pa s]
    doubling : time in which it gets twice as thick [s]
    time : how long it flows [s], float or array

    Returns
    -------
    integral of one over the viscosity [1/Pa]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    mu = mu0 2^(t/d), so the integral is d / (mu0 ln 2) (1 - 2^(-t/d)). Rubber that is left alone never gets
    further than d / (mu0 ln 2), however long one waits.

    References
    ----------
    Closed form, to be put into plane Poiseuille flow [plane-poiseuille].

    Examples
    --------
    Rubber of 18 Pa s that is twice as thick after 45 minutes, until it is firm after six hours:

    >>> print(f"{fluidity_while_doubling(18.0, 2700.0, 21600.0):.1f} per Pa")
    215.6 per Pa
    """
    all_of_it = doubling / (viscosity * log(2.0))
    left: Real = 2.0 ** (-time / doubling)
    return all_of_it * (1.0 - left)


def fluidity_of_samples(times: Array, viscosity: Array) -> float:
    """How much a liquid can flow whose viscosity is known at some moments.

    Parameters
    ----------
    times : rising [s]
    viscosity : at these times [Pa s]

    Returns
    -------
    integral of one over the viscosity from the first to the last time [1/Pa]

    Raises
    ------
    RangeError : times that do not rise, or a viscosity that is not above 0

    Notes
    -----
    Between two samples the viscosity grows by an even share, so the integral of a step is
    dt (1/mu1 - 1/mu2) / ln(mu2/mu1): exact where it is exponential, of second order elsewhere.

    References
    ----------
    Closed form, to be put into plane Poiseuille flow [plane-poiseuille].

    Examples
    --------
    Two samples are enough for one that doubles every 45 minutes:

    >>> times = np.array([0.0, 21600.0])
    >>> print(f"{fluidity_of_samples(times, 18.0 * 2.0 ** (times / 2700.0)):.1f} per Pa")
    215.6 per Pa
    """
    step = np.diff(times)
    if times.shape != viscosity.shape or not (step > 0.0).all():
        raise RangeError(
            "fluidity_of_samples: times that do not rise", allowed="one rising time for each viscosity"
        )
    if not (viscosity > 0.0).all():
        raise RangeError("fluidity_of_samples: viscosity", allowed="above 0 Pa s")
    thin, rise = 1.0 / viscosity, np.diff(np.log(viscosity))
    grows = np.abs(rise) > ALIKE
    share = np.divide(thin[:-1] - thin[1:], rise, out=0.5 * (thin[:-1] + thin[1:]), where=grows)
    return float(np.sum(step * share))


@checked(gap=NOT_NEGATIVE, path=POSITIVE, pressure=NOT_NEGATIVE, fluidity=NOT_NEGATIVE)
def gap_leak(gap: Real, path: float, pressure: float, fluidity: float) -> Real:
    """Volume that is lost through each metre of a gap between two flat sides.

    Parameters
    ----------
    gap : between the sides [m], float or array
    path : way from the liquid to the open air through the gap [m]
    pressure : of the liquid where the gap begins [Pa]
    fluidity : integral of one over the viscosity over the time that it flows [1/Pa]

    Returns
    -------
    volume per length of the gap [m2]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    V/l = h^3 p / (12 L) times the integral of dt / mu: flow between fixed plates is linear in 1 / mu, so a
    viscosity that changes in time counts by its integral. Slow flow in a gap that is full from the start, no
    swirls: thin liquids in wide short gaps (water, 0.3 mm through 20 mm) run slower, as their own inertia and
    the entry take a part of the pressure. What the surface of a drop holds back at the way out is left out.

    References
    ----------
    Plane Poiseuille flow, any text on fluid mechanics [plane-poiseuille].

    Examples
    --------
    Rubber 0.46 m deep, the foot of a box of 18 mm board, a gap that a sheet of paper just fits:

    >>> print(f"{1e6 * gap_leak(0.0001, 0.018, 5188.0, 215.6):.1f} ml per metre")
    5.2 ml per metre
    """
    return gap**3 * (pressure * fluidity / (12.0 * path))


@checked(leak=NOT_NEGATIVE, path=POSITIVE, pressure=POSITIVE, fluidity=POSITIVE)
def widest_gap(leak: Real, path: float, pressure: float, fluidity: float) -> Real:
    """Widest gap that loses no more than a given volume.

    Parameters
    ----------
    leak : volume per length of the gap that may be lost [m2], float or array
    path : way through the gap [m]
    pressure : of the liquid where the gap begins [Pa]
    fluidity : integral of one over the viscosity over the time that it flows [1/Pa]

    Returns
    -------
    gap [m]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    h = (12 L V / (l p integral))^(1/3), the inverse of `gap_leak`. Twice the gap loses eight times as much.

    References
    ----------
    Plane Poiseuille flow [plane-poiseuille].

    Examples
    --------
    >>> print(f"{1e3 * widest_gap(5.2e-6, 0.018, 5188.0, 215.6):.2f} mm")
    0.10 mm
    """
    return (12.0 * path * leak / (pressure * fluidity)) ** (1.0 / 3.0)  # type: ignore[no-any-return]


@checked(yield_stress=NOT_NEGATIVE, path=POSITIVE, pressure=POSITIVE)
def gap_that_stops(yield_stress: float, path: float, pressure: float) -> float:
    """Widest gap in which a slurry comes to rest.

    Parameters
    ----------
    yield_stress : shear that sets the slurry flowing [Pa]
    path : way through the gap [m]
    pressure : of the slurry where the gap begins [Pa]

    Returns
    -------
    gap [m]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    The shear at the sides is h p / (2 L), whatever flows; below the yield stress nothing does. The water
    between the grains has no yield stress.

    References
    ----------
    Balance of forces on plane Poiseuille flow [plane-poiseuille].

    Examples
    --------
    Gypsum of 15 Pa through 20 mm of rubber, 0.3 m deep:

    >>> print(f"{1e3 * gap_that_stops(15.0, 0.02, 4854.0):.2f} mm")
    0.12 mm
    """
    return 2.0 * yield_stress * path / pressure
