"""A job with its piece and its mold designed: everything that needs no heat run."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.setup import designed_mold, set_up
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shop import shop_folder
from pourwright.fill import FillResult, mix_mineral
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.job import Job
from pourwright.materials import Materials, Mineral, Resin, load_materials
from pourwright.mold import MoldResult


@dataclass(frozen=True)
class MoldLook:
    """What every look at a mold starts from.

    Parameters
    ----------
    job : Job
        One variant.
    materials : Materials
        The families and the shop's own records.
    piece : PieceRead
        The cavity of the cold mold, in the pour frame.
    casting : Resin or Mineral
        What is cast.
    densest : float
        Density of the densest thing that is poured into the cavity, glass in it [kg/m3].
    fill_mass : float
        Of the cast piece [kg].
    mold : MoldResult
        Rubber, box, hold-down.
    fill : FillResult, optional
        Glass and resin; None for a casting material mixed with water.
    """

    job: Job
    materials: Materials
    piece: PieceRead
    casting: Resin | Mineral
    densest: float
    fill_mass: float
    mold: MoldResult
    fill: FillResult | None = None

    @property
    def system(self) -> UnitSystem:
        """Units of what is printed."""
        return UnitSystem(self.job.units)


def look_at_mold(job: Job, piece: PieceRead) -> MoldLook:
    """Design the mold of a job, for a resin or for a casting material mixed with water.

    Parameters
    ----------
    job : Job
        One variant.
    piece : PieceRead
        Its piece.

    Returns
    -------
    MoldLook

    Raises
    ------
    UserError
        For unknown materials and choices that do not fit, with the line they stand on.
    """
    materials = load_materials(shop_folder(job))
    mineral = materials.mineral.get(job.casting.material)
    if mineral is None:
        setup = set_up(job, piece)
        fill = setup.fill
        return MoldLook(job, materials, piece, setup.resin, fill.densest, fill.piece_mass, setup.mold, fill)
    mold = designed_mold(job, materials, piece, mineral.wet_density.value)
    mass = mix_mineral(piece.solid.volume, mineral).piece_mass
    return MoldLook(job, materials, piece, mineral, mineral.wet_density.value, mass, mold)
