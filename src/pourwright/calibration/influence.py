"""What each fact contributed, and which pairs of facts cannot both be true."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.answers import Answer, Question as Asked, answer
from pourwright.calibration.evidence import Evidence, Fact
from pourwright.calibration.fitting import Fit, Question, fit, refit
from pourwright.calibration.parameters import NAMES, NORMAL_P90
from pourwright.foundation.progress import SILENT, Progress

Places = NDArray[np.int64]
CONTRADICTS = 2.0
"""Standard deviations by which each fact of a pair must miss what the other one tells."""
DOUBTFUL = 2.5
"""Standard deviations by which a fact alone must miss its family to be called unusual."""


@dataclass(frozen=True)
class Influence:
    """What one piece of evidence contributed.

    Parameters
    ----------
    label : str
        Its name.
    told : float or None
        What the sheet states, SI; None for a cup test.
    fitted : float or None
        The same test simulated with the fitted resin.
    others : Answer or None
        What all other evidence together tells about it, with its band.
    missed : float
        How far the fitted resin misses it, in its own deviations; for a curve, on average.
    without : dict
        Answers by key, as they are without it.
    """

    label: str
    told: float | None
    fitted: float | None
    others: Answer | None
    missed: float
    without: dict[str, Answer]


@dataclass(frozen=True)
class Contradiction:
    """Two pieces of evidence that cannot both be true of one resin of this family.

    Parameters
    ----------
    first, second : str
        Their names.
    apart : float
        How far apart they are, in standard deviations of what one tells about the other.
    expected : Answer or None
        What the first one tells about the second, where that is a number.
    """

    first: str
    second: str
    apart: float
    expected: Answer | None


def leave_one_out(found: Fit, asked: dict[str, Asked], progress: Progress = SILENT) -> list[Influence]:
    """Fit again without each piece of evidence.

    Parameters
    ----------
    found : Fit
        With everything.
    asked : dict
        Questions whose answers are compared, by key.
    progress : Progress
        Told which is left out.

    Returns
    -------
    list of Influence
        One per piece of evidence, in their order.
    """
    told = []
    evidence = found.question.evidence
    for index, each in enumerate(evidence):
        progress.step(f"without {each.label}", index, len(evidence))
        reduced = _without(found, index)
        without = {key: answer(reduced, question) for key, question in asked.items()}
        told.append(_influence(each, found, reduced, found.blocks[index], without))
    return told


def _without(found: Fit, index: int) -> Fit:
    rows, columns = _span(found, index)
    start = np.delete(found.deviates, columns)
    slopes = np.delete(np.delete(found.slopes, columns, axis=1), rows, axis=0)
    return refit(found.question.without(index), start, slopes)


def _span(found: Fit, index: int) -> tuple[Places, Places]:
    """Rows and columns of the slopes that belong to one piece of evidence alone."""
    sizes = [block.size for block in found.blocks]
    first = int(sum(sizes[:index]))
    place = found.question.places[index]
    own = np.arange(place.start, place.stop)
    # the prior's rows of its own unknowns go with it
    return np.r_[np.arange(first, first + sizes[index]), sum(sizes) + own], own


def _influence(
    each: Evidence, found: Fit, reduced: Fit, block: NDArray[np.float64], without: dict[str, Answer]
) -> Influence:
    missed = float(block[0]) if isinstance(each, Fact) else float(np.sqrt(np.mean(block**2)))
    if not isinstance(each, Fact):
        return Influence(each.label, None, None, None, missed, without)
    return Influence(
        each.label, each.value, each.test(found.resin), predicted(each, reduced), missed, without
    )


def predicted(fact: Fact, told: Fit) -> Answer:
    """What a fit tells about a fact, with the band that the fit gives it."""
    middle, deviation = told.spread(lambda resin: fact.stretched(fact.test(resin)))
    low, high = (fact.unstretched(middle + side * NORMAL_P90 * deviation) for side in (-1.0, 1.0))
    return Answer(fact.unstretched(middle), low, high)


def contradictions(found: Fit, progress: Progress = SILENT) -> list[Contradiction]:
    """Find every pair of facts of which each alone fits the family, and both together do not.

    Parameters
    ----------
    found : Fit
        Of all evidence together.
    progress : Progress
        Told which fact is fitted alone.

    Returns
    -------
    list of Contradiction
        The worst first.

    Notes
    -----
    Each fact is fitted alone; the resin it gives is put to the test of every other fact. A pair
    contradicts where the miss exceeds `CONTRADICTS` deviations both ways, counted in the width of
    the stated value and of what the one tells about the other together.
    """
    question = found.question
    alone = _alone(found, progress)
    fine = [i for i, each in enumerate(alone) if np.sqrt(np.mean(each.blocks[0] ** 2)) < CONTRADICTS]
    pairs = []
    for i, j in combinations(fine, 2):
        there, back = _apart(alone[i], question.evidence[j]), _apart(alone[j], question.evidence[i])
        known = [value for value in (there, back) if value is not None]
        if known and min(known) > CONTRADICTS:
            pairs.append(_pair(question, alone, i, j, float(np.mean(known))))
    return sorted(pairs, key=lambda pair: -pair.apart)


def unusual(question: Question, progress: Progress = SILENT) -> list[tuple[str, float]]:
    """Find facts that no resin near this family shows, each by itself.

    Parameters
    ----------
    question : Question
        Prior and all evidence.
    progress : Progress
        Told where it is.

    Returns
    -------
    list of tuple
        Name of the fact, and by how many deviations of its family and itself together it is off.
    """
    family = Fit(Question(question.prior, (), question.density), np.zeros(len(NAMES)), np.eye(len(NAMES)))
    found = []
    for index, each in enumerate(question.evidence):
        progress.step("beside the family", index, len(question.evidence))
        off = _apart(family, each)
        if off is not None and off > DOUBTFUL:
            found.append((each.label, off))
    return found


def _alone(found: Fit, progress: Progress) -> list[Fit]:
    question, told = found.question, []
    for index, each in enumerate(question.evidence):
        progress.step(f"{each.label} alone", index, len(question.evidence))
        single = Question(question.prior, (each,), question.density)
        told.append(_only(found, index, single) if each.own else fit(single))
    return told


def _only(found: Fit, index: int, single: Question) -> Fit:
    """A curve alone: started from the fit of everything, which lies nearby."""
    rows, own = _span(found, index)
    resin = np.arange(len(NAMES))
    data = sum(block.size for block in found.blocks)
    kept = np.r_[rows[: found.blocks[index].size], data + resin, data + own]
    columns = np.r_[resin, own]
    return refit(single, found.deviates[columns], found.slopes[np.ix_(kept, columns)])


def _apart(told: Fit, other: Evidence) -> float | None:
    """How far a fit misses another fact, in deviations of both together; None for a curve."""
    if not isinstance(other, Fact):
        return None
    middle, deviation = told.spread(lambda resin: other.stretched(other.test(resin)))
    return float(abs(middle - other.stretched(other.value)) / np.hypot(other.width, deviation))


def _pair(question: Question, alone: list[Fit], i: int, j: int, apart: float) -> Contradiction:
    first, second = question.evidence[i], question.evidence[j]
    if isinstance(second, Fact):
        return Contradiction(first.label, second.label, apart, predicted(second, alone[i]))
    assert isinstance(first, Fact)
    return Contradiction(second.label, first.label, apart, predicted(first, alone[j]))
