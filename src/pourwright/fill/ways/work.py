"""Batches and minutes of each way of filling."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from pourwright.fill.ways.defaults import WAYS
from pourwright.materials.batches import HANDLING_RATE, MIXING_TIME, USABLE_PAIL, Batch, Tools, time_to_pour

ROUNDING = 1e-9


@dataclass(frozen=True)
class Work:
    """One person's work on a band.

    Parameters
    ----------
    batches : int
        Pails that are mixed.
    time : float
        All of it [s].
    batch_time : float
        From mixing one batch until it is in the mold [s].
    """

    batches: int
    time: float
    batch_time: float


def dry_work(glass: float, batches: tuple[Batch, ...]) -> Work:
    """Lay dry glass, then pour resin over it.

    Parameters
    ----------
    glass : float
        [kg].
    batches : tuple of Batch
        Of resin.

    Returns
    -------
    Work
    """
    longest = max((time_to_pour((batch,)) for batch in batches), default=0.0)
    return Work(len(batches), glass / WAYS["laying_rate"].value + time_to_pour(batches), longest)


def stirred_work(glass: float, volume: float, resin: tuple[Batch, ...], limit: float, tools: Tools) -> Work:
    """Mix resin, stir glass into it, fill it in.

    Parameters
    ----------
    glass : float
        [kg].
    volume : float
        Of the whole mix, as it stands in pails [m3].
    resin : tuple of Batch
        How the resin alone would be split, by scale and by its own heat.
    limit : float
        When a batch must be in the mold, from mixing [s].
    tools : Tools
        The pail.

    Returns
    -------
    Work
        With pails small enough to be in the mold in time, where any are.

    Notes
    -----
    Stirring resin, then stirring glass into it, each a fixed time a batch; scooped in as fast as resin is
    poured. Common practice, no source.
    """
    handled = (glass + sum(batch.mass for batch in resin)) / HANDLING_RATE.value
    each = MIXING_TIME.value + WAYS["stirring_time"].value
    by_pail = ceil(volume / (tools.pail * USABLE_PAIL.value) - ROUNDING)
    by_time = ceil(handled / (limit - each) - ROUNDING) if limit > each else 1
    count = max(len(resin), by_pail, by_time, 1)
    return Work(count, count * each + handled, each + handled / count)
