"""Which cup to pour for a test, so that it gets warm enough to tell much and not hot enough to fume."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.calibration.answers import ROOM, Answer, Question, answer
from pourwright.calibration.bodies import cup
from pourwright.calibration.curing import Air, cure_body
from pourwright.calibration.defaults import DEFAULTS
from pourwright.calibration.evidence import Measure
from pourwright.calibration.fitting import Fit
from pourwright.calibration.sheet_tests import Peak

MASSES = (0.5, 0.4, 0.3, 0.2, 0.15, 0.1, 0.075, 0.05, 0.03, 0.02)
"""Of the mix in the cup [kg], the largest first."""
DAY, HALF_DAY = 86400.0, 43200.0
COLD_AGAIN = 0.95


@dataclass(frozen=True, slots=True)
class NextCup:
    """A cup worth pouring.

    Parameters
    ----------
    mass : float
        Of the mix [kg].
    peak : Answer
        How hot it gets at 23 degC, with its band [K].
    logged : float
        How long to log, to the next half day [s].
    """

    mass: float
    peak: Answer
    logged: float


def next_cup(fit: Fit) -> NextCup:
    """Choose the cup for a test.

    Parameters
    ----------
    fit : Fit
        What is known of the resin so far; a family alone will do.

    Returns
    -------
    NextCup
        The largest of a few masses whose upper band stays below the hottest a cup should get.
    """
    density = fit.question.density
    for mass in MASSES:
        asked = Question("peak", "", Measure.TEMPERATURE, Peak(mass, ROOM, density))
        peak = answer(fit, asked)
        if peak.high <= DEFAULTS["cup_hottest"].value or mass == MASSES[-1]:
            break
    trace = cure_body(
        fit.resin, cup(mass, density, ROOM), Air.steady(ROOM), ROOM, 14 * DAY, stop_cooled=COLD_AGAIN
    )
    return NextCup(mass, peak, HALF_DAY * (int(trace.time[-1] / HALF_DAY) + 1))
