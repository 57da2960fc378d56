"""Cure kinetics.

B21: rate law of Kamal & Sourour, Polym. Eng. Sci. 13 (1973) 59; closed form for m = n = 1; 1e-5.
B22: the same law, m = 0.5, n = 1.5, recomputed with scipy solve_ivp RK45 rtol 1e-11; 1e-4.
B23: closed form 1 - 1/(1 + k t); 1e-6. B24: closed form; the trade's 'half the working time per
10 K' is E = 51.2 kJ/mol; 1e-4.
B25, B27: Lee, Loos & Springer, J. Compos. Mater. 16 (1982) 510; parameters read in public code,
values recomputed with scipy; 2e-3 in conversion, 1 s in time.
B28: the same paper, 473.6 kJ/kg read in public code; +-5.4 printed, from memory: 1.2 %.
B33: Rabinowitch, Trans. Faraday Soc. 33 (1937) 1225; closed form; 1e-6.
B37: energy balance, exact; time by LSODA rtol 1e-10; 1e-3. The papers were not before us.
"""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from pourwright.physics.adiabatic import adiabatic_rise, adiabatic_time
from pourwright.physics.cure import (
    arrhenius,
    kamal_sourour_rate,
    kamal_sourour_unit_orders,
    lee_loos_springer_rate,
    nth_order_conversion,
)
from pourwright.physics.diffusion import rabinowitch_rate
from pourwright.physics.prepreg_resin import lee_loos_springer_1982

PER_MINUTE = 1 / 60
LEE_LOOS_SPRINGER = (
    2.101e9 * PER_MINUTE,
    80700.0,
    -2.014e9 * PER_MINUTE,
    77800.0,
    1.96e5 * PER_MINUTE,
    56600.0,
)


def isothermal(rate, times, start=0.0):
    """Conversions at rising times by an explicit integrator, which knows nothing of the law."""
    path = solve_ivp(
        lambda _, a: [rate(min(max(float(a[0]), 0.0), 1.0))],
        (0.0, times[-1]),
        [start],
        t_eval=times,
        method="DOP853",
        rtol=1e-10,
        atol=1e-12,
    )
    return path.y[0]


def test_kamal_sourour_unit_orders():
    # B21
    found = kamal_sourour_unit_orders(np.array([600.0, 1800.0, 3600.0]), 1e-4, 1.2e-3)
    np.testing.assert_allclose(found, [0.083311, 0.419156, 0.891459], rtol=0, atol=1e-5)


def test_kamal_sourour_rate_integrates_to_the_closed_form():
    # B21 by the rate law itself; no activation energy, so the temperature does not matter
    found = isothermal(
        lambda a: kamal_sourour_rate(300.0, a, 1e-4, 0.0, 1.2e-3, 0.0, 1.0, 1.0),
        [600.0, 1800.0, 3600.0],
    )
    np.testing.assert_allclose(found, [0.083311, 0.419156, 0.891459], rtol=0, atol=1e-5)


def test_kamal_sourour_broken_orders():
    # B22
    found = isothermal(
        lambda a: kamal_sourour_rate(300.0, a, 1e-4, 0.0, 1.2e-3, 0.0, 0.5, 1.5),
        [600.0, 1800.0, 3600.0, 7200.0],
    )
    expected = [0.219162, 0.642812, 0.86431, 0.959558]
    np.testing.assert_allclose(found, expected, rtol=0, atol=1e-4)


def test_second_order():
    # B23
    assert nth_order_conversion(3600.0, 5e-4, 2.0) == pytest.approx(0.642857, rel=1e-6)


def test_first_order_is_the_limit_of_its_neighbours():
    near = [nth_order_conversion(3600.0, 5e-4, order) for order in (1 - 1e-7, 1.0, 1 + 1e-7)]
    assert near == pytest.approx([1 - np.exp(-1.8)] * 3, abs=1e-6)


@pytest.mark.parametrize(("energy", "ratio"), [(50e3, 1.96735), (55e3, 2.10509), (60e3, 2.25247)])
def test_ten_kelvin(energy, ratio):
    # B24
    found = arrhenius(303.15, 1.0, energy) / arrhenius(293.15, 1.0, energy)
    assert found == pytest.approx(ratio, rel=1e-4)


@pytest.mark.parametrize(
    ("celsius", "conversions", "switch_after"),
    [
        pytest.param(116.0, [0.10482, 0.20547, 0.27406, 0.42619], 4793.43, id="B25"),
        pytest.param(177.0, [0.53224, 0.83808, 0.96702, 0.99863], 143.981, id="B27"),
    ],
)
def test_lee_loos_springer(celsius, conversions, switch_after):
    def slope(switch):
        def slope_at(_, a):
            conversion = min(max(float(a[0]), 0.0), 1.0)
            temperature = celsius + 273.15
            return [lee_loos_springer_rate(temperature, conversion, *LEE_LOOS_SPRINGER, switch=switch)]

        return slope_at

    def reaches(_, a):
        return a[0] - 0.3

    # the branches do not meet: the first is carried a little beyond the switch, so that no step straddles it
    reaches.terminal = True
    options = {"dense_output": True, "rtol": 1e-10, "atol": 1e-12}
    first = solve_ivp(slope(0.4), (0, 7200), [0.0], events=reaches, **options)
    after = first.t[-1]
    second = solve_ivp(slope(0.3), (after, 7200), [0.3 + 1e-9], **options)
    found = [float((first.sol if time <= after else second.sol)(time)[0]) for time in (600, 1800, 3600, 7200)]
    assert after == pytest.approx(switch_after, abs=1.0)
    np.testing.assert_allclose(found, conversions, rtol=0, atol=2e-3)


def test_heat_of_the_prepreg_resin():
    # B28; the kinetics that come with it are those of B25 and B27
    resin = lee_loos_springer_1982()
    assert resin.heat_of_reaction == pytest.approx(473.6e3, rel=0.012)
    assert resin.kinetics == pytest.approx(LEE_LOOS_SPRINGER, rel=1e-12)


def test_rabinowitch_series():
    # B33
    assert rabinowitch_rate(1e-3, 2.5e-4) == pytest.approx(2e-4, rel=1e-6)


def test_adiabatic_second_order_cure():
    # B37: 506.483 K at the end; half cured after 3703.14 s at 402.317 K
    full = adiabatic_rise(1.0, 250000.0, 1200.0)
    assert 298.15 + full == pytest.approx(506.483, rel=1e-3)
    assert 298.15 + adiabatic_rise(0.5, 250000.0, 1200.0) == pytest.approx(402.317, rel=1e-3)
    after = adiabatic_time(0.5, lambda t, a: arrhenius(t, 1e5, 55e3) * (1 - a) ** 2, 298.15, full)
    assert after == pytest.approx(3703.14, rel=1e-3)
