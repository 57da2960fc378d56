"""A measured pour as a drawing and as a table."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import numpy as np

from pourwright.app.measuring.measured import Measured, one_measured
from pourwright.app.measuring.places import AIR
from pourwright.app.measuring.predicted import Floats
from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import plan_mark
from pourwright.sheets.axes import hours_between
from pourwright.sheets.measured_heat_drawing import Curve, MeasuredHeat, draw_measured_heat
from pourwright.sheets.tables import Cell, rows_text
from pourwright.sheets.wording import Wording

MOST_DRAWN, MOST_ROWS = 1000, 2000
"""Readings that a drawing and a table show at most."""
BEFORE = 2.0
"""What was read so long before the pour went in is shown too [h]."""


def thinned(hours: Floats, degC: Floats, most: int) -> tuple[Floats, Floats]:
    """Leave out readings that nobody sees: of each stretch stay the coolest and the hottest, and both ends.

    Parameters
    ----------
    hours, degC : array (n,)
        Readings.
    most : int
        So many at the most.

    Returns
    -------
    tuple of array
        In the order of time.

    Examples
    --------
    >>> times, values = thinned(np.arange(9.0), np.array([1.0, 1, 1, 7, 1, 1, 0, 1, 1]), 6)
    >>> times.tolist(), values.tolist()
    ([0.0, 3.0, 4.0, 6.0, 8.0], [1.0, 7.0, 1.0, 0.0, 1.0])
    """
    if hours.size <= most:
        return hours, degC
    edges = np.linspace(0, hours.size, max((most - 2) // 2, 1) + 1).astype(int)
    stays = {0, hours.size - 1}
    for first, end in pairwise(edges):
        stays |= {first + int(degC[first:end].argmin()), first + int(degC[first:end].argmax())}
    chosen = np.array(sorted(stays))
    return hours[chosen], degC[chosen]


def measured_svg(folder: Path, number: int) -> str:
    """Draw one series of a job over what its plan said.

    Parameters
    ----------
    folder : Path
        Of the job.
    number : int
        Of the series.

    Returns
    -------
    str
        SVG document.

    Raises
    ------
    NotThereError
        Where the job has no such series.
    """
    one = one_measured(folder, number)
    words = Wording(one.watched.plan.job)
    return draw_measured_heat(_drawn(one), words)


def _drawn(one: Measured) -> MeasuredHeat:
    watched, plan = one.watched, one.plan
    own = (one.hours >= -BEFORE) & (one.hours <= watched.until)
    times, degrees = thinned(one.hours[own], one.degC[own], MOST_DRAWN)
    casting = plan.place.told != AIR
    return MeasuredHeat(
        title=f"{watched.plan.job.title}, pour {watched.pour.number}: {one.series.name}",
        told=one.words[0],
        measured=_curve(times, degrees),
        planned=_curve(plan.hours, plan.degC),
        place=plan.place.words,
        coolest=_of_casting(watched.plan, one, "coolest_degC") if casting else (),
        hottest=_of_casting(watched.plan, one, "hottest_degC") if casting else (),
        peak=(plan.peak[0], *plan.band) if plan.band else None,
        limit=watched.planned.peak_limit_degC if casting else None,
    )


def _curve(hours: Floats, degC: Floats) -> Curve:
    return list(zip(hours.tolist(), degC.tolist(), strict=True))


def _of_casting(plan: PlanDocument, one: Measured, name: str) -> Curve:
    """One end of the casting by the plan, for as long as the planned curve lasts."""
    history, start = (
        one.watched.planned.history,
        hours_between(plan.pours[0].start, one.watched.planned.start),
    )
    hours = np.array(history.time_h) - start
    inside = (hours >= 0.0) & (hours <= one.plan.hours[-1] + 1e-6)
    return _curve(hours[inside], np.array(getattr(history, name))[inside])


def measured_csv(folder: Path, number: int) -> str:
    """Write one series of a job beside what its plan said, as CSV (RFC 4180).

    Parameters
    ----------
    folder : Path
        Of the job.
    number : int
        Of the series.

    Returns
    -------
    str
        At most 2,000 rows, the coolest and the hottest of each stretch among them; the book holds the others.

    Raises
    ------
    NotThereError
        Where the job has no such series.
    """
    one = one_measured(folder, number)
    words = Wording(one.watched.plan.job)
    sign, begun = words.degree_sign, one.watched.begun.isoformat()
    times, degrees = thinned(one.hours, one.degC, MOST_ROWS)
    planned = np.interp(times, one.plan.hours, one.plan.degC, left=np.nan, right=np.nan)
    document = one.watched.plan
    source = f"pourwright {document.version}, plan {plan_mark(document)}, series {number}"
    rows: list[Sequence[Cell]] = [
        ["after the pour went in [h]", "shop's clock", f"measured [{sign}]", f"planned [{sign}]", "source"]
    ]
    for hour, read, expected in zip(times.tolist(), degrees.tolist(), planned.tolist(), strict=True):
        clock = words.local(words.after(begun, hour)).isoformat(timespec="seconds")
        cell = None if np.isnan(expected) else f"{words.degrees(expected):.2f}"
        rows.append([f"{hour:.4f}", clock, f"{words.degrees(read):.2f}", cell, source])
    return rows_text(rows)
