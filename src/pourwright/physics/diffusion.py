"""What diffusion leaves of the chemical rate when the resin turns to glass as it cures."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

NOT_NEGATIVE = Range(0.0)
LARGEST_EXPONENT = 700.0  # exp of more overflows a float64


@checked(chemical_rate=NOT_NEGATIVE, diffusion_rate=Range(0.0, open_low=True))
def rabinowitch_rate(chemical_rate: Real, diffusion_rate: Real) -> Real:
    """Rate of a step that must first diffuse, then react.

    Parameters
    ----------
    chemical_rate : rate constant of the chemistry alone [1/s], float or array
    diffusion_rate : rate constant of the diffusion alone [1/s], same shape, above 0

    Returns
    -------
    rate constant of both in series [1/s]

    Raises
    ------
    RangeError : a negative rate, or a diffusion rate of 0

    Notes
    -----
    1/k = 1/kc + 1/kd. The diffusion rate comes from `wlf_diffusion_rate`.

    References
    ----------
    Rabinowitch, Trans. Faraday Soc. 33 (1937) 1225 [rabinowitch-1937].

    Examples
    --------
    >>> print(f"{rabinowitch_rate(1e-3, 2.5e-4):.6f}")
    0.000200
    """
    return chemical_rate / (1 + chemical_rate / diffusion_rate)


@checked(
    temperature=Range(150.0, 1000.0, "K"),
    glass_transition=Range(150.0, 1000.0, "K"),
    rate_at_transition=NOT_NEGATIVE,
    c1=NOT_NEGATIVE,
    c2=Range(1.0, 1000.0, "K"),
)
def wlf_diffusion_rate(
    temperature: Real,
    glass_transition: Real,
    rate_at_transition: float,
    *,
    c1: float = 40.5,
    c2: float = 51.6,
) -> Real:
    """Diffusion rate constant on both sides of the glass transition.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    glass_transition : glass transition of the mix as cured so far [K], same shape
    rate_at_transition : diffusion rate constant where both are equal [1/s]; a fit
    c1 : steepness [-]; 40.5 is the universal 17.44 times ln 10
    c2 : width [K]

    Returns
    -------
    diffusion rate constant [1/s]

    Raises
    ------
    RangeError : a temperature or coefficient out of range

    Notes
    -----
    kd = kd0 exp(C1 (T - Tg) / (C2 + |T - Tg|)). The absolute value is the change to the
    WLF form that keeps it finite below the transition. The form and 40.5 and 51.6 K are
    from memory. Valid within some 50 K of the transition.

    References
    ----------
    Wisanrakkit & Gillham, J. Appl. Polym. Sci. 41 (1990) 2885 [wisanrakkit-gillham-1990];
    Williams, Landel & Ferry, J. Am. Chem. Soc. 77 (1955) 3701 [wlf-1955].

    Examples
    --------
    Ten kelvin below the transition diffusion is about 700 times slower than at it.

    >>> print(f"{1 / wlf_diffusion_rate(310.0, 320.0, 1.0):.0f}")
    717
    """
    above: Any = temperature - glass_transition
    return rate_at_transition * np.exp(c1 * above / (c2 + np.abs(above)))  # type: ignore[no-any-return]


@checked(conversion=Range(0.0, 1.0), sharpness=Range(0.0, 500.0))
def chern_poehlein_factor(conversion: Real, critical_conversion: Real, sharpness: float) -> Real:
    """Share of the chemical rate that is left near the conversion of vitrification.

    Parameters
    ----------
    conversion : degree of cure [-], 0 to 1, float or array
    critical_conversion : conversion where half the rate is left [-], same shape; may
        exceed 1 where the resin never vitrifies at its temperature
    sharpness : how sudden the loss is [-], about 15 to 60 in published fits (from memory)

    Returns
    -------
    factor on the chemical rate [-], 0 to 1

    Raises
    ------
    RangeError : a conversion outside 0 to 1, or a sharpness outside 0 to 500

    Notes
    -----
    f = 1 / (1 + exp(C (a - a_c))): 1 well before a_c, one half at it, 0 well beyond.
    An empirical form; a_c rises with the temperature of cure.

    References
    ----------
    Chern & Poehlein, Polym. Eng. Sci. 27 (1987) 788 [chern-poehlein-1987]; with cure:
    Cole, Hechler & Noel, Macromolecules 24 (1991) 3098 [cole-1991]. From memory.

    Examples
    --------
    >>> print(f"{chern_poehlein_factor(0.65, 0.70, 40.0):.4f}")
    0.8808
    """
    return 1 / (1 + np.exp(sharpness * (conversion - critical_conversion)))  # type: ignore[no-any-return]


@checked(
    temperature=Range(150.0, 1000.0, "K"),
    glass_transition=Range(150.0, 1000.0, "K"),
    width=Range(0.1, 100.0, "K"),
)
def vitrification_factor(temperature: Real, glass_transition: Real, offset: float, width: float) -> Real:
    """Share of the chemical rate that is left, told by the glass transition itself.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    glass_transition : glass transition of the mix as cured so far [K], same shape
    offset : how far above its temperature the mix's transition has climbed when half
        the rate is left [K]; about 5 to 20 K for room-temperature epoxies (from memory)
    width : how many kelvin it takes to lose the rate [K], 0.1 to 100

    Returns
    -------
    factor on the chemical rate [-], 0 to 1

    Raises
    ------
    RangeError : a temperature or the width out of range

    Notes
    -----
    f = 1 / (1 + exp((Tg - T - offset) / width)): the form of `chern_poehlein_factor`
    with the distance to vitrification measured in kelvin instead of conversion. Near
    the half-rate point both agree, with C = (dTg/da) / width.

    References
    ----------
    Form of Chern & Poehlein 1987 [chern-poehlein-1987]; written in temperature here.

    Examples
    --------
    >>> print(f"{vitrification_factor(298.15, 308.15, 10.0, 5.0):.3f}")
    0.500
    """
    distance: Any = np.minimum((glass_transition - temperature - offset) / width, LARGEST_EXPONENT)
    return 1 / (1 + np.exp(distance))  # type: ignore[no-any-return]
