"""Stress around a stiff grain in a resin that shrinks or is stretched."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

MODULUS = Range(1e3, 1e13, "Pa")
POISSON = Range(0.0, 0.5, open_high=True)
STRAIN = Range(-0.5, 0.5)


@checked(misfit=STRAIN, matrix=MODULUS, matrix_poisson=POISSON, grain=MODULUS, grain_poisson=POISSON)
def selsing_pressure(
    misfit: Real, matrix: float, matrix_poisson: float, grain: float, grain_poisson: float
) -> Real:
    """Pressure on a round grain in a wide matrix that would shrink by more than the grain.

    Parameters
    ----------
    misfit : shrinkage by length of the matrix less that of the grain [-], float or array
    matrix, grain : Young's modulus [Pa]
    matrix_poisson, grain_poisson : Poisson's ratio [-], 0 to below 0.5

    Returns
    -------
    pressure at the face of the grain [Pa]; negative pulls it off

    Raises
    ------
    RangeError : a modulus or ratio out of range

    Notes
    -----
    P = misfit / ((1 + nu_m) / (2 E_m) + (1 - 2 nu_g) / E_g). In the matrix the radial stress is
    -P (a/r)^3 and the stress around the grain +P/2 (a/r)^3. Elastic, bonded, grains far apart.

    References
    ----------
    Selsing, J. Am. Ceram. Soc. 44 (1961) 419 [selsing-1961].

    Examples
    --------
    Resin that shrinks by 0.5 % more than the glass in it:

    >>> print(f"{selsing_pressure(0.005, 2.8e9, 0.37, 70e9, 0.2) / 1e6:.3f} MPa")
    19.746 MPa
    """
    softness = (1 + matrix_poisson) / (2 * matrix) + (1 - 2 * grain_poisson) / grain
    return misfit / softness


@checked(misfit=STRAIN, matrix=MODULUS, matrix_poisson=POISSON, grain=MODULUS, grain_poisson=POISSON)
def strain_around_grain(
    misfit: Real, matrix: float, matrix_poisson: float, grain: float, grain_poisson: float
) -> Real:
    """Greatest stretch of the matrix around a round grain that shrinks less than it.

    Parameters
    ----------
    misfit : shrinkage by length of the matrix less that of the grain [-], float or array
    matrix, grain : Young's modulus [Pa]
    matrix_poisson, grain_poisson : Poisson's ratio [-], 0 to below 0.5

    Returns
    -------
    strain along the face of the grain [-]

    Raises
    ------
    RangeError : a modulus or ratio out of range

    Notes
    -----
    (s_t - nu (s_t - P)) / E_m with s_t = P/2: P (1 + nu_m) / (2 E_m). A rigid grain gives the
    whole misfit.

    References
    ----------
    Selsing 1961 [selsing-1961] with Hooke's law.

    Examples
    --------
    Glass is so stiff that nearly the whole of 0.5 % is borne:

    >>> print(f"{strain_around_grain(0.005, 2.8e9, 0.37, 70e9, 0.2) * 100:.4f} %")
    0.4831 %
    """
    pressure = selsing_pressure(misfit, matrix, matrix_poisson, grain, grain_poisson)
    return pressure * ((1 + matrix_poisson) / (2 * matrix))


@checked(poisson=POISSON)
def rigid_grain_concentration(poisson: float) -> float:
    """How many times a pull on the matrix is felt at the pole of a rigid round grain in it.

    Parameters
    ----------
    poisson : Poisson's ratio of the matrix [-], 0 to below 0.5

    Returns
    -------
    stress at the pole over the stress far away [-]

    Raises
    ------
    RangeError : a ratio out of range

    Notes
    -----
    2/(1 + nu) + 1/(4 - 5 nu), pulled in one direction, bonded, one grain far from others. A corner of
    a crushed grain concentrates more, grains near each other too.

    References
    ----------
    Goodier, J. Appl. Mech. 1 (1933) 39 [goodier-1933].

    Examples
    --------
    >>> print(f"{rigid_grain_concentration(0.37):.4f}")
    1.9250
    """
    return 2 / (1 + poisson) + 1 / (4 - 5 * poisson)
