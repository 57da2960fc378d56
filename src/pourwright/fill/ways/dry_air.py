"""Air that stays when resin fills a dry bed of glass."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.residual_gas import BEHIND, bond_number, held_by_grains


@dataclass(frozen=True)
class DryBed:
    """A band of dry glass with the resin that fills it.

    Parameters
    ----------
    depth : float
        Of the glass [m].
    voids : float
        Volume between the grains over that of the bed [-].
    grain : float
        Diameter of balls with as much surface as its grains [m].
    permeability : float
        [m2].
    density : float
        Resin over air [kg/m3].
    surface_tension : float
        Of the resin [N/m].
    """

    depth: float
    voids: float
    grain: float
    permeability: float
    density: float
    surface_tension: float

    @property
    def bond(self) -> float:
        """Weight against surface tension [-]."""
        return bond_number(self.density, self.grain, self.surface_tension)

    def rises(self, fluidity: float) -> float:
        """How far loose air comes up between the grains while the resin still flows.

        Parameters
        ----------
        fluidity : float
            Integral of one over the viscosity over that time [1/Pa].

        Returns
        -------
        float
            [m]; by Darcy's law, as fast as resin would run down.
        """
        return self.permeability * self.density * STANDARD_GRAVITY * fluidity / self.voids


@dataclass(frozen=True)
class AirLeft:
    """Air in a band, as shares of its volume [-].

    Parameters
    ----------
    dry : float
        Where the resin never comes to.
    held : float
        Held between the grains by surface tension.
    late : float
        On its way up when the resin gels.
    """

    dry: float
    held: float
    late: float

    @property
    def total(self) -> float:
        """All of it [-]."""
        return self.dry + self.held + self.late


def air_in_dry_bed(bed: DryBed, reached: float, left: float) -> AirLeft:
    """Reckon the air that stays in a bed.

    Parameters
    ----------
    bed : DryBed
        The band.
    reached : float
        Depth that the front reaches before the resin is too thick [m].
    left : float
        How much the resin still flows once the front is down, until it gels [1/Pa].

    Returns
    -------
    AirLeft

    Notes
    -----
    The front leaves 14.3 % of the voids behind, as slow fronts do; of these the grains hold the share by
    `pourwright.physics.residual_gas`, the rest comes up unless the resin gels before. Resin that sinks in
    evenly or rises from below: a flood over the whole top shuts in more. Air of the resin's own stirring
    is not counted, here or in a stirred mix.
    """
    soaked = min(reached / bed.depth, 1.0)
    held = held_by_grains(bed.bond)
    late = max(1.0 - bed.rises(left) / bed.depth, 0.0)
    filled = bed.voids * soaked
    return AirLeft(bed.voids * (1.0 - soaked), filled * held, filled * (BEHIND - held) * late)
