"""Invented resins, data sheets and loggers for the tests of the fit; no product stands behind them."""

import numpy as np

from pourwright.calibration.bodies import cup
from pourwright.calibration.cup_test import CupChoices, CupTest, make_cup_test
from pourwright.calibration.curing import Air, cure_body
from pourwright.calibration.evidence import Conditions, Fact, FactKind, make_fact
from pourwright.calibration.logger import Reading
from pourwright.calibration.parameters import PLACE, Resin, load_priors, resin_of

DENSITY, ROOM = 1090.0, 296.15
SHEET = {
    "pot life": (FactKind.POT_LIFE, Conditions(mass=1.0)),
    "gel time": (FactKind.GEL_TIME, Conditions(mass=0.1)),
    "tack-free": (FactKind.TACK_FREE, Conditions()),
    "demold": (FactKind.DEMOLD, Conditions(thickness=0.02)),
    "peak": (FactKind.PEAK, Conditions(mass=0.5)),
    "depth": (FactKind.DEPTH, Conditions(temperature=293.15)),
    "glass transition": (FactKind.GLASS_TRANSITION, Conditions()),
}


def invented_resin(family: str = "epoxy-slow-deep", **deviates: float) -> Resin:
    """A resin so many deviations from the middle of its family."""
    prior = load_priors()[family]
    moved = np.zeros(prior.mean.size)
    for name, value in deviates.items():
        moved[PLACE[name]] = value
    return resin_of(prior.mean + prior.deviation * moved, DENSITY)


def sheet_of(resin: Resin, names=tuple(SHEET), **wrong: float) -> tuple[Fact, ...]:
    """The data sheet that a resin would have; a wrong fact is off by a factor."""
    facts = []
    for name in names:
        kind, given = SHEET[name]
        guess = make_fact(kind, name, {"depth": 0.04}.get(name, 86400.0), given, DENSITY)
        value = guess.test(resin) * wrong.get(name.replace(" ", "_").replace("-", "_"), 1.0)
        facts.append(make_fact(kind, name, value, given, DENSITY))
    return tuple(facts)


def logged_cup(resin: Resin, *, hours: float = 48.0, mass: float = 0.4, seed: int = 1) -> Reading:
    """What a cheap logger with noise, gaps, an offset and a drift reads in a cup of a resin."""
    rng = np.random.default_rng(seed)
    time = np.arange(0.0, hours * 3600, 120.0)
    air = ROOM - 1.0 + np.sin(2 * np.pi * time / 86400)
    late = 240.0
    body = cup(mass, DENSITY, ROOM)
    trace = cure_body(resin, body, Air(time + late, air), ROOM - 1.0, float(time[-1]) + late)
    read = np.interp(time + late, trace.time, trace.probe) + 0.4 + 0.3 * time / time[-1]
    read = np.round(read + rng.normal(size=time.size) * 0.25, 1)
    read[100:130] = np.nan
    read[700:704] = np.nan
    air_read = np.round(air + rng.normal(size=time.size) * 0.25, 1)
    return Reading("invented.csv", time, read, air_read, np.arange(2, time.size + 2), "K")


def cup_evidence(reading: Reading, mass: float = 0.4) -> CupTest:
    """The same as evidence."""
    return make_cup_test("cup test", reading, CupChoices(mass, DENSITY))
