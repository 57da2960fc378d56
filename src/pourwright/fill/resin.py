"""Where the resin goes between two heights."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.fill.choices import FillChoices
from pourwright.fill.parts import FillBand, ResinLedger
from pourwright.fill.wetted import WettedArea
from pourwright.geometry.levels import LevelVolume

_TOUCH = 1e-9


def ledger_between(
    bands: Sequence[FillBand],
    levels: LevelVolume,
    wetted: WettedArea,
    choices: FillChoices,
    lower: float,
    upper: float,
) -> ResinLedger:
    """Reckon the resin of one height range.

    Parameters
    ----------
    bands : sequence of FillBand
        The fill, from the floor up.
    levels : LevelVolume
        V(z) of the cavity.
    wetted : WettedArea
        Mold face by height.
    choices : FillChoices
        Film, pail loss, allowance, overfill.
    lower, upper : float
        Heights from the mold's floor as cast [m].

    Returns
    -------
    ResinLedger
        Masses [kg]; additive over ranges that follow each other.

    Notes
    -----
    film = face area * film * density; over the open face = its area * depth * density, in the range that
    ends at the top; into the mold M = voids + neat + film + overfill;
    allowance = M * a; pail = (M + allowance) * b / (1 - b).
    """
    density = choices.resin.density.value
    voids = neat = 0.0
    for band in bands:
        mass = density * band.void_fraction * _overlap(band, levels, lower, upper)
        voids, neat = (voids, neat + mass) if band.neat else (voids + mass, neat)
    low, high = max(lower, levels.bottom), min(upper, levels.top)
    film = density * choices.film * wetted.between(low, high) if high > low else 0.0
    overfill = density * choices.overfill * _face(levels) if low < levels.top <= upper + _TOUCH else 0.0
    into_mold = voids + neat + film + overfill
    allowance = into_mold * choices.allowance
    bucket = (into_mold + allowance) * choices.bucket_loss / (1 - choices.bucket_loss)
    return ResinLedger(
        voids=voids, neat=neat, film=film, bucket=bucket, allowance=allowance, overfill=overfill
    )


def _face(levels: LevelVolume) -> float:
    """Area of the open face [m2]."""
    return float(levels.area(levels.top, below=True))


def _overlap(band: FillBand, levels: LevelVolume, lower: float, upper: float) -> float:
    low, high = max(lower, band.lower), min(upper, band.upper)
    if high <= low:
        return 0.0
    if (low, high) == (band.lower, band.upper):
        return band.volume
    return float(levels.volume(high)) - float(levels.volume(low))
