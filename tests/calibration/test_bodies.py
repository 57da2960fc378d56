"""The quick bodies of the fit against a published table, the families' own times and finer steps."""

import numpy as np
import pytest

from pourwright.calibration import body_kernel
from pourwright.calibration.bodies import Body, cup, film, slab
from pourwright.calibration.curing import PROBE, Air, cure_body
from pourwright.calibration.parameters import Resin, load_priors, resin_of
from pourwright.materials import load_materials
from pourwright.physics.cure_law import CureLaw

ROOM = 296.15
LAW = CureLaw(3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8)
SYNTHETIC = Resin(LAW, 0.577, 350e3, 1800.0, 0.2, 1100.0, start_cure=0.0)
ONE = np.array([1.0])


def bare_slab(thickness: float, layers: int) -> Body:
    """Both faces at 8 W/(m2 K)."""
    tables = np.full((3, body_kernel.DELTA_COUNT), 8.0)
    return Body(ONE, np.zeros(2), ONE, thickness, layers, tables, np.array([1e9, 0.0, 0.0]))


# B44, B45: slabs with convection on both faces, from an independent method of lines; the fit's
# coarse steps are allowed 1 K of a warming of 55 K, and 1.5 % of the time
@pytest.mark.parametrize(
    ("thickness", "peak", "minutes", "kelvin"),
    [pytest.param(0.02, 28.04, 792.34, 0.1, id="B44"), pytest.param(0.04, 77.803, 770.27, 1.0, id="B45")],
)
def test_exotherm_of_a_slab(thickness, peak, minutes, kelvin):
    trace = cure_body(SYNTHETIC, bare_slab(thickness, 24), Air.steady(ROOM), ROOM, 3e5)
    assert trace.peak - 273.15 == pytest.approx(peak, abs=kelvin)
    assert trace.time[trace.hottest.argmax()] / 60 == pytest.approx(minutes, rel=0.015)


@pytest.mark.parametrize("name", sorted(load_priors()))
def test_the_middle_of_a_prior_is_the_generic_resin(name):
    record, prior = load_materials().resin[name], load_priors()[name]
    resin = resin_of(prior.mean, record.density.value)
    trace = cure_body(resin, film(ROOM), Air.steady(ROOM), ROOM, 1e6, stop=(PROBE, resin.gel))
    # the record's own film gel time, which its rates were solved for
    assert trace.when(trace.probe_cure, resin.gel) == pytest.approx(record.film_gel_time.value, rel=5e-3)
    for field in ("heat_of_reaction", "heat_capacity", "conductivity"):
        assert getattr(resin, field) == pytest.approx(getattr(record, field).value, rel=1e-6)
    for field in ("glass_transition_full", "glass_transition_start", "glass_transition_lambda"):
        assert getattr(resin.law, field) == pytest.approx(getattr(record.cure, field).value, rel=1e-6)


def test_finer_steps_change_little(monkeypatch):
    prior = load_priors()["epoxy-slow-deep"]
    resin = resin_of(prior.mean, 1090.0)
    bodies = [cup(1.0, 1090.0, ROOM), slab(0.04, ROOM)]
    coarse = [cure_body(resin, body, Air.steady(ROOM), ROOM, 3e5) for body in bodies]
    monkeypatch.setattr("pourwright.calibration.curing.CURE_STEP", 0.01)
    monkeypatch.setattr("pourwright.calibration.curing.HEAT_STEP", 0.2)
    monkeypatch.setattr("pourwright.calibration.curing.LONGEST", 300.0)
    for body, before in zip(bodies, coarse, strict=True):
        after = cure_body(resin, body, Air.steady(ROOM), ROOM, 3e5)
        assert before.peak - ROOM == pytest.approx(after.peak - ROOM, rel=0.01)
        gelled = [trace.when(trace.probe_cure, resin.gel) for trace in (before, after)]
        assert gelled[0] == pytest.approx(gelled[1], rel=0.005)


def test_a_cup_that_loses_no_heat_rises_by_all_of_it():
    prior = load_priors()["epoxy-fast"]
    resin = resin_of(prior.mean, 1090.0)
    body = Body(ONE, np.zeros(2), ONE, 0.05, 4, np.zeros((3, body_kernel.DELTA_COUNT)), np.full(3, 1e12))
    trace = cure_body(resin, body, Air.steady(ROOM), ROOM, 5e4)
    # energy balance, exact: the rise is cure times heat over heat capacity
    rise = (trace.mean_cure[-1] - resin.start_cure) * resin.heat_of_reaction / resin.heat_capacity
    assert trace.probe[-1] - ROOM == pytest.approx(rise, rel=1e-6)


def test_a_bare_body_cools_to_the_air():
    still = Resin(CureLaw(0.0, 6e4, 0.0, 5e4, 1.0, 1.0), 0.6, 1e3, 1800.0, 0.2, 1100.0)
    trace = cure_body(still, cup(0.5, 1100.0, ROOM), Air.steady(ROOM), ROOM + 40.0, 2e5)
    assert np.all(np.diff(trace.probe) < 1e-9)
    assert trace.probe[-1] == pytest.approx(ROOM, abs=0.2)
