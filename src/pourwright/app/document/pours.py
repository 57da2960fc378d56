"""Pours, demold and the heat run as parts of the plan document."""

from __future__ import annotations

from math import isfinite

import numpy as np

from pourwright.app.document.cuts import heat_sections
from pourwright.app.document.kept import ready_after
from pourwright.app.document.moments import iso
from pourwright.app.document.pails import pail_at, standing_part
from pourwright.app.document.parts import batches
from pourwright.app.document.soaking import soaked
from pourwright.app.setup import Setup
from pourwright.fill import FillBand
from pourwright.foundation.notation import ZERO_CELSIUS, format_temperature_difference
from pourwright.jobs import plan
from pourwright.planner.decide import Decision
from pourwright.pour.climate import Climate
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.pour.rehearse import PourSeen
from pourwright.pour.site import Site

HOUR = 3600.0
AIR_BEFORE = 2 * HOUR
RULE = (
    "every place is hard {margin} above the shop's warmest hour or an ordinary "
    "room, and above its own temperature, and the core is within {within} of the shop"
)


def pour_parts(
    setup: Setup, decision: Decision, site: Site, limit: float, laid: float = 0.0
) -> list[plan.Pour]:
    """Write the pours.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    decision : Decision
        The plan as run on the final grid.
    site : Site
        The casting; its climate turns seconds into moments.
    limit : float
        Hottest the casting may get [K].
    laid : float
        Up to here glass lies in the mold already [m].

    Returns
    -------
    list of plan.Pour
        In order.
    """
    seen = decision.final.pours
    return [
        _pour(
            setup,
            site,
            number,
            pour,
            seen[0].start,
            last=number == len(seen),
            limit=limit,
            error=error,
            tops_sanded=decision.choice.trial.tops_sanded,
            laid=laid,
        )
        for number, (pour, error) in enumerate(zip(seen, decision.grid_errors, strict=True), 1)
    ]


def _pour(
    setup: Setup,
    site: Site,
    number: int,
    pour: PourSeen,
    first: float,
    *,
    last: bool,
    limit: float,
    error: float,
    tops_sanded: tuple[int, ...],
    laid: float,
) -> plan.Pour:
    made = setup.batches(setup.fill.resin_between(pour.lower, pour.upper).total)
    climate = site.climate
    pail = pail_at(setup, pour, climate)
    standing = setup.piece.frame.as_standing
    return plan.Pour(
        number=number,
        from_m=pour.lower,
        to_m=pour.upper,
        from_standing_m=standing(pour.lower),
        to_standing_m=standing(pour.upper),
        dip_to_m=setup.mold.rim - pour.upper,
        start=iso(climate.moment(pour.start)),
        volume_m3=float(setup.fill.levels.volume(pour.upper) - setup.fill.levels.volume(pour.lower)),
        resin_kg=sum(batch.mass for batch in made),
        part_a_kg=sum(batch.part_a for batch in made),
        part_b_kg=sum(batch.part_b for batch in made),
        bands=[band.name for band in setup.fill.bands if band.upper > pour.lower and band.lower < pour.upper],
        batches=batches(made, _levels(setup, pour, len(made))),
        glass=_portions(setup, pour, laid),
        start_temperature_degC=pour.poured_at - ZERO_CELSIUS,
        work_within_h=pail.work_within / HOUR,
        standing=standing_part(pail),
        **soaked(site, pour)._asdict(),
        peak_temperature_degC=pour.peak - ZERO_CELSIUS,
        peak_after_h=(pour.peak_time - pour.start) / HOUR,
        peak_place_m=pour.peak_place,
        peak_limit_degC=limit - ZERO_CELSIUS,
        peak_grid_error_K=error,
        face_peak_degC=pour.face_peak - ZERO_CELSIUS,
        box_peak_degC=pour.box_peak - ZERO_CELSIUS,
        gel_after_h=(pour.gel_last - pour.start) / HOUR,
        gel_first_h=(pour.gel_first - pour.start) / HOUR,
        bonds_from_h=(pour.bonds_from - pour.start) / HOUR,
        bonds_until_h=(pour.bonds_until - pour.start) / HOUR,
        sand_first=number - 2 in tops_sanded,
        next_from=None if last else iso(climate.moment(pour.bonds_from)),
        next_until=None if last else iso(climate.moment(pour.bonds_until)),
        least_cured=pour.least_cured,
        least_cured_place_m=pour.least_cured_place,
        history=_history(pour, first),
    )


