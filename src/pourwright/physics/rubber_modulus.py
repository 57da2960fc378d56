"""Stiffness of a rubber from how hard it feels."""

from dataclasses import dataclass

from pourwright.foundation.checks import Range, checked

OVERLAP = 20.0
"""Below this hardness the second relation does not hold [Shore A]."""


@checked(shore_a=Range(5.0, 95.0))
def gent_modulus(shore_a: float) -> float:
    """Young's modulus from the Shore A hardness, by the relation of Gent.

    Parameters
    ----------
    shore_a : hardness [Shore A]

    Returns
    -------
    Young's modulus at small strain [Pa]

    Raises
    ------
    RangeError : a hardness out of range

    Notes
    -----
    E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)) [MPa]: a stiff cone pressed into an elastic half
    space. A real rubber is within 30 % of it.

    References
    ----------
    Gent, Rubber Chem. Technol. 31 (1958) 896 [gent-1958].

    Examples
    --------
    >>> print(f"{gent_modulus(30.0) / 1e6:.3f} MPa")
    1.142 MPa
    """
    return 1e6 * 0.0981 * (56.0 + 7.62336 * shore_a) / (0.137505 * (254.0 - 2.54 * shore_a))


@checked(shore_a=Range(OVERLAP, 80.0))
def qi_modulus(shore_a: float) -> float:
    """Young's modulus from the Shore A hardness, by the relation of Qi, Joyce and Boyce.

    Parameters
    ----------
    shore_a : hardness [Shore A]

    Returns
    -------
    Young's modulus at small strain [Pa]

    Raises
    ------
    RangeError : a hardness out of range

    Notes
    -----
    log10 E = 0.0235 S - 0.6403, E in MPa, for 20 < S < 80: computed for the gauge's own blunt cone.

    References
    ----------
    Qi, Joyce & Boyce, Rubber Chem. Technol. 76 (2003) 419 [qi-joyce-boyce-2003].

    Examples
    --------
    >>> print(f"{qi_modulus(30.0) / 1e6:.3f} MPa")
    1.161 MPa
    """
    return float(1e6 * 10.0 ** (0.0235 * shore_a - 0.6403))


@dataclass(frozen=True, slots=True)
class ModulusBand:
    """Young's modulus with what is not known of it.

    Parameters
    ----------
    low, likely, high : Young's modulus [Pa]
    """

    low: float
    likely: float
    high: float


@checked(shore_a=Range(5.0, 80.0), spread=Range(0.0, 0.9))
def modulus_band(shore_a: float, spread: float) -> ModulusBand:
    """Young's modulus from the Shore A hardness, with a band round both relations.

    Parameters
    ----------
    shore_a : hardness [Shore A]
    spread : by how much a real rubber differs from a relation [-]

    Returns
    -------
    lowest, likely and highest Young's modulus [Pa]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    Likely: the mean of both relations, Gent's alone below 20 Shore A where the other does not hold. The band
    runs from the lower less the spread to the higher and the spread.

    References
    ----------
    Gent [gent-1958]; Qi, Joyce & Boyce [qi-joyce-boyce-2003].

    Examples
    --------
    >>> found = modulus_band(30.0, 0.3)
    >>> print(f"{found.low / 1e6:.2f} to {found.high / 1e6:.2f} MPa")
    0.80 to 1.51 MPa
    """
    found = [gent_modulus(shore_a), *([qi_modulus(shore_a)] if shore_a >= OVERLAP else [])]
    return ModulusBand((1 - spread) * min(found), sum(found) / len(found), (1 + spread) * max(found))
