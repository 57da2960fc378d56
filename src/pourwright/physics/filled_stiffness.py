"""How stiff a resin with grains in it is, at least."""

from pourwright.foundation.checks import Range, checked

MODULUS = Range(1e3, 1e13, "Pa")
POISSON = Range(0.0, 0.5, open_high=True)


@checked(
    particle_fraction=Range(0.0, 1.0, open_high=True),
    matrix=MODULUS,
    matrix_poisson=POISSON,
    grain=MODULUS,
    grain_poisson=POISSON,
)
def least_stiffness(
    particle_fraction: float, matrix: float, matrix_poisson: float, grain: float, grain_poisson: float
) -> float:
    """Least Young's modulus of a resin with stiffer grains bonded in it.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to below 1
    matrix, grain : Young's modulus [Pa], the grain's the larger
    matrix_poisson, grain_poisson : Poisson's ratio [-], 0 to below 0.5

    Returns
    -------
    Young's modulus of the mix [Pa]

    Raises
    ------
    RangeError : a share, modulus or ratio out of range

    Notes
    -----
    Lower bounds of bulk and shear modulus; E = 9 K G/(3 K + G). Grains that touch make it stiffer.

    References
    ----------
    Hashin & Shtrikman, J. Mech. Phys. Solids 11 (1963) 127 [hashin-shtrikman-1963].

    Examples
    --------
    >>> print(f"{least_stiffness(0.55, 2.8e9, 0.37, 70e9, 0.2) / 1e9:.2f} GPa")
    8.85 GPa
    """
    bulk, shear = _bulk_and_shear(matrix, matrix_poisson)
    more_bulk, more_shear = _bulk_and_shear(grain, grain_poisson)
    left = 1 - particle_fraction
    harder = 6 * (bulk + 2 * shear) / (5 * shear * (3 * bulk + 4 * shear))
    if particle_fraction > 0:
        bulk_gain = particle_fraction / (1 / (more_bulk - bulk) + 3 * left / (3 * bulk + 4 * shear))
        shear_gain = particle_fraction / (1 / (more_shear - shear) + left * harder)
        bulk, shear = bulk + bulk_gain, shear + shear_gain
    return 9 * bulk * shear / (3 * bulk + shear)


def _bulk_and_shear(modulus: float, poisson: float) -> tuple[float, float]:
    return modulus / (3 * (1 - 2 * poisson)), modulus / (2 * (1 + poisson))
