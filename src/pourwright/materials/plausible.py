"""Whether a resin's record can be true: its heat against its ratio."""

from __future__ import annotations

from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.records import Resin
from pourwright.physics.stoichiometry import heat_per_mass

EPOXIDE_HEAT = Sourced(
    103e3, "J/mol", 98e3, 108e3, Kind.MEMORY, "rozenberg-1986", "one epoxide ring opened by an amine"
)
EPOXIDE_EQUIVALENT = Sourced(
    0.19, "kg/mol", 0.17, 0.30, Kind.MEMORY, "epoxy-equivalents",
    "part A of a casting epoxy: pure resin to one with much diluent",
)  # fmt: skip


def heat_range(resin: Resin) -> tuple[float, float]:
    """Say how much heat a mix of this ratio can set free, as an epoxy.

    Parameters
    ----------
    resin : Resin
        Record; its ratio counts.

    Returns
    -------
    tuple of float
        Least and most heat of reaction [J/kg of mixed resin].

    Notes
    -----
    Every ring of part A finds its partner in part B. For epoxies cured by amines only.

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> low, high = heat_range(load_materials().resin["epoxy-slow-deep"])
    >>> print(f"{low / 1000:.0f} to {high / 1000:.0f} kJ/kg")
    233 to 454 kJ/kg
    """
    ratio = resin.parts_b.value / resin.parts_a.value
    heats, weights = EPOXIDE_HEAT, EPOXIDE_EQUIVALENT
    assert heats.low and heats.high and weights.low and weights.high  # noqa: PT018 - bands of our own
    least = heat_per_mass(heats.low, weights.high, ratio * weights.high)
    most = heat_per_mass(heats.high, weights.low, ratio * weights.low)
    return least, most
