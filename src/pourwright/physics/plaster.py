"""Plaster and water: what the setting needs, what slurry and dry cast weigh, what heat it sets free."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.sources import Kind, Sourced

HEMIHYDRATE, DIHYDRATE, WATER = 145.15, 172.17, 18.015
"""Molar masses of CaSO4 0.5 H2O, CaSO4 2 H2O and water [g/mol]."""
DENSITY = Sourced(
    2630.0, "kg/m3", 2600.0, 2750.0, Kind.MEMORY, "families-from-memory", "hemihydrate, the grain itself"
)
SETTING_HEAT: Mapping[str, Sourced] = MappingProxyType(
    {
        "beta": Sourced(
            133000.0, "J/kg", 126000.0, 140000.0, Kind.MEMORY, "kelley-southard-anderson-1941",
            "plaster of Paris, per mass of plaster",
        ),
        "alpha": Sourced(
            118500.0, "J/kg", 112500.0, 124500.0, Kind.MEMORY, "kelley-southard-anderson-1941",
            "hard casting plaster, per mass of plaster",
        ),
    }
)  # fmt: skip
"""Heat that plaster sets free as it takes up water."""
WATER_DENSITY = 1000.0
RATIO = Range(0.2, 2.0)


@checked(plaster=Range(0.0, unit="kg"))
def water_to_set(plaster: float = 1.0) -> float:
    """Water that plaster takes up for good.

    Parameters
    ----------
    plaster : mass of plaster [kg]

    Returns
    -------
    mass of water [kg]; what is poured on top has to dry out again

    Raises
    ------
    RangeError : a negative mass

    Notes
    -----
    CaSO4 0.5 H2O + 1.5 H2O -> CaSO4 2 H2O: 1.5 x 18.015 / 145.15 of its mass.

    References
    ----------
    Stoichiometry; molar masses as in any table of elements [mixture-rule].

    Examples
    --------
    >>> print(f"{water_to_set(100.0):.2f} g to 100 g")
    18.62 g to 100 g
    """
    return plaster * 1.5 * WATER / HEMIHYDRATE


@checked(water_ratio=RATIO, plaster=Range(2000.0, 3200.0, "kg/m3"))
def slurry_density(water_ratio: float, plaster: float = DENSITY.value) -> float:
    """Density of plaster and water as poured.

    Parameters
    ----------
    water_ratio : mass of water over that of plaster [-]
    plaster : density of the plaster's grains [kg/m3]

    Returns
    -------
    density [kg/m3]

    Raises
    ------
    RangeError : a ratio outside 0.2 to 2

    Notes
    -----
    (1 + w) / (1 / rho_p + w / rho_w); no air in it.

    References
    ----------
    Conservation of mass and volume [mixture-rule].

    Examples
    --------
    >>> print(f"{slurry_density(0.70):.2f} kg/m3")
    1573.74 kg/m3
    """
    return (1.0 + water_ratio) / (1.0 / plaster + water_ratio / WATER_DENSITY)


@checked(water_ratio=RATIO, plaster=Range(2000.0, 3200.0, "kg/m3"))
def dry_density(water_ratio: float, plaster: float = DENSITY.value) -> float:
    """Density of the dry cast, once all water that did not set has left.

    Parameters
    ----------
    water_ratio : mass of water over that of plaster [-]
    plaster : density of the plaster's grains [kg/m3]

    Returns
    -------
    density [kg/m3]

    Raises
    ------
    RangeError : a ratio outside 0.2 to 2

    Notes
    -----
    Mass of plaster and the water that set over the slurry's volume: it keeps its size. Below
    0.186 of water not all plaster sets.

    References
    ----------
    Conservation of mass and volume [mixture-rule].

    Examples
    --------
    >>> print(f"{dry_density(0.70):.1f} kg/m3")
    1098.1 kg/m3
    """
    return (1.0 + water_to_set()) / (1.0 / plaster + water_ratio / WATER_DENSITY)
