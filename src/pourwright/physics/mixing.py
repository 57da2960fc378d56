"""What a mix weighs, holds of heat, and is made of, by weight and by volume."""

from collections.abc import Sequence

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Real

FRACTION = Range(0.0, 1.0)
DENSITY = Range(0.1, 30000.0, "kg/m3")
POSITIVE = Range(0.0, open_low=True)


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
