"""How much has run out: each kind of evidence by its weight, and none of it less than nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf, sqrt
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.special import log_ndtr, ndtr

from pourwright.pour.leaked.defaults import LEAKED, doubt
from pourwright.pour.leaked.evidence import Case, Level
from pourwright.pour.leaked.filling import mass_at, sensitivities, slope_at

Array = NDArray[np.float64]
Clash = Literal["over", "caught", "rises", "more than poured", "glass"]
FAR = 3.0
"""Standard deviations from which on two evidences contradict each other."""
TOGETHER = 900.0
"""Readings taken within this time of the last one are one reading [s]."""
POINTS = 4001


@dataclass(frozen=True, slots=True)
class Estimate:
    """One evidence of what has run out.

    Parameters
    ----------
    kind : str
        "level", "at most" or "caught".
    value, doubt : float
        Mass that has run out and its standard deviation [kg]; of "at most" the least that has.
    weight : float
        Its share in the answer [-]; 0 for "at most", which only bounds it.
    """

    kind: Literal["level", "at most", "caught"]
    value: float
    doubt: float
    weight: float = 0.0


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two evidences that do not go together.

    Parameters
    ----------
    kind : str
        Which: the level over all that was poured, caught against level, a level that rises, more
        found than poured, a level that cannot be read but was.
    apart : float
        Standard deviations between them [-].
    first, second : float
        What each says [kg]; of "rises" the two levels [m].
    """

    kind: Clash
    apart: float
    first: float
    second: float


@dataclass(frozen=True, slots=True)
class Lost:
    """What has run out by the time of the last reading.

    Parameters
    ----------
    likely, low, high : float
        One in ten is less than ``low``, one in ten more than ``high`` [kg].
    estimates : tuple of Estimate
        What it rests on.
    contradictions : tuple of Contradiction
        What does not go together.
    """

    likely: float
    low: float
    high: float
    estimates: tuple[Estimate, ...]
    contradictions: tuple[Contradiction, ...]


def lost(case: Case) -> Lost:
    """Reckon what has run out.

    Parameters
    ----------
    case : Case
        The pour and its evidence.

    Returns
    -------
    Lost
        The median and the band that holds four of five.

    Notes
    -----
    Every reading says: run out = poured - in the mold at this level. Its standard deviation is that of the
    reading and of voids, cavity, film, what grains hold back and shrinkage, all carried through by their
    slopes. Level and find are joined by weighted least squares; where they lie further apart than they may,
    the doubt grows by the root of chi squared, and a find that is far too small only says that no less ran
    out. What comes out is cut off at nothing
    and at all that was poured; a level that only lies under a mark weighs with the chance that it does; an
    earlier reading with the chance that between nothing and now had run out then.
    """
    latest, found = _latest(case), _caught(case)
    apart = list(_contradictions(case, latest, found))
    partial = _partial(apart)
    given = [each for each in (latest, None if partial else found) if each is not None]
    value, spread, weights = _joined(given)
    grid = np.linspace(0.0, case.poured.mass, POINTS)
    chance = _log_chance(case, grid, value, spread) + _at_least(case, grid, found)
    low, likely, high = _quantiles(grid, chance)
    weighed = [Estimate(e.kind, e.value, e.doubt, w) for e, w in zip(given, weights, strict=True)]
    bounds = [_from_level(case, level, "at most") for level in _unread(case)]
    bounds += [found] if partial and found is not None else []
    return Lost(likely, low, high, (*weighed, *bounds), tuple(apart))


def _partial(apart: list[Contradiction]) -> bool:
    """Whether what was found is plainly but a part of what ran out."""
    return any(each.kind in ("caught", "glass") and each.second < each.first for each in apart)


def _at_least(case: Case, grid: Array, found: Estimate | None) -> Array:
    """What was found did run out, whatever else did."""
    if found is None or case.caught is None:
        return np.zeros_like(grid)
    return np.asarray(log_ndtr((grid - case.caught.mass) / max(case.caught.doubt, 1e-6)))


def _latest(case: Case) -> Estimate | None:
    """The last readings as one."""
    if not case.read or (case.levels and case.levels[-1].at_most):
        return None
    level = together(case.read)[-1]
    return _from_level(case, level, "level")


def together(levels: tuple[Level, ...]) -> list[Level]:
    """Make one reading of those that were taken together.

    Parameters
    ----------
    levels : tuple of Level
        In the order of their times.

    Returns
    -------
    list of Level
        Their mean where several lie close in time; its doubt is no smaller than half of one reading's,
        as it is the same eye and the same stick.
    """
    groups: list[list[Level]] = []
    for level in levels:
        if groups and level.time - groups[-1][0].time <= TOGETHER:
            groups[-1].append(level)
        else:
            groups.append([level])
    return [_mean(group) for group in groups]


