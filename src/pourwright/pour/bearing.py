"""How much of what a resin may bear one place uses, and how sure that is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from enum import StrEnum
from math import sqrt
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.sources import Sourced
from pourwright.materials import Glass, Resin
from pourwright.physics.bimaterial import strain_at_border
from pourwright.physics.filled_stiffness import least_stiffness
from pourwright.physics.misfit import strain_around_grain
from pourwright.physics.shrinkage import linear_shrinkage, shrinkage_between
from pourwright.physics.thermal_stress import notch_concentration, skin_strain
from pourwright.pour.defaults import DEFAULTS

Array = NDArray[np.float64]
Amount = float | Array


class Kind(StrEnum):
    """What may crack or turn white there."""

    CORE = "core"
    TOP = "top"
    SKIN = "skin"
    GRAIN = "grain"
    BORDER = "border"
    CORNER = "corner"


class Light(StrEnum):
    """What is to be feared there."""

    GREEN = "green"
    AMBER = "amber"
    RED = "red"


@dataclass(frozen=True)
class Numbers:
    """What decides, as plain numbers in SI; ``margin``, ``held`` and ``halo`` are the pour room's own."""

    cure_shrinkage: float
    expansion_soft: float
    expansion_glass: float
    strain_at_break: float
    strain_at_break_soft: float
    halo: float
    held: float
    corner_radius: float
    modulus: float
    poisson_ratio: float
    grain_expansion: float
    grain_modulus: float
    grain_poisson_ratio: float
    margin: float


def sourced_numbers(resin: Resin, glass: Glass) -> dict[str, Sourced]:
    """Collect the numbers that decide, with their bands.

    Parameters
    ----------
    resin, glass : record
        Materials.

    Returns
    -------
    dict
        By the names of `Numbers`.
    """
    solid = resin.solid
    mine = {item.name: getattr(solid, item.name) for item in fields(solid)}
    own = {name: DEFAULTS[f"crack_{name}"] for name in ("halo", "held", "corner_radius", "margin")}
    grain = {f"grain_{name}": getattr(glass, name) for name in ("expansion", "modulus", "poisson_ratio")}
    return {"cure_shrinkage": resin.cure_shrinkage, **mine, **own, **grain}


@dataclass(frozen=True)
class Case:
    """What one place goes through; arrays (n,) for many places at once.

    Parameters
    ----------
    cure_soft, cure_glass : float or array
        Cure from gel to glass and from glass to the end [-].
    cooling_soft, cooling_glass : float or array
        From the hottest since gel down to glass and from glass down to the shop [K].
    apart_soft, apart_glass : float
        Most that the core is above the skin while that is soft, and while it is glass [K].
    solid_fraction : float
        Of grains there [-].
    neat, filled : float
        Thickness of the layers on both sides of a border [m].
    depth : float
        Of the notch that an inner corner is [m].
    """

    cure_soft: Amount = 0.0
    cure_glass: Amount = 0.0
    cooling_soft: Amount = 0.0
    cooling_glass: Amount = 0.0
    apart_soft: float = 0.0
    apart_glass: float = 0.0
    solid_fraction: float = 0.0
    neat: float = 1.0
    filled: float = 1.0
    depth: float = 0.0


def soft_strain(case: Case, numbers: Numbers) -> Amount:
    """Contraction by length from gel until it turns to glass.

    Parameters
    ----------
    case : Case
        What a place goes through, or many.
    numbers : Numbers
        Of the resin.

    Returns
    -------
    float or array
        [-]
    """
    cured = shrinkage_between(numbers.cure_shrinkage, 0.0, np.asarray(case.cure_soft))
    return linear_shrinkage(cured) + numbers.expansion_soft * case.cooling_soft


def glass_strain(case: Case, numbers: Numbers) -> Amount:
    """Contraction by length as glass, down to the shop.

    Parameters
    ----------
    case : Case
        What a place goes through, or many.
    numbers : Numbers
        Of the resin.

    Returns
    -------
    float or array
        [-]
    """
    cured = shrinkage_between(numbers.cure_shrinkage, 0.0, np.asarray(case.cure_glass))
    return linear_shrinkage(cured) + numbers.expansion_glass * case.cooling_glass


def _torn(soft: Amount, glass: Amount, numbers: Numbers) -> Amount:
    """Shares of what it bears while soft and as glass, added."""
    return numbers.margin * (soft / numbers.strain_at_break_soft + glass / numbers.strain_at_break)


