"""A liquid that runs down into a dry bed by its own weight."""

from math import inf, log1p
from typing import NamedTuple

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Array
from pourwright.physics.constants import STANDARD_GRAVITY

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)
VOIDS = Range(0.0, 1.0, open_low=True)
STEPS = 64
"""Of a front through one layer."""


@checked(depth=NOT_NEGATIVE, permeability=POSITIVE, density=POSITIVE, void_fraction=VOIDS, head=NOT_NEGATIVE)
def flow_needed(
    depth: float, permeability: float, density: float, void_fraction: float, *, head: float = 0.0
) -> float:
    """How much a liquid has to flow until its front is down to a depth.

    Parameters
    ----------
    depth : of the bed [m]
    permeability : of the bed [m2]
    density : of the liquid [kg/m3]
    void_fraction : volume between the grains over volume of the bed [-]
    head : depth of liquid kept above the bed, and what the capillaries add to it [m]

    Returns
    -------
    integral of one over the viscosity over the time it takes [1/Pa]; with a steady viscosity the
    time is this times the viscosity

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    t / mu = e / (k rho g) (L - H ln(1 + L / H)): Darcy's law for a sharp front, with the weight of what
    is in the bed, the pond and the capillary suction H. As the law is linear in the
    velocity, a viscosity that changes in time, alike everywhere, counts by its integral.

    References
    ----------
    Green & Ampt, J. Agric. Sci. 4 (1911) 1 [green-ampt-1911]; Darcy 1856.

    Examples
    --------
    50 mm of 3 mm grains, 20 mm of resin kept on top:

    >>> print(f"{0.6 * flow_needed(0.05, 1.5062e-8, 1100.0, 0.45, head=0.02):.2f} s")
    41.45 s
    """
    weight = density * STANDARD_GRAVITY
    left = depth - head * log1p(depth / head) if head > 0.0 else depth
    return void_fraction * left / (permeability * weight)


class Layer(NamedTuple):
    """One layer of a bed.

    Parameters
    ----------
    depth : thickness [m]
    permeability : [m2]; infinite where there is no grain
    void_fraction : [-]
    suction : height of liquid that its capillaries hold up [m]
    """

    depth: float
    permeability: float
    void_fraction: float
    suction: float


@checked(density=POSITIVE, head=NOT_NEGATIVE)
def flow_through(layers: tuple[Layer, ...], density: float, *, head: float = 0.0) -> tuple[Array, Array]:
    """How much a liquid has to flow until its front is down to each depth of layers of different grains.

    Parameters
    ----------
    layers : from above downwards, each [m], [m2], [-], [m]
    density : of the liquid [kg/m3]
    head : depth of liquid kept above the bed [m]

    Returns
    -------
    depths [m] and the integral of one over the viscosity until then [1/Pa], from 0 on

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    As `flow_needed`, with the resistances of the layers above the front in series:
    d(t / mu) = e R / (rho g (L + H + h_c)) dL with R the integral of dL / k, by Simpson's rule.

    References
    ----------
    Green & Ampt 1911 [green-ampt-1911]; layers as in Childs & Bybordi, Water Resour. Res. 5 (1969)
    446 [childs-bybordi-1969].

    Examples
    --------
    >>> depths, flow = flow_through((Layer(0.05, 1.5062e-8, 0.45, 0.0),), 1100.0, head=0.02)
    >>> print(f"{1e3 * depths[-1]:.0f} mm in {0.6 * flow[-1]:.2f} s")
    50 mm in 41.45 s
    """
    weight = density * STANDARD_GRAVITY
    depths, flow, resistance = [np.zeros(1)], [np.zeros(1)], 0.0
    for layer in layers:
        inside = np.linspace(0.0, layer.depth, 2 * STEPS + 1)
        below = depths[-1][-1] + inside
        slowed = resistance + inside / layer.permeability
        pull = below + head + layer.suction
        # at the very top without head both vanish: the front starts at the bed's own velocity
        ratio = np.divide(slowed, pull, out=np.full_like(pull, 1.0 / layer.permeability), where=pull > 0.0)
        rate = layer.void_fraction * ratio / weight
        step = layer.depth / STEPS
        more = np.cumsum(step / 6.0 * (rate[:-1:2] + 4.0 * rate[1::2] + rate[2::2]))
        depths.append(below[2::2])
        flow.append(flow[-1][-1] + more)
        resistance += layer.depth / layer.permeability
    return np.concatenate(depths), np.concatenate(flow)


@checked(flow=NOT_NEGATIVE)
def reached_after(flow: float, times: Array, fluidity: Array) -> float:
    """When a liquid that thickens has flowed so much.

    Parameters
    ----------
    flow : integral of one over the viscosity that is needed [1/Pa]
    times : ascending [s]
    fluidity : the same integral up to these times [1/Pa]

    Returns
    -------
    time [s]; infinite where it never does

    Raises
    ------
    RangeError : a negative flow

    Notes
    -----
    Straight lines between the given times.

    References
    ----------
    Green & Ampt 1911 [green-ampt-1911].

    Examples
    --------
    >>> times = np.array([0.0, 3600.0, 7200.0])
    >>> reached_after(4500.0, times, np.array([0.0, 6000.0, 7000.0])), reached_after(8000.0, times, times)
    (2700.0, inf)
    """
    if flow > fluidity[-1]:
        return inf
    return float(np.interp(flow, fluidity, times))
