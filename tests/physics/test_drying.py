"""What dries: the wet face against psychrometric tables, diffusion against the whole series."""

import numpy as np
import pytest

from pourwright.physics.drying import LATENT_HEAT, diffusion_time, evaporation


@pytest.mark.parametrize(("celsius", "wet_bulb"), [(10.0, 5.5), (20.0, 13.8), (30.0, 22.0)])
def test_a_face_in_a_draught_is_as_cold_as_a_wet_bulb(celsius, wet_bulb):
    """Psychrometric tables at 50 % and one atmosphere, from memory; air of 20 degC throughout: 10 %."""
    film = 50.0
    colder = evaporation(celsius + 273.15, 0.5, film, 0.0) * LATENT_HEAT / film
    assert colder == pytest.approx(celsius - wet_bulb, rel=0.10)


def test_walls_that_warm_a_face_dry_it_quicker_and_damp_air_does_not():
    assert evaporation(293.15, 0.5, 3.0, 5.5) > evaporation(293.15, 0.5, 3.0, 0.0)
    assert evaporation(293.15, 1.0, 3.0, 5.5) == pytest.approx(0.0, abs=1e-12)


def left_in_slab(fourier: float) -> float:
    """Share of the water left, by the whole series (Crank 1975, 4.18)."""
    n = np.arange(200)
    return float(
        (8 / np.pi**2 * np.exp(-((2 * n + 1) ** 2) * np.pi**2 * fourier / 4) / (2 * n + 1) ** 2).sum()
    )


@pytest.mark.parametrize("left", [0.02, 0.05, 0.2])
@pytest.mark.parametrize("sides", [[0.02], [0.02, 0.05], [0.02, 0.02, 0.03]])
def test_diffusion_against_the_series(sides, left):
    time = diffusion_time(sides, 1e-9, left)
    shares = [left_in_slab(1e-9 * time / side**2) for side in sides]
    assert np.prod(shares) == pytest.approx(left, rel=0.04)


def test_twice_the_size_takes_four_times_as_long():
    assert diffusion_time([0.04, 0.06], 1e-9) == pytest.approx(4 * diffusion_time([0.02, 0.03], 1e-9))
