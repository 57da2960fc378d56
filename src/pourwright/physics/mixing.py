"""What a mix weighs, holds of heat, and is made of, by weight and by volume."""

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Real

FRACTION = Range(0.0, 1.0)
DENSITY = Range(0.1, 30000.0, "kg/m3")
POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)


@checked(particle_fraction=FRACTION, matrix=POSITIVE, particle=POSITIVE)
def volume_average(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Property per volume of a resin filled with grains: density, or heat capacity per volume.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : the property of the resin, per volume [kg/m3] or [J/(m3 K)]
    particle : the property of the grains, per volume [kg/m3] or [J/(m3 K)]

    Returns
    -------
    property of the mix, per volume

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a property not above 0

    Notes
    -----
    x = (1 - phi) x_m + phi x_p. Exact where volumes add up and no voids are left.

    References
    ----------
    Conservation of mass and heat [mixture-rule].

    Examples
    --------
    >>> print(f"{volume_average(0.55, 1100.0, 2500.0):.0f} kg/m3")
    1870 kg/m3
    """
    return (1 - particle_fraction) * matrix + particle_fraction * particle


@checked(particle_fraction=FRACTION, matrix_density=DENSITY, particle_density=DENSITY)
def filled_heat_capacity(
    particle_fraction: Real,
    matrix_density: float,
    matrix_heat_capacity: float,
    particle_density: float,
    particle_heat_capacity: float,
) -> Real:
    """Specific heat capacity of a resin filled with grains.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix_density, particle_density : densities of resin and grains [kg/m3]
    matrix_heat_capacity, particle_heat_capacity : specific heat capacities [J/(kg K)]

    Returns
    -------
    specific heat capacity of the mix [J/(kg K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a density out of range

    Notes
    -----
    c = (rho c of the mix) / (rho of the mix), both by volume.

    References
    ----------
    Conservation of mass and heat [mixture-rule].

    Examples
    --------
    >>> print(f"{filled_heat_capacity(0.55, 1100.0, 1800.0, 2500.0, 840.0):.2f} J/(kg K)")
    1094.12 J/(kg K)
    """
    matrix = matrix_density * matrix_heat_capacity
    particle = particle_density * particle_heat_capacity
    held = volume_average(particle_fraction, matrix, particle)
    return held / volume_average(particle_fraction, matrix_density, particle_density)


def blend_density(parts: Sequence[float], densities: Sequence[float]) -> float:
    """Density of a blend given by weight.

    Parameters
    ----------
    parts : parts by weight [-] or masses [kg], one per component
    densities : densities [kg/m3], in the same order

    Returns
    -------
    density of the blend [kg/m3]

    Raises
    ------
    UserError : lists of different length, or a part or density that is not above 0

    Notes
    -----
    rho = sum(m) / sum(m / rho). Valid where volumes add up.

    References
    ----------
    Conservation of mass and volume [mixture-rule].

    Examples
    --------
    >>> print(f"{blend_density([100, 30], [1150, 950]):.2f} kg/m3")
    1096.72 kg/m3
    """
    return sum(parts) / sum(_volumes(parts, densities))


def parts_by_volume(parts: Sequence[float], densities: Sequence[float]) -> tuple[float, ...]:
    """Parts by volume per 100 of the first component, from parts by weight.

    Parameters
    ----------
    parts : parts by weight [-], one per component
    densities : densities [kg/m3], in the same order

    Returns
    -------
    parts by volume [-]; the first is 100

    Raises
    ------
    UserError : lists of different length, or a part or density that is not above 0

    Notes
    -----
    v_i = 100 (m_i/rho_i) / (m_1/rho_1).

    References
    ----------
    Conservation of mass and volume [mixture-rule].

    Examples
    --------
    >>> print("{:.1f} : {:.4f}".format(*parts_by_volume([100, 30], [1150, 950])))
    100.0 : 36.3158
    """
    volumes = _volumes(parts, densities)
    return tuple(100 * volume / volumes[0] for volume in volumes)


def _volumes(parts: Sequence[float], densities: Sequence[float]) -> list[float]:
    if not parts or len(parts) != len(densities) or min(*parts, *densities) <= 0:
        what = f"{len(parts)} parts and {len(densities)} densities"
        raise UserError(what, allowed="one density for each part, all above 0")
    return [part / density for part, density in zip(parts, densities, strict=True)]


@checked(mass_fraction=FRACTION, particle_density=DENSITY, matrix_density=DENSITY)
def volume_fraction(mass_fraction: Real, particle_density: float, matrix_density: float) -> Real:
    """Share of the volume that grains take which are a share of the weight.

    Parameters
    ----------
    mass_fraction : mass of grains over mass of the mix [-], 0 to 1, float or array
    particle_density : density of the grains [kg/m3]
    matrix_density : density of the resin [kg/m3]

    Returns
    -------
    volume fraction of the grains [-]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a density out of range

    Notes
    -----
    phi = (w/rho_p) / (w/rho_p + (1 - w)/rho_m). Valid where no voids are left.

    References
    ----------
    Conservation of mass and volume [mixture-rule].

    Examples
    --------
    >>> print(f"{volume_fraction(0.7, 2500.0, 1100.0):.6f}")
    0.506579
    """
    grains = mass_fraction / particle_density
    return grains / (grains + (1 - mass_fraction) / matrix_density)


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
