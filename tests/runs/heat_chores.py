"""Heat runs of small boxes, for processes."""

from dataclasses import replace

from pourwright.pour.follow import Goal
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, Rehearsal, rehearse
from pourwright.pour.site import Site
from pourwright.solver import Control
from tests.pour.blocks import block_site, one_pour

SITE = {"depth": 0.03, "width": 0.06, "solid": 0.5}


def site() -> Site:
    return block_site(**SITE)


def peak(one: Site, warmer: float) -> tuple[float, float, tuple[float, ...]]:
    """Peak, its time and the temperatures of every cell at the end."""
    seen = one_pour(replace(one, climate=one.climate.shifted(warmer)), goal=Goal.PEAK)
    return seen.peak, seen.peak_time, tuple(seen.stage.state.temperature.ravel())


def rehearsed(one: Site) -> Rehearsal:
    height = one.block.height
    return rehearse(lay_out(one, 0.0125, [height]), (Planned(height, 0.0),), Control(tolerance=0.1))
