"""A job designed as far as it is cheap."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pourwright.app.answering.skins import SkinCurve
from pourwright.app.hollowing import hollowed
from pourwright.app.inserting import inserted
from pourwright.app.mineral_mix import mineral_mix
from pourwright.app.molding.look import MoldLook
from pourwright.app.setup import Setup, designed_mold, set_up
from pourwright.app.shaping.piece import PieceRead
from pourwright.fill import MineralMix
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.job import Job
from pourwright.materials import Materials, Mineral
from pourwright.mold import MoldResult
from pourwright.mold.blocks.asked import BlocksAsked
from pourwright.mold.space_block import SpaceBlock

Ask = Callable[[BlocksAsked], tuple[SpaceBlock, ...] | None]
"""Who knows space blocks; None where nobody has looked for them."""


@dataclass(frozen=True, eq=False)
class CheapLook:
    """What the cheap answers are told from.

    Parameters
    ----------
    mold_look : MoldLook
        Piece, mold, casting material.
    setup : Setup, optional
        With glass and resin; None for a casting material mixed with water.
    mix : MineralMix, optional
        Powder and water; None for a resin.
    blocks_missing : tuple of BlocksAsked
        Space blocks that nobody has looked for: the mold is designed without them.
    skin : SkinCurve, optional
        Of a mold that is a skin, where somebody has measured it.
    """

    mold_look: MoldLook
    setup: Setup | None = None
    mix: MineralMix | None = None
    blocks_missing: tuple[BlocksAsked, ...] = ()
    skin: SkinCurve | None = None

    @property
    def skin_missing(self) -> bool:
        """Whether the mold is a skin that nobody has measured."""
        return self.job.mold.way == "skin" and self.skin is None

    @property
    def job(self) -> Job:
        """One variant."""
        return self.mold_look.job

    @property
    def piece(self) -> PieceRead:
        """As poured."""
        return self.mold_look.piece

    @property
    def mold(self) -> MoldResult:
        """Rubber and box."""
        return self.mold_look.mold

    @property
    def system(self) -> UnitSystem:
        """Units of what is printed."""
        return self.mold_look.system


def look_cheaply(
    job: Job, piece: PieceRead, materials: Materials, ask: Ask, skin: SkinCurve | None = None
) -> CheapLook:
    """Design mold and fill; space blocks are taken from who knows them, never looked for.

    Parameters
    ----------
    job : Job
        One variant.
    piece : PieceRead
        Its piece.
    materials : Materials
        The families and the shop's own records.
    ask : callable
        Who knows space blocks.
    skin : SkinCurve, optional
        Where it is known.

    Returns
    -------
    CheapLook

    Raises
    ------
    UserError
        For choices that do not fit, with their line.
    """
    missing: list[BlocksAsked] = []

    def find(asked: BlocksAsked) -> tuple[SpaceBlock, ...]:
        found = ask(asked)
        if found is None:
            missing.append(asked)
        return found or ()

    mineral = materials.mineral.get(job.casting.material)
    if mineral is not None:
        look, mix = _mixed_with_water(job, piece, materials, mineral, find)
        return CheapLook(look, mix=mix, blocks_missing=tuple(missing), skin=skin)
    setup = set_up(job, piece, find)
    look = MoldLook(
        job, materials, piece, setup.resin, setup.fill.densest, setup.piece_mass, setup.mold, setup.fill,
        setup.hollow, setup.inserts,
    )  # fmt: skip
    return CheapLook(look, setup, blocks_missing=tuple(missing), skin=skin)


def _mixed_with_water(
    job: Job,
    piece: PieceRead,
    materials: Materials,
    mineral: Mineral,
    find: Callable[[BlocksAsked], tuple[SpaceBlock, ...]],
) -> tuple[MoldLook, MineralMix]:
    hollow = hollowed(job, piece, materials)
    volume, kept = (piece.solid.volume, 0.0) if hollow is None else (hollow.solid.volume, hollow.kept_mass)
    mix = mineral_mix(job, materials, mineral, volume)
    mold = designed_mold(job, materials, piece, mix.wet_density, find)
    inserts = inserted(job, piece, hollow, materials)
    mass = mix.piece_mass + kept
    return MoldLook(job, materials, piece, mineral, mix.wet_density, mass, mold, None, hollow, inserts), mix
