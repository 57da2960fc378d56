"""The heat of a plan on a section through the casting, through time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.ndimage import distance_transform_edt

from pourwright.app.viewing.asked import Asked, asked
from pourwright.app.viewing.kept import kept_or_made
from pourwright.app.viewing.packed import packed
from pourwright.app.viewing.words import where
from pourwright.app.working.standing import plan_of
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import SnapshotFile, load_plan
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.jobs.snapshots import AXES, Axis
from pourwright.runs import fingerprint
from pourwright.sheets.ramps import HARD, WARM
from pourwright.sheets.wording import Wording

MOMENTS = 120
"""Moments of a section that go to the page at most, and a few more where pours go in."""
CURE_STEPS = 250
"""Whole numbers from 0 to this stand for the cure from 0 to 1."""
STEPS, TICKS = 32, 5
"""Colours of a scale, and marks beside it."""
Place = tuple[float, float, float]
Whole = npt.NDArray[np.integer[Any]]


def heat_of(path: Path, variant: str | None = None) -> dict[str, Any]:
    """Say what there is of a job's heat: its box, moments, scales, limits and hottest place.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    dict
        Moments in h after the first pour's start, each with its text; temperatures in degC, places in m.

    Raises
    ------
    UserError
        Where there is no plan with its heat yet.
    """
    job = asked(path, variant)
    plan = _plan(job)
    words = job.words
    with SnapshotFile(job.heat_file) as file:
        moments = _moments(file)
        hours = [float(file.time_h[moment]) for moment in moments]
        pours = [int(file.pours_in[moment]) for moment in moments]
        edges = {axis: file.edges_m[axis].tolist() for axis in AXES}
        levels = file.pour_level_m.tolist()
    peak = max(plan.pours, key=lambda pour: pour.peak_temperature_degC)
    return {
        "hours": hours,
        "pours_in": pours,
        "moments": [_moment(plan, words, hour, count) for hour, count in zip(hours, pours, strict=True)],
        "edges_m": edges,
        "levels_m": levels,
        "temperature": _temperature_scale(plan, words, peak),
        "cured": _cure_scale(plan, words),
        "hottest": _hottest(job, plan, peak),
        "old": plan_of(path, variant)["old"],
    }


def heat_key(path: Path, variant: str | None = None) -> str:
    """Name the heat of a plan.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    str
        64 hexadecimal digits; others as soon as the plan is another.
    """
    return _key(asked(path, variant))


def planes_of(path: Path, axis: str, at_m: float, variant: str | None = None) -> bytes:
    """Cut temperature and cure by one plane, at every moment of `heat_of`.

    Parameters
    ----------
    path : Path
        Job file.
    axis : str
        The plane's normal: x, y or z.
    at_m : float
        Where it lies along that [m].
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    bytes
        Arrays, `packed`: ``temperature`` (moments, n, m) in half precision [degC],
        ``cured`` (moments, n, m) in steps of 1/250, over the two other axes in the order x, y, z; ``filled``
        (n, m) is the pour that fills a cell, 0 for none. Where nothing is poured stands the value of the
        nearest place where something is.

    Raises
    ------
    UserError
        For another axis, a place outside the casting, or no plan with its heat yet.
    """
    along = _axis(axis)
    job = asked(path, variant)
    _plan(job)
    with SnapshotFile(job.heat_file) as file:
        cell = file.cell(along, at_m)
    key = fingerprint(("planes", _key(job), axis, cell))

    def make() -> bytes:
        with SnapshotFile(job.heat_file) as file:
            return _planes(file, along, at_m)

    return kept_or_made(key, make)


def heat_at(path: Path, place_m: Place, hours: float, variant: str | None = None) -> dict[str, Any]:
    """Say how warm and how hard it is at a place.

    Parameters
    ----------
    path : Path
        Job file.
    place_m : tuple of float
        x, y, z in the pour frame [m].
    hours : float
        After the start of the first pour [h].
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    dict
        Temperature [degC] and cure [-], null where nothing is poured, and the sentence about them.

    Raises
    ------
    UserError
        For a place outside the casting's box, or no plan with its heat yet.
    """
    job = asked(path, variant)
    plan = _plan(job)
    with SnapshotFile(job.heat_file) as file:
        moment = file.moment(hours)
        warm, hard = (
            float(file.history(place_m, quantity)[moment]) for quantity in ("temperature_degC", "cured")
        )
        told = _moment(plan, job.words, float(file.time_h[moment]), int(file.pours_in[moment]))
    there = where(job, place_m)
    if not np.isfinite(warm):
        text = f"Nothing is poured {told} at {there}."
        return {"temperature_degC": None, "cured": None, "text": text}
    value = f"{job.words.temperature(warm)}, {job.words.share(hard)} cured"
    return {"temperature_degC": warm, "cured": hard, "text": f"{value}, {told}, at {there}."}


def _plan(job: Asked) -> PlanDocument:
    if not (job.plan_file.is_file() and job.heat_file.is_file()):
        raise NotThereError(
            "there is no heat to show yet", where=str(job.plan_folder.name), todo="make the plan first"
        )
    return load_plan(job.plan_file)


def _key(job: Asked) -> str:
    made = job.plan_file.read_bytes() if job.plan_file.is_file() else b""
    about = job.heat_file.stat() if job.heat_file.is_file() else None
    stamp = (about.st_size, about.st_mtime_ns) if about else ()
    return fingerprint(("heat", made, stamp, job.words.system.value))


def _axis(name: str) -> Axis:
    if name not in AXES:
        raise UserError(f"no axis '{name}'", allowed=", ".join(AXES), todo="name one of these")
    return name


def _moments(file: SnapshotFile) -> list[int]:
    """Numbers of the moments that are shown: evenly over the kept ones, with both sides of every pour."""
    count = file.time_h.size
    even = np.linspace(0, count - 1, min(MOMENTS, count)).round().astype(int)
    new = np.flatnonzero(np.diff(file.pours_in))
    return sorted({*even.tolist(), *new.tolist(), *(new + 1).tolist()})


def _moment(plan: PlanDocument, words: Wording, hour: float, pours: int) -> str:
    when = words.moment(words.after(plan.pours[0].start, hour))
    since = words.duration(hour) if hour > 0 else "at the start"
    later = f"{since} after the first pour's start" if hour > 0 else "at the first pour's start"
    return f"{later} ({when}, pour {pours} in the mold)"


def _planes(file: SnapshotFile, axis: Axis, at_m: float) -> bytes:
    moments = _moments(file)
    warm = file.film(axis, at_m)[moments]
    hard = file.film(axis, at_m, "cured")[moments]
    pours = file.pours_in[moments]
    filled = _filled(warm, pours)
    for count in np.unique(pours):
        rows = pours == count
        wet = (filled > 0) & (filled <= count)
        if wet.any():
            nearest = distance_transform_edt(~wet, return_distances=False, return_indices=True)
            warm[rows], hard[rows] = (field[rows][:, nearest[0], nearest[1]] for field in (warm, hard))
    cured = np.rint(np.nan_to_num(hard) * CURE_STEPS).clip(0, CURE_STEPS).astype(np.uint8)
    return packed(
        {"axis": axis, "at_m": at_m, "cure_steps": CURE_STEPS},
        {"temperature": np.nan_to_num(warm).astype(np.float16), "cured": cured, "filled": filled},
    )


def _filled(film: npt.NDArray[np.floating[Any]], pours: Whole) -> npt.NDArray[np.uint8]:
    """The pour that fills each cell, 0 for none."""
    filled = np.zeros(film.shape[1:], dtype=np.uint8)
    for count in sorted({int(each) for each in pours}, reverse=True):
        filled[np.isfinite(film[pours == count][0])] = count
    return filled


def _temperature_scale(plan: PlanDocument, words: Wording, peak: Pour) -> dict[str, Any]:
    coolest = min(min(pour.history.coolest_degC) for pour in plan.pours)
    low, high = float(np.floor(coolest)), float(np.ceil(peak.peak_temperature_degC))
    limit = min(pour.peak_limit_degC for pour in plan.pours)
    return {
        "words": "temperature",
        "low_degC": low,
        "high_degC": high,
        "colours": WARM.colours(STEPS),
        "ticks": list(_ticks(low, high, [words.temperature(value) for value in _even(low, high)])),
        "limit_degC": limit,
        "limit": f"limit {words.temperature(limit)}",
    }


def _cure_scale(plan: PlanDocument, words: Wording) -> dict[str, Any]:
    texts = [words.share(value) for value in _even(0.0, 1.0)]
    return {
        "words": "% cured",
        "low": 0.0,
        "high": 1.0,
        "colours": HARD.colours(STEPS),
        "ticks": list(_ticks(0.0, 1.0, texts)),
        "limit": f"hard enough to demold: {words.share(plan.demold.cured)} cured",
        "limit_cured": plan.demold.cured,
    }


def _even(low: float, high: float) -> list[float]:
    return [float(value) for value in np.linspace(low, high, TICKS)]


def _ticks(low: float, high: float, texts: Sequence[str]) -> Iterator[dict[str, Any]]:
    for value, text in zip(_even(low, high), texts, strict=True):
        yield {"value": value, "text": text}


def _hottest(job: Asked, plan: PlanDocument, peak: Pour) -> dict[str, Any]:
    words = job.words
    start = (words.local(peak.start) - words.local(plan.pours[0].start)).total_seconds() / 3600.0
    hour = start + peak.peak_after_h
    told = _moment(plan, words, hour, peak.number)
    return {
        "temperature_degC": peak.peak_temperature_degC,
        "time_h": hour,
        "place_m": list(peak.peak_place_m),
        "text": f"Hottest: {words.temperature(peak.peak_temperature_degC)}, {told}, at "
        f"{where(job, peak.peak_place_m)}.",
    }
