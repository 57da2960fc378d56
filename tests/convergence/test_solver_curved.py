"""A bare round bar on a square grid against the same bar on a radial line of cells."""

import math

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.solver import INSULATED, Control, Exchange, Problem, Surfaces, run, start, weigh_bare_faces
from tests.solver.cases import ONE, at_middle, extrapolated, kamal, slab

RADIUS, CAPACITY, CONDUCTIVITY, HEAT = 0.03, 1.98e6, 0.2, 3.85e8
AIR = Exchange(8.0, 296.15)
LAW = {"rate": kamal, "parameters": np.array([3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8])}
CONTROL = Control(tolerance=0.01, max_step=300.0)


def radial_peak(cells: int) -> float:
    """Peak on the axis, with properties that grow as the radius."""
    edges = np.linspace(0.0, RADIUS, cells + 1)
    middle = 0.5 * (edges[1:] + edges[:-1]) / RADIUS
    line = slab(edges, CAPACITY * middle, CONDUCTIVITY * middle, INSULATED, AIR)
    fields = (line.volumetric_heat_capacity, line.conductivity, HEAT * middle.reshape(-1, 1, 1))
    problem = Problem(edges, ONE, ONE, *fields, surfaces=line.surfaces, **LAW)
    state = run(problem, start(problem, 296.15), 20 * 3600.0, control=CONTROL).state
    return at_middle(state.records.peak_temperature[:, 0, 0])


def square_peak(spacing: float, *, weighed: bool) -> float:
    """Hottest cell of the bar where no cell lies on its axis."""
    cells = math.ceil(2.0 * RADIUS / spacing) + 4
    edges = (np.arange(cells + 1) - 0.5 * cells) * spacing
    middle = 0.5 * (edges[1:] + edges[:-1])
    x, y = np.meshgrid(middle - 0.31 * spacing, middle - 0.17 * spacing, indexing="ij")
    active = (np.hypot(x, y) < RADIUS)[..., None]
    ones = np.ones(active.shape)
    fields = (CAPACITY * ones, CONDUCTIVITY * ones, HEAT * ones, active, Surfaces(side=AIR))
    problem = Problem(edges, edges, ONE, *fields, **LAW)
    if weighed:
        normals = np.stack([x, y, 0.0 * x])[..., None]
        factor = weigh_bare_faces(problem, normals, 2.0 * math.pi * RADIUS)
        problem = Problem(edges, edges, ONE, *fields, area_factor=factor, **LAW)
    state = run(problem, start(problem, 296.15), 20 * 3600.0, control=CONTROL).state
    return float(state.records.peak_temperature[active].max())


def test_a_round_bar_cools_by_its_true_area() -> None:
    true = extrapolated(radial_peak(40), radial_peak(80))
    assert square_peak(4e-3, weighed=True) == pytest.approx(true, abs=0.3)
    assert square_peak(2e-3, weighed=True) == pytest.approx(true, abs=0.3)
    # left as stairs the bar is too cool by kelvins, and stays so as the grid gets finer
    assert square_peak(2e-3, weighed=False) < true - 3.0


def test_areas_add_up_to_the_true_area() -> None:
    there = np.zeros((6, 6, 6), dtype=bool)
    there[1:4, 1:5, 2:4] = True
    edges = np.linspace(0.0, 0.06, 7)
    ones = np.ones(there.shape)
    problem = Problem(
        edges, edges, edges, ones, 1e9 * ones, active=there, surfaces=Surfaces.all(Exchange(10.0, 310.0))
    )
    normals = np.random.default_rng(1).normal(size=(3, *there.shape))
    factor = weigh_bare_faces(problem, normals, 0.01)
    weighed = Problem(
        edges,
        edges,
        edges,
        2e6 * ones,
        1e9 * ones,
        active=there,
        surfaces=problem.surfaces,
        area_factor=factor,
    )
    power = run(weighed, start(weighed, 300.0), 1e-3).balance.entered / 1e-3
    assert power == pytest.approx(0.01 * 10.0 * 10.0, rel=1e-4)


def test_a_normal_without_direction_is_refused() -> None:
    there = np.array([[[True, False]]])
    problem = Problem(
        ONE, ONE, np.array([0.0, 1.0, 2.0]), np.ones(there.shape), np.ones(there.shape), active=there
    )
    with pytest.raises(UserError, match="no direction"):
        weigh_bare_faces(problem, np.zeros((3, 1, 1, 2)))
    with pytest.raises(UserError, match="normals have shape"):
        weigh_bare_faces(problem, np.zeros((1, 1, 2)))
