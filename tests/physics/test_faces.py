"""Films on faces: signs, arrays, and the sum that the heat run uses."""

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.physics.convection import FACES, film_coefficient
from pourwright.physics.outside_film import outside_film
from pourwright.physics.radiation import radiation_coefficient

SURFACE = np.linspace(283.15, 333.15, 11)


@pytest.mark.parametrize("face", sorted(FACES))
def test_arrays_give_what_single_values_give(face):
    each = [film_coefficient(float(value), 293.15, 0.2, face) for value in SURFACE]
    np.testing.assert_allclose(film_coefficient(SURFACE, 293.15, 0.2, face), each, rtol=1e-14)


def test_warm_air_leaves_an_upper_face_more_easily_than_a_lower_one():
    # McAdams' laminar factors are 0.54 and 0.27
    up = film_coefficient(313.15, 293.15, 0.1, "facing up")
    assert up == pytest.approx(2 * film_coefficient(313.15, 293.15, 0.1, "facing down"), rel=1e-12)


def test_outside_film_is_the_sum_of_both():
    total = outside_film(SURFACE, 293.15, 0.2, "upright", 0.9)
    parts = film_coefficient(SURFACE, 293.15, 0.2, "upright") + radiation_coefficient(SURFACE, 293.15, 0.9)
    np.testing.assert_allclose(total, parts, rtol=1e-14)


def test_radiation_alone_is_left_where_face_and_air_are_equally_warm():
    found = outside_film(293.15, 293.15, 0.2, "facing up", 0.9)
    assert found == pytest.approx(radiation_coefficient(293.15, 293.15, 0.9), rel=1e-14)


def test_an_unknown_face_names_those_that_exist():
    with pytest.raises(UserError, match="upright, facing up, facing down"):
        film_coefficient(313.15, 293.15, 0.2, "sideways")
