"""The solver with films that follow the surface's temperature, against published coefficients."""

import numpy as np
import pytest

from pourwright.pour.films import tabulated_film
from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start
from tests.solver.cases import ONE

HOT, COLD = 313.15, 293.15

# A plate of 40 degC in air of 20 degC: Churchill and Chu 1975 (A21, A22), McAdams 1954 (A23, A24), with
# radiation of an emissivity of 0.9 by Incropera eq. 1.9 (A26).
# name, face, length [m], emissivity, coefficient [W/(m2 K)], its tolerance
PLATES = [
    ("A21", "upright", 0.3, 0.0, 4.35548, 0.01),
    ("A22", "upright", 0.05, 0.0, 5.96913, 0.01),
    ("A23", "facing up", 0.1, 0.0, 5.2471, 0.02),
    ("A24", "facing down", 0.1, 0.0, 2.62355, 0.02),
    ("A26", "upright", 0.3, 0.9, 4.35548 + 5.69324, 0.01),
]
BARE = {"upright": "side", "facing up": "up", "facing down": "down"}


def plate(face: str, length: float, emissivity: float, fed: float) -> Problem:
    """Cells beside an empty one, towards which they show one bare face of 1 m2 of the kind asked for."""
    axis = 0 if face == "upright" else 2
    edges = [ONE, ONE, ONE]
    edges[axis] = np.array([0.0, 0.01, 0.02])
    shape = tuple(each.size - 1 for each in edges)
    active = np.ones(shape, dtype=bool)
    # the empty cell lies above a face that looks up, below one that looks down
    active.reshape(-1)[0 if face == "facing down" else 1] = False
    film = Exchange(tabulated_film(COLD, length, face, emissivity), COLD)
    ones, power = np.ones(shape), np.full(shape, fed / 0.01)
    surfaces = Surfaces(**{BARE[face]: film})
    return Problem(
        *edges, 1e5 * ones, 1e6 * ones, active=active, surfaces=surfaces, source=lambda _time: power
    )


@pytest.mark.parametrize(("name", "face", "length", "emissivity", "film", "within"), PLATES)
def test_a_plate_gives_off_what_is_published(
    name: str, face: str, length: float, emissivity: float, film: float, within: float
) -> None:
    problem = plate(face, length, emissivity, 0.0)
    lost = -run(problem, start(problem, HOT), 1e-3).balance.entered / 1e-3
    assert lost == pytest.approx(film * (HOT - COLD), rel=within), name


@pytest.mark.parametrize(("name", "face", "length", "emissivity", "film", "within"), PLATES)
def test_a_plate_that_is_fed_as_much_settles_there(
    name: str, face: str, length: float, emissivity: float, film: float, within: float
) -> None:
    problem = plate(face, length, emissivity, film * (HOT - COLD))
    last = run(problem, start(problem, COLD), 2e4, control=Control(tolerance=1e-3)).state
    # the film grows with the difference, so this settles closer than the coefficient is known
    rise = last.temperature[problem.active].item() - COLD
    assert rise == pytest.approx(HOT - COLD, rel=within), name
