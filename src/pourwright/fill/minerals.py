"""Casting materials mixed with water: gypsum and concrete."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.defaults import DEFAULTS
from pourwright.materials.records import Mineral

NO_HEAT_RUN = (
    "The heat run is made for resins; for a casting material mixed with water no temperatures, "
    "pours or demold time are computed. Follow its data sheet."
)


@dataclass(frozen=True, kw_only=True)
class MineralMix:
    """Powder and water for one piece.

    Parameters
    ----------
    volume : float
        Of the cavity [m3].
    piece_mass : float
        As hardened and dry [kg].
    mixed, powder, water : float
        To mix, with the allowance [kg].
    wet_density : float
        As poured [kg/m3].
    """

    volume: float
    piece_mass: float
    mixed: float
    powder: float
    water: float
    wet_density: float
    warnings: tuple[str, ...] = (NO_HEAT_RUN,)


def mix_mineral(
    volume: float, mineral: Mineral, allowance: float = DEFAULTS["allowance"].value
) -> MineralMix:
    """Reckon powder and water.

    Parameters
    ----------
    volume : float
        Of the cavity [m3].
    mineral : Mineral
        Record with densities and water per powder by mass.
    allowance : float
        Share mixed on top [-].

    Returns
    -------
    MineralMix
        powder = mixed / (1 + w), water = powder * w.
    """
    mixed = volume * mineral.wet_density.value * (1 + allowance)
    powder = mixed / (1 + mineral.water_ratio.value)
    return MineralMix(
        volume=volume,
        piece_mass=volume * mineral.density.value,
        mixed=mixed,
        powder=powder,
        water=powder * mineral.water_ratio.value,
        wet_density=mineral.wet_density.value,
    )
