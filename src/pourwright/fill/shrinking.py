"""What one band of a fill shrinks by: neat, with glass stirred in, or as a bed of glass that touches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pourwright.fill.parts import FillBand
from pourwright.foundation.sources import Kind, Sourced
from pourwright.geometry.levels import LevelVolume
from pourwright.physics.filled_contraction import filled_contraction
from pourwright.physics.shrinkage import filled_shrinkage, linear_shrinkage, shrinkage_between

Array = NDArray[np.float64]
_PRACTICE = "common-practice"
FINISH: Mapping[str, Sourced] = MappingProxyType(
    {
        "planing": Sourced(
            0.001, "m", 0.0005, 0.003, Kind.PRACTICE, _PRACTICE,
            "planed off an open face until it is flat: waves, dust, the rim that creeps up the wall",
        ),
        "glass_hours": Sourced(
            3.0, "", 2.0, 5.0, Kind.PRACTICE, _PRACTICE,
            "hours of sanding glass and resin together against resin alone, with diamond or silicon carbide",
        ),
    }
)  # fmt: skip
"""What planing and sanding are reckoned with, SI."""
SLICES = 24
"""Slices of a band; a sunk top lies in the uppermost few."""


@dataclass(frozen=True, kw_only=True)
class Contracting:
    """A resin that cures and cools, and the glass in it.

    Parameters
    ----------
    cure_shrinkage : float
        By volume, from mixed to fully cured [-].
    gel_conversion, cure_reached : float
        Cure at gel and in the end [-].
    cooling : float
        From gel down to the shop [K].
    resin_expansion, grain_expansion : float
        By length [1/K].
    resin_modulus, resin_poisson, grain_modulus, grain_poisson : float
        [Pa], [-]
    touching : float
        0 for grains apart, 1 for grains that are one body [-].
    """

    cure_shrinkage: float
    gel_conversion: float
    cure_reached: float
    cooling: float
    resin_expansion: float
    grain_expansion: float
    resin_modulus: float
    resin_poisson: float
    grain_modulus: float
    grain_poisson: float
    touching: float

    def by_volume(self, solid: float) -> float:
        """Shrinkage by volume, mixed to cured, as grains apart from each other leave it [-]."""
        return float(filled_shrinkage(self.cure_shrinkage * self._reached, solid))

    def before_gel(self, solid: float) -> float:
        """The part of it that comes before gel and sinks at the top, over the band's volume [-]."""
        return float(filled_shrinkage(self.cure_shrinkage * self.gel_conversion, solid))

    def stirred_in(self, solid: float) -> float:
        """Shrinkage by length, gel to cold, with grains apart: the volume rule [-]."""
        cured = linear_shrinkage(filled_shrinkage(self._after_gel, solid))
        cools = self.resin_expansion * (1.0 - solid) + self.grain_expansion * solid
        return float(cured) + cools * self.cooling

    def as_a_bed(self, solid: float) -> float:
        """Shrinkage by length, gel to cold, with grains that touch and stay bonded [-]."""
        return filled_contraction(
            float(linear_shrinkage(self._after_gel)) + self.resin_expansion * self.cooling,
            self.grain_expansion * self.cooling,
            solid,
            self.resin_modulus,
            self.resin_poisson,
            self.grain_modulus,
            self.grain_poisson,
            self.touching,
        )

    def gaps(self, solid: float) -> float:
        """Hairline gaps over the band's volume, where resin lets go of a bed that stays [-]."""
        if solid == 0.0:
            return 0.0
        apart = 3.0 * (self.resin_expansion - self.grain_expansion) * self.cooling
        return float(filled_shrinkage(self._after_gel + apart, solid))

    @property
    def _reached(self) -> float:
        return max(self.cure_reached, self.gel_conversion)

    @property
    def _after_gel(self) -> float:
        return float(shrinkage_between(self.cure_shrinkage, self.gel_conversion, self._reached))


def liquid_layers(bands: tuple[FillBand, ...], levels: LevelVolume) -> tuple[Array, Array]:
    """Cut bands that are poured together into layers of liquid.

    Parameters
    ----------
    bands : tuple of FillBand
        From below.
    levels : LevelVolume
        V(z) of the cavity.

    Returns
    -------
    tuple of array
        Thickness [m] and liquid [m3] of each layer, from below.
    """
    edges = [np.linspace(band.lower, band.upper, SLICES + 1) for band in bands]
    liquid = [
        np.diff(levels.volume(cut)) * band.void_fraction for cut, band in zip(edges, bands, strict=True)
    ]
    return np.concatenate([np.diff(cut) for cut in edges]), np.concatenate(liquid)


def last_poured(bands: tuple[FillBand, ...]) -> tuple[FillBand, ...]:
    """Take the topmost band, and the band under it where it is the neat cover of its glass.

    Parameters
    ----------
    bands : tuple of FillBand
        From the floor up.

    Returns
    -------
    tuple of FillBand
        As if each band were one pour, the cover poured with its band.
    """
    covered = len(bands) > 1 and bands[-1].neat and not bands[-2].neat
    return bands[-2:] if covered else bands[-1:]


def overfill_wanted(sinks: float, planed: float) -> float:
    """Say how high resin must stand over the open face.

    Parameters
    ----------
    sinks : float
        Most that the top sinks before gel [m].
    planed : float
        To plane off once it is hard [m].

    Returns
    -------
    float
        Their sum, up to the next half millimetre [m].

    Examples
    --------
    >>> print(f"{overfill_wanted(0.0014, 0.001) * 1e3:.1f} mm")
    2.5 mm
    """
    return float(np.ceil((max(sinks, 0.0) + planed) / 0.0005 - 1e-9)) * 0.0005
