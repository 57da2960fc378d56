"""What is not known exactly of a casting: any draw of it is a casting of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.site import Bed, Site

Array = NDArray[np.float64]
LOOSEST, DENSEST = 0.15, 0.75
"""Solid shares that no draw leaves [-]: beyond them grains neither touch nor pack."""


class Doubt(Protocol):
    """A casting of which some numbers are not known exactly."""

    @property
    def groups(self) -> Sequence[slice]:
        """Deviates that belong together, such as those of a resin's cure, in their order."""
        ...

    @property
    def size(self) -> int:
        """Number of deviates."""
        ...

    def site(self, deviates: Array) -> Site:
        """The casting as one draw has it.

        Parameters
        ----------
        deviates : array (size,)
            Independent, each of a standard normal distribution; zeros are the casting as planned.
        """
        ...

    def about(self, site: Site) -> Doubt:
        """The same doubts about another casting."""
        ...


@dataclass(frozen=True)
class Shifts:
    """How one draw differs from the casting as planned, the resin apart.

    Parameters
    ----------
    shop, mixed : float
        The shop, and the resin as poured, warmer by so much [K].
    voids : tuple of float
        More voids in each bed [-].
    film_factor : float
        On every film coefficient [-].
    """

    shop: float = 0.0
    mixed: float = 0.0
    voids: tuple[float, ...] = ()
    film_factor: float = 1.0


def shifted(site: Site, shifts: Shifts) -> Site:
    """Move what is not the resin's own.

    Parameters
    ----------
    site : Site
        As planned.
    shifts : Shifts
        Of one draw.

    Returns
    -------
    Site
        Beds of neat resin stay neat; no bed gets looser or denser than grains can lie.
    """
    beds = tuple(_looser(bed, more) for bed, more in zip(site.beds, shifts.voids, strict=True))
    own = site.resin_temperature
    return replace(
        site,
        climate=site.climate.shifted(shifts.shop),
        resin_temperature=None if own is None else own + shifts.mixed,
        resin_warmer=site.resin_warmer + shifts.mixed,
        beds=beds,
        film_factor=site.film_factor * shifts.film_factor,
    )


def _looser(bed: Bed, more: float) -> Bed:
    if bed.solid_fraction == 0.0:
        return bed
    return replace(bed, solid_fraction=float(np.clip(bed.solid_fraction - more, LOOSEST, DENSEST)))
