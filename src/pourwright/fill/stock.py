"""Glass that lies ready against what the bands want: what is missing, where a band ends, what to mix in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pourwright.fill.choices import FillChoices
from pourwright.fill.parts import FillBand
from pourwright.foundation.errors import UserError
from pourwright.geometry.levels import LevelVolume

_LEAST = 1e-6
"""Less than this is missing by rounding only [kg]."""
Lot = tuple[str, str | None]
"""Grade and colour."""


@dataclass(frozen=True, kw_only=True)
class Missing:
    """Glass of one grade and colour that a band wants and the stock does not hold.

    Parameters
    ----------
    band : FillBand
        That runs short.
    grade : str
        Of the glass.
    colour : str or None
        None where any will do.
    wanted, there : float
        Of the band; of it in stock, what lower bands took is gone [kg].
    ends_at : float or None
        Upper height of what the stock fills [m]; None where a shell of colour makes it no level.
    mix_in : str or None
        Another colour of the same grade of which enough is left over to make up for it.
    """

    band: FillBand
    grade: str
    colour: str | None
    wanted: float
    there: float
    ends_at: float | None
    mix_in: str | None = None

    @property
    def missing(self) -> float:
        """What is missing [kg]."""
        return self.wanted - self.there

    @property
    def share(self) -> float:
        """What is missing of what the band wants of it [-]."""
        return self.missing / self.wanted


@dataclass(frozen=True)
class Allotted:
    """The stock as the bands use it up, from the mold's floor.

    Parameters
    ----------
    missing : tuple of Missing
        In the order of the bands.
    left : tuple of (str, str or None, float)
        Grade, colour and mass [kg] that no band wants, in the order of the stock.
    """

    missing: tuple[Missing, ...]
    left: tuple[tuple[str, str | None, float], ...]


def refuse_colours_not_in_stock(choices: FillChoices) -> None:
    """Refuse a band of a colour that a stock does not hold.

    Parameters
    ----------
    choices : FillChoices
        Bands and stock; an empty stock refuses nothing.

    Raises
    ------
    UserError
        With the line of the colour, and what there is. A colour that bottles or the trade give is fine.
    """
    if not choices.stock:
        return
    there = {each.colour for each in choices.stock} | choices.bought | set(choices.bottle_masses)
    for band in choices.bands:
        asked = [(band.colour, band.colour_where)]
        asked += [] if band.shell is None else [(band.shell.colour, band.shell.colour_where)]
        for colour, where in asked:
            if colour is not None and colour not in there:
                raise UserError(
                    f"no {colour} glass lies in stock",
                    where=where or band.where,
                    allowed=", ".join(dict.fromkeys(each.colour or "any" for each in choices.stock)),
                    todo=f'take one of them, or add a [[fill.stock]] with colour = "{colour}"',
                )


def allotted(bands: Sequence[FillBand], levels: LevelVolume, choices: FillChoices) -> Allotted:
    """Use the stock up from the mold's floor.

    Parameters
    ----------
    bands : sequence of FillBand
        From the floor up.
    levels : LevelVolume
        V(z) of the cavity.
    choices : FillChoices
        With the stock.

    Returns
    -------
    Allotted
        What is left over is mixed in where it reaches, the lowest band first.
    """
    left: dict[Lot, float] = {}
    for each in choices.stock:
        left[each.grade, each.colour] = left.get((each.grade, each.colour), 0.0) + each.mass
    missing = [one for band in bands for one in _missing(band, left, levels)]
    over = tuple((grade, colour, mass) for (grade, colour), mass in left.items() if mass > _LEAST)
    return Allotted(tuple(_mixed_in(one, left) for one in missing), over)


def _missing(band: FillBand, left: dict[Lot, float], levels: LevelVolume) -> Iterator[Missing]:
    taken = [(grade, colour, mass, _take(left, grade, colour, mass)) for grade, colour, mass in band.lots]
    reach = min((there / mass for _, _, mass, there in taken if mass > 0.0), default=1.0)
    below = float(levels.volume(band.lower))
    ends = float(levels.height(below + reach * band.volume)) if band.shell is None else None
    for grade, colour, mass, there in taken:
        if mass - there > _LEAST:
            yield Missing(band=band, grade=grade, colour=colour, wanted=mass, there=there, ends_at=ends)


def _take(left: dict[Lot, float], grade: str, colour: str | None, mass: float) -> float:
    """Take glass out of the stock; a band of any colour takes what comes first."""
    wanted = mass
    for lot, there in left.items():
        if lot[0] == grade and colour in {None, lot[1]}:
            part = min(there, wanted)
            left[lot] = there - part
            wanted -= part
    return mass - wanted


def _mixed_in(one: Missing, left: dict[Lot, float]) -> Missing:
    """Of all colours that reach, the one of which most is left."""
    enough = [lot for lot in left if lot[0] == one.grade and lot[1] and left[lot] >= one.missing - _LEAST]
    if not enough or one.colour is None:
        return one
    most = max(enough, key=lambda lot: left[lot])
    left[most] -= one.missing
    return replace(one, mix_in=most[1])