def _levels(setup: Setup, pour: PourSeen, count: int) -> list[float]:
    """Level after each of equal batches, from the liquid that fits below it."""
    below, poured = (
        setup.fill.liquid_below(pour.lower),
        setup.fill.resin_between(pour.lower, pour.upper).poured,
    )
    each = poured / setup.resin.density.value / count
    shares = [below + each * number for number in range(1, count)]
    return [*map(setup.fill.level_of_liquid, shares), pour.upper]


def _portions(setup: Setup, pour: PourSeen, laid: float) -> list[plan.GlassPortion]:
    volume = setup.fill.levels.volume
    portions = []
    for band in setup.fill.bands:
        lower, upper = max(band.lower, pour.lower, laid), min(band.upper, pour.upper)
        if band.grade is not None and upper > lower:
            share = float(volume(upper) - volume(lower)) / band.volume
            portions += [
                plan.GlassPortion(
                    band=band.name,
                    grade=band.grade,
                    colour=f"{colour or 'any'}{_place(number, band)}",
                    mass_kg=mass * share,
                )
                for number, (colour, mass) in enumerate(band.colours)
            ]
    return portions


def _place(number: int, band: FillBand) -> str:
    """Whether a colour of a band is its shell or its core, where it has both."""
    if band.shell is None:
        return ""
    return " (core)" if number else " (shell along the wall)"


def _history(pour: PourSeen, first: float) -> plan.History:
    seen = pour.history
    return plan.History(
        time_h=[round((time - first) / HOUR, 4) for time in seen.time],
        hottest_degC=[round(value - ZERO_CELSIUS, 3) for value in seen.hottest],
        coolest_degC=[round(value - ZERO_CELSIUS, 3) for value in seen.coolest],
        least_cured=[round(value, 5) for value in seen.least_cured],
    )


def demold_part(setup: Setup, decision: Decision, opening: str | None) -> plan.Demold:
    """Write when the piece may leave the mold; ``opening`` is when somebody is there for it."""
    final, last = decision.final, decision.final.pours[-1]
    margin = setup.resin.demold_margin.value
    bands = ready_after(decision, decision.request.probability, 0.1, 0.9)
    kept, low, high = (None, None, None) if bands is None else (value / HOUR for value in bands)
    after = (final.ready - last.start) / HOUR if isfinite(final.ready) else None
    return plan.Demold(
        after_h=after,
        kept_after_h=None if kept is None or after is None else max(kept, after),
        after_h_p10=low,
        after_h_p90=high,
        at=opening,
        cured=final.ready_cure,
        glass_transition_degC=final.ready_glass_transition - ZERO_CELSIUS,
        place_m=final.ready_place,
        rule=RULE.format(
            margin=format_temperature_difference(margin, setup.system),
            within=format_temperature_difference(POUR["open_within"].value, setup.system),
        ),
    )


def heat_part(setup: Setup, decision: Decision, climate: Climate) -> plan.Heat:
    """Write how the heat run was made."""
    final = decision.final
    first, end = final.pours[0].start, final.pours[-1].history.time[-1]
    times = [float(time) for time in np.arange(first - AIR_BEFORE, end + HOUR, HOUR)]
    return plan.Heat(
        spacing_m=round(final.spacing, 6),
        coarse_spacing_m=round(decision.coarser.spacing, 6),
        cells=final.cells,
        steps=final.steps,
        grid_error_K=max(decision.grid_errors),
        time_grid_error=decision.time_error,
        energy_error=final.energy_error,
        rubber_limit_degC=setup.mold.choices.rubber.peak_limit.value - ZERO_CELSIUS,
        air_time_h=[round((time - first) / HOUR, 4) for time in times],
        air_degC=[round(climate.temperature(time) - ZERO_CELSIUS, 3) for time in times],
        sections=[] if final.recording is None else heat_sections(setup, final.recording),
    )
