"""How warm the faces of a mold and of a pour are by the hour, as damp air meets them."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.layout import lay_out
from pourwright.pour.marks import RIM, area_quantile
from pourwright.pour.site import Site
from pourwright.pour.skin import Skin
from pourwright.pour.stages import Stage, empty_mold
from pourwright.solver import Control, run

Array = NDArray[np.float64]
DAY = 86400.0
APART = 900.0
"""Time between two rows [s]."""
ACROSS = 12
COARSE = Control(tolerance=0.1, max_step=1800.0)


@dataclass(frozen=True)
class FacesSeen:
    """Faces against time [s], temperatures [K].

    Parameters
    ----------
    time : tuple of float
        Seconds after the climate's zero.
    mold : tuple of float
        Mean of the rubber that touches the cavity; glass that lies in it is taken to be as warm.
    top : tuple of float
        Coolest tenth of the pour's top; of an empty mold the same as the mold.
    """

    time: tuple[float, ...]
    mold: tuple[float, ...]
    top: tuple[float, ...]


@dataclass
class FaceDiary:
    """Notes the faces of a stage while it is followed, a quarter of an hour apart."""

    stage: Stage
    rows: list[tuple[float, float, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.wall = np.flatnonzero(self.stage.layout.face)
        self.top = Skin.of(self.stage) if self.stage.levels else None
        state = self.stage.state
        self._note(state.time, state.temperature)

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Note a step unless the last one is hardly past; the solver's observer."""
        del conversion
        if time >= self.rows[-1][0] + APART:
            self._note(time, temperature)

    def _note(self, time: float, temperature: Array) -> None:
        mold = float(temperature.reshape(-1)[self.wall].mean())
        top = mold
        if self.top is not None:
            top = area_quantile(self.top.mean(temperature), self.top.areas, RIM)
        self.rows.append((time, mold, top))

    def seen(self) -> FacesSeen:
        """Give what was noted."""
        return FacesSeen(*(tuple(column) for column in zip(*self.rows, strict=True)))


def empty_mold_by_the_hour(site: Site, begin: float) -> FacesSeen:
    """Let the empty mold stand in the shop for two days and nights around the first pour.

    Parameters
    ----------
    site : Site
        From set-up.
    begin : float
        When the first pour goes in [s].

    Returns
    -------
    FacesSeen
        From a day before to a day after; thick rubber lags behind the air.
    """
    first = begin - DAY
    if len(set(site.climate.hourly)) == 1:
        still = (site.climate.temperature(first),) * 2
        return FacesSeen((first, begin + DAY), still, still)
    narrow = min(site.block.inside) + 2 * site.block.board
    layout = lay_out(site, narrow / ACROSS, [site.block.height])
    stage = empty_mold(layout, first)
    diary = FaceDiary(stage)
    run(stage.problem, stage.state, begin + DAY, control=COARSE, observer=diary)
    return diary.seen()
