"""Run the heat of a job as its pinned values say, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from pourwright import __version__
from pourwright.app.cold import cold_words
from pourwright.app.document import job_info
from pourwright.app.document.moments import iso
from pourwright.app.heat_credits import heat_sources
from pourwright.app.pinning import Pinned, pin_down
from pourwright.app.setup import Setup, set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import begin
from pourwright.app.unplanned_ways import refuse_unplanned_way
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_length,
    format_temperature,
)
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import heat, load_job
from pourwright.jobs.job import Job
from pourwright.pour.layout import Layout, lay_out
from pourwright.pour.pinned_run import Hottest, PinnedPour, PinnedRun, Why, run_pinned
from pourwright.pour.probes import Place, Probe
from pourwright.pour.traces import Trace
from pourwright.solver import Control

HOUR = 3600.0
MAX_STEP = 1800.0


def heat_job(
    path: Path,
    *,
    variant: str | None = None,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> heat.HeatDocument:
    """Run heat and cure of a job with the values that are pinned in it.

    Parameters
    ----------
    path : Path
        Job file, with or without [pin].
    variant : str, optional
        Which variant; needed where there are several.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out. Matters for a job without a start only.

    Returns
    -------
    HeatDocument
        Histories at the probes and of the hottest place.

    Raises
    ------
    UserError
        For a job that cannot be run, with the line.
    """
    job = _one_of(load_job(path), variant)
    progress.step("reading the shape", 0, 1)
    refuse_unplanned_way(job)
    setup = set_up(job, read_piece(job))
    zero = begin(setup, None, now or datetime.now(UTC)).first
    pinned = pin_down(setup, zero)
    progress.step("laying out the grid", 0, 1)
    layout = lay_out(pinned.site, pinned.spacing, [pour.level for pour in pinned.pours], across=pinned.across)
    _refuse_empty(job, layout, pinned.pours[0].level)
    seen = run_pinned(
        layout,
        pinned.pours,
        pinned.probes,
        until=pinned.until,
        stops=pinned.stops,
        control=Control(tolerance=pinned.tolerance, max_step=MAX_STEP),
        progress=progress,
    )
    return _document(setup, pinned, layout, seen)


def _one_of(job: Job, variant: str | None) -> Job:
    known = {one.variant_name: one for one in job.variants()}
    if variant is None and len(known) == 1:
        return next(iter(known.values()))
    if variant not in known:
        what = "there are several variants" if variant is None else f"no variant called '{variant}'"
        raise UserError(
            what, where=job.where("variant"), allowed=", ".join(known), todo="name one with --variant"
        )
    return known[variant]


def _refuse_empty(job: Job, layout: Layout, first: float) -> None:
    """A body, or the first pour of it, that is too thin for any cell to count as casting."""
    if not layout.inside[:, :, layout.grid.centers[2] < first].any():
        raise UserError(
            "no cell of the grid lies in the first pour by half",
            where=job.where(("pin", "grid", "spacing")),
            todo="take smaller cells, or pour deeper",
        )


def _document(setup: Setup, pinned: Pinned, layout: Layout, seen: PinnedRun) -> heat.HeatDocument:
    climate, job = pinned.site.climate, setup.job
    dx, dy, dz = (float(step.max()) for step in layout.grid.spacings)
    pin = job.pin
    return heat.HeatDocument(
        version=__version__,
        seed=job.seed,
        start=iso(climate.moment(0.0)),
        inputs=dict(setup.piece.inputs),
        job=job_info(job),
        pinned=[] if pin is None else [name for name, value in pin if value],
        grid=heat.HeatGrid(
            spacing_m=round(dz, 9),
            across_m=round(max(dx, dy), 9),
            cells=layout.grid.shape,
            active_cells=seen.active,
            steps=seen.steps,
            tolerance_K=pinned.tolerance,
        ),
        pours=[
            _pour(number, pour, hottest, pinned)
            for number, (pour, hottest) in enumerate(zip(pinned.pours, seen.hottest_by_pour, strict=False), 1)
        ],
        probes=[_probe(probe, trace) for probe, trace in zip(pinned.probes, seen.probes, strict=True)],
        hottest=_hottest_history(seen),
        ending=_ending(setup, seen),
        energy_error=seen.energy_error,
        notes=[*pinned.notes, *_cold(pinned, setup)],
        sources=heat_sources(setup, pinned.site),
    )


def _cold(pinned: Pinned, setup: Setup) -> Iterator[str]:
    if not pinned.stops:
        yield from cold_words(min(pinned.site.climate.hourly), setup.system)


def _degrees(kelvin: float) -> float:
    return round(kelvin - ZERO_CELSIUS, 4)


def _hours(seconds: float) -> float:
    return round(seconds / HOUR, 6)


def _place(place: Place) -> dict[str, float]:
    return {f"{axis}_m": round(value, 9) + 0.0 for axis, value in zip("xyz", place, strict=True)}


def _top(found: Hottest) -> heat.HottestPlace:
    return heat.HottestPlace(
        temperature_degC=_degrees(found.temperature), time_h=_hours(found.time), **_place(found.place)
    )


def _pour(number: int, pour: PinnedPour, hottest: Hottest, pinned: Pinned) -> heat.HeatPour:
    warmth = pinned.site.poured_at(pour.start) if pour.temperature is None else pour.temperature
    return heat.HeatPour(
        number=number,
        to_m=round(pour.level, 9),
        at_h=_hours(pour.start),
        temperature_degC=_degrees(warmth),
        hottest=_top(hottest),
    )


def _probe(probe: Probe, trace: Trace) -> heat.ProbeHistory:
    top, when = trace.peak if trace.time else (None, None)
    return heat.ProbeHistory(
        name=probe.name,
        **_place(probe.place),
        time_h=[_hours(time) for time in trace.time],
        temperature_degC=[_degrees(value) for value in trace.temperature],
        conversion=[round(value, 6) for value in trace.conversion],
        peak_temperature_degC=None if top is None else _degrees(top),
        peak_time_h=None if when is None else _hours(when),
    )


def _hottest_history(seen: PinnedRun) -> heat.HottestHistory:
    trace = seen.hottest_trace
    return heat.HottestHistory(
        **_top(seen.hottest).model_dump(),
        history_time_h=[_hours(time) for time in trace.time],
        history_temperature_degC=[_degrees(value) for value in trace.temperature],
        history_conversion=[round(min(max(value, 0.0), 1.0), 6) for value in trace.conversion],
    )


_WORDS: dict[Why, str] = {
    Why.UNTIL: "until",
    Why.COOLED: "cooled",
    Why.AT_REST: "at rest",
    Why.STALLED: "three weeks",
    Why.RUNAWAY: "runaway",
}


def _ending(setup: Setup, seen: PinnedRun) -> heat.Ending:
    return heat.Ending.model_validate(
        {
            "why": _WORDS[seen.why],
            "time_h": _hours(seen.end),
            "least_cured": round(seen.least_cured, 6),
            "text": _sentence(setup, seen),
        }
    )


def _sentence(setup: Setup, seen: PinnedRun) -> str:
    after, system = format_duration(seen.end), setup.system
    if seen.why is not Why.RUNAWAY:
        return f"{seen.why}, {after} after the start"
    x, y, z = (format_length(value, system, digits=1) for value in seen.hottest.place)
    reached = format_temperature(seen.hottest.temperature, system)
    return f"it runs away: stopped at {reached} after {after}, at x {x}, y {y}, z {z}"
