"""The band of a body measured by tape holds the truth as often as it says; more trials in the benchmark."""

import numpy as np
import pytest

from benchmarks.tape_bodies import invent, read
from pourwright.app.shaping.tape_doubt import tape_doubt
from pourwright.app.shaping.tape_rows import body_of

TRIALS = 150


def held(rows):
    """Volume under the smooth curve, without the mesh."""
    body = body_of(rows)
    levels = np.linspace(body.heights[0], body.heights[-1], 1201)
    return body, float(np.pi * np.trapezoid(body.halves(levels).prod(axis=1), levels))


@pytest.mark.parametrize(("count", "kind"), [(3, "girth"), (6, "girth"), (6, "sides")])
def test_eight_of_ten_lie_in_the_band(count, kind):
    """Of 150 trials at 80 %, three standard deviations are 0.10."""
    rng = np.random.default_rng(count)
    inside = 0
    for _ in range(TRIALS):
        invented = invent(rng)
        rows = read(invented, count, kind, 0.002, rng)
        body, volume = held(rows)
        low, high = tape_doubt(rows, body, volume, 0.002).band
        inside += low <= invented.volume <= high
    assert 0.70 <= inside / TRIALS <= 0.90
