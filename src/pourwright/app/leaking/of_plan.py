"""What the plan on disk knows of one pour, as the reckoning of a leak needs it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from pourwright.app.booking.batches import AS_PLANNED_DOUBT, weighing
from pourwright.app.booking.went_in import Masses, mass_in_mold, pail_loss
from pourwright.app.leaking.readings import Readings, Seen
from pourwright.fill import DEFAULTS as FILL
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.jobs.plan import Band, PlanDocument, Pour
from pourwright.materials import Resin
from pourwright.pour.leaked.column import Bed, Column, column
from pourwright.pour.leaked.defaults import BAND, LEAKED, spread
from pourwright.pour.leaked.evidence import Case, Level
from pourwright.pour.leaked.law import Thickens
from pourwright.pour.leaked.weighed import Weighed
from pourwright.pour.thickening import thickening

GLASS_EDGE = 0.004
"""Standard deviation of the top of a bed of glass [m]."""


@dataclass(frozen=True)
class Leaking:
    """One pour of a plan, its case and its clock.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    pour : Pour
        Of the plan.
    begun : datetime
        When it went in.
    case : Case
        With all evidence.
    thickens : Thickens
        Its resin.
    earlier : mapping
        When other pours went in, by their numbers, where that was logged.
    """

    plan: PlanDocument
    pour: Pour
    begun: datetime
    case: Case
    thickens: Thickens
    earlier: Mapping[int, datetime]

    def went_in(self, pour: Pour) -> datetime:
        """When a pour of the plan went in: as logged, else as planned."""
        return self.earlier.get(pour.number, datetime.fromisoformat(pour.start))

    def after(self, moment: datetime) -> float:
        """Seconds from the start of the pour to a moment."""
        return (moment - self.begun).total_seconds()

    def moment(self, seconds: float) -> datetime:
        """Moment so many seconds after the start of the pour."""
        return self.begun + timedelta(seconds=seconds)


def chosen_pour(plan: PlanDocument, number: int | None, now: datetime) -> Pour:
    """The pour that is meant: by its number, else the last that should have begun by now."""
    if number is None:
        begun = [pour for pour in plan.pours if datetime.fromisoformat(pour.start) <= now]
        return begun[-1] if begun else plan.pours[0]
    for pour in plan.pours:
        if pour.number == number:
            return pour
    raise UserError(
        f"no pour {number}", where="pour", allowed=f"1 to {len(plan.pours)}", todo="name one of the plan's"
    )


def begun_at(pour: Pour, readings: Readings) -> datetime:
    """When the pour went in."""
    return readings.begun or datetime.fromisoformat(pour.start)


def leaking(plan: PlanDocument, pour: Pour, resin: Resin, readings: Readings) -> Leaking:
    """Put the case together."""
    begun = begun_at(pour, readings)
    thick = thickens(pour, resin, readings, begun)
    density = resin.density.value
    film = plan.fill.resin.film_kg * pour.resin_kg / sum(each.resin_kg for each in plan.pours)
    case = Case(
        column=column_of(plan, pour),
        density=density,
        poured=poured(plan, pour, readings),
        caught=None if readings.caught is None else Weighed(readings.caught, weighing(readings.caught)),
        film=Weighed(film, film * _relative("film")),
        shrunk=_shrunk(resin, thick),
        shrunk_doubt=_shrinkage_doubt(resin),
    )
    levels = sorted((_level(plan, pour, begun, seen) for seen in readings.seen), key=lambda each: each.time)
    return Leaking(plan, pour, begun, replace(case, levels=tuple(levels)), thick, dict(readings.earlier))


def poured(plan: PlanDocument, pour: Pour, readings: Readings) -> Weighed:
    """All that went in: as weighed, else as planned with more doubt."""
    known = mass_in_mold(plan, Masses(readings.poured, readings.mixed, readings.planned))
    planned = planned_mass(plan, pour)
    return known or Weighed(planned, AS_PLANNED_DOUBT * planned)


def planned_mass(plan: PlanDocument, pour: Pour) -> float:
    """What goes into the mold by the plan, the pail's own loss taken off [kg]."""
    return sum(batch.mass_kg for batch in pour.batches) * (1.0 - pail_loss(plan).mass)


