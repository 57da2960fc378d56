"""What the fill room answers, in SI; heights from the mold's floor as cast."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.choices import FillChoices
from pourwright.fill.parts import FillBand, GlassLot, ResinLedger
from pourwright.fill.resin import ledger_between
from pourwright.fill.soft_borders import SoftZone
from pourwright.fill.wetted import WettedArea
from pourwright.geometry.levels import LevelVolume
from pourwright.materials.batches import Batch, largest_batch, split_batches


@dataclass(frozen=True, kw_only=True)
class FillResult:
    """Glass and resin of one piece.

    Parameters
    ----------
    bands : tuple of FillBand
        From the mold's floor up; the neat cover is the last one where it was added.
    glass : tuple of GlassLot
        By grade and colour, in order of first use.
    bottles_by_colour : tuple of (str, int)
        Bottles to collect of each colour.
    ledger : ResinLedger
        The whole piece.
    neat_cover : float
        Depth of neat resin at the open face [m].
    soft : tuple of SoftZone
        Borders over which two bands are mixed.
    """

    choices: FillChoices
    levels: LevelVolume
    wetted: WettedArea
    bands: tuple[FillBand, ...]
    glass: tuple[GlassLot, ...]
    bottles_by_colour: tuple[tuple[str, int], ...]
    ledger: ResinLedger
    neat_cover: float
    soft: tuple[SoftZone, ...] = ()
    warnings: tuple[str, ...] = ()

    @property
    def glass_mass(self) -> float:
        """Glass in the piece [kg]."""
        return sum(band.glass_mass for band in self.bands)

    @property
    def resin_in_piece(self) -> float:
        """Resin in the piece [kg]."""
        return self.ledger.in_piece

    @property
    def resin_mixed(self) -> float:
        """Resin to mix, with film, pail and allowance [kg]."""
        return self.ledger.total

    @property
    def piece_mass(self) -> float:
        """Mass of the cast piece [kg]."""
        return self.glass_mass + self.resin_in_piece

    @property
    def densest(self) -> float:
        """Density of the densest band as poured, for the pressure on the box [kg/m3]."""
        return max((band.glass_mass + band.resin_mass) / band.volume for band in self.bands)

    def resin_between(self, lower: float, upper: float) -> ResinLedger:
        """Resin of one pour.

        Parameters
        ----------
        lower, upper : float
            Levels of the pour [m]; what lies outside the cavity counts nothing.

        Returns
        -------
        ResinLedger
            Sums over pours that follow each other give the ledger of the whole.
        """
        return ledger_between(self.bands, self.levels, self.wetted, self.choices, lower, upper)

    def liquid_below(self, height: float) -> float:
        """Resin volume that fits below a height once the glass is in [m3]."""
        density = self.choices.resin.density.value
        return self.resin_between(self.levels.bottom, height).in_piece / density

    def level_of_liquid(self, volume: float) -> float:
        """Find the level that a volume of resin reaches between the glass.

        Parameters
        ----------
        volume : float
            Resin in the piece, from its floor up [m3].

        Returns
        -------
        float
            Height [m]; the top where it is more than the piece takes.
        """
        left = volume
        for band in self.bands:
            takes = band.volume * band.void_fraction
            if left < takes:
                below = float(self.levels.volume(band.lower))
                return float(self.levels.height(below + left / band.void_fraction))
            left -= takes
        return self.levels.top

    def batches(self, mass: float, most: float | None = None) -> tuple[Batch, ...]:
        """Split a resin mass into batches.

        Parameters
        ----------
        mass : float
            To mix [kg].
        most : float, optional
            Limit of one batch by other reasons, such as heat in the pail [kg].

        Returns
        -------
        tuple of Batch
            Within pail, scale and ``most``.
        """
        resin, tools = self.choices.resin, self.choices.tools
        largest = largest_batch(resin.density.value, tools)
        parts = (resin.parts_a.value, resin.parts_b.value)
        return split_batches(mass, parts, largest if most is None else min(most, largest), tools.scale_step)
