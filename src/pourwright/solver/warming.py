"""Compile every kernel before it is needed, so that the first plan does not wait."""

from __future__ import annotations

import numpy as np

from pourwright.solver.compilation import rate_law
from pourwright.solver.events import switch_on
from pourwright.solver.problem import Array, Exchange, Problem, Surfaces
from pourwright.solver.run import Outcome, run
from pourwright.solver.state import start


@rate_law
def first_order(temperature: float, conversion: float, parameters: Array) -> float:
    """Give a first-order rate that does not heed temperature.

    Parameters
    ----------
    temperature, conversion : float
        [K], [-].
    parameters : array (1,)
        Rate constant [1/s].

    Returns
    -------
    float
        [1/s].
    """
    return parameters[0] * (1.0 - conversion) if temperature > 0.0 else 0.0


def warm_up() -> Outcome:
    """Compile all kernels, or load them from the cache, by running a tiny problem.

    Returns
    -------
    Outcome
        Of the tiny problem.

    Examples
    --------
    >>> warm_up().ending
    <Ending.FINISHED: 'finished'>
    """
    shape = (2, 2, 2)
    edges = np.array([0.0, 0.01, 0.02])
    ones = np.ones(shape)
    below = np.zeros(shape, dtype=bool)
    below[:, :, 0] = True
    skin = Exchange(lambda surface, outside: 5.0 + 0.0 * surface * outside, 293.15)
    problem = Problem(
        edges, edges, edges, 2e6 * ones, 0.3 * ones, 3e8 * ones, below, Surfaces.all(skin),
        rate=first_order, parameters=np.array([[1e-4]]),
    )  # fmt: skip
    half = run(problem, start(problem, 295.0, thresholds=(0.001,)), 60.0)
    full, state = switch_on(problem, half.state, ~below, 300.0)
    return run(full, state, 120.0)
