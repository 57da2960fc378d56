"""Work and waiting, one step after the other, and the days they take."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.materials.batches import HANDLING_RATE, MIXING_TIME, Batch
from pourwright.mold.choices import MoldChoices
from pourwright.mold.defaults import DEFAULTS
from pourwright.mold.ways.defaults import WORK

DAY = 86400.0
_LEAST = 1e-3


@dataclass(frozen=True, slots=True)
class Step:
    """A piece of work.

    Parameters
    ----------
    name : str
        What is done.
    work, low, high : float
        Time at work, and its usual range [s].
    wait : float
        Until the next step can begin [s].
    """

    name: str
    work: float
    low: float
    high: float
    wait: float = 0.0


def task(name: str, key: str, amount: float = 1.0, wait: float = 0.0) -> Step:
    """A step that takes a time from the table.

    Parameters
    ----------
    name : str
        What is done.
    key : str
        Of the table of work.
    amount : float
        Pieces, metres or square metres.
    wait : float
        Until the next step can begin [s].

    Returns
    -------
    Step

    Examples
    --------
    >>> task("keys", "key", 10).work / 60
    20.0
    """
    time = WORK[key]
    low, high = time.low or time.value, time.high or time.value
    return Step(name, time.value * amount, low * amount, high * amount, wait)


def sawing(choices: MoldChoices, blocks: int) -> Step:
    """Saw, glue up, seal and screw on space blocks.

    Parameters
    ----------
    choices : MoldChoices
        With the time for one.
    blocks : int
        How many.

    Returns
    -------
    Step
        Its range is that of the usual time, as far as the job gives none of its own.
    """
    usual, time = DEFAULTS["sawing_time"], choices.blocks.sawing_time
    own = time != usual.value
    low, high = (time if own or edge is None else edge for edge in (usual.low, usual.high))
    return Step("space blocks", blocks * time, blocks * low, blocks * high)


def pouring(name: str, batches: Sequence[Batch], wait: float) -> Step:
    """Stir and pour batches one after the other.

    Parameters
    ----------
    name : str
        What is poured.
    batches : sequence of Batch
        One per pail.
    wait : float
        Until it is hard [s].

    Returns
    -------
    Step
    """
    mass, count = sum(batch.mass for batch in batches), len(batches)

    def takes(mixing: float | None, rate: float | None) -> float:
        return count * (mixing or 0.0) + mass / (rate or 1.0)

    return Step(
        name,
        takes(MIXING_TIME.value, HANDLING_RATE.value),
        takes(MIXING_TIME.low, HANDLING_RATE.high),
        takes(MIXING_TIME.high, HANDLING_RATE.low),
        wait,
    )


def elapsed(steps: Iterable[Step], workday: float) -> float:
    """Time from the first grip to the last, with nights and waiting in it.

    Parameters
    ----------
    steps : iterable of Step
        In order; work that does not fit a day goes on the next morning.
    workday : float
        Length of a working day [s].

    Returns
    -------
    float
        [s]; every day is a working day.

    Examples
    --------
    >>> elapsed([Step("pour", 4 * 3600, 0, 0, wait=6 * 3600), Step("open", 3600, 0, 0)], 8 * 3600) / 3600
    25.0
    """
    now = 0.0
    for step in steps:
        left = step.work
        # a millisecond is nobody's work, and no round-off
        while left > _LEAST:
            day, hour = divmod(now, DAY)
            if hour >= workday - _LEAST:
                now = (day + 1) * DAY
                continue
            done = min(left, workday - hour)
            now, left = now + done, left - done
        now += step.wait
    return now


def days(time: float) -> int:
    """Working days that a span touches.

    Parameters
    ----------
    time : float
        From the first grip [s].

    Returns
    -------
    int

    Examples
    --------
    >>> days(25 * 3600.0), days(3600.0)
    (2, 1)
    """
    return max(math.ceil(time / DAY), 1)
