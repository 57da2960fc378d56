"""Whether the resin gets down through dry glass before it thickens, and which bubbles still come up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.bubbles import smallest_that_rises
from pourwright.physics.capillarity import capillary_rise, pore_radius
from pourwright.physics.infiltration import Layer, flow_through, reached_after
from pourwright.physics.permeability import PERMEABILITIES
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.site import Bed, Site
from pourwright.pour.thickening import Thickening, thickening

Array = NDArray[np.float64]
LAW = "kozeny-carman"
AIR = 1.2
"""Density of what is in a bubble [kg/m3]."""


@dataclass(frozen=True)
class Soaking:
    """How a pour soaks through its glass; times are seconds from mixing.

    Parameters
    ----------
    depth : float
        Dry glass that it runs down through [m].
    after : float
        When the glass is soaked to the bottom [s]; infinite where the resin is too thick before.
    limit : float
        When the resin is too thick to run [s].
    margin : float
        How much more it could flow until then than it must, as a share [-]; below 0 it does not get through.
    """

    depth: float
    after: float
    limit: float
    margin: float


@dataclass(frozen=True)
class Front:
    """How a front runs down through the dry glass of a pour.

    Parameters
    ----------
    layers : tuple of Layer
        From above down.
    depths : array (n,)
        Below the top of the glass [m].
    needed : array (n,)
        How much the resin has to flow until it is down there [1/Pa].
    flows : Thickening
        Of the resin that has met the glass.
    """

    layers: tuple[Layer, ...]
    depths: Array
    needed: Array
    flows: Thickening

    def after(self, depth: float) -> float:
        """When it is down to a depth [m], from mixing [s]; infinite where it gels before."""
        needed = float(np.interp(depth, self.depths, self.needed))
        return reached_after(needed, self.flows.times, self.flows.fluidity)

    def depth_at(self, time: float) -> float:
        """How far down it is at a time [s] from mixing [m]."""
        return float(np.interp(self.flows.until(time), self.needed, self.depths))


def front(site: Site, lower: float, upper: float, start: float) -> Front | None:
    """Let a front run down through the dry glass of a pour.

    Parameters
    ----------
    site : Site
        With beds that know their grain.
    lower, upper : float
        Levels of the pour [m].
    start : float
        When it is poured [s after the climate's zero].

    Returns
    -------
    Front or None
        None where the pour has no glass in it, or nobody told its grain.
    """
    layers = tuple(_layers(site, lower, upper))
    if not layers:
        return None
    depths, needed = flow_through(layers, site.resin.density.value)
    return Front(layers, depths, needed, thickening(site.resin, meeting(site, lower, upper, start)))


def soak(site: Site, lower: float, upper: float, start: float, gels: float = inf) -> Soaking | None:
    """Let a pour run down into its dry glass.

    Parameters
    ----------
    site : Site
        With beds that know their grain.
    lower, upper : float
        Levels of the pour [m].
    start : float
        When it is poured [s after the climate's zero].
    gels : float
        When its first place gels by its own heat, where a run has told so [s after the climate's zero].

    Returns
    -------
    Soaking or None
        None where the pour has no glass in it, or nobody told its grain.

    Notes
    -----
    A front goes down under the weight of the resin in the bed and the pull of its pores, no resin kept
    standing on top; resistances of the bands in series. The mix has met the glass, which is as
    warm as the shop. Poured at one low point instead, the resin also has to go sideways.
    """
    down = front(site, lower, upper, start)
    if down is None:
        return None
    depth, flows = float(down.depths[-1]), down.flows
    after, limit = down.after(depth), min(flows.limit, gels - start)
    return Soaking(
        depth=depth,
        after=after if after <= limit else inf,
        limit=limit,
        margin=flows.until(limit) / float(down.needed[-1]) - 1.0,
    )


def soak_margin(site: Site, lower: float, upper: float, start: float) -> float:
    """Say how much more a pour could flow before it is too thick than it must to soak its glass.

    Parameters
    ----------
    site : Site
        With beds that know their grain.
    lower, upper : float
        Levels of the pour [m].
    start : float
        When it is poured [s after the climate's zero].

    Returns
    -------
    float
        Share [-]: 1 for twice the flow needed, below 0 where it does not get through; infinite where
        there is no glass.
    """
    found = soak(site, lower, upper, start)
    return inf if found is None else found.margin


def smallest_bubble(site: Site, lower: float, upper: float, start: float) -> float:
    """Say which bubbles still come up from the floor of a pour before it gels.

    Parameters
    ----------
    site : Site
        With its resin.
    lower, upper : float
        Levels of the pour [m].
    start : float
        When it is poured [s after the climate's zero].

    Returns
    -------
    float
        Diameter [m]; smaller ones stay, and larger ones that the grains hold.
    """
    flows = thickening(site.resin, meeting(site, lower, upper, start))
    return smallest_that_rises(upper - lower, site.resin.density.value - AIR, flows.until_gel)


def meeting(site: Site, lower: float, upper: float, start: float) -> float:
    """Temperature of resin that has met its glass.

    Parameters
    ----------
    site : Site
        With its beds.
    lower, upper : float
        Levels of the pour [m].
    start : float
        When it is poured [s after the climate's zero].

    Returns
    -------
    float
        [K]; what glass there is came from the shop.
    """
    liquid = glass = 0.0
    for bed, depth in _inside(site, lower, upper):
        liquid += depth * (1.0 - bed.solid_fraction)
        glass += depth * bed.solid_fraction
    resin = liquid * site.resin.density.value * site.resin.heat_capacity.value
    cold = glass * site.glass.density.value * site.glass.heat_capacity.value
    poured, shop = site.poured_at(start), site.climate.temperature(start)
    return (resin * poured + cold * shop) / (resin + cold)


def _inside(site: Site, lower: float, upper: float) -> Iterator[tuple[Bed, float]]:
    """Beds that a pour fills with their depth in it, from above down."""
    for bed in reversed(site.beds):
        depth = min(bed.upper, upper) - max(bed.lower, lower)
        if depth > 0.0:
            yield bed, depth


def _layers(site: Site, lower: float, upper: float) -> Iterator[Layer]:
    """Glass from the uppermost band of it down, and what lies between."""
    begun = False
    for bed, depth in _inside(site, lower, upper):
        if bed.solid_fraction > 0.0 and bed.grain > 0.0:
            begun = True
            yield _layer(site, bed, depth)
        elif begun:
            yield Layer(depth, inf, 1.0, 0.0)


def _layer(site: Site, bed: Bed, depth: float) -> Layer:
    voids, shape = 1.0 - bed.solid_fraction, DEFAULTS["sphericity"].value
    pores = pore_radius(bed.grain, voids, sphericity=shape)
    suction = capillary_rise(
        DEFAULTS["surface_tension"].value,
        pores,
        site.resin.density.value,
        angle=DEFAULTS["contact_angle"].value,
    )
    return Layer(depth, PERMEABILITIES[LAW](bed.grain, voids, sphericity=shape), voids, max(suction, 0.0))
