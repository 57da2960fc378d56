"""How long a piece of gypsum or concrete takes to dry, once it is out of the mold."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.mineral_defaults import MINERALS
from pourwright.physics.drying import diffusion_time, evaporation


@dataclass(frozen=True)
class Drying:
    """How long it takes.

    Parameters
    ----------
    water : float
        That has to leave [kg].
    soonest, latest : float or None
        Time until a twentieth of it is left [s]; None where the air takes none.
    first_day : float
        Water that leaves on the first day [kg].
    """

    water: float
    soonest: float | None
    latest: float | None
    first_day: float


def drying(
    water: float,
    volume: float,
    area: float,
    size: tuple[float, float, float],
    binder: str,
    air: tuple[float, float],
) -> Drying:
    """Reckon how long a piece takes to dry on all its faces.

    Parameters
    ----------
    water : float
        That has to leave [kg].
    volume, area : float
        Of the piece [m3], [m2].
    size : tuple of float
        Its outer sizes [m].
    binder : str
        "gypsum" or "cement".
    air : tuple of float
        Its temperature [K] and relative humidity [-].

    Returns
    -------
    Drying
        Soonest: the slower of what the air takes off a face that stays wet, and diffusion from the mean depth
        V/A. Latest: both one after the other, the diffusion that of a block as large as the piece's outer
        sizes.

    Examples
    --------
    >>> tile = drying(1.0, 0.0024, 0.20, (0.31, 0.31, 0.025), "gypsum", (293.15, 0.5))
    >>> print(f"{tile.soonest / 86400:.1f} to {tile.latest / 86400:.1f} days")
    4.0 to 4.8 days
    """
    left = MINERALS["left_wet"].value
    moisture = MINERALS[f"{binder}_moisture"].value
    taken = evaporation(*air, MINERALS["still_air"].value, MINERALS["room_radiation"].value) * area
    if taken <= 0.0:
        return Drying(water, None, None, 0.0)
    off_the_face = (1.0 - left) * water / taken
    block = diffusion_time([side / 2 for side in size], moisture, left)
    mean = min(diffusion_time([volume / area], moisture, left), block)
    return Drying(water, max(off_the_face, mean), off_the_face + block, min(taken * 86400.0, water))
