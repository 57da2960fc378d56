"""Where the level stands at gel, and what fills it up again."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.pour.leaked.evidence import Case
from pourwright.pour.leaked.filling import level_of, mass_at
from pourwright.pour.leaked.law import Falling, Thickens
from pourwright.pour.leaked.lost import Lost
from pourwright.pour.leaked.running import Running, overall


@dataclass(frozen=True, slots=True)
class AtGel:
    """The pour when it gels.

    Parameters
    ----------
    level, low, high : float
        From the mold's floor [m]; the band holds four of five.
    out : float
        Mass that has run out by then [kg].
    if_stopped : float
        Level, were nothing more to run out [m].
    """

    level: float
    low: float
    high: float
    out: float
    if_stopped: float


@dataclass(frozen=True, slots=True)
class TopUp:
    """What is missing up to the level that was wanted.

    Parameters
    ----------
    missing, low, high : float
        Resin that goes in [kg]; the band holds four of five.
    mixed : float
        What is mixed for it, with what stays in the pail and an allowance [kg].
    """

    missing: float
    low: float
    high: float
    mixed: float


def at_gel(case: Case, out: Lost, runs: Running, fall: Falling, thickens: Thickens, now: float) -> AtGel:
    """Follow the level until the pour gels.

    Parameters
    ----------
    case : Case
        The pour.
    out : Lost
        What has run out by now.
    runs : Running
        Whether it still runs; where that cannot be told, it is taken to.
    fall, thickens : Falling, Thickens
        Law of the leak.
    now : float
        After the pour began [s].

    Returns
    -------
    AtGel
    """
    stopped, low, high = (
        float(level_of(case, case.poured.mass - gone, thickens.gels_after))
        for gone in (out.likely, out.high, out.low)
    )
    if runs.state not in ("runs", "cannot tell"):
        return AtGel(stopped, low, high, out.likely, stopped)
    flowed = thickens.until(thickens.gels_after) - thickens.until(now)
    share = runs.constant / max(overall(case, out.likely, fall, thickens, case.latest or now), 1e-30)
    ends = []
    for level, gone in ((stopped, out.likely), (low, out.high), (high, out.low)):
        constant = min(share, 1e9) * overall(case, gone, fall, thickens, case.latest or now)
        ends.append(fall.after(level, runs.constant if gone == out.likely else constant, flowed))
    left = float(mass_at(case, ends[0], thickens.gels_after))
    return AtGel(ends[0], ends[1], ends[2], case.poured.mass - left, stopped)


def top_up(case: Case, level: AtGel, wanted: float, stays_in_pail: float, allowance: float) -> TopUp:
    """Reckon what fills a pour up again.

    Parameters
    ----------
    case : Case
        The pour.
    level : AtGel
        Where it stands when the top-up goes on.
    wanted : float
        Up to where [m].
    stays_in_pail : float
        Share of what is mixed that stays in the pail [-].
    allowance : float
        Share that is mixed more than reckoned [-].

    Returns
    -------
    TopUp

    Notes
    -----
    Where the level fell through glass, what the grains hold back is not filled a second time.
    """
    missing, low, high = (
        max(_between(case, each, wanted), 0.0) for each in (level.level, level.high, level.low)
    )
    return TopUp(missing, low, high, missing * (1.0 + allowance) / (1.0 - stays_in_pail))


def _between(case: Case, level: float, wanted: float) -> float:
    """Fresh resin from a level up to another [kg]: it has not shrunk yet."""
    full, now = (float(mass_at(case, height, 0.0)) for height in (wanted, level))
    return full - now
