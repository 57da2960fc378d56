"""How much hardener a resin needs, and how much heat the two give off together."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

MOLAR_MASS = Range(0.0, 100.0, "kg/mol", open_low=True)
EQUIVALENT = Range(0.0, 10.0, "kg/mol", open_low=True)


@checked(molar_mass=MOLAR_MASS, groups=Range(1.0, 100.0))
def equivalent_weight(molar_mass: Real, groups: float) -> Real:
    """Mass that carries one mole of reactive groups.

    Parameters
    ----------
    molar_mass : molar mass of the molecule [kg/mol], float or array
    groups : epoxide rings of a resin molecule, or hydrogens on the nitrogens of an amine [-]

    Returns
    -------
    epoxide or amine hydrogen equivalent weight [kg/mol]; data sheets print it in g/eq

    Raises
    ------
    RangeError : a molar mass not above 0, or fewer than one group

    Notes
    -----
    E = M / f. Exact for a pure substance; technical products are mixtures, whose data sheet decides.

    References
    ----------
    Definition of the equivalent weight; any text on epoxy resins [epoxy-equivalents].

    Examples
    --------
    Diethylenetriamine, 103.17 g/mol with five hydrogens on its nitrogens.

    >>> print(f"{equivalent_weight(0.1031661, 5) * 1000:.3f} g/eq")
    20.633 g/eq
    """
    return molar_mass / groups


@checked(hardener_equivalent=EQUIVALENT, resin_equivalent=EQUIVALENT)
def parts_per_hundred(hardener_equivalent: Real, resin_equivalent: Real | float) -> Real:
    """Parts of hardener by weight to 100 of resin at which every group finds its partner.

    Parameters
    ----------
    hardener_equivalent : amine hydrogen equivalent weight of the hardener [kg/mol], float or array
    resin_equivalent : epoxide equivalent weight of the resin [kg/mol]

    Returns
    -------
    parts by weight per 100 of resin [-]

    Raises
    ------
    RangeError : an equivalent weight not above 0

    Notes
    -----
    phr = 100 AHEW / EEW. What is sold may differ on purpose: the data sheet's ratio decides.

    References
    ----------
    Definition; any text on epoxy resins [epoxy-equivalents].

    Examples
    --------
    >>> print(f"{parts_per_hundred(0.0275, 0.187):.1f} parts")
    14.7 parts
    """
    return 100.0 * hardener_equivalent / resin_equivalent


@checked(heat_per_mole=Range(0.0, 1e6, "J/mol"), resin_equivalent=EQUIVALENT, hardener_equivalent=EQUIVALENT)
def heat_per_mass(heat_per_mole: Real, resin_equivalent: float, hardener_equivalent: float) -> Real:
    """Heat of full cure per mass of a mix at its right ratio.

    Parameters
    ----------
    heat_per_mole : heat of one epoxide ring opened by an amine [J/mol], 98 to 108 kJ/mol; float or array
    resin_equivalent : epoxide equivalent weight of the resin [kg/mol]
    hardener_equivalent : amine hydrogen equivalent weight of the hardener [kg/mol]

    Returns
    -------
    heat of reaction of the mix [J/kg]

    Raises
    ------
    RangeError : a negative heat, or an equivalent weight not above 0

    Notes
    -----
    H = dH / (EEW + AHEW). Heavier, more flexible hardeners dilute the heat; so do fillers and
    diluents without epoxide rings, which are to be counted into the equivalent weights.

    References
    ----------
    Closed form; heat per mole after Horie et al. 1970 [horie-1970] and Rozenberg 1986
    [rozenberg-1986], from memory.

    Examples
    --------
    >>> print(f"{heat_per_mass(100e3, 0.190, 0.0206332) / 1000:.1f} kJ/kg")
    474.8 kJ/kg
    """
    return heat_per_mole / (resin_equivalent + hardener_equivalent)


@checked(dosed=Range(0.0, 1e6, open_low=True), wanted=Range(0.0, 1e6, open_low=True))
def ratio_reached(dosed: Real, wanted: float) -> Real:
    """Reactive groups of the hardener over those of the resin, by what was weighed in.

    Parameters
    ----------
    dosed : hardener that was weighed in, float or array, in any unit of mass
    wanted : hardener that the resin needs, in the same unit

    Returns
    -------
    ratio [-]; 1 where every group finds its partner

    Raises
    ------
    RangeError : a mass not above 0

    Notes
    -----
    A short weight leaves resin that never hardens, a long one hardener that stays in it: both soften.

    References
    ----------
    Definition of the stoichiometric ratio [epoxy-equivalents].

    Examples
    --------
    9 g short of 300 g, for 1000 g of resin at 100 : 30.

    >>> print(f"{ratio_reached(291.0, 300.0):.2f}")
    0.97
    """
    return dosed / wanted
