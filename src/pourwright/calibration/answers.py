"""What a shop wants to know of a resin, each with its band, from a fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pourwright.calibration.evidence import Measure
from pourwright.calibration.fitting import Fit
from pourwright.calibration.parameters import NORMAL_P90, Resin
from pourwright.calibration.sheet_tests import PEAK_LIMIT, Demold, Depth, GelTime, Peak, PotLife, TackFree
from pourwright.foundation.notation import ZERO_CELSIUS

HOUR, DAY = 3600.0, 86400.0
ROOM, SHOP = ZERO_CELSIUS + 23.0, ZERO_CELSIUS + 20.0


@dataclass(frozen=True)
class Question:
    """Something that follows from a resin.

    Parameters
    ----------
    key : str
        In the answer document.
    words : str
        As it is printed.
    measure : Measure
        What it counts in.
    answer : callable
        From a resin to the value, SI.
    """

    key: str
    words: str
    measure: Measure
    answer: Callable[[Resin], float]

    def stretched(self, resin: Resin) -> float:
        """The value on the scale on which its band is even."""
        value = self.answer(resin)
        return math.log(max(value - ROOM, 0.1)) if self.key == "peak" else (
            value if self.measure is Measure.TEMPERATURE else math.log(value)
        )  # fmt: skip

    def unstretched(self, value: float) -> float:
        """Back from that scale."""
        if self.key == "peak":
            return ROOM + math.exp(value)
        return value if self.measure is Measure.TEMPERATURE else math.exp(value)


@dataclass(frozen=True, slots=True)
class Answer:
    """A value with its 80 % band, SI."""

    value: float
    low: float
    high: float


def _film_gel(resin: Resin) -> float:
    # a coat stays as warm as the room: the gel conversion alone counts
    return TackFree(ROOM, DAY).until(resin, resin.gel)


def questions(density: float) -> Mapping[str, Question]:
    """List what every fit answers.

    Parameters
    ----------
    density : float
        Of the mix [kg/m3].

    Returns
    -------
    Mapping
        By key, in the order they are printed.
    """
    asked = (
        Question("film_gel", "a thin coat at 23 °C gels after", Measure.TIME, _film_gel),
        Question(
            "pot_life", "pot life of 1 kg in a pail at 23 °C", Measure.TIME,
            PotLife(1.0, ROOM, density, DAY / 4),
        ),
        Question(
            "gel_time", "100 g in a cup at 23 °C gel after", Measure.TIME, GelTime(0.1, ROOM, density, DAY)
        ),
        Question(
            "peak", "hottest place of 100 g in a cup at 23 °C", Measure.TEMPERATURE, Peak(0.1, ROOM, density)
        ),
        Question(
            "depth", "greatest neat depth, wide, at 20 °C", Measure.LENGTH, Depth(SHOP, PEAK_LIMIT, 0.04)
        ),
        Question("demold", "25 mm at 20 °C, hard enough after", Measure.TIME, Demold(0.025, SHOP, 5 * DAY)),
        Question(
            "glass_transition", "glass transition when fully cured", Measure.TEMPERATURE,
            lambda resin: resin.law.glass_transition_full,
        ),
    )  # fmt: skip
    return MappingProxyType({question.key: question for question in asked})


def answer(fit: Fit, question: Question) -> Answer:
    """Answer a question with its band.

    Parameters
    ----------
    fit : Fit
        Most likely resin and how sure it is.
    question : Question
        What is asked.

    Returns
    -------
    Answer
        Value and 10th and 90th percentile.
    """
    middle, deviation = fit.spread(question.stretched)
    ends = (middle + side * NORMAL_P90 * deviation for side in (-1.0, 1.0))
    low, high = (question.unstretched(end) for end in ends)
    return Answer(question.unstretched(middle), low, high)
