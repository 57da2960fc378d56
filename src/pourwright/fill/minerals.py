"""Casting materials mixed with water: gypsum and concrete, with or without crushed glass in them."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.defaults import DEFAULTS
from pourwright.foundation.errors import UserError
from pourwright.materials.records import Mineral
from pourwright.physics.plaster import WATER_DENSITY

NO_POURS = (
    "Pours by the hour are planned for resins alone. Water, times and heat of a casting material that is "
    "mixed with water come with: pourwright fill; its data sheet decides."
)
RATIOS = {"gypsum": (0.2, 2.0), "cement": (0.2, 1.0), "": (0.05, 2.0)}
"""Water over binder that the equations hold for."""


@dataclass(frozen=True)
class Aggregate:
    """Grains stirred in: their share of the volume [-], density [kg/m3] and void fraction as they lie [-]."""

    share: float
    density: float
    void_fraction: float

    @property
    def most(self) -> float:
        """Share of the volume that they fill when they lie against each other, with no room for more [-]."""
        return 1.0 - self.void_fraction


@dataclass(frozen=True, kw_only=True)
class MineralMix:
    """What goes into one piece.

    Parameters
    ----------
    volume : float
        Of the cavity [m3].
    piece_mass : float
        As hardened and dry [kg].
    mixed, powder, water, aggregate : float
        To mix, with the allowance [kg].
    wet_density : float
        As poured, grains in it [kg/m3].
    water_ratio : float
        Water over powder by mass [-].
    binder : float
        What sets of the powder [kg]; 0 where the record does not say.
    """

    volume: float
    piece_mass: float
    mixed: float
    powder: float
    water: float
    wet_density: float
    water_ratio: float = 0.0
    aggregate: float = 0.0
    binder: float = 0.0
    warnings: tuple[str, ...] = (NO_POURS,)

    @property
    def wet_mass(self) -> float:
        """Of the piece as it comes out of the mold [kg]."""
        return self.volume * self.wet_density

    @property
    def dries_out(self) -> float:
        """Water that has to leave the piece [kg]."""
        return self.wet_mass - self.piece_mass

    @property
    def in_piece(self) -> float:
        """Share of what is mixed that is in the piece [-]; the rest is the allowance."""
        return self.wet_mass / self.mixed


def water_range(mineral: Mineral) -> tuple[float, float]:
    """Say which ratios of water to powder can be reckoned.

    Parameters
    ----------
    mineral : Mineral
        Its record.

    Returns
    -------
    tuple of float
        Least and most mass of water over that of powder [-].
    """
    share = 1.0 if mineral.binder_share is None else mineral.binder_share.value
    low, high = RATIOS[mineral.binder]
    return low * share, high * share


def paste_densities(mineral: Mineral, water_ratio: float) -> tuple[float, float]:
    """Density of powder and water as poured and once dry, for more or less water than the record has.

    Parameters
    ----------
    mineral : Mineral
        Record with both densities for its own ratio.
    water_ratio : float
        Mass of water over that of powder [-].

    Returns
    -------
    tuple of float
        [kg/m3], [kg/m3]. The volume of a kilogram of powder, and the water it binds, follow from the record.

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> wet, dry = paste_densities(load_materials().mineral["gypsum-casting"], 0.8)
    >>> print(f"{wet:.0f} wet, {dry:.0f} dry")
    1523 wet, 1005 dry
    """
    own = mineral.water_ratio.value
    powder = (1 + own) / mineral.wet_density.value - own / WATER_DENSITY
    bound = mineral.density.value * (1 + own) / mineral.wet_density.value - 1
    room = powder + water_ratio / WATER_DENSITY
    return (1 + water_ratio) / room, (1 + min(bound, water_ratio)) / room


def mix_mineral(
    volume: float,
    mineral: Mineral,
    allowance: float = DEFAULTS["allowance"].value,
    *,
    water_ratio: float | None = None,
    aggregate: Aggregate | None = None,
) -> MineralMix:
    """Reckon powder, water and grains by absolute volumes.

    Parameters
    ----------
    volume : float
        Of the cavity [m3].
    mineral : Mineral
        Record with densities and water per powder by mass.
    allowance : float
        Share mixed on top [-].
    water_ratio : float, optional
        Water over powder by mass [-]; else the record's.
    aggregate : Aggregate, optional
        Grains stirred in.

    Returns
    -------
    MineralMix
        Grains take their share of the volume, the paste the rest: powder = paste / (1 + w), water = powder w.

    Raises
    ------
    UserError
        For water that cannot be reckoned, and grains that leave no room.
    """
    ratio = mineral.water_ratio.value if water_ratio is None else water_ratio
    _refuse_water(mineral, ratio)
    grains = aggregate or Aggregate(0.0, 0.0, 0.0)
    _refuse_grains(grains)
    wet, dry = paste_densities(mineral, ratio)
    paste, mixed = 1.0 - grains.share, volume * (1 + allowance)
    powder = mixed * paste * wet / (1 + ratio)
    stone = grains.share * grains.density
    return MineralMix(
        volume=volume,
        piece_mass=volume * (paste * dry + stone),
        mixed=mixed * (paste * wet + stone),
        powder=powder,
        water=powder * ratio,
        wet_density=paste * wet + stone,
        water_ratio=ratio,
        aggregate=mixed * stone,
        binder=0.0 if mineral.binder_share is None else powder * mineral.binder_share.value,
    )


def _refuse_water(mineral: Mineral, ratio: float) -> None:
    low, high = water_range(mineral)
    if not low <= ratio <= high:
        raise UserError(
            f"{ratio:g} of water to 1 of powder cannot be reckoned for {mineral.name}",
            allowed=f"{low:g} to {high:g} by mass; its record says {mineral.water_ratio.value:g}",
            todo="write the mass of water over that of dry powder, as the bag has it",
        )


def _refuse_grains(grains: Aggregate) -> None:
    if not 0.0 <= grains.share < max(grains.most, 1e-12):
        raise UserError(
            f"grains in {grains.share:.0%} of the volume leave no room for powder and water between them",
            allowed=f"clearly less than {grains.most:.0%}, which they fill as they lie",
            todo="stir less in; 25 to 40 % still flows",
        )
