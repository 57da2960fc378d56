"""A core as told in plan and mold: what it spares, what holds it down, how it is hung."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.app.hollow_words import core_words, plainly
from pourwright.app.hollowing import Hollowed
from pourwright.fill import FillResult
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    UnitSystem,
)
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.geometry import LevelVolume
from pourwright.jobs import plan_hollow
from pourwright.jobs.job import Job
from pourwright.mold.hollow.defaults import HOLLOW
from pourwright.mold.hollow.lift import CoreLift, core_lift
from pourwright.mold.hollow.offers import Layer

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Poured:
    """What goes into a piece, as far as a core needs it.

    Parameters
    ----------
    job : Job
        As written.
    cavity : LevelVolume
        V(z) of the piece cast solid.
    fill : FillResult, optional
        Glass and resin; None for a casting material mixed with water.
    solid : FillResult, optional
        The same where the piece is cast solid: grains lie looser along a core too.
    wet, dry : float
        Density of the densest thing that is poured, and of a casting mixed with water once dry [kg/m3].
    factor : float
        Safety factor of the hold-down.
    """

    job: Job
    cavity: LevelVolume
    fill: FillResult | None
    solid: FillResult | None
    wet: float
    dry: float
    factor: float

    @property
    def layers(self) -> list[Layer]:
        """Bands of the piece cast solid, from the mold's floor up; gypsum and concrete are one band."""
        total = self.cavity.total
        if self.solid is None:
            return [Layer(upper=self.cavity.top, volume=total, resin=0.0, solids=total * self.dry)]
        return [
            Layer(upper=band.upper, volume=band.volume, resin=band.resin_mass, solids=band.glass_mass)
            for band in self.solid.bands
        ]

    @property
    def grain(self) -> float:
        """Largest grain of the bands [m]; 0 where there are none."""
        if self.fill is None:
            return 0.0
        glass = self.fill.choices.glass
        grades = [glass.grade(band.grade) for band in self.fill.bands if band.grade]
        return max((grade.sieve_to.value for grade in grades), default=0.0)

    @property
    def least_wall(self) -> float:
        """Narrowest wall that the grains pass [m]."""
        return HOLLOW["grains_in_wall"].value * self.grain

    @property
    def solid_mass(self) -> float:
        """Of the piece cast solid, without film [kg]."""
        return sum(layer.resin + layer.solids for layer in self.layers)

    def density(self, height: Array) -> Array:
        """Of what is poured, by height [kg/m3]."""
        if self.fill is None:
            return np.full_like(height, self.wet)
        bands = self.fill.bands
        at = np.searchsorted([band.upper for band in bands[:-1]], height)
        return np.array([(band.glass_mass + band.resin_mass) / band.volume for band in bands])[at]

    def money(self, resin: float, solids: float) -> float | None:
        """Resin and glass that are not bought, as far as the job prices both."""
        prices = self.job.prices
        if prices is None or self.fill is None or prices.resin is None or (solids and prices.glass is None):
            return None
        choices = self.fill.choices
        money = resin * per_kilogram(prices.resin, choices.resin.density.value)
        if solids and prices.glass is not None:
            money += solids * per_kilogram(prices.glass, choices.glass.density.value)
        return money


def per_kilogram(price: Quantity, density: float) -> float:
    """Give a price by mass or by volume in money per kg."""
    return price.si / density if price.dimension == Dimension.MONEY_PER_VOLUME else price.si


def lift_of(hollow: Hollowed, poured: Poured) -> CoreLift:
    """Say what lifts a core while its piece is poured."""
    material, top = hollow.material.density.value, poured.cavity.top
    return core_lift(hollow.body.core, material, poured.density, top, poured.factor)


def hollow_part(hollow: Hollowed, poured: Poured, piece_mass: float) -> plan_hollow.Hollow:
    """Write the core.

    Parameters
    ----------
    hollow : Hollowed
        The core.
    poured : Poured
        What is poured around it.
    piece_mass : float
        Of the piece as planned [kg].

    Returns
    -------
    plan_hollow.Hollow
        Part of the document.
    """
    lift, body, limit = lift_of(hollow, poured), hollow.body, hollow.peak_limit
    spared = _spared(hollow, poured)
    return plan_hollow.Hollow(
        wall_m=body.wall,
        top="closed" if body.cover else "open",
        stays=hollow.stays,
        material=hollow.material.id,
        material_name=plainly(hollow.material.name),
        core_m3=body.volume,
        core_kg=hollow.core_mass,
        left_out_m3=body.left_out,
        peak_limit_degC=None if limit is None else limit - ZERO_CELSIUS,
        solid_kg=poured.solid_mass,
        hollow_kg=piece_mass,
        resin_saved_kg=spared[0],
        money_saved=poured.money(*spared),
        currency=None if poured.job.prices is None else poured.job.prices.currency,
        hold_down=_held(lift),
        words=list(core_words(hollow, lift, UnitSystem(poured.job.units))),
    )


def _spared(hollow: Hollowed, poured: Poured) -> tuple[float, float]:
    """Resin and solids that the core takes the place of [kg]."""
    layers, fill = poured.layers, poured.fill
    if fill is None:
        return 0.0, hollow.body.volume * poured.dry
    resin = sum(layer.resin for layer in layers) - sum(band.resin_mass for band in fill.bands)
    return resin, sum(layer.solids for layer in layers) - fill.glass_mass


def _held(lift: CoreLift) -> plan_hollow.CoreHoldDown:
    return plan_hollow.CoreHoldDown(
        force_N=lift.force,
        worst_level_m=lift.worst_level,
        rises_at_m=lift.rises_at,
        safety_factor=lift.safety_factor,
        weight_needed_kg=lift.weight_needed,
        levels=[
            plan_hollow.CoreLevel(level_m=level, force_N=force, weight_needed_kg=lift.weight_for(force))
            for level, force in lift.told
        ],
    )
