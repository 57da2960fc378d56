"""When a piece is hard, in how many castings."""

from __future__ import annotations

import numpy as np

from pourwright.planner.decide import Decision


def ready_after(decision: Decision, *shares: float) -> tuple[float, ...] | None:
    """When the piece is hard in so many castings, from the last pour.

    Parameters
    ----------
    decision : Decision
        With its chances.
    shares : float
        Of castings [-].

    Returns
    -------
    tuple of float or None
        [s]; None where nothing was weighed, or too many never get hard.
    """
    weighed, final = decision.chances, decision.final
    if weighed is None or not np.isfinite(final.ready):
        return None
    here = weighed.likely.ready - weighed.likely.begun
    band = weighed.band(weighed.ensemble.ready, *shares)
    if band is None or not np.isfinite(here):
        return None
    scale = (final.ready - final.pours[-1].start) / here
    return tuple(value * scale for value in band)


def kept_ready(decision: Decision) -> float:
    """When the piece is hard with the plan's probability.

    Parameters
    ----------
    decision : Decision
        With its chances.

    Returns
    -------
    float
        Seconds after the climate's zero; of the likely casting where nothing was weighed.
    """
    kept = ready_after(decision, decision.request.probability)
    ready = decision.final.ready
    return ready if kept is None else max(ready, decision.final.pours[-1].start + kept[0])
