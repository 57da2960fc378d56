"""The families' rates against the facts they were derived from (docs/decisions/0005)."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from pourwright.materials import load_materials
from pourwright.physics.cure_law import cure_rate
from pourwright.pour.site import cure_law

RESINS = load_materials().resin
FILM = 296.15


@pytest.mark.parametrize("name", sorted(RESINS))
def test_a_thin_film_gels_after_the_time_of_its_family(name):
    resin = RESINS[name]
    law, gel = cure_law(resin.cure), resin.cure.gel_conversion.value

    def gelled(_, conversion):
        return conversion[0] - gel

    gelled.terminal = True
    found = solve_ivp(
        lambda _, conversion: cure_rate(FILM, conversion, law),
        (0.0, 1e6),
        [resin.cure.initial_conversion.value],
        events=gelled,
        rtol=1e-9,
        atol=1e-12,
    )
    # rates are written with four digits
    assert found.t_events[0][0] == pytest.approx(resin.film_gel_time.value, rel=2e-3)


@pytest.mark.parametrize("name", sorted(RESINS))
def test_half_the_working_time_for_ten_kelvin(name):
    # check B24: 50 to 60 kJ/mol give a factor of 1.97 to 2.25 from 20 to 30 degC
    law = cure_law(RESINS[name].cure)
    warm, cool = (cure_rate(kelvin, np.array([0.2]), law)[0] for kelvin in (303.15, 293.15))
    assert 1.96 < warm / cool < 2.26


@pytest.mark.parametrize("name", sorted(RESINS))
def test_derived_quantities_are_plausible_for_an_epoxy(name):
    resin = RESINS[name]
    diffusivity = resin.conductivity.value / (resin.density.value * resin.heat_capacity.value)
    assert 0.8e-7 < diffusivity < 1.6e-7
    rise = resin.heat_of_reaction.value / resin.heat_capacity.value
    assert 150.0 < rise < 300.0
    parts = resin.parts_a.value, resin.parts_b.value
    blended = sum(parts) / (parts[0] / resin.density_a.value + parts[1] / resin.density_b.value)
    # cured or mixed density lies within 3 % of ideal mixing of its parts
    assert resin.density.value == pytest.approx(blended, rel=0.03)


def test_slower_families_allow_more_depth():
    slow, medium, fast = (
        RESINS[name].film_gel_time.value for name in ("epoxy-slow-deep", "epoxy-medium", "epoxy-fast")
    )
    assert slow > medium > fast
