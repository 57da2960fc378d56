"""Both ways of filling one band."""

from __future__ import annotations

from pourwright.app.filling.dry_way import dry_way
from pourwright.app.filling.filled_band import Filled
from pourwright.app.filling.stirred_way import stirred_way
from pourwright.app.filling.ways_reason import reason
from pourwright.app.setup import Setup
from pourwright.fill import FillBand
from pourwright.fill.ways.choice import choose
from pourwright.jobs.fill_ways import BandWays
from pourwright.pour.site import Site
from pourwright.pour.soaking import Front, front, smallest_bubble

HOUR = 3600.0
SHOWN = 13
"""Points of the front's way down that are written down."""


def told_band(setup: Setup, at: Site, band: FillBand, start: float) -> BandWays:
    """Reckon both ways for one band.

    Parameters
    ----------
    setup : Setup
        The job.
    at : Site
        Its mold on the bench.
    band : FillBand
        With glass.
    start : float
        When it is poured [s after the climate's zero].

    Returns
    -------
    BandWays
    """
    down = front(at, band.lower, band.upper, start)
    assert down is not None  # a band of glass knows its grain
    filled = Filled(setup, band, down, smallest_bubble(at, band.lower, band.upper, start))
    dry, strain_dry = dry_way(filled)
    stirred, strain_stirred = stirred_way(filled)
    choice = choose(strain_dry, strain_stirred)
    return BandWays(
        band=band.name,
        grade=band.grade or "",
        depth_m=filled.depth,
        voids=band.void_fraction,
        dry=dry,
        stirred=stirred,
        recommended=choice.way,
        good=choice.good,
        reason=reason(choice, dry, stirred, setup.system),
        **_curve(down),
    )


def _curve(down: Front) -> dict[str, list[float]]:
    """The front's way down, as far as it comes."""
    end = down.depth_at(down.flows.limit)
    depths = [end * number / (SHOWN - 1) for number in range(SHOWN)]
    return {"front_h": [down.after(depth) / HOUR for depth in depths], "front_m": depths}
