"""Glass stirred into resin: how much goes in, how far it sinks, which bubbles stay."""

from __future__ import annotations

from dataclasses import dataclass
from math import log

from pourwright.fill.ways.defaults import WAYS
from pourwright.physics.bubbles import smallest_that_rises, stokes_velocity
from pourwright.physics.hindered_settling import hindrance
from pourwright.physics.suspension import most_solid, times_as_thick


@dataclass(frozen=True)
class Mix:
    """Resin with glass stirred in, as it lies in a band.

    Parameters
    ----------
    depth : float
        Of the band [m].
    packed : float
        Share of the volume at which the grains touch, as in the dry bed [-].
    glass_share : float
        Volume of glass over that of the mix [-].
    grain : float
        Size of its grains [m].
    resin, glass, air : float
        Densities [kg/m3].
    fluidity : float
        Integral of one over the viscosity of the resin alone, until it gels [1/Pa].
    """

    depth: float
    packed: float
    glass_share: float
    grain: float
    resin: float
    glass: float
    air: float
    fluidity: float

    @property
    def thicker(self) -> float:
        """Viscosity over that of the resin [-]."""
        return times_as_thick(self.glass_share, self.packed, exponent=WAYS["grain_exponent"].value)

    @property
    def density(self) -> float:
        """Of the mix [kg/m3]."""
        return self.resin + self.glass_share * (self.glass - self.resin)

    @property
    def falls(self) -> float:
        """How far a grain would sink until the resin gels, if there were no bed below [m]."""
        if self.glass <= self.resin or self.fluidity <= 0.0:
            return 0.0
        alone = stokes_velocity(self.grain, self.glass - self.resin, 1.0) * self.fluidity
        return alone * hindrance(self.glass_share)

    @property
    def clear_at_most(self) -> float:
        """Clear resin above the glass once all of it lies as a bed [m]."""
        return self.depth * (1.0 - self.glass_share / self.packed)

    @property
    def sinks(self) -> float:
        """How far the upper border of the glass sinks before gel [m]."""
        return min(self.falls, self.clear_at_most)

    @property
    def bubbles_from(self) -> float:
        """Smallest bubble that comes up from the band's floor before gel [m]."""
        return smallest_that_rises(self.depth, self.density - self.air, self.fluidity / self.thicker)

    @property
    def air_left(self) -> float:
        """Share of the band that is air [-]."""
        return WAYS["stirred_air"].value * bubbles_that_stay(self.bubbles_from)


def glass_that_goes_in(viscosity: float, packed: float) -> float:
    """Say how much glass can be stirred into a resin by hand.

    Parameters
    ----------
    viscosity : float
        Of the resin when the mix is filled in [Pa s].
    packed : float
        Share of the volume at which the grains touch [-].

    Returns
    -------
    float
        Volume of glass over that of the mix [-]; 0 where none goes in.
    """
    thicker = WAYS["stirrable_viscosity"].value / viscosity
    return most_solid(thicker, packed, exponent=WAYS["grain_exponent"].value) if thicker > 0.0 else 0.0


def bubbles_that_stay(smallest: float) -> float:
    """Share of the air stirred in that does not come up.

    Parameters
    ----------
    smallest : float
        Smallest bubble that rises from the floor to the top in time [m].

    Returns
    -------
    float
        [-]

    Notes
    -----
    As much air in bubbles of each size between the least and the largest, evenly over the logarithm (common
    practice knows no better), spread evenly over the depth; one of diameter d rises (d / d_s)^2 of it, d_s
    the smallest that makes it. Stay: the integral of 1 - (d / d_s)^2 over ln d, up to d_s.

    Examples
    --------
    >>> print(f"{bubbles_that_stay(0.0003):.2f}", bubbles_that_stay(0.00005))
    0.19 0.0
    """
    least, most = WAYS["bubble_least"].value, WAYS["bubble_most"].value
    end = min(max(smallest, least), most)
    if end <= least:
        return 0.0
    risen = 0.5 * (end**2 - least**2) / smallest**2
    return (log(end / least) - risen) / log(most / least)
