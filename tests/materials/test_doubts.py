"""Doubts in a resin's record: kept as written, refused where they cannot be."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.materials import load_materials
from pourwright.materials.doubts import read_doubts

TABLE = {
    "family": "epoxy-slow-deep",
    "names": ["speed", "order_m"],
    "mean": [-11.0, -0.3],
    "covariance": [[0.04, 0.01], [0.01, 0.09]],
}


def test_what_is_written_is_kept():
    found = read_doubts(TABLE, "resin.toml [river]")
    assert (found.family, found.names) == ("epoxy-slow-deep", ("speed", "order_m"))
    assert found.mean == (-11.0, -0.3)
    assert found.covariance == ((0.04, 0.01), (0.01, 0.09))


def test_the_families_have_no_doubts_of_their_own():
    assert all(resin.doubts is None for resin in load_materials().resin.values())


@given(st.integers(1, 15), st.integers(0, 10000))
@settings(max_examples=50, deadline=None)
def test_every_covariance_is_taken_as_it_is_printed(size, seed):
    chance = np.random.default_rng(seed)
    root = chance.normal(size=(size, chance.integers(1, size + 1))) * 10.0 ** chance.uniform(-4, 4, (size, 1))
    printed = [[float(f"{value:.9g}") for value in row] for row in root @ root.T]
    names = [f"number {n}" for n in range(size)]
    found = read_doubts({"family": "f", "names": names, "mean": [0.0] * size, "covariance": printed}, "here")
    assert np.array(found.covariance) == pytest.approx(root @ root.T, rel=1e-8)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"mean": [1.0]}, "not 2 finite numbers"),
        ({"mean": [1.0, "two"]}, "not 2 finite numbers"),
        ({"covariance": [[1.0, 0.0]]}, "not 2 times 2 finite numbers"),
        ({"covariance": [[1.0, 0.0], [0.0]]}, "not 2 times 2 finite numbers"),
        ({"covariance": [[1.0, float("nan")], [0.0, 1.0]]}, "not 2 times 2 finite numbers"),
        ({"covariance": [[1.0, 0.5], [0.4, 1.0]]}, "rows and columns differ"),
        ({"covariance": [[1.0, 2.0], [2.0, 1.0]]}, "cannot go together"),
        ({"covariance": [[-1.0, 0.0], [0.0, 1.0]]}, "a variance below 0"),
        ({"names": ["speed", "speed"]}, "list of different words"),
        ({"names": "speed"}, "list of different words"),
        ({"family": 3}, "list of different words"),
        ({"extra": 3}, "told incompletely"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(change, says):
    with pytest.raises(UserError) as refused:
        read_doubts(TABLE | change, "resin.toml [river] doubts")
    assert says in str(refused.value)
    assert str(refused.value).startswith("resin.toml [river] doubts")


def test_a_missing_key_is_refused():
    with pytest.raises(UserError, match="told incompletely"):
        read_doubts({"family": "epoxy-slow-deep"}, "resin.toml")
