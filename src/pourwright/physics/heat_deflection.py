"""What a data sheet's heat-deflection temperature was measured with."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real


@dataclass(frozen=True, slots=True)
class DeflectionTest:
    """One named way to measure the temperature at which a loaded bar gives way.

    Parameters
    ----------
    standard : as data sheets print it
    stress : bending stress in the outer fibre [Pa]
    heating_rate : how fast the bath is warmed [K/s]
    """

    standard: str
    stress: float
    heating_rate: float


METHODS: Mapping[str, DeflectionTest] = MappingProxyType(
    {
        "ISO 75 A": DeflectionTest("ISO 75-2 method A", 1.80e6, 120 / 3600),
        "ISO 75 B": DeflectionTest("ISO 75-2 method B", 0.45e6, 120 / 3600),
        "ISO 75 C": DeflectionTest("ISO 75-2 method C", 8.00e6, 120 / 3600),
        "ASTM D648 high": DeflectionTest("ASTM D648, 264 psi", 1.82e6, 2 / 60),
        "ASTM D648 low": DeflectionTest("ASTM D648, 66 psi", 0.455e6, 2 / 60),
    }
)
"""By the name that data sheets use [iso-75], from memory. The same resin reads a few kelvin apart."""


@checked(
    stress=Range(0.0, 1e9, "Pa"),
    span=Range(0.0, 1.0, "m", open_low=True),
    width=Range(0.0, 1.0, "m", open_low=True),
    thickness=Range(0.0, 1.0, "m", open_low=True),
)
def deflection_load(stress: Real, span: float, width: float, thickness: float) -> Real:
    """Force in the middle of a bar on two supports that bends it with a given stress.

    Parameters
    ----------
    stress : bending stress in the outer fibre [Pa], float or array
    span : distance of the supports [m]; 64 mm for a bar laid flat
    width : width of the bar [m]
    thickness : height of the bar as it lies [m]

    Returns
    -------
    force [N]: what to hang on a bar to repeat a data sheet's test in a pan of warm water

    Raises
    ------
    RangeError : a stress below 0, or a length outside 0 to 1 m

    Notes
    -----
    F = 2 sigma b h^2 / (3 L). Small deflections; the bar of ISO 75 is 80 x 10 x 4 mm.

    References
    ----------
    ISO 75, temperature of deflection under load [iso-75]; from memory.

    Examples
    --------
    >>> print(f"{deflection_load(METHODS['ISO 75 A'].stress, 0.064, 0.010, 0.004):.2f} N")
    3.00 N
    """
    return 2.0 * stress * width * thickness**2 / (3.0 * span)
