"""One piece asked about, with a block designed for it."""

import dataclasses

import numpy as np
import pytest

from pourwright.geometry import Mesh, level_volume
from pourwright.mold import design_mold
from pourwright.mold.ways.ask import Ask
from pourwright.mold.ways.facts import facts_of


def moved(mesh, by):
    """A mesh somewhere else."""
    return mesh.transformed(np.block([[np.eye(3), np.reshape(by, (3, 1))], [np.zeros((1, 3)), 1.0]]))


@pytest.fixture
def asked(choices):
    """Give the question and the block of a piece: ``asked(mesh, method=...)``."""

    def make(mesh: Mesh, cast="resin", **changes):
        made = dataclasses.replace(choices, **changes)
        size = tuple(float(edge) for edge in mesh.bounds[1] - mesh.bounds[0])
        mold = design_mold(size, level_volume(mesh), made)
        ask = Ask(
            facts=facts_of(mesh), choices=made, cast=cast,
            skin=0.010, skin_volume=0.002, shell=0.015, shell_volume=0.004,
        )  # fmt: skip
        return ask, mold

    return make
