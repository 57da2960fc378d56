"""Whether the resin gets down through dry glass before it thickens, and which bubbles still come up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

import numpy as np
from numpy.typing import NDArray

from pourwright.materials import Resin
from pourwright.materials.batches import MIXING_TIME
from pourwright.physics.bubbles import smallest_that_rises
from pourwright.physics.capillarity import capillary_rise, pore_radius
from pourwright.physics.cure_law import cure_rate
from pourwright.physics.infiltration import Layer, flow_through, reached_after
from pourwright.physics.permeability import PERMEABILITIES
from pourwright.pour.bucket import viscosity
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.site import Bed, Site, cure_law

Array = NDArray[np.float64]
LAW = "kozeny-carman"
AIR = 1.2
"""Density of what is in a bubble [kg/m3]."""
POINTS = 200
"""Of a resin's way from mixed to gel."""


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
class Thickening:
    """How a resin held at one temperature thickens.

    Parameters
    ----------
    times : array (n,)
        From mixing to gel [s].
    fluidity : array (n,)
        Integral of one over the viscosity until then, from when the stream starts [1/Pa].
    limit : float
        When it is too thick to run [s].
    """

    times: Array
    fluidity: Array
    limit: float

    def until(self, time: float) -> float:
        """How much it can flow until a time [s] from mixing [1/Pa]."""
        return float(np.interp(time, self.times, self.fluidity))

    @property
    def until_gel(self) -> float:
        """How much it can flow until it gels [1/Pa]."""
        return float(self.fluidity[-1])


def thickening(resin: Resin, temperature: float) -> Thickening:
    """Follow a resin from mixed to gel at one temperature.

    Parameters
    ----------
    resin : Resin
        Record.
    temperature : float
        [K].

    Returns
    -------
    Thickening
        Of resin whose own heat the glass takes up. Warmed by it, resin is thinner first and thick sooner.

    Notes
    -----
    Time is the integral of one over the rate along the cure, so nothing is stepped. Too thick is as in the
    pail: above what still pours, or twice as thick as mixed where it is thick from the start.

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> slow = thickening(load_materials().resin["epoxy-slow-deep"], 293.15)
    >>> 10 < slow.limit / 3600 < 40 and float(slow.times[-1]) > slow.limit
    True
    """
    cure = resin.cure
    first, gel = cure.initial_conversion.value, cure.gel_conversion.value
    way = first + (gel - first) * np.linspace(0.0, 1.0, POINTS + 1) ** 2
    middle = 0.5 * (way[1:] + way[:-1])
    pace = np.diff(way) / cure_rate(np.full_like(middle, temperature), middle, cure_law(cure))
    times = np.concatenate([[0.0], np.cumsum(pace)])
    thick = viscosity(resin, np.full_like(middle, temperature), middle)
    fluidity = np.concatenate([[0.0], np.cumsum(pace / thick)])
    poured = float(np.interp(MIXING_TIME.value, times, fluidity))
    bound = max(DEFAULTS["pourable_viscosity"].value, 2.0 * float(thick[0]))
    limit = float(np.interp(bound, thick, 0.5 * (times[1:] + times[:-1])))
    return Thickening(times, np.maximum(fluidity - poured, 0.0), limit)


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
    layers = tuple(_layers(site, lower, upper))
    if not layers:
        return None
    resin, density = site.resin, site.resin.density.value
    flows = thickening(resin, _meeting(site, lower, upper, start))
    depths, flow = flow_through(layers, density)
    needed = float(flow[-1])
    after, limit = reached_after(needed, flows.times, flows.fluidity), min(flows.limit, gels - start)
    return Soaking(
        depth=float(depths[-1]),
        after=after if after <= limit else inf,
        limit=limit,
        margin=flows.until(limit) / needed - 1.0,
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
    flows = thickening(site.resin, _meeting(site, lower, upper, start))
    return smallest_that_rises(upper - lower, site.resin.density.value - AIR, flows.until_gel)


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


def _meeting(site: Site, lower: float, upper: float, start: float) -> float:
    """Temperature of resin that has met its glass [K]."""
    liquid = glass = 0.0
    for bed, depth in _inside(site, lower, upper):
        liquid += depth * (1.0 - bed.solid_fraction)
        glass += depth * bed.solid_fraction
    resin = liquid * site.resin.density.value * site.resin.heat_capacity.value
    cold = glass * site.glass.density.value * site.glass.heat_capacity.value
    poured, shop = site.poured_at(start), site.climate.temperature(start)
    return (resin * poured + cold * shop) / (resin + cold)
