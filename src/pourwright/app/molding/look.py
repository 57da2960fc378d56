"""A job with its piece and its mold designed: everything that needs no heat run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from pourwright.app.hollowing import Hollowed, hollowed
from pourwright.app.inserting import inserted
from pourwright.app.learnt.cavity import measured_fill
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.mineral_mix import mineral_mix
from pourwright.app.setup import designed_mold, set_up
from pourwright.app.shaping.piece import PieceRead
from pourwright.fill import FillResult
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import Solid
from pourwright.jobs.job import Job
from pourwright.materials import Materials, Mineral, Resin
from pourwright.mold import MoldResult
from pourwright.mold.hollow.insert import Insert


@dataclass(frozen=True, eq=False)
class MoldLook:
    """What every look at a mold starts from; one is like no other, so that answers can be kept by it.

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
        Of the cast piece, with a core that stays [kg].
    mold : MoldResult
        Rubber, box, hold-down.
    fill : FillResult, optional
        Glass and resin; None for a casting material mixed with water.
    hollow : Hollowed, optional
        The core, and the room around it; None for a piece cast solid.
    inserts : tuple of Insert
        What is set into the casting.
    """

    job: Job
    materials: Materials
    piece: PieceRead
    casting: Resin | Mineral
    densest: float
    fill_mass: float
    mold: MoldResult
    fill: FillResult | None = None
    hollow: Hollowed | None = None
    inserts: tuple[Insert, ...] = ()

    @property
    def system(self) -> UnitSystem:
        """Units of what is printed."""
        return UnitSystem(self.job.units)

    @property
    def room_solid(self) -> Solid:
        """What is filled: the cavity, less the core."""
        return self.piece.solid if self.hollow is None else self.hollow.solid

    @cached_property
    def solid_fill(self) -> FillResult | None:
        """Glass and resin of the piece cast solid."""
        if self.hollow is None or self.fill is None:
            return self.fill
        return measured_fill(self.job, self.piece.mesh, self.piece.levels, self.fill.choices)

    @property
    def core_kept(self) -> float:
        """Of a core that stays [kg]."""
        return 0.0 if self.hollow is None else self.hollow.kept_mass

    @property
    def core_mass(self) -> float:
        """Of the core, whether it stays or not [kg]."""
        return 0.0 if self.hollow is None else self.hollow.core_mass

    @property
    def in_mold(self) -> float:
        """What stands in the full mold, besides: piece, and a core that will come out [kg]."""
        return self.fill_mass - self.core_kept + self.core_mass


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
    materials = shop_materials(job)
    mineral = materials.mineral.get(job.casting.material)
    if mineral is None:
        setup = set_up(job, piece)
        fill = setup.fill
        return MoldLook(
            job, materials, piece, setup.resin, fill.densest, setup.piece_mass, setup.mold, fill,
            setup.hollow, setup.inserts,
        )  # fmt: skip
    hollow = hollowed(job, piece, materials)
    volume, kept = (piece.solid.volume, 0.0) if hollow is None else (hollow.solid.volume, hollow.kept_mass)
    mix = mineral_mix(job, materials, mineral, volume)
    mold, inserts = (
        designed_mold(job, materials, piece, mix.wet_density),
        inserted(job, piece, hollow, materials),
    )
    mass = mix.piece_mass + kept
    return MoldLook(job, materials, piece, mineral, mix.wet_density, mass, mold, None, hollow, inserts)
