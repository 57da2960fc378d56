"""How much a resin with grains in it contracts, between grains apart and grains that are one body."""

from pourwright.foundation.checks import Range, checked

MODULUS = Range(1e3, 1e13, "Pa")
POISSON = Range(0.0, 0.5, open_high=True)
STRAIN = Range(-0.5, 0.5)


@checked(
    resin=STRAIN,
    grains=STRAIN,
    particle_fraction=Range(0.0, 1.0),
    matrix=MODULUS,
    matrix_poisson=POISSON,
    grain=MODULUS,
    grain_poisson=POISSON,
    touching=Range(0.0, 1.0),
)
def filled_contraction(
    resin: float,
    grains: float,
    particle_fraction: float,
    matrix: float,
    matrix_poisson: float,
    grain: float,
    grain_poisson: float,
    touching: float,
) -> float:
    """Contraction by length of a resin with stiffer grains bonded in it.

    Parameters
    ----------
    resin, grains : contraction by length of either alone [-]
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1
    matrix, grain : Young's modulus [Pa], the grain's the larger
    matrix_poisson, grain_poisson : Poisson's ratio [-], 0 to below 0.5
    touching : 0 for grains apart in resin, 1 for grains that are one body with resin in its pores [-]

    Returns
    -------
    contraction by length [-]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    s = s_g + (s_r - s_g) (1/K - 1/K_g)/(1/K_r - 1/K_g), exact for the bulk modulus K of the mix. K lies
    between its lower bound, grains apart, and its upper one; ``touching`` runs from the one contraction to
    the other. Elastic and bonded: resin that lets go of the glass takes less of the bed with it.

    References
    ----------
    Levin, Mech. Solids 2 (1967) 58 [levin-1967]; Schapery, J. Compos. Mater. 2 (1968) 380 [schapery-1968];
    bounds: Hashin & Shtrikman, J. Mech. Phys. Solids 11 (1963) 127 [hashin-shtrikman-1963].

    Examples
    --------
    Resin that contracts by 0.42 % in a bed of 55 % glass: apart, and as one body.

    >>> both = [filled_contraction(0.0042, 0.0002, 0.55, 2.8e9, 0.37, 70e9, 0.2, t) for t in (0.0, 1.0)]
    >>> " to ".join(f"{each * 100:.3f} %" for each in both)
    '0.172 % to 0.069 %'
    """
    soft, soft_shear = _bulk_and_shear(matrix, matrix_poisson)
    hard, hard_shear = _bulk_and_shear(grain, grain_poisson)
    apart = _bulk(soft, soft_shear, hard, particle_fraction)
    joined = _bulk(hard, hard_shear, soft, 1.0 - particle_fraction)
    least, most = (_share(each, soft, hard) for each in (joined, apart))
    return grains + (resin - grains) * (most + touching * (least - most))


def _bulk(body: float, body_shear: float, inside: float, fraction: float) -> float:
    """Bulk modulus of a body that holds a fraction of something else [Pa]."""
    if fraction == 0.0 or body == inside:
        return body
    resists = 3.0 * (1.0 - fraction) / (3.0 * body + 4.0 * body_shear)
    return body + fraction / (1.0 / (inside - body) + resists)


def _share(mix: float, soft: float, hard: float) -> float:
    """How much of what the resin would contract by the mix follows [-]."""
    return 1.0 if soft == hard else (1.0 / mix - 1.0 / hard) / (1.0 / soft - 1.0 / hard)


def _bulk_and_shear(modulus: float, poisson: float) -> tuple[float, float]:
    return modulus / (3.0 * (1.0 - 2.0 * poisson)), modulus / (2.0 * (1.0 + poisson))
