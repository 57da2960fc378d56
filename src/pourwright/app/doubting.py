"""What is not known exactly of a job: resin, voids, shop, mix, films."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.app.defaults import DEFAULTS
from pourwright.app.setup import Setup
from pourwright.calibration import NAMES, agreed, doubts_of, member, origin_of
from pourwright.materials import Doubts, Resin
from pourwright.pour.doubt import Shifts, shifted
from pourwright.pour.site import Site

Array = NDArray[np.float64]
BAND = 2.0 * 1.2815515655446004
"""Standard deviations between the ends of a band that holds four of five."""
RESIN_GROUPS = (
    ("cure", "how fast this resin cures and how much heat it gives off", 7),
    ("hardness", "how hard it gets, and when it gels", 5),
    ("warmth", "how well it holds and conducts heat", 2),
    ("film", "how fast the mold loses its heat to the air", 1),
)
"""Name, words and number of the resin's deviates, in the order of `NAMES`."""


@dataclass(frozen=True)
class Group:
    """Deviates that one measurement in the shop would settle.

    Parameters
    ----------
    name, words : str
        Key, and the shop's words for it.
    place : slice
        Of its deviates.
    """

    name: str
    words: str
    place: slice


@dataclass(frozen=True)
class CastingDoubt:
    """A casting of which some numbers are not known exactly; `pourwright.pour.doubt.Doubt`.

    Parameters
    ----------
    likely : Site
        As planned.
    resin : Doubts
        About the resin and the films.
    origin : str
        Where these come from: "fit", "family" or "widest".
    voids : tuple of float
        Standard deviation of each bed's voids [-]; 0 for a neat bed.
    shop, mixed : float
        Standard deviation of the shop's temperature and of the mix [K].
    scale : float
        On all doubts about the resin [-].
    """

    likely: Site
    resin: Doubts
    origin: str
    voids: tuple[float, ...]
    shop: float
    mixed: float
    scale: float = 1.0

    @cached_property
    def filled(self) -> tuple[int, ...]:
        """Beds whose voids are in doubt."""
        return tuple(number for number, deviation in enumerate(self.voids) if deviation > 0.0)

    @property
    def size(self) -> int:
        """Number of deviates: the resin's, one for each filled bed, shop, mix."""
        return len(NAMES) + len(self.filled) + 2

    @cached_property
    def named(self) -> tuple[Group, ...]:
        """Groups with their names, in the order of the deviates."""
        return tuple(self._named())

    @property
    def groups(self) -> Sequence[slice]:
        """Deviates that belong together."""
        return [group.place for group in self.named]

    def _named(self) -> Iterator[Group]:
        begin = 0
        sizes = [*RESIN_GROUPS, ("voids", "how the glass packs: resin against glass", len(self.filled))]
        for name, words, count in (
            *sizes,
            ("shop", "the shop's temperature", 1),
            ("mixed", "how warm it is mixed", 1),
        ):
            if count:
                yield Group(name, words, slice(begin, begin + count))
            begin += count

    def site(self, deviates: Array) -> Site:
        """The casting as one draw has it; zeros are the casting as planned."""
        own, rest = np.asarray(deviates[: len(NAMES)]), deviates[len(NAMES) :]
        one = member(self.likely.resin, self.scale * own, self.resin)
        voids = np.zeros(len(self.voids))
        voids[list(self.filled)] = [self.voids[bed] * rest[place] for place, bed in enumerate(self.filled)]
        moved = Shifts(self.shop * rest[-2], self.mixed * rest[-1], tuple(voids.tolist()), one.film)
        return shifted(replace(self.likely, resin=one.resin), moved)

    def about(self, site: Site) -> CastingDoubt:
        """The same doubts about another casting."""
        return replace(self, likely=site)


def doubt_of(setup: Setup, likely: Site) -> CastingDoubt:
    """Say what is not known exactly of a job.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    likely : Site
        As planned.

    Returns
    -------
    CastingDoubt
        A resin with a fit of its own has the doubts of that fit, any other those of its family.
    """
    resin, origin = _about(setup.resin)
    voids = tuple(0.0 if band.neat else (band.void_high - band.void_low) / BAND for band in setup.fill.bands)
    return CastingDoubt(
        likely, resin, origin, voids, DEFAULTS["shop_deviation"].value, DEFAULTS["mixed_deviation"].value
    )


def resined(doubt: CastingDoubt, resin: Resin) -> CastingDoubt:
    """Say what is not known exactly where another resin is cast.

    Parameters
    ----------
    doubt : CastingDoubt
        With the job's own resin.
    resin : Resin
        The other one.

    Returns
    -------
    CastingDoubt
        Voids, shop and mix as before.
    """
    own, origin = _about(resin)
    return replace(doubt, likely=replace(doubt.likely, resin=resin), resin=own, origin=origin)


def _about(resin: Resin) -> tuple[Doubts, str]:
    doubts, origin = doubts_of(resin), origin_of(resin)
    return (agreed(doubts, resin.density.value) if origin == "family" else doubts), origin
