"""How far a poured bed of glass settles by itself, and how far it sinks where the mold is tapped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pourwright.fill.choices import FillChoices
from pourwright.fill.defaults import DEFAULTS, LOWEST_VOID
from pourwright.fill.parts import FillBand
from pourwright.geometry.levels import LevelVolume


@dataclass(frozen=True, kw_only=True)
class Tapping:
    """What tapping would do to one band.

    Parameters
    ----------
    band : FillBand
        As it was weighed.
    already : bool
        Whether it is weighed as tapped: then nothing moves.
    void_fraction : float
        Once tapped [-].
    settles, sinks, sinks_least, sinks_most : float
        By itself, tapped, in the least and in the most likely case [m].
    more_glass : float
        To come up to its height again [kg].
    border : float
        Its upper border where all glass under it is tapped too [m].
    """

    band: FillBand
    already: bool
    void_fraction: float
    settles: float
    sinks: float
    sinks_least: float
    sinks_most: float
    more_glass: float
    border: float


def tapping_of(bands: Sequence[FillBand], levels: LevelVolume, choices: FillChoices) -> Iterator[Tapping]:
    """Tap every bed of glass.

    Parameters
    ----------
    bands : sequence of FillBand
        From the floor up; neat ones have gelled and stand firm.
    levels : LevelVolume
        V(z) of the cavity.
    choices : FillChoices
        Which bands are tapped already, and the glass.

    Yields
    ------
    Tapping
        For every band with glass.
    """
    least, likely, most = closer_by()
    filled = float(levels.volume(levels.bottom))
    for number, band in enumerate(bands):
        if band.neat:
            filled = float(levels.volume(band.upper))
            continue
        already = choices.bands[number].tapped
        solid = 1.0 - band.void_fraction
        tapped = solid if already else _closer(solid, likely)
        filled += band.volume * solid / tapped
        sinks = [
            0.0 if already else _sinks(band, levels, _closer(solid, times)) for times in (least, likely, most)
        ]
        yield Tapping(
            band=band,
            already=already,
            void_fraction=1.0 - tapped,
            settles=DEFAULTS["settles"].value * sinks[1],
            sinks=sinks[1],
            sinks_least=sinks[0],
            sinks_most=sinks[2],
            more_glass=band.volume * (tapped - solid) * choices.glass.density.value,
            border=float(levels.height(filled)),
        )


def closer_by() -> tuple[float, float, float]:
    """How many times as much glass a tapped bed holds as a poured one: least, likely, most [-].

    Returns
    -------
    tuple of float

    Examples
    --------
    >>> [round(times, 3) for times in closer_by()]
    [1.036, 1.082, 1.127]
    """
    poured, tapped = 1.0 - DEFAULTS["void_fraction"].value, DEFAULTS["tapped"]
    assert tapped.low is not None  # the table gives both ends
    assert tapped.high is not None
    return (1.0 - tapped.high) / poured, (1.0 - tapped.value) / poured, (1.0 - tapped.low) / poured


def _closer(solid: float, times: float) -> float:
    return max(min(solid * times, 1.0 - LOWEST_VOID), solid)


def _sinks(band: FillBand, levels: LevelVolume, tapped: float) -> float:
    """How far its top sinks on a floor that stands firm [m]."""
    left = band.volume * (1.0 - band.void_fraction) / tapped
    return band.upper - float(levels.height(float(levels.volume(band.lower)) + left))
