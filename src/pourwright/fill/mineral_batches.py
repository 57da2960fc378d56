"""Batches of gypsum or concrete: what bounds them, what is weighed, when each is in the mold."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pourwright.fill.mineral_defaults import MINERALS
from pourwright.fill.minerals import MineralMix
from pourwright.materials.batches import PAIL_MASS, USABLE_PAIL, Tools

Bound = Literal["pail", "scale", "time"]


@dataclass(frozen=True)
class MineralBatch:
    """One pail: weights to the scale's step [kg], and when it is all in the mold [s]."""

    number: int
    water: float
    powder: float
    aggregate: float
    in_after: float

    @property
    def mass(self) -> float:
        """Of the whole pail [kg]."""
        return self.water + self.powder + self.aggregate


@dataclass(frozen=True)
class MineralBatches:
    """The batches of a piece.

    Parameters
    ----------
    most : float
        One batch [kg].
    by : str
        What bounds it.
    each : tuple of MineralBatch
        In their order, mixed one after the other by one person.
    apart : float
        From one batch in the mold to the next [s].
    """

    most: float
    by: Bound
    each: tuple[MineralBatch, ...]
    apart: float


def largest(mix: MineralMix, binder: str, working_time: float, tools: Tools) -> dict[Bound, float]:
    """Say what one batch may weigh, by each bound.

    Parameters
    ----------
    mix : MineralMix
        For its density as poured.
    binder : str
        "gypsum" or "cement".
    working_time : float
        From powder in water until it does not pour any more [s].
    tools : Tools
        Pail and scale.

    Returns
    -------
    dict
        [kg]; by time at least what a quarter of it allows, for the stirring can be cut short.
    """
    left = max(working_time - preparing(binder), working_time / 4)
    return {
        "pail": tools.pail * USABLE_PAIL.value * mix.wet_density,
        "scale": max(tools.scale_capacity - PAIL_MASS.value, tools.scale_step * 10),
        "time": left * MINERALS[f"{binder}_filling"].value,
    }


def preparing(binder: str) -> float:
    """Soaking and stirring one batch.

    Parameters
    ----------
    binder : str
        "gypsum" or "cement".

    Returns
    -------
    float
        [s]

    Examples
    --------
    >>> preparing("gypsum") / 60
    4.0
    """
    return MINERALS[f"{binder}_soaking"].value + MINERALS[f"{binder}_stirring"].value


def split(mix: MineralMix, binder: str, working_time: float, tools: Tools) -> MineralBatches:
    """Split a mix into equal batches.

    Parameters
    ----------
    mix : MineralMix
        All of it.
    binder : str
        "gypsum" or "cement".
    working_time : float
        From powder in water until it does not pour any more [s].
    tools : Tools
        Pail and scale.

    Returns
    -------
    MineralBatches
        Each weight rounded up to the scale's step.
    """
    bounds = largest(mix, binder, working_time, tools)
    by = min(bounds, key=lambda name: bounds[name])
    count = max(1, math.ceil(mix.mixed / bounds[by] * (1 - 1e-9)))
    water, powder, grains = (
        _to_step(mass / count, tools.scale_step) for mass in (mix.water, mix.powder, mix.aggregate)
    )
    apart = preparing(binder) + (water + powder + grains) / MINERALS[f"{binder}_filling"].value
    each = tuple(MineralBatch(n, water, powder, grains, n * apart) for n in range(1, count + 1))
    return MineralBatches(bounds[by], by, each, apart)


def _to_step(mass: float, step: float) -> float:
    return round(math.ceil(mass / step * (1 - 1e-9)) * step, 9)
