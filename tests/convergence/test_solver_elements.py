"""The solver against finite elements on one quarter of a block poured in two parts."""

import numpy as np
import pytest
from skfem import MeshHex

from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start, switch_on
from tests.convergence.elements import Elements, Side, Stage
from tests.solver.cases import extrapolated, kamal

# board below 20 mm, rubber outside 40 mm and below 40 mm, casting from 40 to 100 mm and on to 160 mm
WIDE, HIGH, BOARD, RUBBER, FIRST = 0.06, 0.16, 0.02, 0.04, 0.10
SHOP, WARM, FILM = 294.15, 303.15, 9.0
LATER, END = 6 * 3600.0, 14 * 3600.0
RESIN = np.array([2.4e5, 60e3, 8.8e5, 55e3, 0.6, 1.8])
# capacity [J/(m3 K)], conductivity [W/(m K)], heat [J/m3] of board, rubber, casting
MATTER = np.array([[1.1e6, 0.15, 0.0], [1.6e6, 0.25, 0.0], [2.0e6, 0.35, 2.2e8]])


def kinds(x: np.ndarray, y: np.ndarray, z: np.ndarray) -> np.ndarray:
    """0 board, 1 rubber, 2 first pour, 3 second pour."""
    outside = (x > RUBBER) | (y > RUBBER) | (z < RUBBER)
    return np.where(z < BOARD, 0, np.where(outside, 1, np.where(z < FIRST, 2, 3)))


def lines(spacing: float) -> list[np.ndarray]:
    return [np.linspace(0.0, size, round(size / spacing) + 1) for size in (WIDE, WIDE, HIGH)]


def peaks_by_volumes(spacing: float) -> tuple[float, float]:
    """Highest temperature of each pour, taken to the axis of symmetry."""
    edges = lines(spacing)
    kind = kinds(*np.meshgrid(*[0.5 * (e[1:] + e[:-1]) for e in edges], indexing="ij"))
    capacity, conductivity, heat = (MATTER[np.minimum(kind, 2), column] for column in range(3))
    air = Exchange(FILM, SHOP)
    around = Surfaces(x_high=air, y_high=air, z_high=air, up=air, side=air, down=air)
    law = {"rate": kamal, "parameters": RESIN}
    problem = Problem(*edges, capacity, conductivity, heat, kind < 3, around, **law)
    state = start(problem, np.where(kind == 2, WARM, SHOP), np.where(kind >= 2, 1e-3, 0.0))
    control = Control(tolerance=0.02, max_step=600.0)
    first = run(problem, state, LATER, control=control).state
    whole, state = switch_on(problem, first, kind == 3, WARM, 1e-3)
    last = run(whole, state, END, control=control).state
    return peak(first, kind == 2), peak(last, kind == 3)


def peak(state: object, where: np.ndarray) -> float:
    heights = state.records.peak_temperature  # type: ignore[attr-defined]
    columns = (9.0 * heights[0] - heights[1]) / 8.0
    axis = (9.0 * columns[0] - columns[1]) / 8.0
    return top(axis[where[0, 0]])


def top(values: np.ndarray) -> float:
    """Top of the parabola through the highest of a row of values and its neighbours."""
    here = int(np.clip(values.argmax(), 1, values.size - 2))
    before, middle, after = values[here - 1 : here + 2]
    return float(middle - (after - before) ** 2 / (8.0 * (before - 2.0 * middle + after)))


def rate(temperature: np.ndarray, cure: np.ndarray) -> np.ndarray:
    heat = 8.314462618 * temperature
    a1, e1, a2, e2, m, n = RESIN
    return (a1 * np.exp(-e1 / heat) + a2 * np.exp(-e2 / heat) * cure**m) * (1.0 - cure) ** n


def peaks_by_elements(spacing: float, step: float) -> tuple[float, float]:
    mesh = MeshHex.init_tensor(*lines(spacing))
    kind = kinds(*mesh.p[:, mesh.t].mean(axis=1))

    def bare(middle: np.ndarray) -> np.ndarray:
        return (middle[0] > 1e-9) & (middle[1] > 1e-9) & (middle[2] > 1e-9)

    air = Side(FILM, lambda _time: SHOP, bare)

    def stage(there: np.ndarray) -> Elements:
        matter = MATTER[np.minimum(kind[there], 2)].T
        return Elements(mesh, Stage(there, *matter, (air,)), rate)

    early, late = stage(np.flatnonzero(kind < 3)), stage(np.arange(kind.size))
    points = late.heat.shape[1]
    warm = np.repeat(np.where(kind == 2, WARM, SHOP)[:, None], points, axis=1)
    cure = np.repeat(np.where(kind >= 2, 1e-3, 0.0)[:, None], points, axis=1)
    seen = early.run(early.projected(warm[kind < 3]), cure[kind < 3], 0.0, LATER, step)
    first = on_axis(mesh, early.free, seen.hottest, 0.5 * (RUBBER + FIRST))
    warm[kind < 3], cure[kind < 3] = early.at_points(seen.corners), seen.cure
    warm[kind == 3] = WARM
    seen = late.run(late.projected(warm), cure, LATER, END, step)
    return first, on_axis(mesh, late.free, seen.hottest, 0.5 * (FIRST + HIGH))


def on_axis(mesh: MeshHex, free: np.ndarray, values: np.ndarray, height: float) -> float:
    """Highest value on the axis within a pour, by the height of the pour's middle."""
    x, y, z = mesh.p[:, free]
    near = (x < 1e-9) & (y < 1e-9) & (np.abs(z - height) < 0.5 * (FIRST - RUBBER) + 1e-9)
    return top(values[near][np.argsort(z[near])])


def test_two_pours_in_three_materials() -> None:
    volumes = np.array([peaks_by_volumes(spacing) for spacing in (5e-3, 2.5e-3)])
    elements = np.array([peaks_by_elements(spacing, 60.0) for spacing in (10e-3, 5e-3)])
    ours, theirs = extrapolated(*volumes), extrapolated(*elements)
    assert ours == pytest.approx(theirs, abs=0.3)
    assert np.all(ours > WARM + 10.0)
