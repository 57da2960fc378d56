"""When a pour has gelled, bonds no more, or is hard enough: criteria on temperature and cure.

All three are read from the simulated fields, place by place. The last place decides for
gel and demold. For the bond between pours a tenth of the top's area counts as rim: the
next pour may go on once nine tenths have gelled, and must before a tenth bonds no more.
"""

from __future__ import annotations

from dataclasses import dataclass
from inspect import unwrap

import numpy as np
from numpy.typing import NDArray

from pourwright.materials import Resin
from pourwright.physics.glass_transition import dibenedetto

Array = NDArray[np.float64]
RIM = 0.1
_dibenedetto = unwrap(dibenedetto)
"""The equation alone: `Marks.of` has checked the ranges, which takes longer than all else in a step."""


@dataclass(frozen=True)
class Marks:
    """The resin's own thresholds.

    Parameters
    ----------
    gel_conversion : float
        Cure at the gel point [-].
    glass : tuple of float
        Glass transition uncured and cured [K], DiBenedetto's lambda [-].
    bond_margin, demold_margin : float
        [K].
    """

    gel_conversion: float
    glass: tuple[float, float, float]
    bond_margin: float
    demold_margin: float

    @classmethod
    def of(cls, resin: Resin) -> Marks:
        """Take the thresholds from a resin record."""
        cure = resin.cure
        glass = (
            cure.glass_transition_start.value,
            cure.glass_transition_full.value,
            cure.glass_transition_lambda.value,
        )
        dibenedetto(cure.gel_conversion.value, *glass)
        return cls(
            cure.gel_conversion.value,
            glass,
            resin.bond_margin.value,
            resin.demold_margin.value,
        )

    def glass_transition(self, conversion: Array) -> Array:
        """Glass transition at a degree of cure [K]."""
        held = np.minimum(np.maximum(conversion, 0.0), 1.0)
        return np.asarray(_dibenedetto(held, *self.glass), dtype=float)

    def bonding_left(self, temperature: Array, conversion: Array) -> Array:
        """How far each place of a top is from bonding no more [K]; negative once it is.

        A top bonds while it is rubbery: its glass transition lies below its own
        temperature by the bond margin.
        """
        left: Array = temperature - self.bond_margin - self.glass_transition(conversion)
        return left

    def hardness_left(self, temperature: Array, conversion: Array, room: float) -> float:
        """How far the softest place is from demolding [K]; negative once all is hard.

        Hard enough is a glass transition above the warmest the piece will meet in shop or
        room, and above the place's own temperature, by the demold margin.
        """
        needed = np.maximum(temperature, room) + self.demold_margin
        return float(np.max(needed - self.glass_transition(conversion)))


def area_quantile(values: Array, areas: Array, share: float) -> float:
    """Value that ``share`` of an area stays at or below.

    Parameters
    ----------
    values, areas : array (n,)
        One per cell; areas in any unit.
    share : float
        0 to 1.

    Returns
    -------
    float
        Of ``values``.

    Examples
    --------
    >>> area_quantile(np.array([3.0, 1.0, 2.0]), np.array([1.0, 1.0, 2.0]), 0.5)
    2.0
    """
    order = values.argsort(kind="stable")
    filled = areas[order].cumsum()
    return float(values[order[min(filled.searchsorted(share * filled[-1] - 1e-12), values.size - 1)]])
