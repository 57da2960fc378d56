"""Bare faces: which exchange serves which, films that depend on temperature, areas, surroundings in time."""

import numpy as np
import pytest

from pourwright.solver import (
    INSULATED,
    Control,
    CutFaces,
    CutSurface,
    Exchange,
    Problem,
    Surfaces,
    run,
    start,
)
from tests.solver.cases import ONE, fixed, slab

CUBE = np.linspace(0.0, 0.03, 4)
BLOCK = np.ones((3, 3, 3))
FACE = 0.01**2
NO_SURFACE = CutSurface(np.zeros(0, dtype=np.int64), np.zeros(0), np.zeros((3, 0)), np.zeros(0))
OPENINGS = ("open_x", "open_y", "open_z")


def entered(surfaces: Surfaces, empty: tuple[object, ...] | None = None, **more: object) -> float:
    """Power [W] entering a block at 300 K with next to no resistance inside, by a very short run."""
    active = np.ones((3, 3, 3), dtype=bool)
    if empty is not None:
        active[empty] = False  # type: ignore[index]
    problem = Problem(CUBE, CUBE, CUBE, 2e6 * BLOCK, 1e6 * BLOCK, active=active, surfaces=surfaces, **more)  # type: ignore[arg-type]
    return run(problem, start(problem, 300.0), 1e-3).balance.entered / 1e-3


@pytest.mark.parametrize("face", ["x_low", "x_high", "y_low", "y_high", "z_low", "z_high"])
def test_each_outer_face_has_its_own_exchange(face: str) -> None:
    power = entered(Surfaces(**{face: Exchange(10.0, 310.0)}))
    assert power == pytest.approx(9 * FACE * 10.0 * 10.0, rel=1e-4)


# the hollow cell's neighbours bare one face each: below it looks up, above it looks down, four look sideways
@pytest.mark.parametrize(("face", "count"), [("up", 1), ("down", 1), ("side", 4)])
def test_inner_faces_by_where_they_look(face: str, count: int) -> None:
    power = entered(Surfaces(**{face: Exchange(10.0, 310.0)}), (1, 1, 1))
    assert power == pytest.approx(count * FACE * 10.0 * 10.0, rel=1e-4)


def test_a_hollow_at_the_rim_opens_no_outer_face() -> None:
    air = Exchange(10.0, 310.0)
    assert entered(Surfaces(z_high=air), (1, 1, 2)) == pytest.approx(8 * FACE * 100.0, rel=1e-4)
    assert entered(Surfaces(z_high=air, up=air), (1, 1, 2)) == pytest.approx(9 * FACE * 100.0, rel=1e-4)


def test_a_cut_face_counts_by_its_true_area_and_as_it_looks() -> None:
    # a plane under 45 degrees through the middle cell, looking up and along x; then faces open by half
    ones = {name: np.ones(BLOCK.shape + np.eye(3, dtype=int)[axis]) for axis, name in enumerate(OPENINGS)}
    slant = CutSurface(np.array([13]), np.array([3e-4]), np.sqrt([[0.5], [0.0], [0.5]]), np.zeros(1))
    hot = Exchange(10.0, 310.0)
    for faces, expected in (
        (Surfaces(side=hot), 1.5e-4),
        (Surfaces(up=hot), 1.5e-4),
        (Surfaces(down=hot), 0.0),
    ):
        assert entered(faces, cut=CutFaces(**ones, surface=slant)) == pytest.approx(
            expected * 100.0, rel=1e-4
        )
    halves = {name: 0.5 * opened for name, opened in ones.items()}
    cut = CutFaces(**halves, surface=NO_SURFACE)
    assert entered(Surfaces.all(hot), (1, 1, 1), cut=cut) == pytest.approx(0.5 * 60 * FACE * 100.0, rel=1e-4)


def test_a_level_inside_a_layer() -> None:
    # steady: held below, film above; the last of four layers is filled by a quarter: 3.25 layers thick
    edges, share = np.linspace(0.0, 0.04, 5), np.array([1.0, 1.0, 1.0, 0.25]).reshape(1, 1, 4)
    opened = [np.ones((2, 1, 4)), np.ones((1, 2, 4)), np.ones((1, 1, 5))]
    above = np.where(share < 1.0, (share - 0.5) * 0.01, 0.005)
    surfaces = Surfaces(z_low=fixed(320.0), z_high=Exchange(20.0, 290.0))
    problem = Problem(
        ONE,
        ONE,
        edges,
        2e6 * share,
        np.full(share.shape, 0.5),
        surfaces=surfaces,
        cut=CutFaces(*opened, NO_SURFACE, above),
    )
    state = run(problem, start(problem, 300.0), 1e7).state
    flow = (320.0 - 290.0) / (0.0325 / 0.5 + 1.0 / 20.0)
    middle = 0.5 * (edges[1:] + edges[:-1])
    assert state.temperature[0, 0] == pytest.approx(320.0 - flow * middle / 0.5, abs=1e-6)


def test_resistances_in_series() -> None:
    # steady: flow through half cell, slab and bench by hand; the slab's far face held
    edges = np.linspace(0.0, 0.04, 9)
    problem = slab(edges, 2e6, 0.5, fixed(320.0), Exchange(20.0, 290.0, resistance=0.1))
    state = run(problem, start(problem, 300.0), 1e7).state
    flow = (320.0 - 290.0) / (0.04 / 0.5 + 0.1 + 1.0 / 20.0)
    middle = 0.5 * (edges[1:] + edges[:-1])
    assert state.temperature[:, 0, 0] == pytest.approx(320.0 - flow * middle / 0.5, abs=1e-6)


def test_film_at_the_surface_temperature() -> None:
    # steady: flux q = h(Ts) (Ts - Ta) with h = 2 (Ts - Ta)^(1/3), and q = k (T0 - Ts) / L
    def film(surface: np.ndarray, surroundings: float) -> np.ndarray:
        return 2.0 * np.cbrt(np.abs(surface - surroundings))

    problem = slab(np.linspace(0.0, 0.04, 5), 2e6, 0.5, fixed(340.0), Exchange(film, 290.0))
    state = run(problem, start(problem, 300.0), 1e7, control=Control(tolerance=0.001, max_step=1e4)).state
    flux = 0.5 * (340.0 - state.temperature[-1, 0, 0]) / 0.035
    surface = 340.0 - flux * 0.04 / 0.5
    assert flux == pytest.approx(2.0 * (surface - 290.0) ** (4.0 / 3.0), rel=2e-4)


def test_surroundings_in_time() -> None:
    # a thin plate that hardly resists follows T' = (Ta(t) - T)/tau, Ta = 300 + r t: T lags by r tau
    problem = slab(ONE * 0.01, 2e6, 1e3, INSULATED, Exchange(10.0, lambda time: 300.0 + 1e-3 * time))
    tau = 2e6 * 0.01 / 10.0
    state = run(problem, start(problem, 300.0), 20 * tau, control=Control(tolerance=0.001)).state
    assert state.temperature.item() == pytest.approx(300.0 + 1e-3 * 20 * tau - 1e-3 * tau, abs=0.01)


def test_steps_land_on_stops() -> None:
    problem = slab(np.linspace(0.0, 0.04, 9), 2e6, 0.5, INSULATED, Exchange(10.0, 300.0))
    times: list[float] = []
    run(
        problem, start(problem, 290.0), 10000.0, stops=(1234.5, 7000.0, -5.0, 20000.0),
        observer=lambda time, _heat, _cure: times.append(time),
    )  # fmt: skip
    assert {1234.5, 7000.0, 10000.0} <= set(times)
    assert times[-1] == 10000.0
