"""Batches of resin: what bounds them, whether rounding matters, parts by volume, how much colour."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.batches import HANDLING_RATE, MIXING_TIME, PAIL_MASS, USABLE_PAIL, Tools
from pourwright.materials.records import Resin
from pourwright.physics.mixing import parts_by_volume

_PRACTICE = "common-practice"
MIXING: Mapping[str, Sourced] = MappingProxyType(
    {
        "ratio_bears": Sourced(
            0.02, "", 0.01, 0.05, Kind.PRACTICE, _PRACTICE,
            "hardener off by more leaves the casting softer; the data sheet says how much it bears",
        ),
        "tint": Sourced(
            0.02, "", 0.005, 0.05, Kind.PRACTICE, _PRACTICE,
            "share of the mix that colour may be: more keeps it from hardening; water-borne colour never",
        ),
    }
)  # fmt: skip
"""What mixing resin is reckoned with, SI."""
AMINES: Mapping[str, Sourced] = MappingProxyType(
    {
        "diethylenetriamine": Sourced(
            1.0, "ppm", None, None, Kind.MEMORY, "nmam-2540", "over a shift, and it goes through the skin",
        ),
    }
)  # fmt: skip
"""Most of a free hardener in the air of a workplace in the United States."""
WITHOUT_A_LIMIT = ("triethylenetetramine",)
"""Hardeners that the same table sets no limit for."""
Limit = Literal["pail", "scale", "heat"]


@dataclass(frozen=True)
class BatchLimits:
    """Most that one batch may weigh [kg]: by its pail, the scale, and its own heat in the pail."""

    pail: float
    scale: float
    heat: float

    @property
    def which(self) -> Limit:
        """The one that counts."""
        named: dict[float, Limit] = {self.heat: "heat", self.scale: "scale", self.pail: "pail"}
        return named[self.most]

    @property
    def most(self) -> float:
        """Of one batch [kg]."""
        return min(self.pail, self.scale, self.heat)


def batch_limits(resin: Resin, tools: Tools, by_heat: float) -> BatchLimits:
    """Say what bounds a batch.

    Parameters
    ----------
    resin : Resin
        For its density.
    tools : Tools
        Pail and scale.
    by_heat : float
        Most that is in the mold before its own heat forbids it [kg].

    Returns
    -------
    BatchLimits
    """
    by_pail = tools.pail * USABLE_PAIL.value * resin.density.value
    return BatchLimits(by_pail, tools.scale_capacity - PAIL_MASS.value, by_heat)


def volume_ratio(resin: Resin) -> float:
    """Parts of B by volume for 100 of A, from their densities.

    Parameters
    ----------
    resin : Resin
        With its ratio by weight.

    Returns
    -------
    float
        [-]
    """
    a, b = parts_by_volume(
        (resin.parts_a.value, resin.parts_b.value), (resin.density_a.value, resin.density_b.value)
    )
    return 100.0 * b / a


def ratio_matters(error: float) -> bool:
    """Say whether a ratio is off by more than the casting bears.

    Parameters
    ----------
    error : float
        Of B against A [-].

    Returns
    -------
    bool

    Examples
    --------
    >>> ratio_matters(-0.004), ratio_matters(0.031)
    (False, True)
    """
    return abs(error) > MIXING["ratio_bears"].value


def coarsest_step(mass: float, parts: tuple[float, float]) -> float:
    """Coarsest step of a scale that rounds no batch of a mass off by more than it bears.

    Parameters
    ----------
    mass : float
        Of the batch [kg].
    parts : tuple of float
        Of A and B by weight.

    Returns
    -------
    float
        [kg]; `split_batches` has B off by one step at most.

    Examples
    --------
    A batch of 130 g at 100 : 30 bears steps of 0.6 g.

    >>> print(f"{1000 * coarsest_step(0.130, (100, 30)):.2f} g")
    0.60 g
    """
    return MIXING["ratio_bears"].value * mass * parts[1] / sum(parts)


def clock(masses: tuple[float, ...]) -> tuple[float, ...]:
    """When each batch is all in the mold, one person mixing one after the other [s].

    Parameters
    ----------
    masses : tuple of float
        Of the batches [kg].

    Returns
    -------
    tuple of float
        From the first contact of A and B of the first batch.

    Examples
    --------
    >>> [t / 60 for t in clock((3.0, 3.0))]
    [8.0, 16.0]
    """
    ends, now = [], 0.0
    for mass in masses:
        now += MIXING_TIME.value + mass / HANDLING_RATE.value
        ends.append(now)
    return tuple(ends)
