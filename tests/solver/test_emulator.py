"""What is learned from runs: exact where it can be, close where answers bend, the same each time."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.solver import similarity
from pourwright.solver.draws import draws
from pourwright.solver.emulator import fit, held_out

INPUTS = 18
RUNS, ASKED = draws(80, np.zeros(INPUTS), np.eye(INPUTS), 1), draws(1000, np.zeros(INPUTS), np.eye(INPUTS), 2)
ALONG = 1.0 / np.arange(1, INPUTS + 1)
ALONG /= np.linalg.norm(ALONG)
ANSWERS = {
    "straight": lambda x: 3.0 + x @ ALONG,
    "bowed": lambda x: x @ ALONG + 0.5 * x[:, 0] * x[:, 1] + 0.2 * x[:, 2] ** 2,
    "takes off": lambda x: np.log1p(np.exp(4.0 * (x @ ALONG - 0.5))),
    "takes off and levels": lambda x: 1.0 / (1.0 + np.exp(-3.0 * (x @ ALONG - 0.8))),
    "takes off, and more": lambda x: np.log1p(np.exp(4.0 * (x @ ALONG - 0.5))) + 0.3 * x[:, 1] * x[:, 2],
}


def share_left(name: str) -> float:
    """Root of the mean square error, over the deviation of the answer."""
    answer = ANSWERS[name]
    told = fit(RUNS, answer(RUNS)).predict(ASKED)
    return float(np.sqrt(np.mean((told - answer(ASKED)) ** 2)) / answer(ASKED).std())


@pytest.mark.parametrize(
    ("name", "most"),
    [
        ("straight", 0.001),
        ("bowed", 0.1),
        ("takes off", 0.2),
        ("takes off and levels", 0.2),
        ("takes off, and more", 0.25),
    ],
)
def test_learns_an_answer_of_eighteen_inputs_from_eighty_runs(name: str, most: float) -> None:
    assert share_left(name) < most


def test_beats_a_least_squares_line_where_an_answer_takes_off() -> None:
    answer = ANSWERS["takes off"]
    with_one = [np.column_stack([np.ones(len(x)), x]) for x in (RUNS, ASKED)]
    line = with_one[1] @ np.linalg.lstsq(with_one[0], answer(RUNS), rcond=None)[0]
    left = np.sqrt(np.mean((line - answer(ASKED)) ** 2)) / answer(ASKED).std()
    assert share_left("takes off") < left / 2


def test_what_is_held_out_tells_the_error() -> None:
    answer = ANSWERS["takes off, and more"]
    errors = held_out(RUNS, answer(RUNS), 20)
    learned = fit(RUNS[:60], answer(RUNS[:60]))
    assert np.array_equal(errors, learned.predict(RUNS[60:]) - answer(RUNS[60:]))
    true = np.sqrt(np.mean((learned.predict(ASKED) - answer(ASKED)) ** 2))
    assert 0.4 * true < np.sqrt(np.mean(errors**2)) < 2.5 * true


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e3), st.integers(0, 1000))
@settings(max_examples=5, deadline=None)
def test_another_unit_gives_the_same_answer(shift: float, scale: float, seed: int) -> None:
    runs = draws(30, np.zeros(3), np.eye(3), seed)
    values = np.sin(runs.sum(axis=1) / 2.0)
    asked = ASKED[:20, :3]
    ours, theirs = fit(runs, values).predict(asked), fit(runs, shift + scale * values).predict(asked)
    # a search that begins a rounding apart may end a little apart
    assert np.abs((theirs - shift) / scale - ours).mean() < 0.02 + 1e-8 * abs(shift) / scale


def test_is_the_same_each_time_and_point_by_point() -> None:
    values = ANSWERS["bowed"](RUNS)
    first, again = fit(RUNS, values), fit(RUNS, values)
    assert np.array_equal(first.predict(ASKED), again.predict(ASKED))
    assert first.predict(ASKED[3]) == pytest.approx(first.predict(ASKED)[3:4], rel=1e-9)
    many = np.tile(ASKED, (10, 1))
    assert first.predict(many)[-1000:] == pytest.approx(first.predict(ASKED), rel=1e-9)


@given(st.integers(0, 10000), st.sampled_from([0.02, 0.3, 3.0, 40.0]), st.sampled_from([3, 8, 30, 70]))
@settings(max_examples=10, deadline=None)
def test_corners_steps_and_single_outliers_are_learned_without_overflow(
    seed: int, steep: float, count: int
) -> None:
    runs = draws(count, np.zeros(18), np.eye(18), seed)
    place = steep * runs[:, :4].sum(axis=1)
    asked = 3.0 * ASKED[:200]
    for values in (
        np.log(np.clip(np.exp(np.clip(place, -50, 50)), 0.5, 70.0)),
        np.where(place > steep, 1.0, 0.0),
        np.where(np.arange(count) == 1, 1e9, 1e-9 * place),
    ):
        assert np.all(np.isfinite(fit(runs, values).predict(asked)))


@pytest.mark.parametrize("runs", [1, 2, 60])
def test_an_answer_that_never_changes_is_learned(runs: int) -> None:
    learned = fit(RUNS[:runs], np.full(runs, 65.0))
    assert learned.predict(ASKED[:3]).tolist() == [65.0] * 3


def test_the_slopes_are_those_of_the_covariance() -> None:
    chance = np.random.default_rng(5)
    points, row = chance.normal(size=(12, 3)), chance.normal(size=2 * 3 + similarity.SIZES) / 2
    weights = chance.normal(size=(12, 12))
    weights += weights.T

    def total(at: np.ndarray) -> float:
        unknowns = similarity.Unknowns.of(at)
        among = similarity.covariance(similarity.parts(points, points, unknowns), unknowns)
        return float((weights * (among + unknowns.sizes[-1] * np.eye(12))).sum())

    unknowns = similarity.Unknowns.of(row)
    ours = similarity.slopes(points, similarity.parts(points, points, unknowns), unknowns, weights)
    by_difference = [(total(row + step) - total(row - step)) / 2e-5 for step in 1e-5 * np.eye(row.size)]
    assert ours == pytest.approx(by_difference, rel=1e-5, abs=1e-5)


@pytest.mark.parametrize("values", [np.full(80, np.inf), np.ones(79), np.empty(0)])
def test_what_cannot_be_learned_is_refused(values: np.ndarray) -> None:
    with pytest.raises(UserError):
        fit(RUNS, values)


@pytest.mark.parametrize("count", [0, 78, 200])
def test_not_every_run_can_be_held_out(count: int) -> None:
    with pytest.raises(UserError, match="held out"):
        held_out(RUNS, RUNS[:, 0], count)
