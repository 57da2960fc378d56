"""A job with its piece and its fill designed: everything about the fill that needs no heat run."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.hollowing import Hollowed, hollowed
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.mineral_mix import mineral_mix, refuse_coarse
from pourwright.app.setup import Setup, set_up
from pourwright.app.shaping.piece import PieceRead
from pourwright.fill import FillResult, MineralMix
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.job import Job
from pourwright.materials import Materials, Mineral, Resin


@dataclass(frozen=True)
class FillLook:
    """What every look at a fill starts from.

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
    setup : Setup, optional
        With glass and resin; None for a casting material mixed with water.
    mix : MineralMix, optional
        Powder and water; None for a resin.
    hollow : Hollowed, optional
        The core; None for a piece cast solid.
    heat : bool
        Whether the heat of setting is to be run.
    """

    job: Job
    materials: Materials
    piece: PieceRead
    casting: Resin | Mineral
    setup: Setup | None = None
    mix: MineralMix | None = None
    hollow: Hollowed | None = None
    heat: bool = False

    @property
    def system(self) -> UnitSystem:
        """Units of what is printed."""
        return UnitSystem(self.job.units)

    @property
    def fill(self) -> FillResult | None:
        """Glass and resin; None for a casting material mixed with water."""
        return None if self.setup is None else self.setup.fill

    @property
    def piece_mass(self) -> float:
        """Of the cast piece, with a core that stays [kg]."""
        if self.setup is not None:
            return self.setup.piece_mass
        assert self.mix is not None
        return self.mix.piece_mass + (0.0 if self.hollow is None else self.hollow.kept_mass)


def look_at_fill(job: Job, piece: PieceRead) -> FillLook:
    """Design the fill of a job, for a resin or for a casting material mixed with water.

    Parameters
    ----------
    job : Job
        One variant.
    piece : PieceRead
        Its piece.

    Returns
    -------
    FillLook

    Raises
    ------
    UserError
        For unknown materials and choices that do not fit, with the line they stand on.
    """
    materials = shop_materials(job)
    casting = materials.casting(job.casting.material, job.where("casting.material"))
    if isinstance(casting, Resin):
        setup = set_up(job, piece)
        return FillLook(job, materials, piece, casting, setup=setup, hollow=setup.hollow)
    hollow = hollowed(job, piece, materials)
    volume = piece.solid.volume if hollow is None else hollow.solid.volume
    mix = mineral_mix(job, materials, casting, volume)
    refuse_coarse(job, materials, piece)
    return FillLook(job, materials, piece, casting, mix=mix, hollow=hollow)