def allowance(plan: PlanDocument) -> float:
    """Share that the plan mixes more than it needs."""
    ledger = plan.fill.resin
    into = ledger.voids_kg + ledger.neat_kg + ledger.film_kg + ledger.overfill_kg
    return ledger.allowance_kg / into if into else 0.0


def column_of(plan: PlanDocument, pour: Pour) -> Column:
    """Room of the pour, by the plan's dip-stick and bands."""
    rows = sorted(plan.dip_stick, key=lambda row: row.height_m)
    heights, volumes = [row.height_m for row in rows], [max(row.cavity_m3, 0.0) for row in rows]
    if heights[0] > 0.0:
        heights, volumes = [0.0, *heights], [0.0, *volumes]
    beds = [Bed(each.from_m, each.to_m, each.void_fraction, _doubt_of(each)) for each in plan.fill.bands]
    return column(heights, volumes, beds, pour.from_m, heights[-1])


def rim(plan: PlanDocument) -> float:
    """Height of the mold's rim above its floor [m]."""
    row = plan.dip_stick[0]
    return row.height_m + row.dip_m


def glass_below(plan: PlanDocument, level: float) -> Band | None:
    """The uppermost band of glass that lies below a level, wholly or in part."""
    bands = [band for band in plan.fill.bands if band.kind == "glass" and band.from_m < level - 1e-6]
    return bands[-1] if bands else None


def _level(plan: PlanDocument, pour: Pour, begun: datetime, seen: Seen) -> Level:
    after = (seen.at - begun).total_seconds()
    if seen.height is not None:
        return Level(seen.height, after, LEAKED["level_error"].value if seen.doubt is None else seen.doubt)
    band = glass_below(plan, pour.to_m)
    if band is None or band.to_m <= pour.from_m:
        raise UserError(
            f"pour {pour.number} has no glass that hides the level",
            where="no_level",
            allowed="a level or a dip",
            todo="read the level",
        )
    return Level(min(band.to_m, pour.to_m), after, GLASS_EDGE, at_most=True)


def thickens(pour: Pour, resin: Resin, readings: Readings, begun: datetime) -> Thickens:
    """How the resin thickens: at the mean temperature of this pour, stretched to gel when it does."""
    gel = pour.gel_after_h * 3600.0
    if readings.gelled is not None:
        gel = (readings.gelled - begun).total_seconds()
    way = thickening(resin, _mean_temperature(pour) + ZERO_CELSIUS)
    stretch = gel / float(way.times[-1])
    return Thickens(way.times * stretch, way.fluidity * stretch)


def _mean_temperature(pour: Pour) -> float:
    """Of the casting until it gels [degC]."""
    history = pour.history
    times = np.array(history.time_h) - history.time_h[0]
    middle = 0.5 * (np.array(history.hottest_degC) + np.array(history.coolest_degC))
    inside = times <= max(pour.gel_after_h, times[0])
    return (
        float(np.trapezoid(middle[inside], times[inside]) / times[inside][-1]) if inside.sum() > 1 else 20.0
    )


def _shrunk(resin: Resin, thick: Thickens) -> Callable[[float], float]:
    cure = resin.cure
    first, gel = cure.initial_conversion.value, cure.gel_conversion.value
    way = first + (gel - first) * np.linspace(0.0, 1.0, thick.times.size) ** 2

    def shrunk(time: float) -> float:
        return resin.cure_shrinkage.value * float(np.interp(time, thick.times, way) - first)

    return shrunk


def _shrinkage_doubt(resin: Resin) -> float:
    own = resin.cure_shrinkage
    if own.low is None or own.high is None:
        return 0.3
    return (own.high - own.low) / own.value / BAND


def _doubt_of(band: Band) -> float:
    return (band.void_fraction_high - band.void_fraction_low) / BAND


def _relative(name: str) -> float:
    return spread(FILL[name]) / FILL[name].value
