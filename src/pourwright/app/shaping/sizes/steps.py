"""What happens to a length between master and piece, step by step, for one set of numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.app.shaping.sizes.beds import Layer
from pourwright.app.shaping.sizes.numbers import Values
from pourwright.materials import Glass, Resin
from pourwright.physics.filled_contraction import filled_contraction
from pourwright.physics.rubber_size import boxed_growth, cold_shrinkage
from pourwright.physics.shrinkage import linear_shrinkage, shrinkage_between

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Case:
    """What does not vary with the numbers.

    Parameters
    ----------
    shop : float
        Mean temperature of the shop [K].
    cured_at : float
        Of the rubber as it cured [K].
    wall, base : float
        Rubber beside the piece and under it [m].
    in_box : bool
        Whether the mold stands in its box.
    warm : bool
        Whether warm rubber counts: not with a casting shrinkage that the shop measured.
    layers : tuple of Layer
        The fill.
    glass : Glass
        In it.
    resin : Resin or None
        None for a material mixed with water.
    """

    shop: float
    cured_at: float
    wall: float
    base: float
    in_box: bool
    warm: bool
    layers: tuple[Layer, ...]
    glass: Glass
    resin: Resin | None


@dataclass(frozen=True, eq=False)
class Steps:
    """From a length of the master to one of the piece, along x, y and z as poured.

    Parameters
    ----------
    rubber : float
        Shrinkage by length of the cold mold [-].
    growth : array (3,)
        Of the cavity, from cold to gel [-].
    inward : array (3,)
        What warm rubber takes off the cavity besides: both walls together, and the floor [m].
    casting : float
        Shrinkage by length of the casting, from gel to cold [-].
    """

    rubber: float
    growth: Array
    inward: Array
    casting: float

    @property
    def scale(self) -> Array:
        """Casting over master, but for what the walls come in (3,) [-]."""
        return np.asarray((1.0 - self.rubber) * (1.0 + self.growth) * (1.0 - self.casting))

    @property
    def pressed(self) -> Array:
        """What warm walls take off the cold casting (3,) [m]."""
        return np.asarray(self.inward * (1.0 - self.casting))

    def cast(self, master: Array) -> Array:
        """Size of the casting from that of its master (3,) [m]."""
        return np.asarray(master * self.scale - self.pressed)

    def master(self, cast: Array) -> Array:
        """Size of the master from that of its casting (3,) [m]."""
        return np.asarray((cast + self.pressed) / self.scale)


def steps_of(values: Values, case: Case) -> Steps:
    """Reckon the steps.

    Parameters
    ----------
    values : mapping
        As `numbers_of` names them.
    case : Case
        Everything else.

    Returns
    -------
    Steps
    """
    cooled = case.cured_at - case.shop
    cold = cold_shrinkage(values["rubber_shrinkage"], values["rubber_expansion"], cooled)
    growth, inward = _warm_rubber(values, case, cold)
    return Steps(cold, growth, inward, _casting(values, case))


def _warm_rubber(values: Values, case: Case, cold: float) -> tuple[Array, Array]:
    """Growth of the cavity (3,) [-], and what walls and floor take off it besides (3,) [m]."""
    warming = values["warm_share"] * (values["gels_at"] - case.shop)
    growth = values["rubber_expansion"] * warming
    if not case.warm:
        return np.zeros(3), np.zeros(3)
    if not case.in_box:
        return np.full(3, growth), np.zeros(3)
    grown = boxed_growth(growth, max(cold / (1.0 - cold), 0.0), values["held"])
    # the level is read from the panels' rim, so the height loses what the floor rises; where it is the
    # rubber's own rim, both rise together
    rim = values["rim_rises"]
    wall, floor = 2.0 * grown.inward * case.wall, (1.0 - rim) * (grown.across + grown.inward) * case.base
    return np.array([grown.across, grown.across, rim * grown.up]), np.array([wall, wall, floor])


def _casting(values: Values, case: Case) -> float:
    """Shrinkage by length of the casting from gel until it is cold: the mean over its height."""
    if "casting_shrinkage" in values:
        return values["casting_shrinkage"]
    assert case.resin is not None
    cooling = values["gels_at"] - case.shop
    cured = shrinkage_between(
        values["cure_shrinkage"],
        values["gel_conversion"],
        max(values["cure_reached"], values["gel_conversion"]),
    )
    resin = linear_shrinkage(float(cured)) + values["expansion_glass"] * cooling
    grains = case.glass.expansion.value * cooling
    heights = [layer.upper - layer.lower for layer in case.layers]
    each = [_filled(layer.solid, resin, grains, values["touching"], case) for layer in case.layers]
    return float(np.average(each, weights=heights))


def _filled(solid: float, resin: float, grains: float, touching: float, case: Case) -> float:
    assert case.resin is not None
    stuff, glass = case.resin.solid, case.glass
    return filled_contraction(
        resin,
        grains,
        solid,
        stuff.modulus.value,
        stuff.poisson_ratio.value,
        glass.modulus.value,
        glass.poisson_ratio.value,
        touching,
    )
