"""One band of glass with all that both ways of filling it need."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.setup import Setup
from pourwright.fill import FillBand
from pourwright.fill.ways.defaults import WAYS
from pourwright.fill.ways.dry_air import DryBed
from pourwright.fill.ways.stirred import Mix, glass_that_goes_in
from pourwright.materials.batches import MIXING_TIME
from pourwright.physics.permeability import mean_grain
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.pour.soaking import AIR, Front


@dataclass(frozen=True)
class Filled:
    """One band with all that both ways need.

    Parameters
    ----------
    setup : Setup
        The job.
    band : FillBand
        With glass.
    down : Front
        Through it, dry.
    bubbles : float
        Smallest loose bubble that comes up in resin alone [m].
    """

    setup: Setup
    band: FillBand
    down: Front
    bubbles: float

    @property
    def depth(self) -> float:
        """Of the band [m]."""
        return self.band.upper - self.band.lower

    @property
    def grain(self) -> float:
        """Mean size of its grains by surface [m]."""
        grade = self.setup.fill.choices.glass.grade(self.band.grade or "")
        return mean_grain(grade.sieve_from.value, grade.sieve_to.value)

    @property
    def largest(self) -> float:
        """Largest grain [m]."""
        return self.setup.fill.choices.glass.grade(self.band.grade or "").sieve_to.value

    @property
    def resin(self) -> float:
        """Density of the resin [kg/m3]."""
        return self.setup.resin.density.value

    @property
    def bed(self) -> DryBed:
        """The band as a dry bed."""
        return DryBed(
            self.depth,
            self.band.void_fraction,
            POUR["sphericity"].value * self.grain,
            self.down.layers[0].permeability,
            self.resin - AIR,
            POUR["surface_tension"].value,
        )

    @property
    def mix(self) -> Mix:
        """The band as a mix, with as much glass as goes in."""
        flows, packed = self.down.flows, 1.0 - self.band.void_fraction
        ready = MIXING_TIME.value + WAYS["stirring_time"].value
        share = glass_that_goes_in(flows.viscosity_at(ready), packed)
        glass = self.setup.fill.choices.glass.density.value
        return Mix(self.depth, packed, share, self.grain, self.resin, glass, AIR, flows.until_gel)