def _held(case: Case, numbers: Numbers) -> Amount:
    return _torn(soft_strain(case, numbers), glass_strain(case, numbers), numbers)


def _around_grain(case: Case, numbers: Numbers) -> Amount:
    """Stretched around grains while soft; as glass, stretched around them or held between them."""
    soft = soft_strain(case, numbers) - numbers.grain_expansion * case.cooling_soft
    misfit = glass_strain(case, numbers) - numbers.grain_expansion * case.cooling_glass
    around = strain_around_grain(
        np.asarray(misfit), numbers.modulus, numbers.poisson_ratio,
        numbers.grain_modulus, numbers.grain_poisson_ratio,
    )  # fmt: skip
    halo = 3.0 * numbers.held * misfit / numbers.halo
    torn = numbers.margin * around / numbers.strain_at_break
    return numbers.margin * soft / numbers.strain_at_break_soft + np.maximum(torn, halo)


def _at_border(case: Case, numbers: Numbers) -> Amount:
    """Soft resin on a stiff bed is held altogether; as glass the two bend together."""
    soft = soft_strain(case, numbers) - numbers.grain_expansion * case.cooling_soft
    misfit = glass_strain(case, numbers) - numbers.grain_expansion * case.cooling_glass
    bed = least_stiffness(
        case.solid_fraction, numbers.modulus, numbers.poisson_ratio,
        numbers.grain_modulus, numbers.grain_poisson_ratio,
    )  # fmt: skip
    glass = strain_at_border(np.asarray(misfit), case.neat, case.filled, numbers.modulus, bed)
    return _torn(soft, glass, numbers)


def fill_expansion(solid_fraction: float, resin: float, grain: float) -> float:
    """Expansion of resin with grains by the rule of volumes, the most it can be.

    Parameters
    ----------
    solid_fraction : float
        Volume of grains over volume of the mix [-].
    resin, grain : float
        By length [1/K].

    Returns
    -------
    float
        By length [1/K].
    """
    return (1 - solid_fraction) * resin + solid_fraction * grain


def _skin(case: Case, numbers: Numbers) -> Amount:
    """Stretched by a warmer core, twice: while soft and as glass."""
    soft, glass = (
        fill_expansion(case.solid_fraction, resin, numbers.grain_expansion)
        for resin in (numbers.expansion_soft, numbers.expansion_glass)
    )
    return _torn(skin_strain(case.apart_soft, soft), skin_strain(case.apart_glass, glass), numbers)


def _corner(case: Case, numbers: Numbers) -> Amount:
    return _skin(case, numbers) * notch_concentration(case.depth, numbers.corner_radius)


LOADS: Mapping[Kind, Callable[[Case, Numbers], Amount]] = MappingProxyType(
    {
        Kind.CORE: _held,
        Kind.TOP: _held,
        Kind.SKIN: _skin,
        Kind.GRAIN: _around_grain,
        Kind.BORDER: _at_border,
        Kind.CORNER: _corner,
    }
)
"""Share of what may be borne that a place uses, by what it is."""


@dataclass(frozen=True)
class Load:
    """Share of what may be borne [-]: likely, and the ends of its band."""

    value: float
    low: float
    high: float

    @property
    def light(self) -> Light:
        """Green where even the high end is borne, red where not even the likely value is."""
        if self.value >= 1.0:
            return Light.RED
        return Light.AMBER if self.high >= 1.0 else Light.GREEN


def load_of(kind: Kind, case: Case, sourced: Mapping[str, Sourced]) -> Load:
    """Say how much of what it may bear a place uses.

    Parameters
    ----------
    kind : Kind
        What it is.
    case : Case
        What it goes through.
    sourced : mapping
        From `sourced_numbers`.

    Returns
    -------
    Load
        The band takes each number to both of its ends, one at a time, and adds the effects by squares, as
        if the numbers were independent.
    """
    numbers = Numbers(**{name: number.value for name, number in sourced.items()})
    value = float(LOADS[kind](case, numbers))
    down = up = 0.0
    for name, number in sourced.items():
        ends = [end for end in (number.low, number.high) if end is not None]
        others = [float(LOADS[kind](case, replace(numbers, **{name: end}))) for end in ends]
        down += max([0.0, *(value - other for other in others)]) ** 2
        up += max([0.0, *(other - value for other in others)]) ** 2
    return Load(value, max(0.0, value - sqrt(down)), value + sqrt(up))
