"""Borders over which the glass of two bands is mixed half and half."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scipy.optimize import brentq

from pourwright.fill.choices import BandChoice, FillChoices
from pourwright.fill.parts import FillBand
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_length
from pourwright.geometry.levels import LevelVolume
from pourwright.materials.blends import with_blends


@dataclass(frozen=True, kw_only=True)
class SoftZone:
    """Where two bands are mixed: half of its room is filled with the glass of each.

    Parameters
    ----------
    below, above : FillBand
        The two bands; what is mixed is held back from what they were weighed with.
    lower, upper : float
        Heights [m].
    volume : float
        Between them [m3]; as much of it lies under the border as over it.
    closes : float
        How far it sinks because grains of two sizes lie closer mixed [m]; 0 for one grade.
    """

    below: FillBand
    above: FillBand
    lower: float
    upper: float
    volume: float
    closes: float

    @property
    def glass_below(self) -> float:
        """To hold back from the lower band [kg]."""
        return 0.5 * self.volume * self.below.glass_mass / self.below.volume

    @property
    def glass_above(self) -> float:
        """To hold back from the upper band [kg]."""
        return 0.5 * self.volume * self.above.glass_mass / self.above.volume


def soft_zones(bands: Sequence[FillBand], levels: LevelVolume, choices: FillChoices) -> tuple[SoftZone, ...]:
    """Lay the soft borders.

    Parameters
    ----------
    bands : sequence of FillBand
        As laid, a neat cover last.
    levels : LevelVolume
        V(z) of the cavity.
    choices : FillChoices
        With the depth of each soft border.

    Returns
    -------
    tuple of SoftZone
        From the floor up.

    Raises
    ------
    UserError
        Under or over a neat band, at the top, beside a shell of colour, or deeper than half of either band.
    """
    return tuple(_zones(bands, levels, choices))


def _zones(bands: Sequence[FillBand], levels: LevelVolume, choices: FillChoices) -> Iterator[SoftZone]:
    for number, band in enumerate(choices.bands):
        if band.soft is None:
            continue
        below = bands[number]
        above = bands[number + 1] if number + 1 < len(bands) else None
        if above is None or above.neat or below.neat or below.shell or above.shell:
            raise _no_glass_beside(band, below, above)
        _refuse_deep(band, below, above, choices)
        yield _zone(band.soft, below, above, levels, choices)


def _no_glass_beside(band: BandChoice, below: FillBand, above: FillBand | None) -> UserError:
    if above is None:
        came = f"{below.name} has a soft border and nothing lies on it"
    elif below.neat or above.neat:
        came = f"{below.name} has a soft border against neat resin"
    else:
        came = f"{below.name} has a soft border beside a shell of colour"
    return UserError(
        came,
        where=band.soft_where or band.where,
        allowed="soft between two bands of glass without a shell",
        todo="leave soft out: the border is then sharp",
    )


def _refuse_deep(band: BandChoice, below: FillBand, above: FillBand, choices: FillChoices) -> None:
    thinner = min((below, above), key=lambda each: each.upper - each.lower)
    most = 0.5 * (thinner.upper - thinner.lower)
    assert band.soft is not None  # the caller asks for soft borders only
    if not 0.0 < band.soft <= most * (1 + 1e-9):
        raise UserError(
            f"a soft border of {format_length(band.soft, choices.units)} on {below.name}",
            where=band.soft_where or band.where,
            allowed=f"above 0, up to {format_length(most, choices.units)}, half of {thinner.name}",
            todo="make it thinner, or leave soft out for a sharp border",
        )


def _zone(
    depth: float, below: FillBand, above: FillBand, levels: LevelVolume, choices: FillChoices
) -> SoftZone:
    lower = below.upper - _under(depth, below.upper, levels)
    first, last = float(levels.volume(lower)), float(levels.volume(lower + depth))
    closes = 0.0
    if below.grade != above.grade and not below.blend and not above.blend:
        closes = lower + depth - float(levels.height(first + (last - first) / _closer(below, above, choices)))
    return SoftZone(
        below=below, above=above, lower=lower, upper=lower + depth, volume=last - first, closes=closes
    )


def _under(depth: float, border: float, levels: LevelVolume) -> float:
    """How much of the depth lies under the border, for as much room under it as over it."""
    middle = float(levels.volume(border))

    def over(under: float) -> float:
        low, high = border - under, border - under + depth
        return 2.0 * middle - float(levels.volume(low)) - float(levels.volume(high))

    return float(brentq(over, 0.0, depth, xtol=1e-12))


def _closer(below: FillBand, above: FillBand, choices: FillChoices) -> float:
    """How many times as much glass a mix of two grades holds as the two side by side [-]."""
    assert below.grade is not None  # soft borders lie between bands of glass
    assert above.grade is not None
    solids = [1.0 - each.void_fraction for each in (below, above)]
    shares = [solid / sum(solids) for solid in solids]
    blend = ((below.grade, shares[0]), (above.grade, shares[1]))
    voids = {each.id: each.void_fraction.value for each in with_blends(choices.glass, [blend]).grades}
    mixed = next(void for name, void in voids.items() if name not in {g.id for g in choices.glass.grades})
    apart = 1.0 / sum(share / (1.0 - voids[name]) for name, share in blend)
    return max((1.0 - mixed) / apart, 1.0)
