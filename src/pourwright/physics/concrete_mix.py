"""A concrete by absolute volumes: what sand has to fill once all else is in."""

from __future__ import annotations

from typing import NamedTuple

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError

DENSITY = Range(500.0, 8000.0, "kg/m3")


class ConcreteMix(NamedTuple):
    """Masses in one cubic metre of concrete as placed [kg/m3]."""

    cement: float
    water: float
    coarse: float
    sand: float

    @property
    def fresh(self) -> float:
        """Density as placed [kg/m3]."""
        return sum(self)


@checked(
    water=Range(50.0, 400.0, "kg/m3"),
    water_ratio=Range(0.2, 1.0),
    coarse_bulk=Range(0.0, 0.95),
    coarse_rodded=DENSITY,
    air=Range(0.0, 0.15),
    cement_density=DENSITY,
    coarse_density=DENSITY,
    sand_density=DENSITY,
    water_density=Range(900.0, 1100.0, "kg/m3"),
)
def mix_by_absolute_volume(
    water: float,
    water_ratio: float,
    *,
    coarse_bulk: float,
    coarse_rodded: float,
    air: float,
    cement_density: float = 3150.0,
    coarse_density: float = 2500.0,
    sand_density: float = 2650.0,
    water_density: float = 1000.0,
) -> ConcreteMix:
    """Reckon one cubic metre of concrete.

    Parameters
    ----------
    water : mixing water [kg/m3]
    water_ratio : water over cement by mass [-]
    coarse_bulk : volume of the coarse aggregate as it lies dry and rodded, per volume of concrete [-]
    coarse_rodded : its density as it lies dry and rodded [kg/m3]
    air : share of air [-]
    cement_density, coarse_density, sand_density, water_density : of the grains and the water [kg/m3]

    Returns
    -------
    ConcreteMix

    Raises
    ------
    RangeError : an argument out of range
    UserError : where nothing is left for sand

    Notes
    -----
    cement = water / ratio, coarse = bulk share x rodded density, sand = what is left of the volume. With
    crushed glass for the coarse: alkalis of the cement attack it over years, where it is damp.

    References
    ----------
    ACI 211.1 as worked in a US Navy training course, NAVEDTRA 14070 [aci-211] (citation from memory).

    Examples
    --------
    >>> mix = mix_by_absolute_volume(181.0, 0.5, coarse_bulk=0.63, coarse_rodded=1634.0, air=0.05)
    >>> print(f"{mix.cement:.0f} cement, {mix.coarse:.0f} coarse, {mix.sand:.0f} sand")
    362 cement, 1029 coarse, 642 sand
    """
    cement, coarse = water / water_ratio, coarse_bulk * coarse_rodded
    taken = water / water_density + cement / cement_density + coarse / coarse_density + air
    if taken >= 1.0:
        raise UserError(
            f"water, cement, coarse grains and air take {taken:.2f} of the volume",
            allowed="less than 1",
            todo="take less of the coarse aggregate",
        )
    return ConcreteMix(cement, water, coarse, (1.0 - taken) * sand_density)