def _mean(group: list[Level]) -> Level:
    one = max(level.doubt for level in group)
    height = float(np.mean([level.height for level in group]))
    return Level(height, group[-1].time, max(one / sqrt(len(group)), one / 2.0))


def _from_level(case: Case, level: Level, kind: Literal["level", "at most"]) -> Estimate:
    out = case.poured.mass - float(mass_at(case, level.height, level.time))
    reading = slope_at(case, level.height, level.time) * level.doubt
    return Estimate(kind, out, sqrt(float(np.sum(sensitivities(case, level) ** 2)) + reading**2))


def _caught(case: Case) -> Estimate | None:
    if case.caught is None:
        return None
    share = LEAKED["found"].value
    out = case.caught.mass / share
    spread = sqrt((case.caught.doubt / share) ** 2 + (out * doubt("found") / share) ** 2)
    return Estimate("caught", out, spread)


def _unread(case: Case) -> list[Level]:
    """What only bounds the level: marks it lies under, and a reading before it went out of sight."""
    before = case.read[-1:] if case.levels and case.levels[-1].at_most else ()
    return [*before, *(level for level in case.levels if level.at_most)]


def _joined(given: list[Estimate]) -> tuple[float, float, list[float]]:
    """Weighted least squares; the doubt grows where the evidences lie too far apart."""
    if not given:
        return 0.0, inf, []
    precise = np.array([1.0 / max(each.doubt, 1e-9) ** 2 for each in given])
    values = np.array([each.value for each in given])
    weights = precise / precise.sum()
    value = float(weights @ values)
    chi2 = float(precise @ (values - value) ** 2) / max(len(given) - 1, 1)
    return value, sqrt(max(chi2, 1.0) / float(precise.sum())), weights.tolist()


def _log_chance(case: Case, grid: Array, value: float, spread: float) -> Array:
    """Logarithm of how likely each mass is, but for a constant."""
    chance = np.zeros_like(grid) if spread == inf else -0.5 * ((grid - value) / spread) ** 2
    for level in _unread(case):
        bound = _from_level(case, level, "at most")
        chance = chance + log_ndtr((grid - bound.value) / bound.doubt)
    return chance + _earlier(case, grid)


def _earlier(case: Case, grid: Array) -> Array:
    """Chance that what had run out at the first reading lies between nothing and what has by now."""
    readings = together(case.read)
    if len(readings) < 2 or (case.levels and case.levels[-1].at_most):
        return np.zeros_like(grid)
    first, last = readings[0], readings[-1]
    one, two = (_from_level(case, level, "level") for level in (first, last))
    shared = float(sensitivities(case, first) @ sensitivities(case, last))
    middle = one.value + shared / two.doubt**2 * (grid - two.value)
    left = sqrt(max(one.doubt**2 - shared**2 / two.doubt**2, 1e-12))
    inside = ndtr((grid - middle) / left) - ndtr((0.0 - middle) / left)
    return np.log(np.maximum(inside, 1e-300))


def _quantiles(grid: Array, chance: Array) -> tuple[float, float, float]:
    density = np.exp(chance - chance.max())
    area = np.concatenate([[0.0], np.cumsum(0.5 * (density[1:] + density[:-1]))])
    low, likely, high = np.interp([0.1, 0.5, 0.9], area / area[-1], grid)
    return float(low), float(likely), float(high)


def _contradictions(case: Case, latest: Estimate | None, found: Estimate | None) -> Iterator[Contradiction]:
    """Name what lies further apart than three standard deviations."""
    if latest is not None and latest.value < -FAR * latest.doubt:
        held = case.poured.mass - latest.value
        yield Contradiction("over", -latest.value / latest.doubt, case.poured.mass, held)
    if case.caught is not None:
        both = sqrt(case.caught.doubt**2 + case.poured.doubt**2)
        over = (case.caught.mass - case.poured.mass) / max(both, 1e-9)
        if over > FAR:
            yield Contradiction("more than poured", over, case.caught.mass, case.poured.mass)
    if latest is not None and found is not None:
        apart = abs(latest.value - found.value) / sqrt(latest.doubt**2 + found.doubt**2)
        if apart > FAR:
            yield Contradiction("caught", apart, latest.value, found.value)
    yield from _rises(case)
    yield from _under_glass(case, found)


def _rises(case: Case) -> Iterator[Contradiction]:
    readings = together(case.read)
    for before, after in pairwise(readings):
        apart = (after.height - before.height) / sqrt(before.doubt**2 + after.doubt**2)
        if apart > FAR:
            yield Contradiction("rises", apart, before.height, after.height)


def _under_glass(case: Case, found: Estimate | None) -> Iterator[Contradiction]:
    for level in (level for level in case.levels if level.at_most):
        bound = _from_level(case, level, "at most")
        if found is not None:
            apart = (bound.value - found.value) / sqrt(bound.doubt**2 + found.doubt**2)
            if apart > FAR:
                yield Contradiction("glass", apart, bound.value, found.value)
