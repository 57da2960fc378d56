"""Films in tables: looked up by the kernels as they are by the table itself, on every kind of bare face."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from pourwright.solver import Control, Exchange, FilmTable, Problem, Surfaces, run, start

AXES = np.linspace(0.0, 0.06, 7), np.linspace(0.0, 0.05, 6), np.linspace(0.0, 0.04, 5)
SHAPE = (6, 5, 4)
WARMER = np.array([-20.0, -3.0, 0.0, 0.2, 4.0, 30.0])
ONE_AIR = FilmTable(np.array([293.0]), WARMER, np.array([[9.0, 6.0, 3.0, 4.0, 7.0, 11.0]]))
MORE_AIR = FilmTable(
    np.array([280.0, 290.0, 310.0]), WARMER, np.add.outer([0.0, 1.0, 4.0], [9.0, 6.0, 3.0, 4.0, 7.0, 11.0])
)


def air(seconds: float) -> float:
    """Surroundings that swing past both ends of the tables."""
    return 295.0 + 20.0 * np.sin(seconds / 3000.0)


def hollow(up: object, side: object) -> Problem:
    """A warm block with a hole in it, so that inner and outer faces both count."""
    active = np.ones(SHAPE, dtype=bool)
    active[2:4, 2, 1:] = False
    faces = Surfaces.all(Exchange(side, air, resistance=0.02))  # type: ignore[arg-type]
    faces = Surfaces(*(getattr(faces, name) for name in faces.__slots__[:6]), Exchange(up, air), faces.side)  # type: ignore[arg-type]
    return Problem(*AXES, np.full(SHAPE, 1.8e6), np.full(SHAPE, 0.3), active=active, surfaces=faces)


def called(table: FilmTable) -> Callable[..., object]:
    """The same film, hidden from the kernels."""
    return table.__call__


@pytest.mark.parametrize(("up", "side"), [(ONE_AIR, MORE_AIR), (MORE_AIR, ONE_AIR), (ONE_AIR, 8.0)])
@pytest.mark.parametrize("first", [270.0, 293.0, 345.0])
def test_kernels_look_up_what_the_table_says(up: FilmTable, side: object, first: float) -> None:
    hidden = [called(film) if isinstance(film, FilmTable) else film for film in (up, side)]
    ends = []
    for films in ((up, side), hidden, (up, hidden[1])):
        problem = hollow(*films)
        ends.append(run(problem, start(problem, first), 7200.0, control=Control(tolerance=0.02)).state)
    for end in ends[1:]:
        assert end.temperature == pytest.approx(ends[0].temperature, abs=1e-9)


@pytest.mark.parametrize("around", [270.0, 280.0, 287.0, 300.0, 330.0])
def test_rows_between_surroundings_lie_on_straight_lines_and_stay_level_beyond(around: float) -> None:
    expected = np.interp(around, [280.0, 290.0, 310.0], [0.0, 1.0, 4.0])
    assert MORE_AIR.row(around) - MORE_AIR.row(280.0) == pytest.approx(np.full(6, expected))


def test_pieces_of_a_run_are_laid_out_once_and_do_not_disturb_each_other() -> None:
    problem, other = hollow(ONE_AIR, MORE_AIR), hollow(MORE_AIR, ONE_AIR)
    fixed = Control(tolerance=1e3, max_step=60.0, min_step=60.0, first_step=60.0)
    whole = run(problem, start(problem, 320.0), 3600.0, control=fixed, stops=(1800.0,)).state
    half = run(problem, start(problem, 320.0), 1800.0, control=fixed).state
    run(other, start(other, 280.0), 3600.0, control=fixed)
    again = run(problem, half, 3600.0, control=fixed).state
    # a film's share starts anew with a piece: what differs is the remainder of its iteration
    assert again.temperature == pytest.approx(whole.temperature, abs=1e-5)
