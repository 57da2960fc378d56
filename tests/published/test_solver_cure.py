"""The solver against published and independently computed cures of slabs."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from pourwright.solver import INSULATED, Control, Exchange, Problem, run, start
from tests.solver.cases import ONE, R, at_end, at_middle, fixed, kamal, slab

ZERO_CELSIUS = 273.15


def test_adiabatic_second_order_cure() -> None:
    # B37: T - T0 = conversion H / c exactly; the time by quadrature
    ones = np.ones((1, 1, 1))
    law = np.array([1e5, 55e3, 0.0, 1.0, 1.0, 2.0])
    problem = Problem(ONE, ONE, ONE, 1200.0 * ones, ones, 250e3 * ones, rate=kamal, parameters=law)
    state = run(
        problem, start(problem, 298.15, thresholds=(0.5,)), 86400.0, control=Control(max_step=60.0)
    ).state
    assert state.records.crossing_time.item() == pytest.approx(3703.14, rel=1e-3)
    assert state.temperature.item() - state.conversion.item() * 250e3 / 1200.0 == pytest.approx(
        298.15, abs=1e-9
    )
    assert state.temperature.item() == pytest.approx(506.483, rel=1e-3)
    half = run(problem, start(problem, 298.15), state.records.crossing_time.item())
    assert half.state.temperature.item() == pytest.approx(402.317, rel=1e-3)


def test_time_to_half_cure_by_quadrature() -> None:
    # B37 again, with the quadrature done here
    def slowness(cure: float) -> float:
        temperature = 298.15 + cure * 250e3 / 1200.0
        return 1.0 / (1e5 * math.exp(-55e3 / (R * temperature)) * (1.0 - cure) ** 2)

    assert quad(slowness, 0.0, 0.5)[0] == pytest.approx(3703.14, rel=1e-5)


# Bogetti and Gillespie, J. Compos. Mater. 25 (1991) 239, glass/polyester; peaks and times by an independent
# method of lines: name, thickness, centre's maximum [degC], times to half cure at centre and face [min]
CYCLE = np.array(
    [[0, 20], [30, 78], [90, 78], [150, 90], [210, 90], [240, 126], [300, 126], [330, 20], [400, 20]],
    dtype=float,
)
THICK = [
    ("B38", 13.8e-3, 126.0, 167.95, 181.0),
    ("B39", 18.5e-3, 126.0, 161.31, 181.0),
    ("B40", 25.4e-3, 128.91, 159.48, 181.0),
    ("B41", 50.8e-3, 153.07, 198.01, 181.0),
]
HOTTEST_AT = {"B40": 163.09, "B41": 198.45}
POLYESTER = np.array([0.0, 0.0, 3.7e22 / 60.0, 167.4e3, 0.524, 1.476])


def cycle(time: float) -> float:
    """Face temperature [K] of the published cure cycle."""
    return ZERO_CELSIUS + float(np.interp(time / 60.0, CYCLE[:, 0], CYCLE[:, 1]))


@pytest.mark.parametrize(("name", "thickness", "hottest", "centre_half", "face_half"), THICK)
def test_thick_laminate(
    name: str, thickness: float, hottest: float, centre_half: float, face_half: float
) -> None:
    edges = np.linspace(0.0, thickness / 2.0, 41)
    problem = slab(
        edges,
        1890.0 * 1260.0,
        0.2163,
        INSULATED,
        fixed(cycle),
        1890.0 * 77500.0,
        rate=kamal,
        parameters=POLYESTER,
    )
    state = start(problem, cycle(0.0), 1e-5, thresholds=(0.5,))
    control = Control(tolerance=0.02, max_step=30.0)
    records = run(problem, state, 24000.0, control=control, stops=tuple(60.0 * CYCLE[:, 0])).state.records
    half = records.crossing_time[0, :, 0, 0] / 60.0
    assert at_middle(records.peak_temperature[:, 0, 0]) - ZERO_CELSIUS == pytest.approx(hottest, abs=0.5), (
        name
    )
    assert at_middle(half) == pytest.approx(centre_half, abs=0.5), name
    assert at_end(half) == pytest.approx(face_half, abs=0.5), name
    if name in HOTTEST_AT:
        assert records.peak_time[0, 0, 0] / 60.0 == pytest.approx(HOTTEST_AT[name], abs=0.5), name


# a synthetic resin, computed with an independent stiff method of lines: name, thickness, centre's peak and
# its time, hottest face, conversion at the centre's peak, tolerances [K] and [min]
EXOTHERMS = [
    ("B44", 0.02, 28.04, 792.34, 27.193, 0.2779, 0.05, 0.5),
    ("B45", 0.04, 77.803, 770.27, 62.554, 0.797, 0.3, 1.0),
    ("B46", 0.06, 173.08, 539.7, 165.93, 0.991, 0.5, 0.5),
]
RESIN = np.array([3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8])


@pytest.mark.parametrize(
    ("name", "thickness", "peak", "peak_at", "face", "cured", "kelvin", "minutes"), EXOTHERMS
)
def test_exotherm_with_convection(
    name: str,
    thickness: float,
    peak: float,
    peak_at: float,
    face: float,
    cured: float,
    kelvin: float,
    minutes: float,
) -> None:
    edges = np.linspace(0.0, thickness / 2.0, 81)
    air = Exchange(8.0, 296.15)
    problem = slab(edges, 1100.0 * 1800.0, 0.2, INSULATED, air, 1100.0 * 350e3, rate=kamal, parameters=RESIN)
    control = Control(tolerance=0.003, max_step=120.0)
    faces: list[float] = []
    state = run(
        problem, start(problem, 296.15), 60.0 * (peak_at + 240.0), control=control,
        observer=lambda _time, temperature, _conversion: faces.append(at_end(temperature[:, 0, 0])),
    ).state  # fmt: skip
    moment = at_middle(state.records.peak_time[:, 0, 0])
    assert at_middle(state.records.peak_temperature[:, 0, 0]) - ZERO_CELSIUS == pytest.approx(
        peak, abs=kelvin
    ), name
    assert moment / 60.0 == pytest.approx(peak_at, abs=minutes), name
    assert max(faces) - ZERO_CELSIUS == pytest.approx(face, abs=kelvin), name
    then = run(problem, start(problem, 296.15), moment, control=control).state
    assert at_middle(then.conversion[:, 0, 0]) == pytest.approx(cured, abs=0.002), name
