"""What a family's name alone tells of a resin: nobody sells as deep-pour what cannot be poured deep.

The numbers of a family (`data/hardeners.toml`) are wide each by itself. Together they are not free:
products sold under one name agree, within some range, in how deep they may be poured, how long they
work and when they are hard. The doubts of a family are those of its numbers, given that they agree.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

import numpy as np

from pourwright.calibration.defaults import DEFAULTS
from pourwright.calibration.evidence import TESTS, Conditions, Fact, FactKind, make_fact
from pourwright.calibration.fitting import Question
from pourwright.calibration.parameters import Prior, find_prior, resin_of
from pourwright.materials import Doubts

SHOP = 293.15
"""Room that the trade speaks of when it says how deep [K]."""


def agreed(doubts: Doubts, density: float) -> Doubts:
    """Narrow a family's doubts by what products sold under its name agree in.

    Parameters
    ----------
    doubts : Doubts
        Of a family: each number by itself.
    density : float
        Of the mixed resin [kg/m3].

    Returns
    -------
    Doubts
        The same middle; the covariance is the family's, given depth, pot life and demold time
        within their usual ranges (Laplace at the middle).
    """
    rows = tuple(map(tuple, _covariance(doubts.family, density).tolist()))
    return replace(doubts, covariance=rows)


@lru_cache(maxsize=16)
def _covariance(family: str, density: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    prior = find_prior(family)
    question = Question(prior, tuple(_sold_as(prior, density)), density)
    slopes = question.slopes(np.zeros(question.size))
    # the slopes end with the prior's own: a deviate misses itself by one
    inverse = np.linalg.inv(slopes.T @ slopes)
    scaled: np.ndarray[tuple[int, ...], np.dtype[np.float64]] = inverse * np.outer(
        prior.deviation, prior.deviation
    )
    return scaled


def _sold_as(prior: Prior, density: float) -> Iterator[Fact]:
    middle = resin_of(prior.mean, density)
    for kind, given, guess in (
        (FactKind.DEPTH, Conditions(temperature=SHOP), 0.05),
        (FactKind.POT_LIFE, Conditions(mass=1.0), 4 * 3600.0),
        (FactKind.DEMOLD, Conditions(temperature=SHOP), 3 * 86400.0),
    ):
        # the family's own answer, so that the middle stays: only how far products differ is told
        value = TESTS[kind](guess, given, density)(middle)
        width = DEFAULTS[f"family_{kind.value}"].value
        yield make_fact(kind, kind.value, value, given, density, deviation=width)
