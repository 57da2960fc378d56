"""Runs of invented boxes near their limit depth with every number in doubt, for `bench_emulator`."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.doubts import member
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.geometry import box
from pourwright.materials import load_materials
from pourwright.planner.grids import layers_of
from pourwright.pour.climate import Climate
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, rehearse
from pourwright.pour.site import Bed, Block, Site
from pourwright.solver import Control
from pourwright.solver.draws import draws

Array = NDArray[np.float64]
ZERO = datetime(2026, 12, 1, 9, tzinfo=UTC)
WIDTH, WALL, BOARD, SOLID, SPACING = 0.100, 0.015, 0.018, 0.55, 0.016
RESIN_DEVIATES, INPUTS = 15, 18
SHOP, MIX, VOIDS = 1.5, 2.0, 0.02
"""Deviations: of the shop's temperature and the mixed resin's [K], of the void fraction [-]."""
ANSWERS = ("peak", "gel", "ready")
SEED = 5


@dataclass(frozen=True)
class Casting:
    """A box of one resin, with glass or without, and how wide the doubts are.

    Parameters
    ----------
    resin : str
        Id.
    depth : float
        Where the middle resin stays some kelvin below its limit [m].
    filled : bool
        Whether there is glass in it.
    doubts : float
        Share of the family's deviations: 1 where nothing was measured, less after a fit.
    """

    resin: str
    depth: float
    filled: bool
    doubts: float

    @property
    def name(self) -> str:
        """What it is called in the table."""
        fill = "glass" if self.filled else "neat"
        return f"{self.resin} {fill} {1e3 * self.depth:.0f} mm x {self.doubts:g}"


CASTINGS = (
    Casting("epoxy-slow-deep", 0.130, filled=False, doubts=0.35),
    Casting("epoxy-medium", 0.021, filled=False, doubts=0.35),
    Casting("epoxy-medium", 0.220, filled=True, doubts=0.35),
    Casting("epoxy-fast", 0.007, filled=False, doubts=0.35),
    Casting("epoxy-fast", 0.034, filled=True, doubts=0.35),
    Casting("epoxy-slow-deep", 0.060, filled=False, doubts=1.0),
    Casting("epoxy-medium", 0.014, filled=False, doubts=1.0),
    Casting("epoxy-medium", 0.100, filled=True, doubts=1.0),
    Casting("epoxy-fast", 0.005, filled=False, doubts=1.0),
    Casting("epoxy-fast", 0.020, filled=True, doubts=1.0),
)


def site_of(casting: Casting, deviates: Array) -> Site:
    """The site of one member; deviates are those of the resin, then shop, mix and voids."""
    materials = load_materials()
    resin, film = member(materials.resin[casting.resin], casting.doubts * deviates[:RESIN_DEVIATES])
    shop, mix, voids = deviates[RESIN_DEVIATES:] * (SHOP, MIX, VOIDS)
    solid = SOLID - voids if casting.filled else 0.0
    shelf = ZERO_CELSIUS + 20.0 + shop
    side = WIDTH + 2 * WALL
    return Site(
        box([WIDTH, WIDTH, casting.depth]),
        Block((side, side), WALL, BOARD, casting.depth),
        (Bed(0.0, casting.depth, solid),),
        resin,
        materials.glass["soda-lime-crushed"],
        materials.rubber["silicone-platinum-a25"],
        materials.board["mdf"],
        Climate(ZERO, ZoneInfo("UTC"), (shelf,) * 24),
        resin_temperature=shelf + mix,
        film_factor=film,
    )


def run(site: Site) -> tuple[float, ...]:
    """Peak [K], last gel and demold [s] of one member."""
    height = site.block.height
    layout = lay_out(site, SPACING, [height], layers=layers_of([height], site.block))
    seen = rehearse(layout, (Planned(height, 0.0),), Control(tolerance=0.05, max_step=3600.0))
    return seen.pours[0].peak, seen.pours[0].gel_last, seen.ready


def members(casting: Casting, count: int, keep: Path | None) -> tuple[Array, Array]:
    """Inputs and answers of the first members of a casting, kept ones taken from the folder."""
    points = draws(count, np.zeros(INPUTS), np.eye(INPUTS), SEED)
    kept = keep / f"{casting.name.replace(' ', '_')}.npy" if keep else None
    known = np.load(kept) if kept and kept.exists() else np.empty((0, len(ANSWERS)))
    more = [run(site_of(casting, point)) for point in points[len(known) :]]
    values = np.concatenate([known, np.array(more).reshape(-1, len(ANSWERS))])
    if kept and more:
        np.save(kept, values)
    return points, values[:count]
