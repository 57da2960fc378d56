"""Water as a measure of volume."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import ZERO_CELSIUS

LIQUID = Range(ZERO_CELSIUS, ZERO_CELSIUS + 100.0, "K")


@checked(temperature=LIQUID)
def water_density(temperature: Real) -> Real:
    """Density of air-free water at one atmosphere.

    Parameters
    ----------
    temperature : temperature [K], float or array, liquid water

    Returns
    -------
    density [kg/m3]

    Raises
    ------
    RangeError : below 0 or above 100 degC

    Notes
    -----
    Rational function of the temperature t in degC; good to 0.01 kg/m3 from 5 to 40 degC. Tap water is denser
    by up to about 0.5 kg/m3 for what is dissolved in it, which no kitchen scale shows.

    References
    ----------
    Kell, J. Chem. Eng. Data 20 (1975) 97, equation 16; as in Jones and Harris,
    J. Res. Natl. Inst. Stand. Technol. 97 (1992) 335 [kell-1975].

    Examples
    --------
    >>> print(f"{water_density(293.15):.2f} kg/m3")
    998.20 kg/m3
    """
    t = temperature - ZERO_CELSIUS
    above = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return above / (1 + 16.879850e-3 * t)


@checked(temperature=LIQUID)
def water_viscosity(temperature: Real) -> Real:
    """Viscosity of water at one atmosphere.

    Parameters
    ----------
    temperature : temperature [K], float or array, liquid water

    Returns
    -------
    viscosity [Pa s]

    Raises
    ------
    RangeError : below 0 or above 100 degC

    Notes
    -----
    log10(mu / mu20) = (20 - t) / (t + 96) (1.2364 - 1.37e-3 (20 - t) + 5.7e-6 (20 - t)^2), t in degC, with
    mu20 = 1.002 mPa s. From memory; good to 1 % from 5 to 60 degC against the table 1.519 (5), 1.002
    (20), 0.890 (25), 0.547 (50) mPa s.

    References
    ----------
    Kestin, Sokolov and Wakeham, J. Phys. Chem. Ref. Data 7 (1978) 941 [kestin-1978].

    Examples
    --------
    >>> print(f"{1e3 * water_viscosity(298.15):.3f} mPa s")
    0.890 mPa s
    """
    below = 20.0 - (temperature - ZERO_CELSIUS)
    power = below / (116.0 - below) * (1.2364 - 1.37e-3 * below + 5.7e-6 * below**2)
    return 1.002e-3 * 10.0**power  # type: ignore[no-any-return]
