"""The solver on layers and on filled resin, against the exact rules of mixtures."""

import numpy as np
import pytest

from pourwright.solver import INSULATED, Control, Problem, Surfaces, run, start, switch_on
from tests.solver.cases import ONE, fixed

# Wiener 1912: particles of 1.0 W/(m K) in a matrix of 0.2, 0.55 by volume
MATRIX, PARTICLE, SHARE = 0.2, 1.0, 0.55
LAYERS = 20


KINDS = np.where((np.arange(LAYERS) * 11) % LAYERS < round(SHARE * LAYERS), PARTICLE, MATRIX)


def through(conductivity: np.ndarray) -> np.ndarray:
    """Heat that enters each line of cells along x [W/m2] where its ends are held at 1 and 0."""
    nx, ny, _ = conductivity.shape
    edges = np.linspace(0.0, 1.0, nx + 1)
    wide = np.linspace(0.0, 1.0, ny + 1)
    held = Surfaces(x_low=fixed(1.0), x_high=fixed(0.0))
    problem = Problem(edges, wide, ONE, np.ones(conductivity.shape), conductivity, surfaces=held)
    control = Control(tolerance=1e-6, max_step=50.0)
    last = run(problem, start(problem, 0.5), 1e3, control=control).state.temperature
    return np.asarray((1.0 - last[0]) * conductivity[0] / (0.5 / nx))


def test_layers_in_series_and_side_by_side() -> None:
    # A36
    series = through(KINDS.reshape(-1, 1, 1))
    assert series.mean() == pytest.approx(0.357143, rel=1e-4)
    along = through(np.broadcast_to(KINDS.reshape(1, -1, 1), (4, LAYERS, 1)))
    assert along.mean() == pytest.approx(0.64, rel=1e-4)


def test_filled_resin_holds_heat_by_volume() -> None:
    # A37: 0.55 of glass 2500 kg/m3, 840 J/(kg K) in resin 1100 kg/m3, 1800 J/(kg K): 2.046 MJ/(m3 K)
    ones = np.ones((1, 1, 1))
    grains = Problem(ONE, ONE, ONE, 0.55 * 2500.0 * 840.0 * ones, ones, surfaces=Surfaces.all(INSULATED))
    both = (0.55 * 2500.0 * 840.0 + 0.45 * 1100.0 * 1800.0) * ones
    filled, state = switch_on(grains, start(grains, 290.0), ones > 0.0, 290.0, volumetric_heat_capacity=both)
    warmed = Problem(ONE, ONE, ONE, filled.volumetric_heat_capacity, ones, source=lambda _time: 2046.0 * ones)
    last = run(warmed, state, 1000.0).state
    assert last.temperature.item() - 290.0 == pytest.approx(1.0, rel=1e-4)
