"""Hydration of concrete.

B49: a = a_u exp(-(tau/t)^beta), a_u = 1.031 w/(0.194 + w) (Mills 1966; Schindler & Folliard, ACI Mater.
J. 102 (2005) 24, authors from memory); all parameters read in public code; closed form; 1e-3.
"""

import numpy as np
from scipy.integrate import solve_ivp

from pourwright.physics.hydration import hydration, hydration_heat, ultimate_hydration
from pourwright.physics.setting import SettingLaw, setting_rate
from pourwright.solver import Control, Problem, rate_law, run, start

HOUR = 3600.0


def test_hydration_of_concrete_at_one_temperature():
    # B49: water over cement 0.42, tau 14 h, beta 0.94, 437 kg/m3 of cement, 431 kJ/kg
    ultimate = ultimate_hydration(0.42)
    found = hydration(np.array([24.0, 72.0]) * HOUR, ultimate, 14.0 * HOUR, 0.94)
    np.testing.assert_allclose(ultimate, 0.70524, rtol=1e-3)
    np.testing.assert_allclose(found, [0.38608, 0.56908], rtol=1e-3)
    np.testing.assert_allclose(hydration_heat(found, 437.0, 431e3) / 1e6, [72.717, 107.18], rtol=1e-3)


def test_it_never_passes_its_end():
    late = hydration(np.geomspace(1.0, 1e12, 50), 0.7, 14 * HOUR, 0.94)
    assert np.all(np.diff(late) >= 0.0)
    assert 0.699 < late[-1] <= 0.7


def test_the_rate_at_one_temperature_gives_the_curve_back():
    # B49 again, by integrating the rate that the heat run takes
    row = SettingLaw(14.0 * HOUR, 0.94, 40e3, 293.15).row
    done = solve_ivp(
        lambda _, x: [setting_rate(293.15, x[0], row)], (0.0, 72 * HOUR), [0.0], t_eval=[24 * HOUR, 72 *
        HOUR], rtol=1e-8, atol=1e-10, max_step=600.0,
    )  # fmt: skip
    np.testing.assert_allclose(ultimate_hydration(0.42) * done.y[0], [0.38608, 0.56908], rtol=1e-3)


def test_the_solver_follows_the_curve_at_one_temperature():
    # B49 in the heat run's own solver: hardly any heat in it, so that it stays at 20 degC
    ones, edges = np.ones((1, 1, 1)), np.array([0.0, 0.1])
    law = SettingLaw(14.0 * HOUR, 0.94, 40e3, 293.15)
    cell = Problem(
        edges, edges, edges, 3e6 * ones, ones, 1e-6 * ones,
        rate=rate_law(setting_rate), parameters=law.row[None, :],
    )  # fmt: skip
    state, found = start(cell, 293.15), []
    for hours in (24.0, 72.0):
        state = run(cell, state, hours * HOUR, control=Control(max_step=1800.0)).state
        found.append(ultimate_hydration(0.42) * state.conversion.item())
    np.testing.assert_allclose(found, [0.38608, 0.56908], rtol=1e-3)
