"""Problems that several tests build."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from pourwright.solver import Control, Exchange, Problem, Surfaces, rate_law

R = 8.314462618
ONE = np.array([0.0, 1.0])
Array = np.ndarray


@rate_law
def kamal(temperature: float, conversion: float, p: Array) -> float:
    """(A1 e^(-E1/RT) + A2 e^(-E2/RT) a^m) (1-a)^n with p = A1, E1, A2, E2, m, n."""
    heat = R * temperature
    slow = p[0] * math.exp(-p[1] / heat)
    fast = p[2] * math.exp(-p[3] / heat) * conversion ** p[4] if p[2] > 0.0 else 0.0
    return (slow + fast) * (1.0 - conversion) ** p[5]


@rate_law
def exponential(temperature: float, conversion: float, p: Array) -> float:
    """p[0] exp(temperature - p[1]): zero order, one kelvin of rise multiplies it by e."""
    return p[0] * math.exp(temperature - p[1])


def fixed(temperature: Any) -> Exchange:
    """A face held at a temperature."""
    return Exchange(np.inf, temperature)


def slab(
    edges: Array,
    capacity: float | Array,
    conductivity: float | Array,
    low: Exchange,
    high: Exchange,
    heat: float = 0.0,
    **more: Any,
) -> Problem:
    """One line of cells along x, insulated on its sides."""
    shape = (edges.size - 1, 1, 1)

    def spread(value: float | Array) -> Array:
        return np.broadcast_to(np.asarray(value, dtype=float).reshape(-1, 1, 1), shape)

    return Problem(
        edges, ONE, ONE, spread(capacity), spread(conductivity), spread(heat),
        surfaces=Surfaces(x_low=low, x_high=high), **more,
    )  # fmt: skip


def every(step: float) -> Control:
    """Steps of one length, whatever the error."""
    return Control(tolerance=1e-3, max_step=step, min_step=step, first_step=step)


def extrapolated(coarse: float, fine: float, order: int = 2) -> float:
    """Limit of a value that falls by 2**order when the spacing is halved (Richardson)."""
    return fine + (fine - coarse) / (2**order - 1)


def at_middle(values: Array) -> float:
    """Value on the plane of symmetry before the first cell of an even, uniform profile."""
    return float((9.0 * values[0] - values[1]) / 8.0)


def at_end(values: Array) -> float:
    """Value at the outer face of the last cell of a uniform line, by its last three cells."""
    return float((15.0 * values[-1] - 10.0 * values[-2] + 3.0 * values[-3]) / 8.0)
