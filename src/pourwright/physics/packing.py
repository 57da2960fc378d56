"""How much room is left between grains, from a bucket of them on the scale, and what fills it."""

from dataclasses import dataclass

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Real

DENSITY = Range(0.1, 30000.0, "kg/m3")
POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)


@checked(
    bulk_density=Range(0.0, 20000.0, "kg/m3"),
    relative_density=Range(0.1, 20.0),
    water_density=Range(900.0, 1100.0, "kg/m3"),
)
def void_content(bulk_density: Real, relative_density: float, *, water_density: float = 998.0) -> Real:
    """Share of a bed of grains that is not grain.

    Parameters
    ----------
    bulk_density : mass of dry grains per volume of the bed [kg/m3], float or array
    relative_density : density of the grains over that of water [-]
    water_density : density of water that the relative density refers to [kg/m3]

    Returns
    -------
    void fraction [-]; negative where the weighing cannot be right

    Raises
    ------
    RangeError : a density out of range

    Notes
    -----
    voids = (S W - M) / (S W). The bed as it was filled: poured, rodded or jigged.

    References
    ----------
    ASTM C29/C29M [astm-c29]; formula from memory.

    Examples
    --------
    >>> print(f"{100 * void_content(1350.0, 2.5):.4f} %")
    45.8918 %
    """
    return 1 - bulk_density / (relative_density * water_density)


@dataclass(frozen=True, slots=True)
class GrainCharge:
    """What fills a volume with grains and the resin between them.

    Parameters
    ----------
    grain_mass : mass of the grains [kg]
    void_volume : volume between the grains [m3]
    resin_mass : mass of the resin that fills it [kg]
    density : density of the filled part [kg/m3]
    """

    grain_mass: float
    void_volume: float
    resin_mass: float
    density: float


@checked(volume=POSITIVE, bulk_density=NOT_NEGATIVE, grain_density=DENSITY, resin_density=DENSITY)
def grain_charge(
    volume: float, bulk_density: float, grain_density: float, resin_density: float
) -> GrainCharge:
    """Grains and resin that fill a volume, from the grains' weighed bulk density.

    Parameters
    ----------
    volume : volume to fill [m3]
    bulk_density : mass of dry grains per volume of the poured bed [kg/m3]
    grain_density : density of the grains themselves [kg/m3]
    resin_density : density of the resin [kg/m3]

    Returns
    -------
    masses [kg], volume between the grains [m3], density of the part [kg/m3]

    Raises
    ------
    RangeError : a volume not above 0, or a density out of range
    UserError : a bed denser than its grains

    Notes
    -----
    m_g = V rho_b; voids V - m_g/rho_g; m_r = voids times rho_r. No film, bucket loss or
    allowance: those are the planner's.

    References
    ----------
    Conservation of mass and volume [mixture-rule].

    Examples
    --------
    >>> charge = grain_charge(0.010, 1350.0, 2500.0, 1100.0)
    >>> print(f"{charge.grain_mass:.2f} kg of glass, {charge.resin_mass:.2f} kg of resin")
    13.50 kg of glass, 5.06 kg of resin
    """
    if bulk_density > grain_density:
        what = f"bulk density {bulk_density:g} above that of the grains, {grain_density:g} kg/m3"
        raise UserError(what, allowed=f"0 to {grain_density:g} kg/m3", todo="weigh the bed again")
    grain_mass = volume * bulk_density
    void_volume = volume - grain_mass / grain_density
    resin_mass = void_volume * resin_density
    return GrainCharge(grain_mass, void_volume, resin_mass, (grain_mass + resin_mass) / volume)
